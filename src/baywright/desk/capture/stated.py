"""What an entry of a book states already, and whether a cell says the same."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from baywright.desk.capture.targets import Leaf
from baywright.facts.fact import Fact
from baywright.facts.model import Model
from baywright.files.shape import fields_of, reads_of


def stated(entry: Model | None, path: Sequence[str]) -> Any:  # noqa: ANN401 - what a field holds
    """Return what an entry states in a field, or ``None`` where it leaves it out."""
    held: Any = entry
    for step in path:
        held = held.get(step) if isinstance(held, dict) else _field(held, step)
    return None if held in ([], "", {}) else held


def _field(model: Model | None, name: str) -> Any:  # noqa: ANN401 - what a field holds
    if model is None or name not in fields_of(type(model)):
        return None
    keys = {info.alias or key: key for key, info in type(model).model_fields.items()}
    return getattr(model, keys[name]) if keys[name] in model.model_fields_set else None


def says_same(there: Any, value: Any, leaf: Leaf) -> bool:  # noqa: ANN401 - what a field holds
    """Say whether a cell says what a book states.

    Args:
        there: what the book states.
        value: what the cell stands for, as a book writes it.
        leaf: the field.
    """
    if isinstance(there, list):
        return isinstance(value, list) and sorted(map(said, there)) == sorted(value)
    if not isinstance(there, Fact):
        return bool(there == value)
    if isinstance(value, dict):
        return bool(list(there.could_be) == value["could_be"])
    reads = reads_of(leaf.annotation)
    if reads is None:
        return False
    return bool(reads.reader(value) == there.value)


def said(there: Any) -> str:  # noqa: ANN401 - what a field holds
    """Return what a book states in a field, as written."""
    if isinstance(there, list):
        return ", ".join(map(said, there))
    if isinstance(there, Fact):
        return " or ".join(there.could_be) if there.value is None else there.text
    return str(there)
