"""The outer column: what the block beside it stands on, from its statements."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import replace

from baywright.desk.statements.statement import Statement
from baywright.papers.document import (
    Block,
    Bullets,
    Key,
    Paragraph,
    Table,
    statements_in,
)

MOST_GROUPS = 3
"""Groups of facts that are named beside one block; the proof has all of them."""

PROVEN = ("ask", "bound", "cell", "listing")


def with_keys(block: Block, statements: Sequence[Statement]) -> Block:
    """Return a block with what it stands on beside it.

    Args:
        block: the block.
        statements: all statements, in the order of their numbers.
    """
    if not isinstance(block, Paragraph | Bullets | Table):
        return block
    numbers = statements_in(block)
    return replace(block, beside=tuple(_keys(numbers, statements))) if numbers else block


def _keys(numbers: Sequence[int], statements: Sequence[Statement]) -> Iterator[Key]:
    by_kind = {
        kind: [n for n in numbers if statements[n - 1].query.kind in kinds]
        for kind, kinds in (
            ("fact", ("fact",)),
            ("proven", PROVEN),
            ("figure", ("figure", "table")),
        )
    }
    yield from _facts(by_kind["fact"], statements)
    if by_kind["proven"]:
        yield _proven(by_kind["proven"], statements)
    if by_kind["figure"]:
        yield Key(_range(by_kind["figure"]), "computed by sizing", by_kind["figure"][0])


def _facts(numbers: Sequence[int], statements: Sequence[Statement]) -> Iterator[Key]:
    """Yield facts by section, date and status; a single one with its whole path."""
    groups: dict[tuple[str, str, str], list[int]] = {}
    for number in numbers:
        statement = statements[number - 1]
        section = statement.query.text.partition(".")[0]
        key = (section, str(statement.value["date"]), str(statement.value["status"]))
        groups.setdefault(key, []).append(number)
    for (_, date, status), those in list(groups.items())[:MOST_GROUPS]:
        paths = [statements[number - 1].query.text for number in those]
        many = f"; {len(those)} facts" if len(those) > 1 else ""
        yield Key(_common(paths), f"{', '.join(filter(None, (date, status)))}{many}", those[0])
    rest = sum(len(those) for those in list(groups.values())[MOST_GROUPS:])
    if rest:
        yield Key(f"{rest} further facts", "in the proof")


def _common(paths: Sequence[str]) -> str:
    """Return what paths have in common.

    >>> _common(["air.rise"]), _common(["air.derating.by", "air.derating.per"])
    ('air.rise', 'air.derating.*')
    """
    if len(paths) == 1:
        return paths[0]
    columns = zip(*(path.split(".") for path in paths), strict=False)
    shared = itertools.takewhile(lambda column: len(set(column)) == 1, columns)
    return ".".join([*(column[0] for column in shared), "*"])


def _proven(numbers: Sequence[int], statements: Sequence[Statement]) -> Key:
    made = [statements[number - 1] for number in numbers]
    engines = ", ".join(dict.fromkeys(each.engine for each in made if each.engine))
    judges = ", ".join(dict.fromkeys(each.rechecked_by for each in made if each.rechecked_by))
    return Key(_range(numbers), f"proven by {engines}, re-checked by {judges}", numbers[0])


def _range(numbers: Sequence[int]) -> str:
    """Return numbers of statements as people write them.

    >>> _range([3, 4, 5, 9]), _range([7])
    ('statements 3–5, 9', 'statement 7')
    """
    runs: list[list[int]] = []
    for number in sorted(numbers):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    said = ", ".join(f"{r[0]}–{r[-1]}" if len(r) > 1 else str(r[0]) for r in runs[:3])
    more = ", …" if len(runs) > 3 else ""
    return f"statement{'s' if len(numbers) > 1 else ''} {said}{more}"
