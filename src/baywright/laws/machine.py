"""The machine: a book compiled for some conditions, ready to be asked."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import partial

from baywright.facts.book import Book
from baywright.facts.fact import mark_of
from baywright.laws.conditions import Conditions
from baywright.laws.expressions import Translator
from baywright.laws.formula import Formula, NotEncodable
from baywright.laws.frame import Frame
from baywright.laws.registry import SUBSYSTEMS
from baywright.laws.subsystem import Function, Named
from baywright.laws.vocabulary import vocabulary
from baywright.laws.wording import capitalised
from baywright.problems import Mark, Problem, Problems, problem
from baywright.space import Law, Origin, Space, Sum, Table
from baywright.terms import Checked, Expression, Vocabulary, check, parse, wording


@dataclass(frozen=True)
class Machine:
    """A book compiled to a space, with what is needed to ask it and to read its answers.

    Args:
        frame: the choices and what their values mean.
        space: what engines see.
        vocabulary: what questions may speak of.
        translator: from expressions to formulas.
    """

    frame: Frame
    space: Space
    vocabulary: Vocabulary
    translator: Translator

    @property
    def book(self) -> Book:
        """The facts it was compiled from."""
        return self.frame.book

    @property
    def conditions(self) -> Conditions:
        """The conditions it was compiled for."""
        return self.frame.conditions

    @property
    def names(self) -> Mapping[str, Named]:
        """The names that stand for values, beside places and settings."""
        return self.translator.names

    @property
    def sizes(self) -> dict[str, int]:
        """Number of values of each choice of the space."""
        return {choice.name: choice.size for choice in self.space.choices}

    def read(self, expression: Expression, mark: Mark | None = None) -> Checked:
        """Check an expression about this machine, of any type; raises ``Problems``."""
        return check(expression, self.vocabulary, mark, wanted=None)

    def condition(self, expression: Expression, mark: Mark | None = None) -> Expression:
        """Check a condition about this machine; raises ``Problems``."""
        return check(expression, self.vocabulary, mark).expression


def compile_book(book: Book, conditions: Conditions) -> Machine:
    """Compile a book for some conditions.

    Raises:
        Problems: for expressions of the book that make no sense, all of them.
    """
    frame = Frame(book, conditions)
    for subsystem in SUBSYSTEMS:
        for fitting in subsystem.choices(book):
            frame.add(fitting)
    translator = Translator(frame, *_offers(frame))
    words = vocabulary(frame, translator.names, translator.functions)
    frame = replace(frame, read=partial(_formula, translator, words), say=partial(_said, words))
    laws = list(_gathered(frame, words))
    choices = (*(fitting.choice() for fitting in frame.fittings.values()), *frame.helpers)
    tables = tuple(law for law in laws if isinstance(law, Table))
    sums = tuple(law for law in laws if isinstance(law, Sum))
    return Machine(frame, Space(choices, tables, sums), words, replace(translator, frame=frame))


def _offers(frame: Frame) -> tuple[dict[str, Named], dict[str, Function]]:
    names: dict[str, Named] = {}
    functions: dict[str, Function] = {}
    for subsystem in SUBSYSTEMS:
        names |= subsystem.names(frame)
        functions |= subsystem.functions(frame)
    taken = {*frame.book.places, *frame.book.settings} & {*names, "line", "empty"}
    if taken:
        raise Problems(_clash(frame, name) for name in sorted(taken))
    return names, functions


def _clash(frame: Frame, name: str) -> Problem:
    written = [key for key in (*frame.book.places, *frame.book.settings) if key == name]
    message = f"{name!r} already stands for something in expressions."
    return Problem(
        "name-taken", message, mark_of(written[0]), "Give the place or setting another id."
    )


def _formula(
    translator: Translator, words: Vocabulary, text: str, mark: Mark | None = None
) -> Formula:
    where = mark or mark_of(text)
    checked = check(parse(text, where), words, where)
    try:
        return translator.truth(checked.expression)
    except NotEncodable as reason:
        raise problem(
            "not-encodable", f"This cannot be proven as it stands: {reason}.", where
        ) from reason


def _said(words: Vocabulary, text: str) -> str:
    where = mark_of(text)
    return wording(check(parse(text, where), words, where).expression, words)


def _gathered(frame: Frame, words: Vocabulary) -> Iterator[Law]:
    """Yield every law and rule; what makes no sense is gathered and raised at the end."""
    found: list[Problem] = []
    sources: list[Callable[[], Iterator[Law]]] = [
        *(lambda each=subsystem: iter(each.laws(frame)) for subsystem in SUBSYSTEMS),
        *(partial(_rule, frame, name) for name in frame.book.rules),
        partial(_skeleton, frame, words),
    ]
    for source in sources:
        try:
            yield from source()
        except Problems as problems:
            found.extend(problems.problems)
    if found:
        raise Problems(dict.fromkeys(found))


def _rule(frame: Frame, name: str) -> Iterator[Law]:
    rule = frame.book.rules[name]
    says = rule.says.known
    sentence = f"{capitalised(says).rstrip('.')}."
    origin = Origin(f"rule.{name}", "rule", sentence, frame.book.cite(rule.says))
    yield from frame.formula(origin, frame.read(rule.holds))


def _skeleton(frame: Frame, words: Vocabulary) -> Iterator[Law]:
    """The names of the skeleton are checked here, where the vocabulary is known."""
    for name in frame.book.book.skeleton:
        check(parse(name, mark_of(name)), words, mark_of(name), wanted=None)
    yield from ()
