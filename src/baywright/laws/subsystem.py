"""What every subsystem offers: choices, laws over them, and names for questions."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeAlias

from baywright.facts.book import Book
from baywright.laws.formula import Formula
from baywright.laws.frame import Fitting, Frame, Option
from baywright.laws.linear import Linear
from baywright.space import Law
from baywright.terms import Arguments, FunctionEntry
from baywright.units import Quantity


@dataclass(frozen=True, slots=True)
class Lookup:
    """A value that a few choices determine.

    Args:
        scope: names of the choices.
        value: the value for an option of each; ``None`` where it has none.
        dimension: dimension of the value, or empty for plain numbers.
    """

    scope: tuple[str, ...]
    value: Callable[..., Quantity | int | None]
    dimension: str = ""

    def number(self, *options: Option) -> Fraction | None:
        """Return the value for an option of each choice, in its canonical unit."""
        value = self.value(*options)
        if isinstance(value, Quantity):
            return value.canonical
        return None if value is None else Fraction(value)


@dataclass(frozen=True, slots=True)
class Lowest:
    """The lowest of several looked-up values; those without a value are left out.

    Args:
        terms: the values, each of one choice.
        dimension: their dimension.
    """

    terms: tuple[Lookup, ...]
    dimension: str = ""

    @property
    def scope(self) -> tuple[str, ...]:
        """Names of the choices that determine it."""
        return tuple(dict.fromkeys(name for term in self.terms for name in term.scope))

    def number(self, *options: Option) -> Fraction | None:
        """Return the value for an option of each choice of the scope."""
        held = dict(zip(self.scope, options, strict=True))
        numbers = [term.number(*(held[name] for name in term.scope)) for term in self.terms]
        return min((number for number in numbers if number is not None), default=None)


@dataclass(frozen=True, slots=True)
class Span:
    """A value known to lie between two others, such as the voltage of a line.

    It equals a value that lies between them, is at most a value that the higher one is at
    most, and at least a value that the lower one is at least.
    """

    low: Lookup
    high: Lookup

    @property
    def dimension(self) -> str:
        """Dimension of the value."""
        return self.low.dimension


Meaning: TypeAlias = Linear | Lookup | Lowest | Span | Formula


@dataclass(frozen=True, slots=True)
class Named:
    """A name that questions and rules may use.

    Args:
        meaning: what it stands for.
        description: what it is, a few words.
        words: how it is said in a sentence; for a truth, a clause.
        denial: for a truth, the clause that denies it.
    """

    meaning: Meaning
    description: str
    words: str
    denial: str = ""


@dataclass(frozen=True, slots=True)
class Function:
    """A function that questions and rules may use.

    Args:
        entry: its arguments, its result and its words.
        meaning: what a call stands for, given the frame and the call's arguments.
    """

    entry: FunctionEntry
    meaning: Callable[[Frame, Arguments], Meaning]


def _no_choices(book: Book) -> Iterable[Fitting]:
    return ()


def _no_laws(frame: Frame) -> Iterable[Law]:
    return ()


def _no_names(frame: Frame) -> Mapping[str, Named]:
    return {}


def _no_functions(frame: Frame) -> Mapping[str, Function]:
    return {}


@dataclass(frozen=True, slots=True)
class Subsystem:
    """One subsystem of a machine.

    Args:
        name: what it is called.
        choices: the choices it brings, from the book alone.
        laws: its laws, once the choices of every subsystem are there.
        names: names it offers to questions and rules.
        functions: functions it offers to them.
    """

    name: str
    choices: Callable[[Book], Iterable[Fitting]] = _no_choices
    laws: Callable[[Frame], Iterable[Law]] = _no_laws
    names: Callable[[Frame], Mapping[str, Named]] = _no_names
    functions: Callable[[Frame], Mapping[str, Function]] = _no_functions
