"""Documents: Markdown with marks, numbers, widths of columns, the index."""

from __future__ import annotations

from baywright.papers.columns import shares
from baywright.papers.document import (
    Block,
    Bullets,
    Column,
    Document,
    Figure,
    Heading,
    Index,
    Paragraph,
    Run,
    Table,
    plain,
    statements_in,
    text_of,
)
from baywright.papers.markdown import Pieces, blocks_of
from baywright.papers.numbering import numbered

ROW = ((Run("A"),), (Run("24", "strong", 7, dagger=True),))
TABLE = Table("Bays", (Column("zone"), Column("most", right=True)), (ROW,))


def document(*blocks: Block) -> Document:
    return Document("Tiller T1", "guide", "Maker", (), "", blocks)


def test_marks_become_text_and_blocks() -> None:
    pieces = Pieces()
    number = pieces.line(Run("24", "plain", 7))
    table = pieces.blocks(TABLE)
    found = blocks_of(f"# Bays\n\nAt most **{number}** bays.\n{table}\n- one\n- {number}\n", pieces)
    heading, paragraph, held, items = found
    assert heading == Heading(1, "Bays")
    assert isinstance(paragraph, Paragraph)
    assert [run for run in paragraph.runs if run.statement] == [Run("24", "strong", 7)]
    assert held is TABLE
    assert isinstance(items, Bullets)
    assert text_of(items) == "one\n24"
    assert statements_in(items) == (7,)


def test_blocks_without_anything_leave_nothing() -> None:
    pieces = Pieces()
    assert blocks_of(pieces.blocks(), pieces) == ()


def test_html_in_a_text_stays_text() -> None:
    (paragraph,) = blocks_of("<b>bold</b>", Pieces())
    assert text_of(paragraph) == "<b>bold</b>"


def test_empty_sections_drop_out_and_numbers_count_what_is_left() -> None:
    held = numbered(
        document(
            Heading(1, "Empty"),
            Heading(2, "Empty too"),
            Heading(1, "Bays"),
            Heading(2, "Nothing here"),
            Heading(2, "Zones"),
            TABLE,
            TABLE,
            Figure("Front.", "<svg/>", "words"),
            Heading(1, "Bays"),
            TABLE,
        )
    )
    assert [(h.number, h.text) for h in held.headings] == [
        ("1", "Bays"),
        ("1.1", "Zones"),
        ("2", "Bays"),
    ]
    assert [h.anchor for h in held.headings] == ["bays", "zones", "bays-2"]
    labels = [b.label for b in held.blocks if isinstance(b, Table | Figure)]
    assert labels == ["Table 1-1", "Table 1-2", "Figure 1-1", "Table 2-1"]


def test_the_index_finds_terms_in_one_and_in_several() -> None:
    index = Index((("zone", ()), ("fans", ("fan",)), ("riser", ())))
    held = numbered(
        document(
            Heading(1, "Zones"),
            Paragraph((Run("A zone takes a cage."),)),
            Heading(1, "Air"),
            Paragraph((Run("Each fan moves air; an infant does not."),)),
            Heading(1, "Index"),
            index,
        )
    )
    found = next(block for block in held.blocks if isinstance(block, Index))
    assert [(e.term, [n for n, _ in e.places]) for e in found.entries] == [
        ("fans", ["2"]),
        ("zone", ["1"]),
    ]


def test_columns_get_what_their_cells_need() -> None:
    narrow, wide = shares(TABLE)
    assert narrow < 10
    assert wide < 10
    long = Table("Long", TABLE.columns, (((Run("x" * 80),), (Run("1"),)),))
    assert shares(long)[0] > 4 * shares(long)[1]
    assert plain(ROW[1]) == "24 †"
