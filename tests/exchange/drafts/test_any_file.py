"""Whatever is in a file, it is read or refused with problems; nothing else comes out."""

from __future__ import annotations

import contextlib
import io
import re
import zipfile
from collections.abc import Callable
from functools import cache
from pathlib import Path

import docx
import pptx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.exchange.drafts.draft import FORMS, read_draft
from baywright.problems import Problems

# An element that holds none, or an attribute; without it the part is still XML.
_PIECE = re.compile(rb'<[\w:]+(?: [^<>]*)?/>|<([\w:]+)>[^<>]*</\1>| [\w:]+="[^"]*"')

TEXTS = sorted(set(FORMS) - {".docx", ".pptx"})
PIECES = st.sampled_from(
    (
        *("# ", "- ", "> ", "| a ", "|---|", "\n", "\n\n", "`", "```\n", "**", "[a](b 'c')"),
        *("![", "](", "[a][b]", "\\", "    ", "1. ", "* ", "~~", "<b>"),
        *("<p>", "</p>", "<td>", "<table>", "<tr>", "<!--", "<script>", "&amp;", "&#0;", "<", ">"),
        *("WEBVTT\n\n", "00:01.000 --> 00:02.000\n", "NOTE ", "-->", "<v A>", "1\n", "- "),
        *("It has 24 drives. ", "e.g. ", "N+1", "\t", "\u00ad", "\ufeff", "é", "=====\n", "---\n"),
    )
)  # fmt: skip


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("drafts")


@pytest.mark.parametrize("ending", TEXTS)
@given(st.one_of(st.text(max_size=200), st.lists(PIECES, max_size=40).map("".join)))
def test_any_text_is_read_or_refused(folder: Path, ending: str, text: str) -> None:
    path = folder / f"a{ending}"
    path.write_text(text, encoding="utf-8", newline="")
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    with contextlib.suppress(Problems):
        for passage in read_draft(path).passages:
            assert passage.text
            assert 1 <= passage.place.line <= len(lines)
            assert 1 <= passage.place.column <= len(lines[passage.place.line - 1]) + 1


@cache
def _document() -> bytes:
    made, target = docx.Document(), io.BytesIO()
    made.add_paragraph("It has 24 drives.")
    made.add_table(1, 2)
    made.save(target)
    return target.getvalue()


@cache
def _slides() -> bytes:
    made, target = pptx.Presentation(), io.BytesIO()
    slide = made.slides.add_slide(made.slide_layouts[0])
    assert slide.shapes.title is not None
    slide.shapes.title.text = "It has 24 drives."
    made.save(target)
    return target.getvalue()


MADE = pytest.mark.parametrize(("name", "made"), [("a.docx", _document), ("a.pptx", _slides)])


@MADE
@given(st.data())
def test_a_packed_file_with_wrong_bytes_is_read_or_refused(
    folder: Path, name: str, made: Callable[[], bytes], data: st.DataObject
) -> None:
    held = bytearray(made())
    for _ in range(data.draw(st.integers(1, 8))):
        held[data.draw(st.integers(0, len(held) - 1))] = data.draw(st.integers(0, 255))
    (folder / name).write_bytes(held)
    with contextlib.suppress(Problems):
        assert read_draft(folder / name).passages is not None


@MADE
@given(st.data())
def test_a_packed_file_with_wrong_xml_is_read_or_refused(
    folder: Path, name: str, made: Callable[[], bytes], data: st.DataObject
) -> None:
    """Elements, values and whole parts go missing; what is left is packed as it should be."""
    with zipfile.ZipFile(io.BytesIO(made())) as packed:
        parts = {entry: packed.read(entry) for entry in packed.namelist()}
    part = data.draw(st.sampled_from(sorted(parts)))
    spans = [found.span() for found in _PIECE.finditer(parts[part])]
    cuts: bool = data.draw(st.booleans())
    if spans and cuts:
        start, end = data.draw(st.sampled_from(spans))
        parts[part] = parts[part][:start] + parts[part][end:]
    else:
        del parts[part]
    with zipfile.ZipFile(folder / name, "w") as packed:
        for entry, content in parts.items():
            packed.writestr(entry, content)
    with contextlib.suppress(Problems):
        assert read_draft(folder / name).passages is not None
