"""The page on the guide names all there is today, and its example reads as it says."""

from __future__ import annotations

import re
from pathlib import Path

from baywright.desk.guide.making import make_guide
from baywright.desk.guide.notation import CALLS, Template
from baywright.desk.guide.tables.registry import TABLES
from baywright.desk.opening import open_book
from baywright.desk.statements.registry import KINDS
from baywright.papers.document import text_of

PAGE = (Path(__file__).parents[2] / "docs" / "guide.md").read_text("utf-8")


def test_the_page_names_every_call_table_and_kind() -> None:
    for name in CALLS:
        assert f"`{name}(" in PAGE, name
    listed = PAGE[PAGE.index("\nTables: ") : PAGE.index("## Statements")]
    assert set(re.findall(r"`([a-z-]+)`", listed)) == set(TABLES)
    for name in KINDS:
        assert f"| `{name}` |" in PAGE


def test_the_example_reads_as_the_page_says() -> None:
    example = re.search(r"```\n(.*?)```", PAGE, re.DOTALL)
    said = re.search(r"^> (.*)$", PAGE, re.MULTILINE)
    assert example is not None
    assert said is not None
    made = make_guide(open_book("p1"), [Template("example.md", example[1])])
    blocks = [text_of(block) for block in made.document.blocks]
    assert blocks[0] == "Bays"
    assert " ".join(blocks[1:]) == said[1]
