"""The outer column: what the block beside it stands on, from its statements."""

from __future__ import annotations

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

MOST_FACTS = 4
"""Facts that are named beside one block; the proof has all of them."""

PROVEN = ("ask", "cell", "listing")


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
    facts = by_kind["fact"]
    for number in facts[:MOST_FACTS]:
        value = statements[number - 1].value
        said = ", ".join(filter(None, (value["date"], value["status"])))
        yield Key(statements[number - 1].query.text, said, number)
    if len(facts) > MOST_FACTS:
        yield Key(f"{len(facts) - MOST_FACTS} further facts", "in the proof", facts[MOST_FACTS])
    if by_kind["proven"]:
        yield _proven(by_kind["proven"], statements)
    if by_kind["figure"]:
        yield Key(_range(by_kind["figure"]), "computed by sizing", by_kind["figure"][0])


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
