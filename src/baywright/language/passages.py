"""Passages of a draft with their places, and remarks about them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, Protocol, TypeAlias, get_args

Kind: TypeAlias = Literal[
    "true",
    "false",
    "only-if",
    "not-together",
    "scope-unclear",
    "unit",
    "generation",
    "not-yet",
    "no-longer",
    "sample",
    "not-in-the-book",
    "not-understood",
    "promise",
    "caution-late",
    "pointing",
    "name",
    "vague",
    "must-say",
    "pace",
    "nothing",
]
"""What a remark says of its passage; ``nothing`` where it states nothing that can be checked."""

KINDS: tuple[Kind, ...] = get_args(Kind)
"""Every kind, in the order in which summaries count them."""


@dataclass(frozen=True, slots=True)
class Place:
    """Where a passage starts in its draft.

    Args:
        where: the place as people say it, such as ``12:5``, ``slide 3`` or ``00:04:10.500``.
        line: line, counted from 1; the number of the paragraph in a DOCX file and of the slide in a
            PPTX file, which have no lines.
        column: sign of that line or paragraph, counted from 1.
    """

    where: str
    line: int
    column: int


@dataclass(frozen=True, slots=True)
class Passage:
    """One sentence of a draft.

    Args:
        text: the sentence, white space folded.
        place: where it starts.
        block: number of the paragraph, cell or run of cues it belongs to, rising through the draft.
        heading: the nearest heading above; for a cell of a table the heads of its row and column.
        start: when it starts to be spoken, in seconds, or ``None`` where nothing is spoken.
        end: when the last of it has been spoken, in seconds, or ``None``.
    """

    text: str
    place: Place
    block: int
    heading: str = ""
    start: float | None = None
    end: float | None = None


class Proof(Protocol):
    """What a remark stands on, as far as those who write it down need to know."""

    @property
    def sentences(self) -> tuple[str, ...]:
        """What it stands on, one sentence each, with source and date."""
        ...

    def as_json(self) -> Mapping[str, object]:
        """Return it as plain JSON values."""
        ...


@dataclass(frozen=True, slots=True)
class Remark:
    """What is said of one passage.

    Args:
        passage: the passage.
        kind: what is said of it.
        reading: how it was understood, as an expression, or empty.
        not_understood: words that were not understood.
        sentence: the sentence that would be true, or empty.
        said: why, one sentence, or empty.
        proof: what it stands on, or ``None``.
    """

    passage: Passage
    kind: Kind
    reading: str = ""
    not_understood: tuple[str, ...] = ()
    sentence: str = ""
    said: str = ""
    proof: Proof | None = None
