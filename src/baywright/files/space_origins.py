"""Origins in space files: which law or rule a table or sum is, in what words, on which facts."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from typing import Any, get_args

from baywright.facts.citation import Citation
from baywright.files.json_places import Path, path_text
from baywright.files.space_checks import MOST_IN_A_SENTENCE, Checks
from baywright.problems import Mark
from baywright.space import Kind, Origin

ORIGIN = ("id", "kind", "says", "facts")
"""Keys that say where a table or a sum comes from."""

_FACT = ("fact", "value", "where", "source", "date", "status")
_KINDS: tuple[Kind, ...] = get_args(Kind)


def key_of(checks: Checks, held: Mapping[str, object], path: Path) -> str:
    """Return the key of an origin; one without an id is called by its place in the file."""
    return checks.text(held.get("id", path_text(path)), (*path, "id"))


def origin_of(
    checks: Checks, held: Mapping[str, object], path: Path, key: str, standard: str
) -> Origin:
    """Read an origin.

    Args:
        checks: what takes the refusals.
        held: the object that has it.
        path: path of that object.
        key: the key of the origin.
        standard: its sentence when the file gives none.
    """
    kind = checks.name(held.get("kind", "law"), (*path, "kind"), _KINDS, "kind")
    sentence = checks.text(held.get("says", standard), (*path, "says"), MOST_IN_A_SENTENCE)
    listed = checks.listing(held.get("facts", []), (*path, "facts"), "A list of facts")
    facts = [_fact(checks, each, (*path, "facts", place)) for place, each in enumerate(listed)]
    found: Kind = next((each for each in _KINDS if each == kind), "law")
    return Origin(key, found, sentence, tuple(facts))


def origin_json(origin: Origin) -> dict[str, Any]:
    """Return an origin in its JSON form."""
    return {
        "id": origin.key,
        "kind": origin.kind,
        "says": origin.sentence,
        "facts": [_fact_json(fact) for fact in origin.facts],
    }


def _fact_json(fact: Citation) -> dict[str, object]:
    return {key: value for key, value in fact.as_json().items() if value not in (None, "")}


def _fact(checks: Checks, value: object, path: Path) -> Citation:
    held = checks.mapping(value, path, "An object")
    checks.keys(held, path, _FACT)
    said = {
        name: checks.text(held[name], (*path, name), MOST_IN_A_SENTENCE)
        for name in _FACT
        if name in held
    }
    return Citation(
        said.get("fact", ""),
        said.get("value", ""),
        _place(checks, said.get("where", ""), (*path, "where")),
        said.get("source", ""),
        _date(checks, said.get("date", ""), (*path, "date")),
        said.get("status", "stated"),
    )


def _place(checks: Checks, text: str, path: Path) -> Mark | None:
    file, *numbers = text.rsplit(":", 2)
    if len(numbers) == 2 and all(n.isascii() and n.isdigit() and len(n) < 9 for n in numbers):
        return Mark(file, int(numbers[0]), int(numbers[1]))
    if text:
        checks.refuse(path, "not-a-place", "This is no place.", "Write it like 'parts.yaml:3:5'.")
    return None


def _date(checks: Checks, text: str, path: Path) -> datetime.date | None:
    try:
        return datetime.date.fromisoformat(text) if text else None
    except ValueError:
        checks.refuse(path, "not-a-date", "This is no date.", "Write it like '2031-07-01'.")
        return None
