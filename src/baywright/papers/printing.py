"""Drawings as pictures and pages: PNG by resvg, PDF by typst, with letters of a known face.

Both renderers read SVG without CSS variables, so that colours are put in first. The face comes with
a package of its own (Source Sans Pro, OFL-1.1) and system fonts are left out: the same drawing
gives the same picture on every machine, one without any fonts included.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path

import font_source_sans_pro
import resvg_py
import typst

from baywright.drawing.palette import DARK, LIGHT, PRINT, coloured
from baywright.problems import problem

FACE = "Source Sans Pro"
FILES = ("SourceSansPro-Regular.ttf", "SourceSansPro-Semibold.ttf")

PIXELS_PER_POINT = 96 / 72
"""A CSS pixel is 1/96 inch and a point 1/72 inch (CSS Values and Units 4, absolute lengths)."""

PAGE = """
#set page(width: {width}pt, height: {height}pt, margin: 0pt)
#set document(title: {title}, date: none)
#set text(lang: "en")
#image(bytes(sys.inputs.drawing), format: "svg", width: 100%, alt: {alt})
"""


def png(svg: str, *, zoom: int = 2, dark: bool = False) -> bytes:
    """Return a drawing as a PNG picture.

    Args:
        svg: the drawing.
        zoom: pixels of the picture for each of the drawing.
        dark: whether it is light on dark.

    Raises:
        Problems: kind ``no-face`` when the face is not installed.
    """
    return resvg_py.svg_to_bytes(
        svg_string=coloured(svg, DARK if dark else LIGHT),
        zoom=zoom,
        skip_system_fonts=True,
        font_files=[str(path) for path in _face()],
        font_family=FACE,
        sans_serif_family=FACE,
    )


def pdf(svg: str) -> bytes:
    """Return a drawing as a PDF of one page of its own size, in ink only, tagged, with its text.

    Raises:
        Problems: kind ``no-face`` when the face is not installed.
    """
    width, height = _size(svg)
    page = PAGE.format(
        width=round(width / PIXELS_PER_POINT, 2),
        height=round(height / PIXELS_PER_POINT, 2),
        title=_quoted(_element(svg, "title")),
        alt=_quoted(_element(svg, "desc")),
    )
    return typeset(page.encode(), {"drawing": coloured(svg, PRINT)})


def typeset(layout: bytes, inputs: Mapping[str, str]) -> bytes:
    """Return what a layout in the language of typst makes, as a tagged PDF.

    Args:
        layout: the layout; it may use the face, and the serif that comes with typst.
        inputs: texts by name, which the layout reads from ``sys.inputs``.

    Raises:
        Problems: kind ``no-face`` when the face is not installed.
    """
    return typst.compile(
        layout,
        format="pdf",
        font_paths=typst.Fonts(include_system_fonts=False, font_paths=[_face()[0].parent]),
        sys_inputs=dict(inputs),
        # The same input is the same file, whenever it is made.
        timestamp=datetime.datetime(2000, 1, 1, tzinfo=datetime.UTC),
    )


@cache
def _face() -> tuple[Path, ...]:
    folder = Path(font_source_sans_pro.font_directory)
    found = tuple(folder / name for name in FILES)
    missing = [path.name for path in found if not path.is_file()]
    if missing:
        message = f"The face {FACE} is not there: {', '.join(missing)} is missing in {folder}."
        raise problem("no-face", message, None, "Install the package font-source-sans-pro again.")
    return found


def _size(svg: str) -> tuple[float, float]:
    match = re.search(r'viewBox="0 0 ([\d.]+) ([\d.]+)"', svg)
    if match is None:
        raise ValueError("a drawing has a viewBox that begins at 0 0")
    return float(match[1]), float(match[2])


def _element(svg: str, name: str) -> str:
    match = re.search(rf"<{name}>(.*?)</{name}>", svg, re.DOTALL)
    return match[1] if match else ""


def _quoted(words: str) -> str:
    """Return XML text as a string of typst."""
    plain = words.replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&")
    escaped = plain.replace("\\", "\\\\").replace('"', '\\"').replace("\n", " ")
    return f'"{escaped}"'
