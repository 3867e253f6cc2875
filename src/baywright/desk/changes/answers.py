"""Answers and other statements under two versions: found anew only where their seals are broken."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import partial
from pathlib import Path

from baywright.desk.asking import taken_apart
from baywright.desk.changes.said import Pair, Said
from baywright.desk.changes.watched import Versions, Watched, said_or_why
from baywright.desk.kept.file import read_kept
from baywright.desk.questions import Listed
from baywright.desk.review.review import own_questions
from baywright.desk.statements.cells import CELL, WORDS
from baywright.desk.statements.query import Query
from baywright.desk.statements.seals import Sealer
from baywright.desk.statements.shared import Shared
from baywright.desk.statements.statement import Statement, read_statements
from baywright.desk.statements.stating import state
from baywright.files.disk import is_file
from baywright.problems import Problems

KEPT = '"statement": {'
"""What a line of kept answers has and a line of statements has not."""


def questions(versions: Versions, _: Watched) -> Iterator[Pair]:
    """Yield the questions that lie beside the old version.

    They are compared as cells of a table, which takes milliseconds; reasons are sought for what
    flips.
    """
    asked = own_questions(versions.old.opened.folder)
    named = {_query(versions.old, each): each.says for each in asked}
    statements = [state(versions.old, query) for query in named]
    for statement, pair in zip(statements, again(versions, statements, "answer"), strict=True):
        named_pair = replace(pair, name=named[statement.query])
        yield _with_reasons(versions, statement.query, named_pair) if pair.flips else named_pair


def _query(shared: Shared, question: Listed) -> Query:
    query = Query("cell", question.ask, as_of=question.as_of)
    asked = taken_apart(shared.at(query).machine, question.ask, CELL)
    fits = asked.word in WORDS and not asked.then
    return query if fits else replace(query, kind="ask")


def _with_reasons(versions: Versions, query: Query, pair: Pair) -> Pair:
    asked = replace(query, kind="ask")
    before, after = (
        said_or_why(partial(_anew, each, asked)) for each in (versions.old, versions.new)
    )
    return replace(pair, before=before, after=after)


def recorded(versions: Versions, watched: Watched) -> Iterator[Pair]:
    """Yield statements of guides, sheets and kept answers."""
    for path in watched.statements:
        yield from again(versions, _read(path), path.name)


def _read(path: Path) -> tuple[Statement, ...]:
    """Read a file of statements, or of kept answers, which hold a statement each."""
    if is_file(path) and KEPT in path.read_text("utf-8", errors="replace").partition("\n")[0]:
        return tuple(entry.statement for entry in read_kept(path))
    return read_statements(path)


def again(versions: Versions, statements: Iterable[Statement], kind: str) -> Iterator[Pair]:
    """Yield statements about the old version under the new one, in their order.

    Args:
        versions: the two versions.
        statements: statements that hold of the old one.
        kind: what they are called.
    """
    old, new = Sealer(versions.old), Sealer(versions.new)
    for statement in statements:
        before = said(statement)
        if _stays(old, new, statement):
            yield Pair(kind, statement.query.text, before, before, anew=False)
        else:
            after = said_or_why(partial(_anew, versions.new, statement.query))
            yield Pair(kind, statement.query.text, before, after)


def _stays(old: Sealer, new: Sealer, statement: Statement) -> bool:
    try:
        seal = old.seal(statement)
        return seal is not None and new.holds(statement, seal)
    except Problems:
        return False  # It makes no sense in one of the versions; the answer anew says why.


def _anew(shared: Shared, query: Query) -> Said:
    return said(state(shared, query))


def said(statement: Statement) -> Said:
    """Return what a statement says."""
    return Said(statement.value, statement.words, tuple(fact.path for fact in statement.facts))
