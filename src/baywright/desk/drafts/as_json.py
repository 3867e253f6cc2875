"""A proofread draft as plain JSON values."""

from __future__ import annotations

from baywright.desk.drafts.checking import Proofread
from baywright.language.kind_words import counts
from baywright.language.passages import Remark


def proofread_json(found: Proofread) -> dict[str, object]:
    """Return a proofread draft."""
    pace = found.words_per_minute
    return {
        "draft": str(found.draft.path),
        "book": found.opened.book.book.id,
        "as_of": found.opened.as_of.isoformat(),
        "passages": len(found.draft.passages),
        "words_per_minute": None if pace is None else round(pace),
        "counts": dict(counts(found.remarks)),
        "remarks": [_remark(remark) for remark in found.remarks],
    }


def _remark(remark: Remark) -> dict[str, object]:
    passage = remark.passage
    return {
        "kind": remark.kind,
        "where": passage.place.where,
        "line": passage.place.line,
        "column": passage.place.column,
        "block": passage.block,
        "heading": passage.heading,
        "start": passage.start,
        "end": passage.end,
        "text": passage.text,
        "reading": remark.reading,
        "not_understood": list(remark.not_understood),
        "sentence": remark.sentence,
        "said": remark.said,
        "proof": None if remark.proof is None else dict(remark.proof.as_json()),
    }
