"""The page on needs: its need can be fitted, and its JSON has the keys of the program."""

from __future__ import annotations

import json
import re
from functools import cache
from pathlib import Path
from typing import Any

from baywright.desk.fit.as_json import fitted_json
from baywright.desk.fit.fit import fit
from baywright.desk.opening import open_book
from baywright.files.books import need_from

PAGE = (Path(__file__).parents[2] / "docs" / "needs.md").read_text("utf-8")


def example(name: str) -> str:
    """Return what the page shows under a name."""
    (shown,) = re.findall(rf"<!-- example: {name} -->\n\n```\w+\n(.*?)\n```", PAGE, re.DOTALL)
    return str(shown)


@cache
def answered(*, larger: bool = False) -> dict[str, Any]:
    """Return the need of the page as it is answered, or a larger one for two machines."""
    text = example("need")
    if larger:
        text = text.replace("count: 60", "count: 200").replace("budget: 60000 FLO", "hosts: 2")
    opened = open_book("f2")
    need = need_from(text.encode(), "docs/needs.md")
    found: dict[str, Any] = json.loads(json.dumps(fitted_json(opened, fit(opened, need))))
    return found


def shape(value: Any) -> Any:
    """Return the keys of a value; of a list, those of its first entry; pieces stay whole."""
    if isinstance(value, dict):
        if {"rounded", "unit"} <= set(value) or "lines" in value or "verdict" in value:
            return None
        return {key: shape(inner) for key, inner in value.items() if key not in ("parts", "counts")}
    return [shape(inner) for inner in value[:1]] if isinstance(value, list) else None


def test_the_example_is_met_and_has_the_keys_of_the_program() -> None:
    found = answered()
    assert found["outcomes"][0]["met"]
    assert shape(json.loads(example("fit"))) == shape(found)


def test_the_example_of_a_no_has_the_keys_of_the_program() -> None:
    found = answered(larger=True)
    (outcome,) = found["outcomes"]
    assert not outcome["met"]
    assert outcome["with_more_hosts"]
    outcome["with_more_hosts"] = None
    assert shape(json.loads(example("fit-no"))) == shape(outcome)
