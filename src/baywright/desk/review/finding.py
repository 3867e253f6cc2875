"""What a review finds: a sentence about a place in the book, with its proof."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from baywright.facts.citation import Citation
from baywright.facts.fact import Fact, mark_of
from baywright.problems import Mark
from baywright.space import Origin


@dataclass(frozen=True, slots=True)
class Finding:
    """Something to put right in a book, or to know about it.

    Args:
        kind: what sort of thing it is, such as ``never-fitted``.
        says: one sentence.
        proof: what it stands on, sentence by sentence.
        where: file and line, or empty.
        defect: true for what should be put right; false for what is good to know.
        facts: the facts it stands on.
    """

    kind: str
    says: str
    proof: tuple[str, ...] = ()
    where: str = ""
    defect: bool = True
    facts: tuple[Citation, ...] = ()


def found(kind: str, says: str, because: Iterable[Origin], at: Fact[Any] | str | None) -> Finding:
    """Return a finding that laws and rules prove, about something the book names.

    Args:
        kind: what sort of thing it is.
        says: one sentence.
        because: the laws and rules, a minimal set.
        at: the fact or name in the book.
    """
    origins = tuple({origin.key: origin for origin in because}.values())
    facts = {fact.path: fact for origin in origins for fact in origin.facts}
    mark = at.mark if isinstance(at, Fact) else mark_of(at)
    return Finding(
        kind,
        says,
        tuple(origin.sentence for origin in origins),
        line_of(mark),
        facts=tuple(facts.values()),
    )


def line_of(mark: Mark | None) -> str:
    """Return file and line of a place, or an empty text."""
    return f"{mark.file}:{mark.line}" if mark else ""
