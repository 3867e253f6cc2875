"""JSON: exact numbers, and the keys that the page promises."""

from __future__ import annotations

import json
import re
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from baywright.answers.as_json import amount_json
from tests.answers.json_examples import examples, pieces, shortened

PAGE = Path(__file__).parents[2] / "docs" / "json.md"
_BLOCK = re.compile(r"<!-- example: (\S+) -->\n\n```json\n(.*?)\n```", re.DOTALL)


@pytest.fixture(scope="module")
def actual(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    found = examples(tmp_path_factory.mktemp("json"))
    return {name: shortened(value) for name, value in (*found.items(), *pieces(found).items())}


def keys(value: Any) -> Any:
    """Return what is left of a value without its texts and numbers."""
    if isinstance(value, dict):
        return {key: keys(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [keys(inner) for inner in value]
    return value if isinstance(value, str) and value.startswith("<") else None


def test_the_page_shows_every_example_with_its_keys(actual: dict[str, Any]) -> None:
    shown = {name: json.loads(text) for name, text in _BLOCK.findall(PAGE.read_text("utf-8"))}
    assert set(shown) == set(actual)
    for name, value in actual.items():
        loose = {"parts", "shares"}
        for each in (value, shown[name]):
            for key in loose & set(each if isinstance(each, dict) else ()):
                each[key] = None
        assert keys(shown[name]) == keys(value), name


def test_whole_numbers_are_numbers_and_others_are_exact_texts() -> None:
    assert amount_json(Fraction(1159), "power") == {"value": 1159, "rounded": 1159, "unit": "W"}
    third = amount_json(Fraction(1, 3), "")
    assert third == {"value": "1/3", "rounded": 0.333, "unit": None}
    assert amount_json(Fraction(5, 2), "money:FLO")["unit"] == "FLO"


def test_an_exact_text_reads_back_as_the_same_number() -> None:
    value = Fraction(13862, 9)
    assert Fraction(amount_json(value, "power")["value"]) == value
