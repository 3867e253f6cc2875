"""The page on sizing: its JSON is the program's."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

from baywright.desk.request import Request
from baywright.desk.size.as_json import sized_json
from baywright.desk.size.request import SiteRequest, sized
from baywright.files.books import bundled_books
from tests.answers.json_examples import shortened

PAGE = (Path(__file__).parents[2] / "docs" / "sizing.md").read_text("utf-8")
ASKED = bundled_books()["f2"] / "builds" / "n4.yaml"


def rounded(value: Any) -> Any:
    """Return a value with its numbers to six places; the last digits are those of a processor."""
    if isinstance(value, dict):
        return {key: rounded(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [rounded(inner) for inner in value]
    return round(value, 6) if isinstance(value, float) else value


def test_the_example_is_what_the_program_prints() -> None:
    (shown,) = re.findall(r"<!-- example: size -->\n\n```json\n(.*?)\n?```", PAGE, re.DOTALL)
    found = {**sized_json(sized("f2", ASKED, Request(), SiteRequest())[1]), "legal": "<verdict>"}
    assert rounded(json.loads(shown)) == rounded(shortened(found))
