"""An hour of captions is read, and looked through, in less than a second."""

from __future__ import annotations

import random
import time
from pathlib import Path

from baywright.exchange.drafts.draft import read_draft
from baywright.exchange.drafts.timed_text import time_code
from baywright.files.books import find_book, read_book
from baywright.language.findings.of_book import grounds_of
from baywright.language.findings.registry import findings

SENTENCES = (
    "The F2 takes up to 24 fast drives and two network modules.",
    "We will come to the slot widths later, and then to the risers.",
    "Lift out the air guide; it cuts power.",
    "This one here is the second riser, and over there is the fan wall.",
    "It has plenty of memory sockets for each processor.",
    "If one supply fails, the machine keeps running as long as the other carries it.",
    "The PSU is on the left, and each power supply has a light.",
)
MOST_SECONDS = 1.0


def _captions() -> str:
    """Return an hour of captions with about 9,000 words, the same every time."""
    chosen = random.Random(1)  # noqa: S311 - a draft, not a secret
    words = [word for _ in range(900) for word in chosen.choice(SENTENCES).split()][:9000]
    cues = [words[at : at + 7] for at in range(0, len(words), 7)]
    length = 3600 / len(cues)
    return "WEBVTT\n\n" + "\n".join(
        f"{time_code(n * length)} --> {time_code((n + 1) * length)}\n{' '.join(cue)}\n"
        for n, cue in enumerate(cues)
    )


def test_an_hour_of_captions_takes_less_than_a_second(tmp_path: Path) -> None:
    path = tmp_path / "hour.vtt"
    path.write_text(_captions(), encoding="utf-8")
    grounds = grounds_of(read_book(find_book("f2")))
    start = time.process_time()
    passages = read_draft(path).passages
    remarks = findings(passages, grounds)
    seconds = time.process_time() - start
    assert sum(len(passage.text.split()) for passage in passages) == 9000
    assert {r.kind for r in remarks} >= {"caution-late", "pointing", "name", "vague"}
    assert seconds < MOST_SECONDS
