"""Pictures and pages: of the right size, with letters, the same each time."""

from __future__ import annotations

from pathlib import Path

import font_source_sans_pro
import pytest

from baywright.drawing import pen, svg
from baywright.papers import printing
from baywright.papers.printing import pdf, png
from baywright.problems import Problems


def _drawing(*words: str) -> str:
    nodes = [svg.text(each, 5, 20 + 20 * i) for i, each in enumerate(words)]
    return svg.document((200.0, 80.0), 'A "t" <1>', "What & why", nodes, pen.CLASSES, fixed=True)


def test_a_picture_has_two_pixels_for_each_and_is_light_or_dark() -> None:
    light, dark = png(_drawing("A")), png(_drawing("A"), dark=True)
    assert light[:8] == dark[:8] == b"\x89PNG\r\n\x1a\n"
    assert (int.from_bytes(light[16:20], "big"), int.from_bytes(light[20:24], "big")) == (400, 160)
    assert light != dark


def test_a_page_is_the_same_each_time_and_takes_any_text() -> None:
    page = pdf(_drawing('R1a & < "quoted" \\ backslash #x'))
    assert page.startswith(b"%PDF-")
    assert page == pdf(_drawing('R1a & < "quoted" \\ backslash #x'))


def test_letters_come_out_without_system_fonts() -> None:
    """System fonts are not used, so a picture with letters differs from one without."""
    assert png(_drawing()) != png(_drawing("zone A"))
    assert len(pdf(_drawing("zone A"))) > len(pdf(_drawing()))


def test_a_missing_face_is_a_problem_and_not_a_picture_without_letters(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(font_source_sans_pro, "font_directory", str(tmp_path))
    printing._face.cache_clear()
    with pytest.raises(Problems, match="no-face"):
        png(_drawing("A"))
    monkeypatch.undo()
    printing._face.cache_clear()
