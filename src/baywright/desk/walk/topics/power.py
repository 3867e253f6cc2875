"""Supplies: how many, which ratings, and up to which draw one of them may fail."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.desk.walk.lines import Candidate, Subject
from baywright.facts.parts import Supply
from baywright.facts.places import Supplies
from baywright.facts.sections import Line
from baywright.language.told.telling import few
from baywright.laws.wording import capitalised, listed

STATION = "supplies"
USUAL = (48, 120, 230)
"""Voltages people ask for [V]; 48 V is direct current."""


def supplies(subject: Subject) -> Iterator[Candidate]:
    """Yield what may be said of supplies."""
    book = subject.book
    yield from _counts(subject)
    yield Candidate(STATION, "identical", ("All supplies must be identical.",))
    parts = [part for part in book.parts.values() if isinstance(part, Supply)]
    best = [max(part.ratings.values(), key=lambda r: r.known).text for part in parts]
    ratings = list(dict.fromkeys(best))
    says = f"Supplies come in {listed(ratings, 'or')}."
    yield Candidate(STATION, "ratings", (says,) if len(ratings) > 1 else ())
    for part in parts:
        yield from _ratings(subject, part)
    yield from _inlets(parts)
    yield from _loads(subject)
    factors = {part.power_factor.text for part in parts if part.power_factor is not None}
    for factor in factors:
        yield Candidate(STATION, "power factor", (f"The power factor is {factor}.",))


def _counts(subject: Subject) -> Iterator[Candidate]:
    parts = subject.book.parts_of("supply")
    for bays in subject.book.places_of(Supplies).values():
        counts = {each.count.known for each in bays.fitted}
        if len(counts) != 1:
            continue
        number = capitalised(few(counts.pop()))
        always = f"{number} supplies are always fitted."
        only = next(iter(parts.values())).name if len(parts) == 1 else ""
        named = f"{number} {only.removesuffix(' supply')} supplies are fitted."
        yield Candidate(STATION, "counts", (named, always) if only else (always,))


def _ratings(subject: Subject, part: Supply) -> Iterator[Candidate]:
    lines = subject.book.power.lines
    if len({rating.text for rating in part.ratings.values()}) < 2:
        return
    for line, rating in part.ratings.items():
        name = str(lines[line].name) if line in lines else line
        says = f"At {name} the {part.name} gives {rating.text}."
        yield Candidate(STATION, "voltages", (says,))


def _inlets(parts: list[Supply]) -> Iterator[Candidate]:
    for part in parts:
        if part.inlet is not None:
            says = f"The {part.name} has a {part.inlet} inlet."
            yield Candidate(STATION, "inlets", (says,), "inlets")


def _loads(subject: Subject) -> Iterator[Candidate]:
    for line, held in subject.book.power.lines.items():
        if not subject.possible("not supplies_redundant", f'line == "{line}"'):
            continue
        most = subject.most_text("load", "supplies_redundant", f'line == "{line}"', rounding="up")
        says = tuple(f"At {volts} no build above {most} is redundant." for volts in _at(held))
        yield Candidate(STATION, "redundancy", says if most else ())
    high = subject.most_text("load", rounding="up")
    low = subject.least_text("load")
    yield Candidate(
        STATION, "draw", (f"Peak draw is {high} at most.", f"Peak draw stays within {high}.")
    )
    yield Candidate(STATION, "draw", (f"It draws at least {low} at peak.",))
    for volts in dict.fromkeys(v for each in subject.book.power.lines.values() for v in _at(each)):
        runs = f"The {subject.book.book.name} runs at {volts}."
        yield Candidate(STATION, "voltages", (runs,))


def _at(line: Line) -> list[str]:
    """Return the usual voltages of a kind of input power."""
    low, high = (float(each.known.to("V")) for each in (line.volts_from, line.volts_to))
    return [f"{volts} V" for volts in USUAL if low <= volts <= high]
