"""The last pages: words, every fact."""

from __future__ import annotations

import itertools
from collections.abc import Iterable

from baywright.desk.guide.writer import Writer
from baywright.papers.document import Block, Column, Index, Run, Table


def glossary(writer: Writer) -> Iterable[Block]:
    """Yield what people call places and parts, with the id under which the book has them."""
    book = writer.book
    rows = []
    known = [*book.places, *book.parts]
    for name in known:
        held = book.places.get(name) or book.parts[name]
        others = [str(word) for word in book.words.get(name, ())]
        note = getattr(held, "note", None)
        rows.append(
            (
                (Run(str(held.name), "strong"),),
                (Run(name, "code"),),
                (Run(", ".join(others) or "–"),),
                (Run(note.text if note is not None else "–"),),
            )
        )
    columns = (Column("name"), Column("id"), Column("also called"), Column("remark"))
    yield Table("Names of places and parts", columns, tuple(rows))


def facts(writer: Writer) -> Iterable[Block]:
    """Yield every fact of the book, a table for each section."""
    rows = [row for row in writer.shared.facts.values() if row.path]
    for section, group in itertools.groupby(rows, key=lambda row: row.section):
        lines = []
        for row in group:
            path = row.path.removeprefix(f"{section}.")
            firm = ", ".join(filter(None, (row.date, row.status)))
            lines.append(((Run(path, "code"),), (writer.fact(row.path),), (Run(firm),)))
        columns = (
            Column("fact"),
            Column("value"),
            Column("stated"),
        )
        yield Table(f"Facts: {section}", columns, tuple(lines), small=True)


def index(writer: Writer) -> Iterable[Block]:
    """Yield the index: names of places and parts, and the words of the trade."""
    book = writer.book
    terms = [(str(place.name), ()) for place in book.places.values()]
    terms += [(str(part.name), ()) for part in book.parts.values()]
    trade = (
        ("altitude", ()),
        ("arrays", ("array",)),
        ("boot", ()),
        ("controllers", ("controller",)),
        ("drives", ("drive",)),
        ("fans", ("fan",)),
        ("firmware", ()),
        ("inlet temperature", ("inlet limit",)),
        ("interlocks", ("interlock",)),
        ("lanes", ("lane",)),
        ("memory", ()),
        ("noise", ()),
        ("orientations", ("stands",)),
        ("peak draw", ()),
        ("ports", ("port",)),
        ("price", ()),
        ("processors", ("processor",)),
        ("redundancy", ("redundant",)),
        ("slots", ("slot",)),
        ("supplies", ("supply",)),
        ("systems", ("system",)),
        ("zones", ("zone",)),
    )
    yield Index((*dict.fromkeys(terms), *trade))
