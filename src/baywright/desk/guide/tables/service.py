"""Service as the book has it: work on parts, interlocks, locks, lights. Steps come elsewhere."""

from __future__ import annotations

from collections.abc import Iterable

from baywright.desk.guide.tables.making import facts_table
from baywright.desk.guide.writer import Writer
from baywright.papers.document import Block, Column, Run, Table


def work(writer: Writer) -> Iterable[Block]:
    """Yield what it takes to fit a part of each kind, or to take it out."""
    rows = []
    for kind, each in writer.book.service.work.items():
        running = "while running" if each.running and each.running.known else "power off"
        rows.append(
            (
                (Run(str(kind), "strong"),),
                (writer.fact(f"service.work.{kind}.time"),),
                (Run(running),),
                (Run(", ".join(tool.text for tool in each.tools) or "none"),),
                (Run(str(each.wait) if each.wait else "–"),),
            )
        )
    if rows:
        columns = (
            Column("part"),
            Column("time for one", right=True),
            Column("state"),
            Column("tools"),
            Column("after the wait for"),
        )
        yield Table("Work on one part, in or out", columns, tuple(rows))


def waits(writer: Writer) -> Iterable[Block]:
    """Yield times: to stop, to start, and waits before a step."""
    service = writer.book.service
    rows = [
        ("stop, cords out, open", "service.stop"),
        ("close, cords in, start", "service.start"),
        *((f"wait before the {name}", f"service.waits.{name}") for name in service.waits),
    ]
    yield from facts_table(writer, "Times", rows, ("for", "time"))


def interlocks(writer: Writer) -> Iterable[Block]:
    """Yield what the machine does by itself."""
    rows = tuple(
        (
            (writer.fact(f"interlocks.{name}.action"),),
            (Run(str(each.while_)),),
            (writer.fact(f"interlocks.{name}.effect"),),
            (writer.fact(f"interlocks.{name}.after"),),
        )
        for name, each in writer.book.interlocks.items()
    )
    if rows:
        columns = (
            Column("when"),
            Column("while"),
            Column("the machine does"),
            Column("after", right=True),
        )
        yield Table("Interlocks", columns, rows)


def locks(writer: Writer) -> Iterable[Block]:
    """Yield what each lock holds, and what it does not."""
    rows = tuple(
        (
            (Run(lock.name.text, "strong"),),
            (Run(", ".join(each.text for each in lock.covers)),),
            (Run(", ".join(each.text for each in lock.leaves) or "–"),),
        )
        for lock in writer.book.locks.values()
    )
    if rows:
        columns = (Column("lock"), Column("while locked, closed"), Column("still within reach"))
        yield Table("Locks", columns, rows)


def lights(writer: Writer) -> Iterable[Block]:
    """Yield the fault lights."""
    rows = tuple(
        (
            (writer.fact(f"lights.{name}.shows"),),
            (writer.fact(f"lights.{name}.seen"),),
            (Run(writer.names.part(light.needs) if light.needs else "–"),),
            (writer.fact(f"lights.{name}.lasts"),),
        )
        for name, light in writer.book.lights.items()
    )
    if rows:
        columns = (
            Column("shows"),
            Column("seen"),
            Column("needs"),
            Column("without power for", right=True),
        )
        yield Table("Fault lights", columns, rows)


def handles(writer: Writer) -> Iterable[Block]:
    """Yield the words on handles."""
    rows = [(str(words), f"service.marks.{words}") for words in writer.book.service.marks]
    yield from facts_table(writer, "Words on handles", rows, ("word", "on"))
