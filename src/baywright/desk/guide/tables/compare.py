"""Comparison with the predecessor: what each machine has at most, what is lost and what is new."""

from __future__ import annotations

from collections.abc import Iterable

from baywright.desk.guide.tables.maxima import items
from baywright.desk.guide.writer import Writer
from baywright.desk.statements.query import Query
from baywright.desk.statements.values import figure_of
from baywright.papers.document import Block, Column, Run, Table
from baywright.problems import Problems

FACTS = (
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
        old = writer.shared.of(Query("fact", "", book=str(before)))
    except Problems:
        return
    other = Writer(old)
    expressions = {each.expression: each for each in (*items(writer), *items(other))}
    rows = []
    for item in expressions.values():
        pair = [_most(writer, item.expression, book) for book in (str(before), "")]
        rows.append(
            ((Run(f"most: {item.words}", "strong"),), *((run,) for run, _ in pair), _word(pair))
        )
    for words, path in FACTS:
        runs = [_fact(writer, path, book) for book in (str(before), "")]
        word = "same" if runs[0].text == runs[1].text else "other"
        rows.append(((Run(words, "strong"),), *((run,) for run in runs), (Run(word),)))
    names = (old.opened.book.book.name, writer.book.book.name)
    heads = (Column(str(name), right=True) for name in names)
    yield Table(f"{names[1]} beside {names[0]}", (Column("what"), *heads, Column("")), tuple(rows))


def _most(writer: Writer, expression: str, book: str) -> tuple[Run, object]:
    query = Query("cell", f"most({expression})", book=book)
    try:
        run = writer.said(query)
    except Problems:
        return Run("–"), None
    _, statement = writer.state(query)
    number = figure_of(statement.value).value if statement.verdict == "most" else None
    return run, number


def _word(pair: list[tuple[Run, object]]) -> tuple[Run]:
    first, second = (number or 0 for _, number in pair)
    if first == second:
        return (Run("same"),)
    if not second:
        return (Run("gone"),)
    if not first:
        return (Run("new"),)
    return (Run("more" if second > first else "less"),)  # type: ignore[operator]


def _fact(writer: Writer, path: str, book: str) -> Run:
    try:
        return writer.said(Query("fact", path, book=book))
    except Problems:
        return Run("–")
