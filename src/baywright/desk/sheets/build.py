"""The sheet of a build: whether it can be built, its drawings, limits, parts and cautions."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from functools import cached_property

from baywright.desk.drawing import draw
from baywright.desk.guide.notation import TITLES, in_words
from baywright.desk.parts_list import remarks
from baywright.desk.sheets.asked import Desk
from baywright.desk.size.telling import first, value_text
from baywright.desk.statements.query import Query
from baywright.drawing.reading import shown
from baywright.facts.cautions import CAUTIONS, Caution
from baywright.laws.wording import capitalised
from baywright.papers.document import Bullets, Column, Figure, Line, Paragraph, Run, Table, Warned
from baywright.problems import problem
from baywright.sizing.figure import Limit
from baywright.sizing.limits import nearest_first
from baywright.sizing.registry import SUBJECTS

NEAR = 0.10
"""A limit with less than this share left is near."""

NOT_ON_HEAD = 2
"""The first remarks of a parts list, which stand on the head of the sheet."""

ACT_FIRST = ("several-cords", "lifting", "static")
"""Cautions of any work on a machine."""


class BuildSheet:
    """What the template of a build may call.

    Args:
        desk: what the parts of the sheet share.

    Raises:
        Problems: kind ``no-build`` when none is named.
    """

    def __init__(self, desk: Desk) -> None:
        if not desk.asked.build:
            message = "A build sheet is about one build, and none is named."
            known = ", ".join((*desk.writer.book.models, *desk.writer.shared.build_files))
            raise problem("no-build", message, None, f"Name one of {known}, or a build file.")
        self._desk, self._writer = desk, desk.writer
        self.build = desk.asked.build

    def _query(self, kind: str, text: str) -> Query:
        return Query(kind, text, self.build)

    @property
    def name(self) -> str:
        """What the build is called."""
        return str(self._writer.shared.build(self._query("parts", "")).name.known)

    def verdict(self) -> str:
        """Return whether it can be built; for a no with its reasons."""
        number, statement = self._writer.state(self._query("parts", "legal"))
        words = statement.words.removeprefix(f"{self.name}: ")
        if statement.verdict == "yes":
            said = (Run("It can be built as it is written.", "strong", number),)
            return self._desk.blocks(Paragraph(said))
        lines: list[Line] = [(Run(each.sentence, "plain", number),) for each in statement.reasons]
        head = Paragraph((Run(capitalised(words), "strong", number),))
        return self._desk.blocks(head, *([Bullets(tuple(lines))] if lines else []))

    def drawing(self, view: str) -> str:
        """Return a view of the build; nothing where it would be empty."""
        build = self._writer.shared.build(self._query("parts", ""))
        svg = draw(self._writer.opened, build, view)
        if not shown(svg):
            return ""
        title = TITLES.get(view, capitalised(view))
        return self._desk.blocks(Figure(f"{title}.", svg, in_words(title, shown(svg))))

    def limits(self) -> str:
        """Return every limit that is decided, the nearest first, and a line on the others."""
        held = nearest_first(self._limits)
        known = [limit for limit in held if not _open(limit) and first(limit.margin) < 1]
        rows = tuple(self._row(limit) for limit in known)
        heads = (Column("limit", share=5), Column("is", right=True), Column("bound", right=True))
        columns = (*heads, Column("left", right=True), Column("past it", share=5))
        unknown = [limit.figure.name for limit in held if _open(limit)]
        unused = [limit.figure.name for limit in held if first(limit.margin) >= 1]
        notes = (("Nothing is used of", unused), ("Not decided at this site", unknown))
        said = tuple(
            (Run(f"{head}: {'; '.join(dict.fromkeys(names))}."),) for head, names in notes if names
        )
        return self._desk.blocks(Table("Limits, the nearest first", columns, rows, said))

    def _row(self, limit: Limit) -> tuple[Line, ...]:
        figure = limit.figure
        number, _ = self._writer.state(self._query("figure", figure.key))
        room, near, unit = first(limit.room), first(limit.margin) < NEAR, figure.unit
        bound = value_text(first(limit.bound), unit)
        name = Run(f"{figure.name}{f', {figure.condition}' if figure.condition else ''}")
        left = f"{value_text(-room, unit)} over" if room < 0 else value_text(room, unit)
        return (
            (name,),
            (Run(value_text(figure.value, unit), "plain", number),),
            (Run(f"at {limit.side} {bound}", "plain", number),),
            (Run(left, "strong" if near else "plain", number),),
            (Run(limit.breaks),),
        )

    @cached_property
    def _limits(self) -> tuple[Limit, ...]:
        shared, query = self._writer.shared, self._query("figure", "")
        sheets = (shared.sheet(query, subject) for subject in SUBJECTS)
        return tuple(limit for sheet in sheets for limit in sheet.limits)

    def parts(self) -> str:
        """Return the parts list, with its totals; nothing for what cannot be built."""
        number, statement = self._writer.state(self._query("parts", "rows"))
        if not statement.value["rows"]:
            return ""
        heads = [Column(str(head)) for head in statement.value["header"]]
        columns = (
            heads[0],
            Column(heads[1].title, right=True),
            heads[2],
            *(Column(each.title, right=True) for each in heads[3:]),
        )
        rows = [self._cells(row, number) for row in statement.value["rows"]]
        held = remarks(self._writer.shared.parts(self._query("parts", "")))
        notes = tuple((Run(each, "plain", number),) for each in list(held)[NOT_ON_HEAD:])
        return self._desk.blocks(Table("Parts", columns, (*rows, self._total()), notes))

    def _cells(self, row: list[str], number: int) -> tuple[Line, ...]:
        return ((Run(row[0]),), *((Run(cell, "plain", number),) for cell in row[1:]))

    def _total(self) -> tuple[Line, ...]:
        said = (self._writer.said(self._query(*each), "strong") for each in TOTALS)
        return ((Run("in all", "strong"),), (), (), *((run,) for run in said))

    def cautions(self, *, of_numbers: bool) -> str:
        """Return the cautions that belong to its numbers, or to work on it."""
        held = (each for each in self._cautions() if each.of_numbers == of_numbers)
        warned = (Warned(c.word, c.hazard, c.consequence, c.avoidance) for c in held)
        return self._desk.blocks(*warned)

    def _cautions(self) -> Iterable[Caution]:
        shared, query = self._writer.shared, self._query("figure", "")
        keys = [key for subject in SUBJECTS for key in shared.sheet(query, subject).cautions]
        return (CAUTIONS[key] for key in dict.fromkeys((*ACT_FIRST, *keys)))

    def calls(self) -> Iterator[tuple[str, object]]:
        """Yield what the template may call, by name."""
        yield from (
            ("build_name", self.name),
            ("verdict", self.verdict),
            ("drawing_of_build", self.drawing),
            ("limits", self.limits),
            ("parts_list", self.parts),
            ("cautions", self.cautions),
        )


TOTALS = (("figure", "power.dc.peak"), ("figure", "rack.mass"), ("parts", "price"))


def _open(limit: Limit) -> bool:
    """Say whether a limit is not decided."""
    return math.isnan(first(limit.room))
