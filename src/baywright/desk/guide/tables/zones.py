"""What fits where: places, and every mix of what the zones hold."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from baywright.desk.guide.tables.maxima import interfaces_of, spoken
from baywright.desk.guide.writer import NOT_DECIDED, Writer, rows_of
from baywright.desk.statements.query import Query
from baywright.facts.places import Zone
from baywright.papers.document import Block, Column, Line, Run, Table

MOST_LABELS = 8
"""A place that can be filled in more ways than this is told by its parts."""


def places(writer: Writer) -> Iterable[Block]:
    """Yield what each place can hold, proven for each."""
    rows = tuple(_rows(writer))
    columns = (Column("place"), Column("can hold"), Column("works with"))
    yield Table("What each place can hold in some legal build", columns, rows)


def _rows(writer: Writer) -> Iterator[tuple[Line, ...]]:
    names = writer.names
    for name, place in writer.book.places.items():
        if name not in writer.opened.machine.frame.fittings:
            continue
        number, statement = writer.state(Query("listing", name))
        labels = [row[0] for row in rows_of(statement)]
        owner = getattr(place, "owner", None)
        yield (
            (Run(str(place.name), "strong"),),
            (Run(_held(writer, labels) or NOT_DECIDED, "plain", number),),
            (Run(names.place(owner) if owner else "–"),),
        )


def _held(writer: Writer, labels: list[str]) -> str:
    names = writer.names
    said = ["nothing" if label == "empty" else names.label("", label) for label in labels]
    if len(labels) <= MOST_LABELS:
        return "; ".join(sorted(said, key=lambda each: each == "nothing"))
    parts = dict.fromkeys(
        piece.rpartition(" x ")[2] for label in labels for piece in label.split(" + ")
    )
    parts.pop("empty", None)
    return f"{len(labels)} fillings with " + ", ".join(map(names.part, parts))


def mixes(writer: Writer) -> Iterable[Block]:
    """Yield every mix of the zones, with what it takes and what it gives."""
    zones = list(writer.book.places_of(Zone))
    if len(zones) < 2:
        return
    number, statement = writer.state(Query("listing", ", ".join(zones)))
    columns = (
        *(Column(str(writer.book.places[zone].name)) for zone in zones),
        *(Column(title, right=True) for title, _ in _asked(writer)),
    )
    rows = tuple(_mix(writer, zones, labels, number) for labels in rows_of(statement))
    yield Table(f"Every legal mix of the {len(zones)} zones", columns, rows)


def _asked(writer: Writer) -> Iterator[tuple[str, str]]:
    """Yield what is asked of each mix: head of the column, and the question."""
    if len(writer.book.processors.counts) > 1:
        yield "least processors", "least(processors, given={})"
    if writer.book.parts_of("controller"):
        yield "least controllers", "least(count(controller), given={})"
    yield "most bays", "most(bays, given={})"
    interfaces = interfaces_of(writer)
    for interface in interfaces if len(interfaces) > 1 else ():
        counted = f'count(drive, interface="{interface}")'
        yield f"most {spoken(interface)}", f"most({counted}, given={{}})"
    for network in _optional(writer):
        name = writer.book.places[network].name
        yield str(name), f"can({{}} and {network} != empty)"


def _optional(writer: Writer) -> list[str]:
    """Return positions of network modules that may stay empty."""
    book = writer.book
    networks = set(book.parts_of("network"))
    return [
        name
        for name, place in book.places.items()
        if networks & set(book.taken(list(getattr(place, "takes", []))))
        and getattr(place, "always", None) is None
    ]


def _mix(writer: Writer, zones: list[str], labels: list[str], number: int) -> tuple[Line, ...]:
    given = " and ".join(
        f"{zone} == {label}" if label == "empty" else f'{zone} == "{label}"'
        for zone, label in zip(zones, labels, strict=True)
    )
    cells = [(Run("–" if label == "empty" else label, "plain", number),) for label in labels]
    answers = [(writer.cell(question.format(given)),) for _, question in _asked(writer)]
    return (*cells, *answers)
