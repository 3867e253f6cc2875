"""One row of a table: an entry of the book, new or there already, filled cell by cell."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from baywright.desk.capture.captured import Cell, How, Outcome, written
from baywright.desk.capture.cells import BLANK, NotUnderstoodError, Style, content, sort_of_leaf
from baywright.desk.capture.columns import Column
from baywright.desk.capture.stated import said, says_same, stated
from baywright.desk.capture.targets import ID, Leaf, Target, leaves
from baywright.exchange.lists.rows import Row
from baywright.facts.fact import Fact
from baywright.facts.model import Model
from baywright.files.roundtrip import Steps
from baywright.files.shape import fields_of
from baywright.problems import suggestion


@dataclass(frozen=True)
class Entry:
    """What a row is about.

    Args:
        steps: where it stands in the book.
        word: its kind or type, or empty.
        model: its model.
        old: the entry as the book has it, or ``None``.
    """

    steps: Steps
    word: str
    model: type[Model]
    old: Model | None


@dataclass
class Filling:
    """Fills entries from the rows of one table.

    Args:
        target: what the rows are about.
        columns: its columns.
        how: how it is to be taken.
        style: how it writes.
        main: id of the book's main source.
        cells: what became of each cell so far.
        added: what the book is to hold beside what it has.
        values: facts that are to be replaced.
    """

    target: Target
    columns: Sequence[Column]
    how: How
    style: Style
    main: str
    cells: list[Cell] = field(default_factory=list)
    added: dict[Steps, Any] = field(default_factory=dict)
    values: dict[Steps, tuple[str, str]] = field(default_factory=dict)

    def fill(self, row: Row, entry: Entry) -> None:
        """Take the cells of a row."""
        if entry.old is None:
            self.added[entry.steps] = {self.target.tag: entry.word} if self.target.tag else {}
        for at, text in enumerate(row.cells):
            self.cells.append(self._taken(row, at, text, entry))
        if entry.old is None:
            self._name(entry)

    def refuse(self, row: Row, why: str) -> None:
        """Report every cell of a row that nothing can be made of."""
        for at, text in enumerate(row.cells):
            heading = self.columns[at].heading if at < len(self.columns) else ""
            blank = text.casefold() in BLANK
            outcome: Outcome = "blank" if blank else "not understood"
            self.cells.append(Cell(row.where, heading, text, outcome, why="" if blank else why))

    def _name(self, entry: Entry) -> None:
        """Call a new entry by its id where the table gives it no name."""
        info, new = fields_of(entry.model).get("name"), self.added[entry.steps]
        if info is not None and info.is_required() and "name" not in new:
            tag = {key: new.pop(key) for key in (self.target.tag,) if key in new}
            self.added[entry.steps] = {**tag, "name": str(entry.steps[-1]), **new}

    def _taken(self, row: Row, at: int, text: str, entry: Entry) -> Cell:
        column = self.columns[at] if at < len(self.columns) else Column(at, "")
        cell = Cell(row.where, column.heading, text, "blank")
        if text.casefold() in BLANK:
            return cell
        if not column.path:
            return cell.refused(column.why or "No heading stands above it.")
        if column.path in ((ID,), (self.target.tag,)):
            value = str(entry.steps[-1]) if column.path == (ID,) else entry.word
            path = ".".join(map(str, entry.steps))
            return cell.taken("new" if entry.old is None else "same", path, value)
        return self._fact(cell, column, entry)

    def _fact(self, cell: Cell, column: Column, entry: Entry) -> Cell:
        known = {leaf.path: leaf for leaf in leaves(entry.model)}
        leaf = known.get(column.path) or known.get((*column.path[:-1], "*"))
        if leaf is None:
            field_name = ".".join(column.path)
            hint = suggestion(field_name, [".".join(each) for each in known], most=0)
            why = f"No field {field_name} is in {entry.word or self.target.name}. {hint}"
            return cell.refused(why.strip())
        try:
            value = content(cell.text, leaf, column.unit, self.style)
        except NotUnderstoodError as error:
            return cell.refused(error.why)
        path = ".".join(map(str, (*entry.steps, *column.path)))
        outcome, why = self._put(column.path, leaf, value, entry)
        return cell.taken(outcome, path, written(value), why)

    def _put(
        self,
        path: tuple[str, ...],
        leaf: Leaf,
        value: Any,  # noqa: ANN401
        entry: Entry,
    ) -> tuple[Outcome, str]:
        """Add a value, unless the book says the same or something else."""
        there = stated(entry.old, path)
        if there is None:
            self._add(path, self._sourced(value, leaf), entry)
            return "new", ""
        if says_same(there, value, leaf):
            return "same", ""
        if self.how.replace and isinstance(there, Fact) and isinstance(value, str):
            self.values[(*entry.steps, *path)] = (value, self._source_instead(there))
            return "new", f"in place of {said(there)}"
        return "differs", f"the book says {said(there)}"

    def _source_instead(self, there: Fact[Any]) -> str:
        """Return the source of a new value, so that it does not stand under that of the old."""
        own = there.source or there.date or there.status != "stated"
        return self.how.source or (self.main if own else "")

    def _add(self, path: tuple[str, ...], value: Any, entry: Entry) -> None:  # noqa: ANN401
        if entry.old is not None:
            self.added[(*entry.steps, *path)] = value
            return
        holder = self.added[entry.steps]
        for step in path[:-1]:
            holder = holder.setdefault(step, {})
        holder[path[-1]] = value

    def _sourced(self, value: Any, leaf: Leaf) -> Any:  # noqa: ANN401
        """Return a value with its source, where it is a fact and another source was named."""
        source = self.how.source
        if source in ("", self.main) or sort_of_leaf(leaf) == "name":
            return value
        if isinstance(value, list):
            return [{"value": each, "source": source} for each in value]
        return {**(value if isinstance(value, dict) else {"value": value}), "source": source}
