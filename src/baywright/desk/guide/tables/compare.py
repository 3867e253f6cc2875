"""Comparison with the predecessor: what each machine has at most, what is lost and what is new."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from baywright.desk.guide.tables.maxima import items
from baywright.desk.guide.writer import Writer
from baywright.desk.statements.query import Query
from baywright.desk.statements.values import figure_of
from baywright.papers.document import Block, Column, Line, Run, Table
from baywright.problems import Problems

NUMBERS = (
    ("most: memory speed", "most(memory_speed)"),
    ("most: load that redundant supplies carry", "most(supplies_carry_redundant)"),
    ("least: peak draw", "least(load)"),
    ("most: peak draw", "most(load)"),
    ("least: mass", "least(mass)"),
    ("least: list price", "least(price)"),
)

FACTS = (
    ("ships", "book.ships"),
    ("last day to order", "book.last_order"),
    ("height", "chassis.height"),
    ("depth", "chassis.depth"),
    ("mass without parts", "chassis.mass_empty"),
    ("list price without parts", "chassis.price"),
    ("allowed rise of the air", "air.rise"),
)


def with_predecessor(writer: Writer) -> Iterable[Block]:
    """Yield both machines side by side."""
    before = writer.book.book.predecessor
    if before is None:
        return
    try:
        rows, names = side_by_side(writer, str(before))
    except Problems:
        return
    heads = (Column(name, right=True) for name in names)
    cells = tuple((*row.cells, (Run(row.word),)) for row in rows)
    yield Table(f"{names[1]} beside {names[0]}", (Column("what"), *heads, Column("")), cells)


@dataclass(frozen=True, slots=True)
class Row:
    """One thing of two machines.

    Args:
        cells: what it is, what the other book has, what this one has.
        word: what becomes of it from the other to this one.
    """

    cells: tuple[Line, Line, Line]
    word: str


def side_by_side(writer: Writer, before: str) -> tuple[list[Row], tuple[str, str]]:
    """Return what another machine and this one have, and the names of both.

    Args:
        writer: the writer of this book.
        before: id of the other book, which stands beside this one.

    Raises:
        Problems: when there is no such book.
    """
    old = writer.shared.of(Query("fact", "", book=before))
    other = Writer(old)
    expressions = {each.expression: each for each in (*items(writer), *items(other))}
    rows: list[Row] = []
    for item in expressions.values():
        words = item.one if item.part else item.words
        rows.append(_compared(writer, f"most: {words}", f"most({item.expression})", before))
    rows += [_compared(writer, words, question, before) for words, question in NUMBERS]
    for words, path in FACTS:
        one, two = (_fact(writer, path, book) for book in (before, ""))
        word = "same" if one.text == two.text else "other"
        rows.append(Row(((Run(words, "strong"),), (one,), (two,)), word))
    return rows, (str(old.opened.book.book.name), str(writer.book.book.name))


def _compared(writer: Writer, words: str, question: str, before: str) -> Row:
    pair = [_number(writer, question, book) for book in (before, "")]
    first, second = ((run,) for run, _ in pair)
    return Row(((Run(words, "strong"),), first, second), _word(pair))


def _number(writer: Writer, question: str, book: str) -> tuple[Run, object]:
    query = Query("cell", question, book=book)
    try:
        run = writer.said(query)
    except Problems:
        return Run("–"), None
    _, statement = writer.state(query)
    bound = statement.verdict in ("most", "least")
    number = figure_of(statement.value).value if bound else None
    return run, number


def _word(pair: list[tuple[Run, object]]) -> str:
    first, second = (number or 0 for _, number in pair)
    if first == second:
        return "same"
    if not second:
        return "gone"
    if not first:
        return "new"
    return "more" if second > first else "less"  # type: ignore[operator]


def _fact(writer: Writer, path: str, book: str) -> Run:
    try:
        return writer.said(Query("fact", path, book=book))
    except Problems:
        return Run("–")
