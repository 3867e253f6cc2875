"""The supplies of each build: how many of which model, on which line, with what rating."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

import numpy as np

from baywright.facts.parts import Supply
from baywright.facts.places import Supplies, SupplyCount
from baywright.facts.sections import Line
from baywright.laws.frame import Option
from baywright.laws.power import counted_rule
from baywright.sizing.amounts import amount, ratio, shown
from baywright.sizing.case import Case, Truths
from baywright.sizing.equation import Floats, Reals
from baywright.sizing.power.efficiency import Curve, curve_of


@dataclass(frozen=True, slots=True)
class Model:
    """One model of supply in the builds.

    Args:
        name: id of the part.
        supply: the part.
        counts: how many of it each build has.
        rating: rating at the voltage of the site [W]; 0 where it is not made for the line.
        curve: its efficiency, where the book has it.
        factor: its power factor [1]; 1 on direct current.
    """

    name: str
    supply: Supply
    counts: Reals
    rating: Floats
    curve: Curve | None
    factor: Floats


@dataclass(frozen=True, slots=True)
class Bays:
    """The supplies of each build.

    Args:
        models: the models that some build has.
        place: the bays, or ``None`` where the book has none or more than one set of them.
        count: supplies fitted.
        legal: supplies that must carry the peak.
        redundant: supplies that carry the peak after the loss they are made for.
        rating: rating of the weakest in each build [W].
        missing: what the rating depends on, where it is not decided.
    """

    models: tuple[Model, ...]
    place: Supplies | None
    count: Reals
    legal: Reals
    redundant: Reals
    rating: Floats
    missing: tuple[str, ...]

    def of_weakest(self, values: Iterable[Floats]) -> Floats:
        """Return the least of a number of each model, over the models that a build has."""
        return self._over(np.minimum, values)

    def of_strongest(self, values: Iterable[Floats]) -> Floats:
        """Return the most of a number of each model, over the models that a build has."""
        return self._over(np.maximum, values)

    def _over(self, choose: np.ufunc, values: Iterable[Floats]) -> Floats:
        result: Floats = np.full(self.count.shape, np.nan)
        started = np.zeros(self.count.shape, bool)
        for model, value in zip(self.models, values, strict=True):
            has = model.counts > 0
            result = np.where(has, np.where(started, choose(result, value), value), result)
            started |= has
        return result

    def total(self, values: Iterable[Floats]) -> Floats:
        """Return the sum of a number of each supply fitted."""
        total: Floats = np.zeros(self.count.shape)
        for model, value in zip(self.models, values, strict=True):
            total = total + np.where(model.counts > 0, model.counts * value, 0.0)
        return np.where(self.count > 0, total, np.nan)

    @property
    def unset(self) -> tuple[str, ...]:
        """What everything about the supplies depends on, where there is not one set of them."""
        if self.place is None:
            return self.missing
        return ("supplies in each build",) if np.any(self.count == 0) else ()

    def lacking(self, *fields: str) -> tuple[str, ...]:
        """Return the paths of facts that some supply fitted lacks."""
        return tuple(
            f"parts.{model.name}.{field}"
            for model in self.models
            for field in fields
            if not _has(model, field)
        )


def bays_of(case: Case) -> Bays:
    """Return the supplies of each build of a case.

    A book whose supplies are in several sets does not say how these share the load; nothing of
    them is decided then.
    """
    places = case.book.places_of(Supplies)
    if len(places) != 1:
        nothing = np.full(case.size, np.nan)
        return Bays((), None, nothing, nothing, nothing, nothing, ("one set of supplies",))
    ((name, place),) = places.items()
    (choice,) = case.frame.at(name)
    models = tuple(_models(case, choice))
    count = case.looked_up(choice, lambda option: option.count)
    bays = Bays(
        models,
        place,
        count,
        case.looked_up(choice, lambda option: _carrying(place, option, redundant=False)),
        case.looked_up(choice, lambda option: _carrying(place, option, redundant=True)),
        np.nan,
        _missing(case, models),
    )
    rating = bays.of_weakest(model.rating for model in models)
    # No supplies carry nothing; that is known.
    rating = np.where(count > 0, rating, 0.0)
    return replace(bays, rating=rating)


def _models(case: Case, choice: str) -> Iterator[Model]:
    for name in case.fitted:
        part = case.book.parts[name]
        counts = _counts(case, choice, name)
        if isinstance(part, Supply) and counts.any():
            yield Model(
                name, part, counts, _rating(case, part), curve_of(part), _factor(case, part)
            )


def _counts(case: Case, choice: str, name: str) -> Reals:
    return case.looked_up(choice, lambda option: dict(option.parts).get(name, 0))


def _carrying(place: Supplies, option: Option, *, redundant: bool) -> int:
    rule = counted_rule(place, option.count)
    if rule is None:
        return 0
    return _redundant(rule) if redundant else (rule.legal or rule.count).known


def _redundant(rule: SupplyCount) -> int:
    return rule.redundant.known if rule.redundant else rule.count.known - 1


def _rating(case: Case, supply: Supply) -> Floats:
    """Return its rating at the voltage of the site, 0 on a line it is not made for."""
    found: Floats = np.nan
    for name, line in case.book.power.lines.items():
        fact = supply.ratings.get(name)
        watts = 0.0 if fact is None else amount(fact, "W")
        fits = np.logical_and(_covers(line, case.around.volts), np.logical_not(_rated(found)))
        found = np.where(fits, watts, found)
    return found


def _rated(watts: Floats) -> Floats:
    return np.greater(np.nan_to_num(watts), 0)


def _covers(line: Line, volts: Floats | None) -> Truths:
    asked = np.asarray(np.nan if volts is None else volts)
    return (asked >= amount(line.volts_from, "V")) & (asked <= amount(line.volts_to, "V"))


def _factor(case: Case, supply: Supply) -> Floats:
    """Return its power factor; direct current has none, so volt-amperes are watts there."""
    direct = [
        _covers(line, case.around.volts)
        for name, line in case.book.power.lines.items()
        if line.current == "DC" and name in supply.ratings
    ]
    stated = ratio(supply.power_factor)
    return np.where(np.any(np.array(direct), axis=0), 1.0, stated) if direct else stated


def _missing(case: Case, models: tuple[Model, ...]) -> tuple[str, ...]:
    if case.around.volts is None:
        return ("site.voltage",)
    lines = case.book.power.lines.values()
    covered = [_covers(line, case.around.volts) for line in lines]
    if not np.all(np.any(np.array(covered), axis=0)):
        return (f"a line of the book at {shown(case.around.volts, 'V')}",)
    return tuple(
        f"parts.{model.name}.ratings.{line}"
        for model in models
        for line, fact in model.supply.ratings.items()
        if math.isnan(amount(fact, "W"))
    )


def _has(model: Model, field: str) -> bool:
    match field:
        case "efficiency":
            return model.curve is not None
        case "power_factor":
            return not np.any(np.isnan(model.factor))
        case _:
            fact = getattr(model.supply, field)
            return fact is not None and fact.value is not None
