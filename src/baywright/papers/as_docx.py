"""A document as a text file of an office program (DOCX), by styles, so that it can be edited.

What stands in the outer column on paper follows the block here, set small.
"""

from __future__ import annotations

import io
from collections.abc import Iterable, Sequence
from typing import Any

import docx
from docx.enum.text import WD_TAB_ALIGNMENT
from docx.oxml import OxmlElement
from docx.oxml.ns import qn
from docx.shared import Mm, Pt, RGBColor

from baywright.papers.document import (
    DAGGER,
    Block,
    Bullets,
    Document,
    Figure,
    Heading,
    Index,
    Key,
    Line,
    Paragraph,
    Table,
    Warned,
)
from baywright.papers.docx_tables import table_xml
from baywright.papers.printing import png

SERIF, SANS, MONO = "Source Serif 4", "Source Sans Pro", "DejaVu Sans Mono"
SOFT = RGBColor(0x3F, 0x4E, 0x4A)
TEXT_WIDTH = 165
"""Width of the text [mm]: A4 with margins of 25 and 20 mm."""


def document_docx(document: Document) -> bytes:
    """Return a document as DOCX.

    Raises:
        Problems: kind ``no-face`` when the face of its drawings is not installed.
    """
    file = docx.Document()
    _prepare(file, document)
    _front(file, document)
    for block in document.blocks:
        _add(file, block, parted=document.form in ("book", "parts", "slides"))
    held = io.BytesIO()
    file.save(held)
    return held.getvalue()


def _prepare(file: Any, document: Document) -> None:  # noqa: ANN401 - docx has no types
    section = file.sections[0]
    section.page_width, section.page_height = Mm(210), Mm(297)
    section.left_margin, section.right_margin = Mm(25), Mm(20)
    section.top_margin, section.bottom_margin = Mm(25), Mm(25)
    file.core_properties.title = f"{document.title}, {document.kind}"
    file.core_properties.author = document.maker
    file.core_properties.language = document.language
    _set_styles(file.styles)
    section.header.paragraphs[0].text = f"{document.title}  {document.kind}"
    foot = section.footer.paragraphs[0]
    foot.paragraph_format.tab_stops.add_tab_stop(Mm(TEXT_WIDTH), WD_TAB_ALIGNMENT.RIGHT)
    foot.add_run(f"{document.foot}\t").font.size = Pt(7)
    _field(foot, "PAGE")


def _set_styles(styles: Any) -> None:  # noqa: ANN401 - docx has no types
    normal = styles["Normal"]
    normal.font.name, normal.font.size = SERIF, Pt(10)
    for level, size in ((1, 22), (2, 16), (3, 12)):
        heading = styles[f"Heading {level}"]
        heading.font.name, heading.font.size, heading.font.bold = SERIF, Pt(size), False
        heading.font.color.rgb = RGBColor(0x13, 0x20, 0x1D)
        _set_fonts(heading.element, SERIF)
    for name, size in (("Title", 30), ("Subtitle", 16)):
        title = styles[name]
        title.font.size, title.font.italic = Pt(size), False
        title.font.color.rgb = RGBColor(0x13, 0x20, 0x1D)
        _set_fonts(title.element, SERIF)
    caption = styles["Caption"]
    caption.font.name, caption.font.size, caption.font.bold = SANS, Pt(9), False
    caption.font.color.rgb = RGBColor(0x13, 0x20, 0x1D)
    caption.paragraph_format.keep_with_next = True


def _set_fonts(element: Any, name: str) -> None:  # noqa: ANN401 - docx has no types
    """Set a face in place of that of the theme, which goes before a plain name."""
    fonts = element.rPr.rFonts
    for kind in ("asciiTheme", "hAnsiTheme", "eastAsiaTheme", "cstheme"):
        fonts.attrib.pop(qn(f"w:{kind}"), None)
    fonts.set(qn("w:ascii"), name)
    fonts.set(qn("w:hAnsi"), name)


def _front(file: Any, document: Document) -> None:  # noqa: ANN401 - docx has no types
    file.add_paragraph(document.title, style="Title")
    file.add_paragraph(document.kind, style="Subtitle")
    for line in document.lines:
        file.add_paragraph(line)
    if document.form == "book":
        _contents(file, [heading for heading in document.headings if heading.level <= 2])


def _contents(file: Any, headings: Sequence[Heading]) -> None:  # noqa: ANN401 - docx has no types
    """Write the contents as a field that is filled in; an office program adds pages to it."""
    lines = [file.add_paragraph(f"{each.number}  {each.text}") for each in headings]
    for line, heading in zip(lines, headings, strict=True):
        line.paragraph_format.left_indent = Mm(8 * (heading.level - 1))
        line.paragraph_format.space_after = Pt(0)
    if lines:
        first = lines[0].runs[0]._r  # noqa: SLF001 - docx offers no other way to a field
        for mark in (_mark("begin"), _code('TOC \\o "1-2" \\h \\z \\u'), _mark("separate")):
            first.addprevious(mark)
        lines[-1].runs[-1]._r.addnext(_mark("end"))  # noqa: SLF001


def _field(paragraph: Any, code: str) -> None:  # noqa: ANN401 - docx has no types
    run = paragraph.add_run("1")._r  # noqa: SLF001
    for mark in (_mark("begin"), _code(code), _mark("separate")):
        run.addprevious(mark)
    run.addnext(_mark("end"))


def _mark(kind: str) -> Any:  # noqa: ANN401 - docx has no types
    run, mark = OxmlElement("w:r"), OxmlElement("w:fldChar")
    mark.set(qn("w:fldCharType"), kind)
    run.append(mark)
    return run


def _code(code: str) -> Any:  # noqa: ANN401 - docx has no types
    run, told = OxmlElement("w:r"), OxmlElement("w:instrText")
    told.text = code
    run.append(told)
    return run


def _add(file: Any, block: Block, *, parted: bool) -> None:  # noqa: ANN401 - docx has no types
    match block:
        case Heading():
            heading = file.add_heading(f"{block.number}  {block.text}".strip(), block.level)
            heading.paragraph_format.page_break_before = block.level == 1 and parted
        case Paragraph():
            _fill(file.add_paragraph(), block.runs)
            _beside(file, block.beside)
        case Bullets():
            for item in block.items:
                _fill(file.add_paragraph(style=_item(block)), item)
            _beside(file, block.beside)
        case Table():
            _table(file, block)
        case Figure():
            file.add_picture(io.BytesIO(png(block.svg)), width=Mm(TEXT_WIDTH))
            _describe(file, block.words)
            file.paragraphs[-1].paragraph_format.keep_with_next = True
            file.add_paragraph(f"{block.label}  {block.title}", style="Caption")
        case Warned():
            _caution(file, block)
        case Index():
            for entry in block.entries:
                numbers = ", ".join(number for number, _ in entry.places)
                file.add_paragraph(f"{entry.term}  {numbers}")


def _table(file: Any, table: Table) -> None:  # noqa: ANN401 - docx has no types
    file.add_paragraph(f"{table.label}  {table.title}", style="Caption")
    file.element.body.insert(len(file.element.body) - 1, table_xml(table))
    for note in table.notes:
        _fill(file.add_paragraph(), note, 9)
    _beside(file, table.beside)
    file.add_paragraph()


def _item(block: Bullets) -> str:
    return "List Number" if block.ordered else "List Bullet"


def _describe(file: Any, words: str) -> None:  # noqa: ANN401 - docx has no types
    """Give the last picture its text for those who do not see it."""
    file.inline_shapes[len(file.inline_shapes) - 1]._inline.docPr.set("descr", words)  # noqa: SLF001


def _fill(paragraph: Any, line: Line, size: float = 0) -> None:  # noqa: ANN401 - docx has no types
    for each in line:
        run = paragraph.add_run(f"{each.text} {DAGGER}" if each.dagger else each.text)
        run.bold = each.style == "strong" or None
        run.italic = each.style == "emphasis" or None
        if each.style == "code":
            run.font.name = MONO
        if size:
            run.font.size = Pt(size)


def _beside(file: Any, keys: Iterable[Key]) -> None:  # noqa: ANN401 - docx has no types
    said = "; ".join(f"{each.key}: {each.said}" if each.said else each.key for each in keys)
    if said:
        run = file.add_paragraph().add_run(said)
        run.font.size, run.font.name, run.font.color.rgb = Pt(7), SANS, SOFT


def _caution(file: Any, block: Warned) -> None:  # noqa: ANN401 - docx has no types
    paragraph = file.add_paragraph()
    paragraph.paragraph_format.keep_together = True
    _border(paragraph)
    paragraph.add_run(f"\u26a0 {block.word}  ").bold = True
    paragraph.add_run(f"{block.hazard} {block.consequence} {block.avoidance}")


def _border(paragraph: Any) -> None:  # noqa: ANN401 - docx has no types
    borders = OxmlElement("w:pBdr")
    for side in ("top", "bottom"):
        line = OxmlElement(f"w:{side}")
        for name, value in (("val", "single"), ("sz", "8"), ("space", "4"), ("color", "13201D")):
            line.set(qn(f"w:{name}"), value)
        borders.append(line)
    paragraph._p.get_or_add_pPr().append(borders)  # noqa: SLF001 - docx has no borders
