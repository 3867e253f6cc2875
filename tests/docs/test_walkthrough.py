"""The page on walkthroughs names the options, files and keys there are."""

from __future__ import annotations

import re
from dataclasses import fields
from pathlib import Path

from baywright.desk.walk.pace import Pace
from baywright.desk.walk.questions import MOST
from baywright.desk.walk.tour import MOST_STOPS
from baywright.desk.walk.walk import OFF_BY
from baywright.papers.script import Answered, Part, Script, Spoken
from baywright.papers.script_captions import LINES, WIDTH
from tests.cli.test_commands import run

PAGE = (Path(__file__).parents[2] / "docs" / "walkthrough.md").read_text("utf-8")
WORDS = {2: "two", 10: "ten"}


def test_every_option_is_told() -> None:
    shown = run("walk", "--help").output
    for option in re.findall(r"`(--[a-z-]+)`", PAGE):
        assert option in shown


def test_every_key_of_the_json_is_told() -> None:
    told = set(re.findall(r"`([a-z_]+)`", PAGE.partition("## As JSON")[2]))
    for each in (Script, Part, Spoken, Answered):
        assert {field.name for field in fields(each)} <= told


def test_numbers_are_those_of_the_program() -> None:
    pace = Pace()
    for said in (
        f"within {OFF_BY:.0%}".replace("%", " %"),
        f"up to {MOST_STOPS} stations",
        f"{WORDS[LINES]} lines of up to {WIDTH} signs",
        f"the {WORDS[MOST]} likeliest questions",
        f"{pace.rate:g} unless given",
        f"{pace.breath:g} s after it",
        f"a quarter turn {pace.turn:g} s",
        f"cover {pace.cover:g} s",
        f"station {pace.look:g} s",
    ):
        assert said in " ".join(PAGE.split()), said
