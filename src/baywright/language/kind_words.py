"""Words for what is said of a passage: the same on every page, in every list, in every comment."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from baywright.language.passages import KINDS, Kind, Remark

KIND_WORDS: Mapping[Kind, str] = MappingProxyType(
    {
        "true": "True",
        "false": "False",
        "only-if": "True only if",
        "not-together": "Not together",
        "scope-unclear": "Scope unclear",
        "unit": "Unit",
        "generation": "Generation",
        "not-yet": "Not yet",
        "no-longer": "No longer",
        "sample": "Sample only",
        "not-in-the-book": "Not in the book",
        "not-understood": "Not understood",
        "promise": "Promise open",
        "caution-late": "Caution after action",
        "pointing": "Points",
        "name": "Name varies",
        "vague": "Vague amount",
        "must-say": "Must be said",
        "pace": "Too fast",
        "nothing": "States nothing",
    }
)

UNMARKED: frozenset[Kind] = frozenset(("true", "nothing"))
"""Kinds that call for nothing to be done."""


def marked(remarks: Iterable[Remark]) -> tuple[Remark, ...]:
    """Return the remarks that call for something to be done."""
    return tuple(remark for remark in remarks if remark.kind not in UNMARKED)


def counts(remarks: Iterable[Remark]) -> dict[Kind, int]:
    """Return how many remarks there are of each kind that occurs, in the usual order."""
    kinds = [remark.kind for remark in remarks]
    return {kind: kinds.count(kind) for kind in KINDS if kind in kinds}


def message(remark: Remark) -> str:
    """Return a remark in one line: its word, the sentence that would be true, and why."""
    parts = [remark.sentence, remark.said]
    if remark.not_understood:
        parts.append(f"Not understood: {', '.join(remark.not_understood)}.")
    told = " ".join(part for part in parts if part)
    return f"{KIND_WORDS[remark.kind]}: {told}" if told else KIND_WORDS[remark.kind]
