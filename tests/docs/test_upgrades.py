"""The page on upgrades: its example of JSON and its limits are those of the program."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

from baywright.desk.opening import standard_panel
from baywright.desk.upgrade.as_json import upgrade_json
from baywright.desk.upgrade.sequence import Ground
from tests.answers.json_examples import shortened
from tests.desk.upgrade.files import WANTED, upgrade_to

PAGE = (Path(__file__).parents[2] / "docs" / "upgrades.md").read_text("utf-8")


def prepared(value: dict[str, Any]) -> dict[str, Any]:
    """Return what is printed as the page shows it: pieces by name, lists and mappings cut."""
    value["plans"][0].update(stands="<verdict>", meets="<verdict>")
    short: dict[str, Any] = shortened(value)
    short["cautions"] = dict(list(short["cautions"].items())[:1])
    short["plans"][0]["ways"][0]["left_over"] = {"S8i": 1}
    short["successors"][0]["transfer"].update(out="<work>", into="<work>")
    return short


def test_the_example_is_what_the_program_prints() -> None:
    (shown,) = re.findall(r"<!-- example: upgrade -->\n\n```json\n(.*?)\n```", PAGE, re.DOTALL)
    assert json.loads(shown) == prepared(upgrade_json(upgrade_to(WANTED)))


def test_the_limit_on_the_page_is_that_in_use() -> None:
    limit = Ground([], lambda _: True, lambda _, __: True, lambda _: (0, 0)).most
    seconds = standard_panel().patience_for_the_best.seconds
    assert f"longer than {seconds:g} seconds or {limit:,} states" in PAGE
