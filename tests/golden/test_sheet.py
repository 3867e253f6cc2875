"""A sheet as it is laid out in a terminal and as a page, kept beside this test.

After a change that is meant, write both again with ``BAYWRIGHT_GOLDEN=write`` and look at them.
"""

from __future__ import annotations

import io
import os
from fractions import Fraction
from pathlib import Path

from rich.console import Console

from baywright.answers.wording import (
    AID,
    Fitted,
    Ground,
    Group,
    Load,
    Near,
    Quote,
    Row,
    Segment,
    Sheet,
    Turn,
)
from baywright.cli.sheets import sheet
from baywright.papers.report import Entry, Report, build_page

HERE = Path(__file__).parent


def load(*watts: int) -> Load:
    used = sum(watts)
    left = f"{abs(1000 - used)} W {'left' if used <= 1000 else 'over'}"
    labels = ("base", "fans", "processors", "drives")
    return Load(
        "Peak draw, W DC",
        tuple(Segment(*each) for each in zip(labels, map(Fraction, watts), strict=True)),
        Fraction(1000),
        "2 × 1300 W supply (ps-1300) on low line: 1,000 W",
        f"The peak draw is {used:,} W against 1,000 W: {left}.",
        left,
    )


BUILD = Fitted(
    "The build",
    (Group("Processors", (Row("Processor 1", "16-core processor (cpu-16)"),)),),
    (Row("Peak draw", "943 W"),),
)
SHEET = Sheet(
    "No",
    "no",
    "It cannot be built as asked. The peak draw is 1,109 W against 1,000 W: 109 W over.",
    reading="Quay Hollin Record Office: 120 V at the feeds.",
    grounds=(
        Ground(
            "supplies.rating/PS",
            "law",
            "What supplies carry follows from their rating on the line.",
            "",
            (
                Quote(
                    "1000 W",
                    "parts.ps-1300.ratings.low",
                    "Brackenmoor power data sheet, 2031-04-25",
                    "books/f2/parts.yaml:340",
                ),
            ),
        ),
        Ground(
            "wish:1",
            "asked",
            "Asked: the supplies are redundant.",
            "Here the peak draw is 1,109 W against 1,000 W: 109 W over.",
        ),
    ),
    needed="Without either of the two a build exists.",
    nearest=(
        Near(
            "2 changes",
            (Turn("P1 and P2", "cpu-32", "cpu-16"),),
            BUILD,
            load(45, 132, 334, 432),
            "The peak draw is 943 W against 1,000 W: 57 W left.",
        ),
    ),
    notes=(Group("Asked", (Row("must have", "supplies_redundant"),)),),
    load=load(45, 132, 500, 432),
    proof="Answered by search, re-checked by cpsat, 9 ms.",
    standing="Ferryman F2 (book f2), as of 2031-07-01: shipping.",
    aid=AID,
)


def _matches(name: str, text: str) -> None:
    path = HERE / name
    if os.environ.get("BAYWRIGHT_GOLDEN") == "write":
        path.write_text(text, encoding="utf-8")
    assert path.read_text(encoding="utf-8") == text


def test_in_a_terminal_of_60_columns() -> None:
    out = io.StringIO()
    console = Console(file=out, width=60, highlight=False, markup=False, color_system=None)
    for part in sheet(SHEET):
        console.print(part)
    lines = [line.rstrip() for line in out.getvalue().splitlines()]
    _matches("sheet.txt", "\n".join(lines) + "\n")


def test_as_a_page() -> None:
    entry = Entry("n4", "Quay Hollin <Record Office>", "", SHEET)
    report = Report("Ferryman F2", "Brackenmoor Works.", (), (entry,), (), "2031-07-01")
    _matches("sheet.html", build_page(report, entry))
