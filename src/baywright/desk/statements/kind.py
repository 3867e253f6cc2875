"""The kind of a query: how it is answered and how the answer is proven again."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias

from baywright.desk.statements.query import Query
from baywright.desk.statements.shared import Shared
from baywright.desk.statements.statement import Statement


@dataclass(frozen=True, slots=True)
class Again:
    """How it went when a statement was proven again.

    Args:
        statement: the statement.
        holds: whether it still holds.
        engine: what proved or refuted it.
        now: the same statement made anew, when it does not hold.
        difference: what is otherwise, one sentence, or empty.
    """

    statement: Statement
    holds: bool
    engine: str
    now: Statement | None = None
    difference: str = ""


State: TypeAlias = Callable[[Shared, Query], Statement]
Prove: TypeAlias = Callable[[Shared, Statement], tuple[bool, str]]


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of query.

    Args:
        name: how a query names it.
        asks: what its text is, for people.
        state: answers a query.
        prove: says whether a statement holds, and what found that: never what wrote it.
    """

    name: str
    asks: str
    state: State
    prove: Prove
