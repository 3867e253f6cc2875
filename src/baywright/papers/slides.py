"""A document as slides (PPTX): each chapter one slide, its proof in the notes of the speaker.

Text is set in the largest size in which all that stands on a slide fits; heights are estimated,
since only the program that shows the slides knows the faces it has. Drawings get what is left.
"""

from __future__ import annotations

import io
import math
import struct
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from pptx import Presentation
from pptx.dml.color import RGBColor
from pptx.enum.text import MSO_ANCHOR, PP_ALIGN
from pptx.util import Emu, Inches, Pt

from baywright.papers.document import (
    DAGGER,
    Block,
    Bullets,
    Document,
    Figure,
    Heading,
    Line,
    Paragraph,
    Run,
    Table,
    Warned,
    plain,
    statements_in,
)
from baywright.papers.printing import png
from baywright.papers.slide_tables import INK, INK2, add_table, colour, row_lines

SHEET = colour("FBFCFA")
SERIF, SANS = "Source Serif 4", "Source Sans Pro"
WIDTH, HEIGHT, EDGE = 13.333, 7.5, 0.6
"""Size and margin of a slide [in]."""

TOP, BOTTOM = 1.45, 6.75
"""Where what stands under the title begins and ends [in]."""

SIZES = (20, 18, 16, 15, 14, 13, 12, 11, 10)
"""Sizes of the text [pt], the first that fits is taken."""

LETTER = 0.48
"""Width of a letter on average, as a share of its size."""

LEAST_FIGURE = 2.4
"""Least height of a drawing [in]."""

GAP = 0.16
"""Space between blocks [in]."""


@dataclass(frozen=True, slots=True)
class Slide:
    """A chapter as a slide.

    Args:
        title: its heading.
        blocks: what stands under it.
    """

    title: str
    blocks: tuple[Block, ...]


def document_slides(document: Document, proofs: Mapping[int, str]) -> bytes:
    """Return a document as PPTX.

    Args:
        document: the document; what stands before its first chapter goes on the first slide.
        proofs: what proves each statement, by its number, for the notes.

    Raises:
        Problems: kind ``no-face`` when the face of its drawings is not installed.
    """
    file = Presentation()
    file.slide_width, file.slide_height = Inches(WIDTH), Inches(HEIGHT)
    file.core_properties.title = f"{document.title}, {document.kind}"
    file.core_properties.author = document.maker
    for number, slide in enumerate(slides_of(document), 1):
        _add(file, document, slide, number, proofs)
    held = io.BytesIO()
    file.save(held)
    return held.getvalue()


def slides_of(document: Document) -> list[Slide]:
    """Return the slides of a document, the one with its title first."""
    lines = (Paragraph((Run(line),)) for line in document.lines)
    found = [Slide(document.title, (Paragraph((Run(document.kind, "emphasis"),)), *lines))]
    for block in document.blocks:
        if isinstance(block, Heading) and block.level == 1:
            found.append(Slide(block.text, ()))
        else:
            found[-1] = Slide(found[-1].title, (*found[-1].blocks, block))
    return found


def _add(
    file: Any,  # noqa: ANN401 - pptx has no types
    document: Document,
    slide: Slide,
    number: int,
    proofs: Mapping[int, str],
) -> None:
    page = file.slides.add_slide(file.slide_layouts[5])
    page.background.fill.solid()
    page.background.fill.fore_color.rgb = SHEET
    _title(page, slide.title, first=number == 1)
    size = _size(slide.blocks)
    top = TOP
    for block in slide.blocks:
        top += _place(page, block, top, size, _room(slide.blocks, size)) + GAP
    _foot(page, document, number)
    page.notes_slide.notes_text_frame.text = "\n".join(_notes(slide, proofs))


def _notes(slide: Slide, proofs: Mapping[int, str]) -> Iterator[str]:
    numbers = dict.fromkeys(n for block in slide.blocks for n in statements_in(block))
    for number in numbers:
        yield f"{number}. {proofs.get(number, '')}"


def _title(page: Any, words: str, *, first: bool) -> None:  # noqa: ANN401 - pptx has no types
    title = page.shapes.title
    title.left, title.top = Inches(EDGE), Inches(0.4)
    title.width, title.height = Inches(WIDTH - 2 * EDGE), Inches(0.85)
    frame = title.text_frame
    frame.text, frame.vertical_anchor = words, MSO_ANCHOR.BOTTOM
    frame.margin_left = frame.margin_right = 0
    paragraph = frame.paragraphs[0]
    paragraph.alignment = PP_ALIGN.LEFT
    _face(paragraph.runs[0].font, SERIF, 40 if first else 30)
    _rule(page, 1.3)


def _rule(page: Any, top: float) -> None:  # noqa: ANN401 - pptx has no types
    line = page.shapes.add_connector(
        1, Inches(EDGE), Inches(top), Inches(WIDTH - EDGE), Inches(top)
    )
    line.shadow.inherit = False
    line.line.color.rgb, line.line.width = INK, Pt(1)


def _foot(page: Any, document: Document, number: int) -> None:  # noqa: ANN401 - pptx has no types
    frame = _box(page, EDGE, 6.95, WIDTH - 2 * EDGE - 0.6, 0.3)
    _run(frame.paragraphs[0], Run(document.foot), SANS, 9, INK2)
    frame = _box(page, WIDTH - EDGE - 0.5, 6.95, 0.5, 0.3)
    frame.paragraphs[0].alignment = PP_ALIGN.RIGHT
    _run(frame.paragraphs[0], Run(str(number)), SANS, 12, INK)


def _size(blocks: Sequence[Block]) -> int:
    """Return the largest size in which blocks fit."""
    fits = (size for size in SIZES if _room(blocks, size) >= LEAST_FIGURE * _figures(blocks))
    return next(fits, SIZES[-1])


def _figures(blocks: Sequence[Block]) -> int:
    return sum(isinstance(block, Figure) for block in blocks)


def _room(blocks: Sequence[Block], size: float) -> float:
    """Return the height that text leaves for drawings [in]; negative where it overflows."""
    return BOTTOM - TOP - sum(_height(block, size) + GAP for block in blocks)


def _height(block: Block, size: float) -> float:
    """Return the height of a block [in]; of a drawing only that of its caption."""
    line = size * 1.28 / 72
    match block:
        case Heading() | Paragraph():
            words = block.text if isinstance(block, Heading) else plain(block.runs)
            return line * _lines(words, size)
        case Bullets():
            return sum(line * _lines(plain(item), size, 0.3) + 0.06 for item in block.items)
        case Table():
            rows = row_lines(block, _letters(size * 0.85))
            notes = sum(_lines(plain(note), size * 0.85) for note in block.notes)
            return line * 0.85 * (sum(rows) + notes) + 0.1 * len(rows)
        case Warned():
            return line * _lines(_warning(block), size, 0.5) + 0.1
        case _:
            return 0.0


def _letters(size: float, less: float = 0.0) -> float:
    """Return how many letters of a size stand on a line."""
    return (WIDTH - 2 * EDGE - less) * 72 / (size * LETTER)


def _lines(words: str, size: float, less: float = 0.0) -> int:
    return max(1, math.ceil(len(words) / _letters(size, less)))


def _warning(block: Warned) -> str:
    return f"{block.word} {block.hazard} {block.consequence} {block.avoidance}"


def _place(page: Any, block: Block, top: float, size: float, room: float) -> float:  # noqa: ANN401
    """Put a block on a slide and return its height [in]."""
    height = _height(block, size)
    match block:
        case Figure():
            return _picture(page, block, top, room)
        case Table():
            add_table(page, block, (EDGE, top, WIDTH - 2 * EDGE, height), size * 0.85)
        case Warned():
            _caution(page, block, top, height, size)
        case Paragraph(runs=runs):
            _text(_box(page, EDGE, top, WIDTH - 2 * EDGE, height), [runs], size)
        case Bullets(items=items):
            marked = [(Run("–  "), *item) for item in items]
            _text(_box(page, EDGE, top, WIDTH - 2 * EDGE, height), marked, size)
        case Heading(text=text):
            lines: list[Line] = [(Run(text, "strong"),)]
            _text(_box(page, EDGE, top, WIDTH - 2 * EDGE, height), lines, size)
        case _:
            return 0.0
    return height


def _picture(page: Any, block: Figure, top: float, room: float) -> float:  # noqa: ANN401
    picture = png(block.svg)
    wide, tall = struct.unpack(">II", picture[16:24])
    width = min(WIDTH - 2 * EDGE, room * wide / tall)
    shape = page.shapes.add_picture(
        io.BytesIO(picture), Inches(EDGE), Inches(top), Inches(width), Inches(width * tall / wide)
    )
    shape._element.nvPicPr.cNvPr.set("descr", block.words)  # noqa: SLF001 - pptx has no other way
    return float(width * tall / wide)


def _caution(page: Any, block: Warned, top: float, height: float, size: float) -> None:  # noqa: ANN401
    _rule(page, top)
    said = f"{block.hazard} {block.consequence} {block.avoidance}"
    line: Line = (Run(f"⚠ {block.word}  ", "strong"), Run(said))
    _text(_box(page, EDGE, top + 0.05, WIDTH - 2 * EDGE, height), [line], size)
    _rule(page, top + height)


def _box(page: Any, left: float, top: float, width: float, height: float) -> Any:  # noqa: ANN401
    shape = page.shapes.add_textbox(Inches(left), Inches(top), Inches(width), Inches(height))
    frame = shape.text_frame
    frame.word_wrap = True
    frame.margin_left = frame.margin_right = frame.margin_top = frame.margin_bottom = Emu(0)
    return frame


def _text(frame: Any, lines: Sequence[Line], size: float) -> None:  # noqa: ANN401
    for at, line in enumerate(lines):
        paragraph = frame.paragraphs[0] if at == 0 else frame.add_paragraph()
        paragraph.space_after = Pt(4)
        for run in line:
            _run(paragraph, run, SERIF, size, INK)


def _run(paragraph: Any, run: Run, face: str, size: float, ink: RGBColor) -> None:  # noqa: ANN401
    made = paragraph.add_run()
    made.text = f"{run.text} {DAGGER}" if run.dagger else run.text
    _face(made.font, face, size)
    made.font.bold, made.font.italic = run.style == "strong", run.style == "emphasis"
    made.font.color.rgb = ink


def _face(font: Any, name: str, size: float) -> None:  # noqa: ANN401 - pptx has no types
    font.name, font.size = name, Pt(size)
    font.color.rgb = INK
