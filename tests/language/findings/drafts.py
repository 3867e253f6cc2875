"""Short drafts for tests of findings."""

from __future__ import annotations

from baywright.exchange.drafts.plain_text import text_blocks
from baywright.language.blocks import passages
from baywright.language.findings.grounds import Grounds
from baywright.language.findings.registry import findings
from baywright.language.passages import Kind, Passage, Remark


def draft(text: str) -> tuple[Passage, ...]:
    """Return the passages of a plain text."""
    return passages(text_blocks(text))


def found(text: str, grounds: Grounds, kind: Kind) -> list[Remark]:
    """Return what is found of one kind in a plain text."""
    return [remark for remark in findings(draft(text), grounds) if remark.kind == kind]
