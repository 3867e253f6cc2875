"""Wishes: what is asked of a machine, term by term, as tables and sums of their own origin."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from baywright.laws.arrays import array_sizes
from baywright.laws.formula import AtMost, NotEncodable, encode, totals_in
from baywright.laws.linear import Linear
from baywright.laws.machine import Machine
from baywright.problems import Mark, problem
from baywright.space import Choice, Law, Origin, Space, Sum, Table
from baywright.terms import Expression, arrange, conjuncts, parse, text, wording
from baywright.terms.syntax import Amount, Call, Compare, Comparison, Number


@dataclass(frozen=True, slots=True)
class Level:
    """A number the wish compares with a fixed one, so that a near miss has a size.

    Args:
        linear: the number.
        op: the comparison.
        bound: the fixed number, in the canonical unit.
        words: what the number is called.
    """

    linear: Linear
    op: Comparison
    bound: Fraction
    words: str


@dataclass(frozen=True, slots=True)
class Wish:
    """One term of what is asked.

    Args:
        origin: its key, and the term in words.
        text: the term as an expression or as a line of a build.
        choices: helper choices of its encoding.
        laws: its tables and sums.
        totals: the totals it bounds, exact and in canonical units.
        hard: true when it may not be changed to make the rest possible.
        level: the number it compares, if it does.
        arrays: sizes of the arrays it asks for, if it does.
        price: how heavy it is to give it up; 100 unless there is a reason.
        term: the expression, where it is one.
        group: what changes together when a build is changed, such as the processors.
        asked: for a line of a build, the value it fixes for each choice.
    """

    origin: Origin
    text: str
    choices: tuple[Choice, ...]
    laws: tuple[Law, ...]
    totals: tuple[AtMost, ...] = ()
    hard: bool = False
    level: Level | None = None
    arrays: tuple[int, ...] = ()
    price: int = 100
    term: Expression | None = None
    group: str = ""
    asked: tuple[tuple[str, int], ...] = ()

    @property
    def key(self) -> str:
        """Key of its origin."""
        return self.origin.key


def with_wishes(space: Space, wishes: Iterable[Wish]) -> Space:
    """Return the space in which the wishes have to hold too."""
    asked = list(wishes)
    laws = [law for wish in asked for law in wish.laws]
    return space.extended(
        (choice for wish in asked for choice in wish.choices),
        (law for law in laws if isinstance(law, Table)),
        (law for law in laws if isinstance(law, Sum)),
    )


def read_wishes(
    machine: Machine, asked: str, mark: Mark | None = None, start: int = 1
) -> list[Wish]:
    """Read a condition as wishes, one for each term of its outermost ``and``.

    Args:
        machine: what is asked.
        asked: the condition.
        mark: where it is written.
        start: number of the first wish.

    Raises:
        Problems: when it makes no sense, or cannot be proven as it stands.
    """
    return wishes_of(machine, parse(asked, mark), mark, start)


def wishes_of(
    machine: Machine, asked: Expression, mark: Mark | None = None, start: int = 1
) -> list[Wish]:
    """Return a parsed condition as wishes; otherwise like ``read_wishes``."""
    terms = conjuncts(machine.condition(asked, mark))
    return [
        wish_of(machine, term, f"wish:{number}", mark) for number, term in enumerate(terms, start)
    ]


def wish_of(machine: Machine, term: Expression, key: str, mark: Mark | None = None) -> Wish:
    """Return one checked term as a wish."""
    said = wording(term, machine.vocabulary)
    origin = Origin(key, "wish", f"Asked: {said}.")
    try:
        formula = machine.translator.truth(term)
        encoded = encode(formula, origin, machine.sizes)
    except NotEncodable as reason:
        message = f"This cannot be proven as it stands: {reason}."
        raise problem("not-encodable", message, mark) from reason
    return Wish(
        origin,
        text(term),
        tuple(encoded.choices),
        tuple(encoded.laws),
        tuple(totals_in(formula)),
        level=_level(machine, term),
        arrays=_arrays(machine, term),
        term=term,
    )


def _level(machine: Machine, term: Expression) -> Level | None:
    if not isinstance(term, Compare) or not isinstance(term.right, Number | Amount):
        return None
    if term.op == "!=":  # only one number is not wanted, and no other is a near miss
        return None
    try:
        value = machine.translator.value(term.left)
    except (NotEncodable, KeyError):
        return None
    if not isinstance(value, Linear):
        return None
    fixed = term.right
    bound = fixed.value if isinstance(fixed, Number) else fixed.quantity.canonical
    return Level(value, term.op, bound, wording(term.left, machine.vocabulary))


def _arrays(machine: Machine, term: Expression) -> tuple[int, ...]:
    if isinstance(term, Call) and term.name == "arrays":
        return array_sizes(arrange(term, machine.vocabulary.functions["arrays"]))
    return ()
