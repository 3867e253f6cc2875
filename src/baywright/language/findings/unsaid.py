"""What a draft must say and does not."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from baywright.language.findings.grounds import Grounds, Quoted
from baywright.language.passages import Passage, Remark
from baywright.language.word_forms import stems


def unsaid(passages: Sequence[Passage], grounds: Grounds) -> Iterator[Remark]:
    """Yield a remark on each sentence that a draft must say and does not.

    It stands beside the first passage about its matter, or at the end where it belongs into any
    draft.
    """
    if not passages:
        return
    texts = [_padded(passage.text) for passage in passages]
    for needed in grounds.needed:
        about = [at for at, text in enumerate(texts) if _has(text, needed.about)]
        if needed.about and not about:
            continue
        if any(_has(text, (needed.says, *needed.counts)) for text in texts):
            continue
        yield Remark(
            passages[about[0] if about else -1],
            "must-say",
            sentence=needed.says,
            said="A draft about this must say it, and this one does not.",
            proof=Quoted(needed.facts),
        )


def _padded(text: str) -> str:
    return f" {' '.join(stems(text))} "


def _has(text: str, phrases: Iterable[str]) -> bool:
    return any(_padded(phrase) in text for phrase in phrases)
