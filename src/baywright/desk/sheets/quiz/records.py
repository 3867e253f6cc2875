"""Questions for what a book or sizing says: days on which things ship, and rates in their unit."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.desk.guide.tables.models import builds
from baywright.desk.sheets.quiz.numbers import BITS
from baywright.desk.sheets.quiz.puzzle import Bench, Option, Puzzle, puzzle
from baywright.desk.size.telling import value_text
from baywright.desk.statements.query import Query
from baywright.laws.wording import capitalised
from baywright.sizing.registry import SUBJECTS

RATE = "GB/s"


def day_puzzle(bench: Bench) -> Puzzle | None:
    """Return a question for the day on which something ships; other days of it are the slips."""
    writer, facts = bench.writer, bench.writer.shared.facts
    about = writer.book.book
    things = {"book": str(about.name)}
    things |= {f"parts.{name}": f"{part.name}" for name, part in writer.book.parts.items()}
    known = [path for path in things if f"{path}.ships" in facts]
    if not known:
        return None
    path = bench.chance.choice(known)
    number, statement = writer.state(Query("fact", f"{path}.ships"))
    right = Option(str(statement.value["value"]), number)
    days = (f"{path}.announced", "book.announced", "book.ships", "book.edition")
    wrong = [
        Option(facts[day].text, number, "product" if day.endswith("announced") else "day")
        for day in days
        if day in facts
    ]
    says = f"From which day does the {things[path]} ship as a product?"
    return puzzle(says, right, wrong, bench.chance)


def unit_puzzle(bench: Bench) -> Puzzle | None:
    """Return a question for a rate of a build, with eight times as much and as little as slips."""
    writer = bench.writer
    held = builds(writer)
    if not held:
        return None
    build, title = bench.chance.choice(held)
    rates = list(_rates(bench, build))
    if not rates:
        return None
    key, name = bench.chance.choice(rates)
    number, statement = writer.state(Query("figure", key, build))
    value = float(statement.value["value"])
    wrong = (
        Option(value_text(value * BITS, RATE), number, "unit"),
        Option(value_text(value / BITS, RATE), number, "unit"),
        Option(value_text(value, "Gb/s"), number, "unit"),
    )
    says = f"{capitalised(title)} of the {writer.book.book.name}: how much is the {name}?"
    return puzzle(says, Option(value_text(value, RATE), number), wrong, bench.chance)


def _rates(bench: Bench, build: str) -> Iterator[tuple[str, str]]:
    """Yield the figures of a build that are rates in bytes: key and name."""
    for subject in SUBJECTS:
        sheet = bench.writer.shared.sheet(Query("figure", "", build), subject)
        for figure in (*sheet.figures, *(limit.figure for limit in sheet.limits)):
            if figure.unit == RATE and figure.value > 0:
                yield figure.key, figure.name
