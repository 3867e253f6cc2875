"""What makers of tables share."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from baywright.desk.guide.writer import Writer
from baywright.facts.places import Socket
from baywright.papers.document import Block, Column, Run, Table

Maker: TypeAlias = Callable[[Writer], Iterable[Block]]
"""Makes the blocks of a table; none where the book has nothing for it."""


@dataclass(frozen=True, slots=True)
class Field:
    """A field of a part as a column.

    Args:
        title: head of the column.
        path: path below the part, such as ``ratings.low``.
        right: whether it is set to the right.
    """

    title: str
    path: str
    right: bool = True


def parts_table(
    writer: Writer, title: str, parts: Sequence[str], fields: Sequence[Field]
) -> Iterable[Table]:
    """Yield a table with a row for each part; columns that no part has are left out."""
    if not parts:
        return
    facts = writer.shared.facts
    kept = [
        field for field in fields if any(f"parts.{part}.{field.path}" in facts for part in parts)
    ]
    columns = (Column("part"), *(Column(field.title, field.right) for field in kept))
    rows = tuple(
        (
            (Run(str(writer.book.parts[part].name), "strong"), *writer.standing(part)),
            *((writer.fact(f"parts.{part}.{field.path}"),) for field in kept),
        )
        for part in parts
    )
    yield Table(title, columns, rows)


def facts_table(
    writer: Writer, title: str, rows: Iterable[tuple[str, str]], heads: tuple[str, str]
) -> Iterable[Table]:
    """Yield a table of facts: what each is, and its value; those not stated are left out.

    Args:
        writer: the writer.
        title: what the table shows.
        rows: what is said of each fact, and its path.
        heads: titles of the two columns.
    """
    found = [
        ((Run(said),), (writer.fact(path),)) for said, path in rows if path in writer.shared.facts
    ]
    if found:
        yield Table(title, (Column(heads[0]), Column(heads[1])), tuple(found))


def parts_of(writer: Writer, *kinds: str) -> list[str]:
    """Return the ids of the parts of some kinds."""
    return list(writer.book.parts_of(*kinds))


def by_processors(writer: Writer) -> list[tuple[int, str]]:
    """Return each number of processors with the condition that it is so.

    Sockets are filled in the order of the book, so it can be said of single sockets.
    """
    sockets = list(writer.book.places_of(Socket))
    found = []
    for count in (each.known for each in writer.book.processors.counts):
        full = [f"{sockets[count - 1]} != empty"] if 0 < count <= len(sockets) else []
        free = [f"{sockets[count]} == empty"] if count < len(sockets) else []
        found.append((count, " and ".join([*full, *free])))
    return found
