"""Several sets of reasons stand under each other on a page and in the text."""

from __future__ import annotations

from baywright.answers.wording import Ground, OtherGrounds, Sheet
from baywright.papers.report import Entry, Report, build_page, report_text

SHEET = Sheet(
    "No",
    "no",
    "No legal build has this.",
    grounds=(Ground("fans", "law", "Fans fitted: 4."),),
    needed="Without it a build exists.",
    others=(
        OtherGrounds(
            "Reasons, set 2",
            (Ground("slots", "law", "Slot R1a holds one card."), Ground("w", "asked", "Asked: 2.")),
            "Without either of the two a build exists.",
        ),
    ),
    complete="These two minimal sets of reasons are all there are.",
)
ENTRY = Entry("n1", "A build", "", SHEET)
REPORT = Report("Ferryman F2", "", (ENTRY,), (), (), "2031-07-01")

PARTS = (
    "Fans fitted: 4.",
    "Without it a build exists.",
    "Reasons, set 2",
    "Slot R1a holds one card.",
    "Without either of the two a build exists.",
    "These two minimal sets of reasons are all there are.",
)


def in_order(text: str) -> bool:
    places = [text.index(part) for part in PARTS]
    return places == sorted(places)


def test_on_a_page() -> None:
    assert in_order(build_page(REPORT, ENTRY))


def test_in_the_text() -> None:
    assert in_order(report_text(REPORT))
