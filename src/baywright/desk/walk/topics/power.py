"""Supplies: how many, which ratings, and up to which draw one of them may fail."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.desk.walk.lines import Candidate, Subject
from baywright.facts.parts import Supply
from baywright.facts.places import Supplies
from baywright.language.told.telling import few
from baywright.laws.wording import capitalised, listed

STATION = "supplies"
_VOLTS = {"low": "120 V", "high": "230 V", "ac": "230 V"}


def supplies(subject: Subject) -> Iterator[Candidate]:
    """Yield what may be said of supplies."""
    book = subject.book
    for bays in book.places_of(Supplies).values():
        counts = {each.count.known for each in bays.fitted}
        if len(counts) == 1:
            number = capitalised(few(counts.pop()))
            yield Candidate(STATION, "counts", (f"{number} supplies are always fitted.",))
    yield Candidate(STATION, "identical", ("All supplies must be identical.",))
    parts = [part for part in book.parts.values() if isinstance(part, Supply)]
    ratings = list(dict.fromkeys(f"{r.text}" for part in parts for r in part.ratings.values()))
    best = [max(part.ratings.values(), key=lambda r: r.known).text for part in parts]
    says = f"Supplies come in {listed(dict.fromkeys(best), 'or')}."
    yield Candidate(STATION, "ratings", (says, f"Supplies come in {listed(ratings, 'or')}."))
    for part in parts:
        yield from _ratings(subject, part)
    yield from _inlets(parts)
    yield from _loads(subject)
    factors = {part.power_factor.text for part in parts if part.power_factor is not None}
    for factor in factors:
        yield Candidate(STATION, "power factor", (f"The power factor is {factor}.",))
    for held in {part.hold_up.text for part in parts if part.hold_up is not None}:
        yield Candidate(STATION, "hold-up", (f"Hold-up is {held}.",))


def _ratings(subject: Subject, part: Supply) -> Iterator[Candidate]:
    lines = subject.book.power.lines
    if len({rating.text for rating in part.ratings.values()}) < len(part.ratings):
        return
    for line, rating in part.ratings.items():
        name = str(lines[line].name) if line in lines else line
        says = f"At {name} the {part.name} gives {rating.text}."
        yield Candidate(STATION, "voltages", (says,))


def _inlets(parts: list[Supply]) -> Iterator[Candidate]:
    for part in parts:
        if part.inlet is not None:
            says = f"The {part.name} has a {part.inlet} inlet."
            yield Candidate(STATION, "inlets", (says,))


def _loads(subject: Subject) -> Iterator[Candidate]:
    for line, held in subject.book.power.lines.items():
        if not subject.possible("not supplies_redundant", f'line == "{line}"'):
            continue
        most = subject.most_text("load", "supplies_redundant", f'line == "{line}"', rounding="up")
        volts = _VOLTS.get(str(line), held.volts_from.text)
        exact = f"At {volts} no build above {most} is redundant."
        named = f"On {held.name} no build above {most} is redundant."
        yield Candidate(STATION, "redundancy", (exact, named) if most else ())
    high = subject.most_text("load", rounding="up")
    low = subject.least_text("load")
    yield Candidate(
        STATION, "draw", (f"Peak draw is {high} at most.", f"Peak draw stays within {high}.")
    )
    yield Candidate(STATION, "draw", (f"It draws at least {low} at peak.",))
    runs = [
        f"The {subject.book.book.name} runs at {_VOLTS.get(str(line), each.volts_from.text)}."
        for line, each in subject.book.power.lines.items()
    ]
    for says in dict.fromkeys(runs):
        yield Candidate(STATION, "voltages", (says,))
