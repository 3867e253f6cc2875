"""Proofreading an hour of captions, from the start of the process to the last remark."""

from __future__ import annotations

import subprocess
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

from baywright.desk.drafts.checking import proofread_file
from baywright.desk.opening import open_book
from benchmarks.captions import hour_of_captions
from benchmarks.tables import Finding, Table, Wanted, timed

MOST = 5.0
"""Seconds that were set for it."""


def findings() -> Iterator[Finding]:
    """Yield how long it takes and what was found, and the figure that was set."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "hour.vtt"
        path.write_text(hour_of_captions(), encoding="utf-8")
        seconds = min(timed(_program, path)[0] for _ in range(3))
        inside, found = timed(proofread_file, open_book("f2"), path)
    kinds = Counter(remark.kind for remark in found.remarks)
    yield Table(
        "An hour of captions against f2, in seconds",
        ("sentences", "true", "false", "the program", "without its start"),
        (
            (
                str(len(found.draft.passages)),
                str(kinds["true"]),
                str(kinds["false"]),
                f"{seconds:.1f}",
                f"{inside:.1f}",
            ),
        ),
        "Half of the sentences state something; the least of three runs of the program.",
    )
    yield Wanted("an hour of captions proofread, with process start", seconds, MOST, None, "s")


def _program(path: Path) -> None:
    program = "from baywright.cli import main; main()"
    command = [sys.executable, "-c", program, "proofread", "f2", str(path), "--json"]
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)  # noqa: S603 - our own program
