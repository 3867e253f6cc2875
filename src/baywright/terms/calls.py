"""What each argument of a call is for."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum
from typing import TypeAlias

from baywright.terms.syntax import And, Call, Compare, Expression, Keyword, Member, Name, Not, Or
from baywright.terms.vocabulary import FunctionEntry, Parameter


class Other(Enum):
    """Uses of an argument that is no parameter of the function."""

    FILTER = "a condition on the fields of one part"
    SURPLUS = "nothing"


Use: TypeAlias = Parameter | Other


@dataclass(frozen=True, slots=True)
class Arguments:
    """The arguments of one call, sorted by use.

    Args:
        given: expressions by the name of their parameter.
        repeated: the repeated ones.
        filters: conditions on the fields of one part; ``interface="sas"`` has become a comparison.
    """

    given: dict[str, Expression]
    repeated: tuple[Expression, ...] = ()
    filters: tuple[Expression, ...] = ()

    @property
    def condition(self) -> Expression | None:
        """All filters as one condition, or ``None`` when there are none."""
        return And(self.filters) if len(self.filters) > 1 else next(iter(self.filters), None)


def arrange(call: Call, entry: FunctionEntry) -> Arguments:
    """Sort the arguments of a call; those the function has no use for are left out."""
    given: dict[str, Expression] = {}
    repeated: list[Expression] = []
    filters: list[Expression] = []
    for argument, use in uses(call, entry):
        value = argument.value if isinstance(argument, Keyword) else argument
        if use is Other.FILTER:
            filters.append(as_comparison(argument) if isinstance(argument, Keyword) else argument)
        elif isinstance(use, Parameter) and use is entry.repeated:
            repeated.append(value)
        elif isinstance(use, Parameter):
            given[use.name] = value
    return Arguments(given, tuple(repeated), tuple(filters))


def uses(call: Call, entry: FunctionEntry) -> Iterator[tuple[Expression | Keyword, Use]]:
    """Yield each argument of a call with its use, those by position first."""
    count = len(entry.parameters)
    yield from zip(call.args, entry.parameters, strict=False)
    for argument in call.args[count:]:
        yield argument, _use_after_the_parameters(argument, entry)
    free = {parameter.name: parameter for parameter in entry.keywords}
    names = frozenset(free)
    for keyword in call.keywords:
        if keyword.name in names:
            yield keyword, free.pop(keyword.name, Other.SURPLUS)
        else:
            yield keyword, Other.FILTER if entry.filtered else Other.SURPLUS


def missing(call: Call, entry: FunctionEntry) -> tuple[Parameter, ...]:
    """Return the required parameters that a call does not give."""
    given = {use.name for _, use in uses(call, entry) if isinstance(use, Parameter)}
    wanted = (*entry.parameters, *entry.keywords)
    return tuple(each for each in wanted if each.required and each.name not in given)


def as_comparison(keyword: Keyword) -> Compare:
    """Return the filter ``interface="sas"`` as the comparison ``interface == "sas"``."""
    return Compare(Name(keyword.name, keyword.span), "==", keyword.value, keyword.span)


def _use_after_the_parameters(argument: Expression, entry: FunctionEntry) -> Use:
    is_condition = isinstance(argument, Compare | Member | And | Or | Not)
    if entry.filtered and (is_condition or not entry.repeated):
        return Other.FILTER
    return entry.repeated or Other.SURPLUS
