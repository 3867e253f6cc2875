"""Random questions about random small books, with every legal build at hand to judge the answers.

The engines under test never see these lists: legal builds come from the brute engine, and what a
wish says of one from its meaning over parts in places.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from hypothesis import strategies as st
from hypothesis.vendor.pretty import RepresentationPrinter

from baywright.answers.inquiry import Inquiry
from baywright.desk.opening import standard_panel
from baywright.engines.brute import Brute
from baywright.engines.contract import Possible
from baywright.laws.machine import Machine
from baywright.laws.wishes import Wish, wish_of
from baywright.space import Space
from baywright.terms import parse
from tests.laws.plain import Subject
from tests.laws.random_books import Sample, samples
from tests.laws.random_terms import NAMED, Term, atoms, terms

SMALL = 1_500
"""Most combinations of a book that is asked about: all its legal builds are gone through."""


@dataclass(frozen=True)
class Asked:
    """A book and what is asked of it.

    Args:
        sample: the book.
        terms: the wishes.
    """

    sample: Sample
    terms: tuple[Term, ...]

    def _repr_pretty_(self, printer: RepresentationPrinter, _cycle: bool) -> None:
        """Show a counterexample as its book and what was asked of it."""
        printer.text(f"{self.sample}# asked: {[term.text for term in self.terms]}\n")

    @property
    def machine(self) -> Machine:
        return self.sample.machine

    @cached_property
    def wishes(self) -> list[Wish]:
        """The wishes as the answers take them."""
        machine = self.machine
        read = (machine.condition(parse(term.text)) for term in self.terms)
        return [wish_of(machine, term, f"wish:{n}") for n, term in enumerate(read, 1)]

    @cached_property
    def legal(self) -> list[Subject]:
        """Every legal build."""
        return [self.sample.subject(values) for values in self.sample.legal()]

    def fitting(self) -> Iterator[Subject]:
        """Yield the legal builds that have all wishes."""
        return (subject for subject in self.legal if not self.violated(subject))

    def violated(self, subject: Subject) -> frozenset[int]:
        """The wishes, by position, that a build does not have."""
        return frozenset(i for i, term in enumerate(self.terms) if not term.says(subject))

    def subject(self, values: Mapping[str, int]) -> Subject:
        """Return the build of a witness."""
        return self.sample.subject(values)

    def inquiry(self) -> Inquiry:
        """Return a fresh inquiry with the engines that answer."""
        return Inquiry(self.machine, standard_panel())


def can_be_built(sample: Sample) -> bool:
    """Whether a book has a legal build at all; many random ones have none."""
    return isinstance(Brute().prove(sample.machine.space), Possible)


@st.composite
def asked(draw: st.DrawFn, least: int = 1, most: int = 4) -> Asked:
    """A small book and some wishes."""
    buildable = samples(most=SMALL).filter(can_be_built)
    sample = draw(st.one_of(samples(most=SMALL), buildable, buildable, buildable))
    wish = st.one_of(atoms(sample.raw), terms(sample.raw), st.sampled_from(NAMED))
    wishes = draw(st.lists(wish, min_size=least, max_size=most, unique_by=lambda t: t.text))
    return Asked(sample, tuple(wishes))


def impossible(space: Space) -> bool:
    """Whether the brute engine finds nothing in a space; choices without a law are left out."""
    used = {name for law in space.laws for name in law.scope}
    choices = tuple(choice for choice in space.choices if choice.name in used)
    return not isinstance(Brute().prove(Space(choices, space.tables, space.sums)), Possible)
