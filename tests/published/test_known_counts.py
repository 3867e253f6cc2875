"""Numbers of solutions that were known before this program counted.

Sources: ``berkeleydb.dimacs`` is a public feature model; 4,080,389,785 solutions is the number that
stands in the test suites of public model counters, read in a note that quotes them. The numbers of
``two-socket.json``, a synthetic space, were found by two independent engines each, which are not
part of this program; read in the note beside the file. The files lie beside the repository and the
tests are skipped where they are not there.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from baywright.desk.request import Request
from baywright.desk.spaces import OpenSpace, count, open_space
from baywright.engines.contract import Engine, Limit
from baywright.engines.diagram import Diagram
from baywright.engines.search import Search

DATA = Path(__file__).resolve().parents[3] / "shared" / "data"

FEATURE_MODEL = 4_080_389_785
WITHOUT_POWER = 291_722_052_167_726_649_731_880_933_411_319_069_440
WITH_POWER = 232_659_900_397_918_257_259_391_350_359_573_342_834
VALUES_LEFT, VALUES = 1_161, 1_237


def opened(name: str) -> OpenSpace:
    path = DATA / name
    if not path.is_file():
        pytest.skip(f"{path.name} does not lie beside the repository")
    return open_space(path, Request())


def test_the_feature_model() -> None:
    found = count(opened("counting/berkeleydb.dimacs")).found
    assert found.number == FEATURE_MODEL
    assert found.proof.answered_by == "diagram"


def test_the_platform_without_its_power_sum() -> None:
    found = count(opened("spaces/two-socket.json"), without_budget=True)
    assert found.without == ("power-budget",)
    assert found.found.number == WITHOUT_POWER


def test_the_platform_with_its_power_sum() -> None:
    assert count(opened("spaces/two-socket.json")).found.number == WITH_POWER


def test_the_numbers_of_one_choice_add_up() -> None:
    held = opened("spaces/two-socket.json")
    parts = [count(held, [f"nsock={label}"]).found.number for label in ("1", "2")]
    assert sum(parts) == WITH_POWER


@pytest.mark.parametrize("engine", [Diagram(), Search()], ids=lambda engine: engine.name)
def test_the_values_left(engine: Engine) -> None:
    space = opened("spaces/two-socket.json").file.space
    left = engine.options(space, limit=Limit(60))
    own = [choice for choice in space.choices if not choice.derived]
    assert sum(choice.size for choice in own) == VALUES
    assert sum(len(left[choice.name]) for choice in own) == VALUES_LEFT
