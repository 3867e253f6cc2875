"""A statement: a value with the query it answers, its proof and the facts it stands on."""

from __future__ import annotations

import datetime
import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from baywright.desk.statements.query import Query
from baywright.facts.citation import Citation
from baywright.problems import Mark, Problems, problem


@dataclass(frozen=True, slots=True)
class Ground:
    """A law, a rule or a part of the question that a refusal stands on.

    Args:
        key: its identity.
        kind: law, rule or wish.
        sentence: what it says.
    """

    key: str
    kind: str
    sentence: str


@dataclass(frozen=True, slots=True)
class Statement:
    """Something said of a machine, with its proof.

    Args:
        query: what it answers.
        value: the answer as canonical JSON values; two statements agree when these are equal.
        words: the same in words.
        engine: what found it: an engine, ``sizing`` for figures, ``book`` for facts.
        rechecked_by: what checked it again when it was made.
        witness: a legal build that shows it, label by choice; empty where none does.
        reasons: why nothing else is so; a minimal set for the kind ``ask``.
        facts: the facts it stands on.
    """

    query: Query
    value: Any
    words: str
    engine: str
    rechecked_by: str = ""
    witness: Mapping[str, str] | None = None
    reasons: tuple[Ground, ...] = ()
    facts: tuple[Citation, ...] = ()

    @property
    def verdict(self) -> str:
        """The type of the answer, such as ``yes``, ``most`` or ``fact``."""
        return str(self.value["is"])

    def as_json(self) -> dict[str, Any]:
        """Return the statement as JSON values."""
        return {
            "query": self.query.as_json(),
            "value": self.value,
            "words": self.words,
            "engine": self.engine,
            "rechecked_by": self.rechecked_by,
            "witness": dict(self.witness) if self.witness is not None else None,
            "reasons": [
                {"key": each.key, "kind": each.kind, "sentence": each.sentence}
                for each in self.reasons
            ],
            "facts": [fact.as_json() for fact in self.facts],
        }


def statement_from(written: Mapping[str, Any]) -> Statement:
    """Return the statement that ``as_json`` wrote.

    Raises:
        KeyError: when something of it is missing.
        Problems: for a query that is none.
    """
    return Statement(
        Query.from_json(written["query"]),
        written["value"],
        written["words"],
        written["engine"],
        written["rechecked_by"],
        written["witness"],
        tuple(Ground(each["key"], each["kind"], each["sentence"]) for each in written["reasons"]),
        tuple(_citation(each) for each in written["facts"]),
    )


def _citation(written: Mapping[str, Any]) -> Citation:
    return Citation(
        written["fact"],
        written["value"],
        _mark(written["where"]),
        written["source"] or "",
        datetime.date.fromisoformat(written["date"]) if written["date"] else None,
        written["status"],
    )


def _mark(written: str | None) -> Mark | None:
    if not written:
        return None
    file, line, column = written.rsplit(":", 2)
    return Mark(file, int(line), int(column))


def write_statements(statements: Iterable[Statement], path: Path) -> None:
    """Write statements to a file, one JSON object on each line."""
    lines = (json.dumps(each.as_json(), ensure_ascii=False) for each in statements)
    path.write_text("".join(f"{line}\n" for line in lines), "utf-8")


def read_statements(path: Path) -> tuple[Statement, ...]:
    """Read statements from a file.

    Raises:
        Problems: kinds ``not-a-file`` and ``not-a-statement``, the latter with its line.
    """
    try:
        text = path.read_text("utf-8")
    except (OSError, UnicodeDecodeError) as error:
        hint = "Name a file of statements."
        raise problem("not-a-file", f"{path} cannot be read.", None, hint) from error
    return tuple(_read(text.splitlines(), str(path)))


def _read(lines: Iterable[str], file: str) -> Iterator[Statement]:
    for number, line in enumerate(lines, 1):
        if not line.strip():
            continue
        try:
            yield statement_from(json.loads(line))
        except (KeyError, TypeError, ValueError, AttributeError, Problems) as error:
            message = "This line is not a statement."
            hint = "Write the file again, or restore this line."
            raise problem("not-a-statement", message, Mark(file, number, 1), hint) from error
