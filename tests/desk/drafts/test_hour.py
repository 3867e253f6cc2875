"""An hour of captions is proofread in the time that was set for it."""

from __future__ import annotations

import time
from collections import Counter
from pathlib import Path

import pytest

from baywright.desk.drafts.checking import proofread_file
from baywright.desk.opening import open_book
from benchmarks.captions import CUES, WORDS, hour_of_captions

MOST_SECONDS = 9.0
"""Of processor time; twice of what it takes where nothing else runs, as timings of CI go."""


@pytest.mark.slow
def test_an_hour_of_captions_is_proofread(tmp_path: Path) -> None:
    path = tmp_path / "hour.vtt"
    path.write_text(hour_of_captions(), encoding="utf-8")
    assert path.read_text(encoding="utf-8").count("-->") == CUES
    start = time.process_time()
    found = proofread_file(open_book("f2"), path)
    seconds = time.process_time() - start
    assert sum(len(passage.text.split()) for passage in found.draft.passages) >= WORDS
    kinds = Counter(remark.kind for remark in found.remarks)
    assert kinds["true"] >= 100
    assert kinds["false"] >= 100
    assert seconds < MOST_SECONDS, f"{seconds:.1f} s"
