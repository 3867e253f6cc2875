"""Statements that engines prove: questions with reasons, lists, and cells of tables."""

from __future__ import annotations

from dataclasses import replace

from baywright.answers.verdicts import Stopped, Undecided, Verdict
from baywright.desk.asking import ask, reading_of, taken_apart
from baywright.desk.opening import Opened
from baywright.desk.statements.again import Judge, worlds_of
from baywright.desk.statements.cells import CELL, cell
from baywright.desk.statements.judges import judges
from baywright.desk.statements.kind import Kind
from baywright.desk.statements.query import Query
from baywright.desk.statements.shared import Shared
from baywright.desk.statements.statement import Ground, Statement
from baywright.desk.statements.values import (
    labelled,
    reasons_of,
    value_of,
    witness_of,
    words_of,
)
from baywright.engines.contract import Limit
from baywright.facts.citation import Citation
from baywright.laws.machine import Machine


def _ask(shared: Shared, query: Query) -> Statement:
    opened = shared.at(query)
    answer = ask(opened, query.text)
    shown = witness_of(answer.verdict)
    if shown is not None and not opened.unknown:
        shared.shelf.keep(opened.machine, shown.values, _proven_by(answer.verdict)[0])
    return _statement(opened, query, answer.verdict, answer.reading)


def _listing(shared: Shared, query: Query) -> Statement:
    listed = _ask(shared, replace(query, text=f"list({query.text})"))
    return replace(listed, query=query)


def _cell(shared: Shared, query: Query, patience: Limit | None = None) -> Statement:
    opened = shared.at(query)
    verdict = cell(shared, opened, query.text, patience)
    asked = taken_apart(opened.machine, query.text, CELL)
    return _statement(opened, query, verdict, reading_of(opened.machine, asked))


def _statement(opened: Opened, query: Query, verdict: Verdict, reading: str) -> Statement:
    machine, shown = opened.machine, witness_of(verdict)
    reasons = reasons_of(verdict)
    engine, judge = _proven_by(verdict)
    return Statement(
        query,
        value_of(verdict),
        words_of(verdict, machine, reading),
        engine,
        judge,
        labelled(machine, shown) if shown else None,
        tuple(Ground(each.key, each.kind, each.sentence) for each in reasons),
        _facts(verdict),
    )


def _facts(verdict: Verdict) -> tuple[Citation, ...]:
    if isinstance(verdict, Undecided):
        return verdict.facts
    facts = [fact for each in reasons_of(verdict) for fact in each.facts]
    return tuple(dict.fromkeys((*facts, *getattr(verdict, "structure", ()))))


def _proven_by(verdict: Verdict) -> tuple[str, str]:
    match verdict:
        case Undecided(outcomes=outcomes):
            return _proven_by(outcomes[0][1])
        case Stopped():
            return "", ""
        case _:
            return verdict.proof.answered_by, verdict.proof.rechecked_by


def _prove(shared: Shared, statement: Statement) -> tuple[bool, str]:
    opened, query = shared.at(statement.query), statement.query
    text = f"list({query.text})" if query.kind == "listing" else query.text
    others = judges(shared, opened, statement.engine)

    def agrees(machine: Machine, given: dict[str, str]) -> bool:
        judge = Judge(others, shared.narrower, machine, taken_apart(machine, text, CELL))
        recorded = list(worlds_of(statement.value, given))
        return bool(recorded) and all(judge.agrees(value) for value in recorded)

    worlds = opened.in_worlds(lambda machine: machine)
    return all(agrees(world.machine, world.given) for world, _ in worlds), others.names


PATIENCE_FOR_REASONS = Limit(3.0)
"""Time that the reasons of one bound may take."""

ASK = Kind("ask", "a question as `baywright ask` takes it; reasons are sought", _ask, _prove)
LISTING = Kind("listing", "names, and given= with a condition: every combination", _listing, _prove)
CELL_KIND = Kind(
    "cell", "can, most or least of a question, without reasons, for tables", _cell, _prove
)
BOUND = Kind(
    "bound",
    "as a cell, with minimal reasons why nothing lies beyond, where they are found in time",
    lambda shared, query: _cell(shared, query, PATIENCE_FOR_REASONS),
    _prove,
)
