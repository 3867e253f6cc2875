"""Stating: answers to queries, proven again, compared with what was recorded."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from baywright.desk.opening import Opened
from baywright.desk.statements.differing import difference
from baywright.desk.statements.kind import Again, Kind
from baywright.desk.statements.query import Query
from baywright.desk.statements.registry import KINDS
from baywright.desk.statements.shared import Shared
from baywright.desk.statements.statement import Statement
from baywright.problems import Problems, problem, suggestion


def state(opened: Opened | Shared, query: Query) -> Statement:
    """Answer a query with a statement.

    Args:
        opened: the book, with day and site; or what statements about it share.
        query: what is asked.

    Raises:
        Problems: when the query makes no sense for the book.
        StoppedError: at a limit.
        RecheckError: when two engines do not agree.
    """
    shared = opened if isinstance(opened, Shared) else Shared(opened)
    return kind_of(query).state(shared.of(query), query)


def state_all(opened: Opened | Shared, queries: Iterable[Query]) -> tuple[Statement, ...]:
    """Answer queries, each once, in their order; what they need in common is made once."""
    shared = opened if isinstance(opened, Shared) else Shared(opened)
    return tuple(state(shared, query) for query in dict.fromkeys(queries))


def reprove(opened: Opened | Shared, statement: Statement) -> Again:
    """Prove a statement again with an engine other than the one that wrote it.

    Args:
        opened: the book as it is now, with day and site; or what statements about it share.
        statement: the statement.

    Raises:
        StoppedError: at a limit.
        RecheckError: when two engines do not agree.
    """
    shared = opened if isinstance(opened, Shared) else Shared(opened)
    try:
        holds, engine = kind_of(statement.query).prove(shared.of(statement.query), statement)
    except Problems as problems:
        return Again(statement, holds=False, engine="", difference=problems.problems[0].message)
    if holds:
        return Again(statement, holds=True, engine=engine)
    try:
        now = state(shared, statement.query)
    except Problems as problems:
        return Again(statement, holds=False, engine=engine, difference=problems.problems[0].message)
    return Again(
        statement, holds=False, engine=engine, now=now, difference=difference(statement, now)
    )


def reprove_all(opened: Opened | Shared, statements: Iterable[Statement]) -> Iterator[Again]:
    """Yield each statement proven again, in their order."""
    shared = opened if isinstance(opened, Shared) else Shared(opened)
    for statement in statements:
        yield reprove(shared, statement)


def kind_of(query: Query) -> Kind:
    """Return the kind of a query.

    Raises:
        Problems: kind ``unknown-kind``, with the nearest.
    """
    if query.kind not in KINDS:
        hint = suggestion(query.kind, KINDS)
        raise problem("unknown-kind", f"There is no kind of query {query.kind!r}.", None, hint)
    return KINDS[query.kind]
