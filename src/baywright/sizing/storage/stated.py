"""Facts as numbers that know what they are called when nobody has stated them."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any, TypeVar

from baywright.facts.fact import Fact
from baywright.facts.parts import Part
from baywright.sizing.case import Case
from baywright.sizing.figure import Figure, Input, Limit, Side
from baywright.units import Quantity

PartT = TypeVar("PartT", bound=Part)

_GENERATION = re.compile(r"(\d+)(?:\.\d+)?\s*$")


@dataclass(frozen=True, slots=True)
class Stated:
    """A number that a site states, or not.

    Args:
        value: the number; not-a-number where it is not stated.
        missing: what it is called, when it is not stated.
        inputs: the number as an input of a figure.
    """

    value: float
    missing: tuple[str, ...] = ()
    inputs: tuple[Input, ...] = ()

    @property
    def known(self) -> bool:
        """Whether it is stated."""
        return not self.missing


def number(fact: Fact[Any] | None, unit: str = "") -> float:
    """Return the number of a fact, not-a-number where it is missing or unknown.

    Args:
        fact: an amount, a share or a whole number, or nothing.
        unit: unit wanted of an amount.
    """
    if fact is None or fact.value is None:
        return math.nan
    return float(fact.value.to(unit) if isinstance(fact.value, Quantity) else fact.value)


def rate(fact: Fact[Any] | None, unit: str) -> float:
    """Return a rate that something has to be divided by: none is as good as not stated."""
    return number(fact, unit) or math.nan


def generation(name: str | None) -> float:
    """Return the number of a generation of lanes, not-a-number where there is none.

    >>> generation("PCIe 5.0")
    5.0
    """
    found = _GENERATION.search(name or "")
    return float(found[1]) if found else math.nan


def of_site(case: Case, path: str, name: str, unit: str = "") -> Stated:
    """Return a number of the site.

    Args:
        case: the builds and their site.
        path: dotted path below the site, such as ``workload.data``.
        name: what it is, a few words.
        unit: unit wanted of an amount.
    """
    value: Any = case.site
    for field in path.split("."):
        value = getattr(value, field) if value is not None else None
    if not isinstance(value, Fact) or value.value is None:
        return Stated(math.nan, (f"site.{path}",))
    # A fact of the site has no source among those of the book.
    cited = tuple(replace(each, source="", date=value.date) for each in case.cite(value))
    return Stated(number(value, unit), (), (Input(name, value.text, cited),))


def fitted(case: Case, model: type[PartT]) -> dict[str, PartT]:
    """Return the parts of one kind that some build has."""
    parts = ((name, case.book.parts[name]) for name in case.fitted)
    return {name: part for name, part in parts if isinstance(part, model)}


def lacking(parts: Iterable[str], case: Case, *fields: str) -> tuple[str, ...]:
    """Return the paths of facts that some parts lack."""
    return tuple(
        f"parts.{name}.{field}"
        for name in parts
        for field in fields
        if _is_unknown(getattr(case.book.parts[name], field, None))
    )


def quoted(parts: Iterable[str], case: Case, field: str, name: str) -> tuple[Input, ...]:
    """Return one fact of some parts as one input of a figure; nothing where none states it."""
    facts = [getattr(case.book.parts[part], field, None) for part in parts]
    known = [fact for fact in facts if isinstance(fact, Fact)]
    if not known:
        return ()
    texts = dict.fromkeys(fact.text for fact in known)
    return (Input(name, " or ".join(texts), case.cite(*known)),)


def all_missing(*found: Stated) -> tuple[str, ...]:
    """Return what some numbers of the site are called that are not stated."""
    return tuple(path for each in found for path in each.missing)


def all_inputs(*found: Stated) -> tuple[Input, ...]:
    """Return some numbers of the site as inputs of a figure."""
    return tuple(each for stated in found for each in stated.inputs)


def asked_least(figure: Figure, bound: Stated, scale: float, breaks: str) -> Figure | Limit:
    """Return a figure as a limit from below where the site states the bound, else as it is."""
    return _asked(figure, bound, scale, "least", breaks)


def asked_most(figure: Figure, bound: Stated, scale: float, breaks: str) -> Figure | Limit:
    """Return a figure as a limit from above where the site states the bound, else as it is."""
    return _asked(figure, bound, scale, "most", breaks)


def _asked(figure: Figure, bound: Stated, scale: float, side: Side, breaks: str) -> Figure | Limit:
    if not bound.known:
        return figure
    facts = tuple(fact for each in bound.inputs for fact in each.facts)
    return Limit(figure, bound.value / scale, side, breaks, legal=False, facts=facts)


def _is_unknown(fact: object) -> bool:
    return not fact or (isinstance(fact, Fact) and fact.value is None)
