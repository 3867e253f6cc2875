"""Statements of a whole build: whether it can be built, what its parts are, what they cost."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.answers.verdicts import Yes
from baywright.answers.wording import told
from baywright.desk.judging import wishes_of_build
from baywright.desk.parts_list import Listed, PartsList
from baywright.desk.statements.judges import judges
from baywright.desk.statements.kind import Kind
from baywright.desk.statements.query import Query
from baywright.desk.statements.shared import Shared
from baywright.desk.statements.statement import Ground, Statement
from baywright.desk.statements.values import labelled, reasons_of, value_of, witness_of
from baywright.laws.machine import Machine
from baywright.problems import problem, suggestion
from baywright.units import show

HEADER = ("part", "count", "where", "peak draw", "mass", "list price")
ASKED = ("legal", "rows", "price")


def _state(shared: Shared, query: Query) -> Statement:
    found = shared.parts(query)
    match query.text:
        case "legal":
            return _legal(query, found)
        case "rows":
            rows = [list(row) for row in _rows(found)]
            value = {"is": "table", "header": list(HEADER), "rows": rows, "note": ""}
            return Statement(query, value, f"{found.name}: {len(rows)} rows of parts.", "sizing")
        case "price":
            total = float(found.total("price"))
            unit = found.opened.book.book.currency
            value = {"is": "figure", "value": f"{total:.10g}", "unit": unit}
            words = f"List price of {found.name}: {total:,.2f} {unit}."
            return Statement(query, value, words, "sizing")
        case _:
            hint = suggestion(query.text, ASKED)
            message = f"A parts list does not say {query.text!r}."
            raise problem("unknown-parts", message, None, hint)


def _legal(query: Query, found: PartsList) -> Statement:
    verdict, machine = found.verdict, found.opened.machine
    shown = witness_of(verdict)
    reasons = tuple(Ground(r.key, r.kind, r.sentence) for r in reasons_of(verdict))
    said = "can be built." if isinstance(verdict, Yes) else told(verdict, machine).sentence
    proof = getattr(verdict, "proof", None)
    return Statement(
        query,
        value_of(verdict),
        f"{found.name}: {said}",
        proof.answered_by if proof else "",
        proof.rechecked_by if proof else "",
        labelled(machine, shown) if shown else None,
        reasons,
        tuple(dict.fromkeys(fact for each in reasons_of(verdict) for fact in each.facts)),
    )


def _rows(found: PartsList) -> Iterator[tuple[str, ...]]:
    """Yield a row for each part, the same one in several places once, and the totals."""
    groups: dict[str, list[Listed]] = {}
    for row in found.rows:
        if row.count:
            groups.setdefault(row.name, []).append(row)
    for name, rows in groups.items():
        count = sum(row.count or 0 for row in rows)
        where = ", ".join(dict.fromkeys(row.place for row in rows if row.place))
        yield (name, str(count), where, *_amounts(rows[0], count, found))


def _amounts(row: Listed, count: int, found: PartsList) -> Iterator[str]:
    fields = ((row.watts, "W"), (row.mass, "kg"), (row.price, found.opened.book.book.currency))
    for each, unit in fields:
        if each is None:
            yield "not stated"
            continue
        total = each * count
        yield show(total, unit, "nearest", 0 if total.denominator == 1 else 2)


def _again(shared: Shared, statement: Statement) -> tuple[bool, str]:
    """Judge a build again by another engine; add up the rest anew, since there is one way to it."""
    query = statement.query
    if query.text != "legal" or statement.verdict not in ("yes", "no"):
        return _state(shared, query).value == statement.value, "sizing, anew"
    opened, build = shared.at(query), shared.build(query)
    others = judges(shared, opened, statement.engine)

    def possible(machine: Machine) -> bool:
        there = shared.narrower.narrowed(machine, wishes_of_build(machine, build))
        return others.build(there) is not None

    found = [held for _, held in opened.in_worlds(possible)]
    return all(held == (statement.verdict == "yes") for held in found), others.names


PARTS = Kind("parts", "of a build: legal, rows or price", _state, _again)
