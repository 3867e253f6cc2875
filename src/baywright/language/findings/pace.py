"""Speech that is too fast to follow."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from baywright.language.findings.grounds import Grounds
from baywright.language.passages import Passage, Remark

SHORTEST = 10.0
"""Seconds of speech that are measured together at least; a single short cue says little."""


def pace(passages: Sequence[Passage], grounds: Grounds) -> Iterator[Remark]:
    """Yield a remark at the start of each stretch of speech that is too fast."""
    most = grounds.words_per_minute
    for stretch in _stretches(passages):
        rate = words_per_minute(stretch)
        if rate is not None and rate > most:
            said = (
                f"From here {_length(stretch):.0f} s hold {_words(stretch)} words: {rate:.0f} a "
                f"minute, and at most {most:.0f} are easy to follow."
            )
            yield Remark(stretch[0], "pace", said=said)


def words_per_minute(passages: Sequence[Passage]) -> float | None:
    """Return the words a minute of spoken passages, pauses between them left out.

    Args:
        passages: some passages in their order.

    Returns:
        words a minute, or ``None`` where nothing is spoken.
    """
    seconds = _length(passages)
    return 60 * _words(passages) / seconds if seconds else None


def _stretches(passages: Sequence[Passage]) -> Iterator[list[Passage]]:
    stretch: list[Passage] = []
    for passage in passages:
        if passage.start is None or passage.end is None:
            continue
        stretch.append(passage)
        if _length(stretch) >= SHORTEST:
            yield stretch
            stretch = []
    if stretch:
        yield stretch


def _length(passages: Sequence[Passage]) -> float:
    """Return how long some passages are spoken; cues that two of them share count once."""
    seconds, until = 0.0, 0.0
    for passage in passages:
        if passage.start is not None and passage.end is not None:
            seconds += max(0.0, passage.end - max(passage.start, until))
            until = max(until, passage.end)
    return seconds


def _words(passages: Sequence[Passage]) -> int:
    return sum(len(passage.text.split()) for passage in passages)
