"""The comparison of two machines: what is gone, what is new, what stays."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property

from baywright.desk.drawing import draw
from baywright.desk.guide.notation import in_words
from baywright.desk.guide.tables.compare import Row, side_by_side
from baywright.desk.sheets.asked import Desk
from baywright.desk.statements.query import Query
from baywright.drawing.reading import shown
from baywright.files.books import beside
from baywright.papers.document import Column, Figure, Run, Table
from baywright.problems import Problems, problem

TITLES = {
    "less": ("gone", "less"),
    "more": ("new", "more"),
    "other": ("other",),
    "same": ("same",),
}
"""What is told together: what is lost comes first."""


class Against:
    """What the template of a comparison may call.

    Args:
        desk: what the parts of the sheet share.

    Raises:
        Problems: kind ``no-other`` when no book is named and there is no predecessor; and for a
            book that is not there.
    """

    def __init__(self, desk: Desk) -> None:
        writer = desk.writer
        self._desk, self._writer = desk, writer
        self.other = desk.asked.other or str(writer.book.book.predecessor or "")
        if not self.other:
            message = f"{writer.book.book.name} has no predecessor to be compared with."
            raise problem("no-other", message, None, "Name a book beside it: --with BOOK.")
        beside(writer.opened.folder, self.other)

    @cached_property
    def _found(self) -> tuple[Sequence[Row], tuple[str, str]]:
        return side_by_side(self._writer, self.other)

    @property
    def other_name(self) -> str:
        """The name of the other machine."""
        return self._found[1][0]

    def rows(self, which: str) -> str:
        """Return a table of what is ``less``, ``more``, ``other`` or ``same``; or nothing."""
        rows, names = self._found
        kept = [row for row in rows if row.word in TITLES[which]]
        if not kept:
            return ""
        heads = (Column("what", share=4), *(Column(n, right=True, share=2) for n in names))
        columns = (*heads, Column("", share=1))
        cells = tuple((*row.cells, (Run(row.word),)) for row in kept)
        return self._desk.blocks(Table(f"{names[1]} beside {names[0]}", columns, cells))

    def fronts(self) -> str:
        """Return the fronts of both machines, the other one first."""
        other = self._writer.shared.of(Query("fact", "", book=self.other)).opened
        figures = []
        for opened in (other, self._writer.opened):
            svg = draw(opened, None, "front")
            title = f"The front of the {opened.book.book.name}"
            figures.append(Figure(f"{title}.", svg, in_words(title, shown(svg))))
        return self._desk.blocks(*figures)


MOST_IN_SHORT = 14
"""Rows of a comparison in short."""


def compared_in_short(desk: Desk) -> str:
    """Return what is gone, less, more and new, so far as there is room; or nothing.

    What is lost comes first, so that it never falls off.
    """
    if not (desk.asked.other or desk.writer.book.book.predecessor):
        return ""
    try:
        rows, names = side_by_side(
            desk.writer, desk.asked.other or str(desk.writer.book.book.predecessor)
        )
    except Problems:
        return ""
    words = ("gone", "less", "more", "new")
    kept = sorted((row for row in rows if row.word in words), key=lambda row: words.index(row.word))
    heads = (Column("what", share=4), *(Column(n, right=True, share=2) for n in names))
    cells = tuple((*row.cells, (Run(row.word),)) for row in kept[:MOST_IN_SHORT])
    title = f"{names[1]} beside {names[0]}"
    return desk.blocks(Table(title, (*heads, Column("", share=1)), cells)) if cells else ""
