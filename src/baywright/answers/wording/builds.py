"""Builds for reading: lines grouped by subsystem, numbers with their units."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from baywright.answers.figures import amount
from baywright.answers.verdicts import Figure, Witness
from baywright.answers.wording.names import Names, Section
from baywright.answers.wording.sheet import Fitted, Group, Load, Row
from baywright.laws.builds import Line
from baywright.laws.wording import capitalised


def fitted(witness: Witness, names: Names, title: str) -> Fitted:
    """Return a build for reading.

    Args:
        witness: the build.
        names: what the book calls things.
        title: what the build shows.
    """
    return Fitted(
        title,
        tuple(groups(witness, names)),
        tuple(Row(_title_of(figure), said(figure)) for figure in witness.figures),
    )


def groups(witness: Witness, names: Names) -> Iterator[Group]:
    """Yield what is where, subsystem by subsystem; what is empty is left out."""
    for section in Section:
        rows = _rows(witness, names, section)
        if rows:
            yield Group(section.value, tuple(rows))


def _rows(witness: Witness, names: Names, section: Section) -> list[Row]:
    by_place: dict[str, list[Line]] = {}
    for line in witness.lines:
        if names.section(line.place) is section:
            place = line.place.removesuffix(" controller")
            by_place.setdefault(place, []).append(line)
    return [
        Row(capitalised(names.place(place)), _sentence(lines, names))
        for place, lines in by_place.items()
    ]


def _sentence(lines: Iterable[Line], names: Names) -> str:
    return ", ".join(_said_line(line, names) for line in lines)


def _said_line(line: Line, names: Names) -> str:
    if line.choice.endswith(" controller"):
        return f"driven from {names.place(line.label)}"
    return names.label(line.choice, line.label)


def said(figure: Figure) -> str:
    """Return the value of a figure with its unit; what carries is rounded down, loads up."""
    return amount(figure.value, figure.dimension, "down" if "carr" in figure.name else "up")


def _title_of(figure: Figure) -> str:
    words = figure.words.removeprefix("the ").removeprefix("number of ")
    return capitalised(words)


def figure_named(witness: Witness, name: str) -> Figure | None:
    """Return a figure by its name in expressions, or ``None`` when the build has none."""
    return next((figure for figure in witness.figures if figure.name == name), None)


def summary(witness: Witness, load: Load | None) -> str:
    """Return load and price of a build; the load against its bound where a line is drawn."""
    drawn, price = figure_named(witness, "load"), figure_named(witness, "price")
    told = [load.sentence] if load else [f"The peak draw is {said(drawn)}."] if drawn else []
    told += [f"The list price is {said(price)}."] if price else []
    return " ".join(told)
