"""Compiled spaces kept in a folder."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from baywright.engines.contract import Assumptions, OutOfTime
from baywright.engines.diagram import Diagram, Guards
from baywright.engines.diagram.storing import content_key
from baywright.space import Choice, Space, Table
from tests.engines.diagram.given import choices, origin, total

SPACE = Space(
    (*choices(3, 3, 2), Choice("d", ("0", "1", "2"), derived=True)),
    (
        Table(("a", "b"), frozenset({(0, 1), (1, 2), (2, 0), (2, 1)}), origin("pairs")),
        Table(("c", "d"), frozenset({(0, 0), (1, 2)}), origin("derived")),
    ),
    (total(9, a=(1, 2, 3), b=(0, 4, 5), c=(0, 3), d=(0, 1, 2)),),
)
CARRIED = Guards(totals=0)


def answers(engine: Diagram) -> tuple[object, ...]:
    given = Assumptions({"a": frozenset({1, 2})})
    without = Assumptions(without=frozenset({"derived"}))
    return (
        engine.options(SPACE, given),
        engine.prove(SPACE, given),
        engine.count(SPACE),
        engine.count(SPACE, without),
    )


def test_what_is_kept_answers_as_what_is_made(tmp_path: Path) -> None:
    made = answers(Diagram(CARRIED))
    assert answers(Diagram(CARRIED, tmp_path / "new")) == made
    assert len(list((tmp_path / "new").iterdir())) == 2
    assert answers(Diagram(CARRIED, tmp_path / "new")) == made


def test_a_kept_space_is_not_compiled_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    Diagram(CARRIED, tmp_path).options(SPACE)
    monkeypatch.setattr("baywright.engines.diagram.session.compile_space", None)
    assert Diagram(CARRIED, tmp_path).count(SPACE) == Diagram(CARRIED, tmp_path).count(SPACE) > 0


@pytest.mark.parametrize("damage", [b"", b"no archive", b"PK\x03\x04 cut off"])
def test_a_damaged_file_is_made_again(tmp_path: Path, damage: bytes) -> None:
    Diagram(CARRIED, tmp_path).options(SPACE)
    (file,) = tmp_path.iterdir()
    file.write_bytes(damage)
    assert answers(Diagram(CARRIED, tmp_path)) == answers(Diagram(CARRIED))
    assert len(file.read_bytes()) > 100


def test_a_folder_that_cannot_be_made_is_no_error(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way", encoding="utf-8")
    assert answers(Diagram(CARRIED, tmp_path / "file")) == answers(Diagram(CARRIED))


def test_nothing_is_kept_of_a_space_that_was_too_hard(tmp_path: Path) -> None:
    with pytest.raises(OutOfTime):
        Diagram(Guards(arcs=1), tmp_path).options(SPACE)
    assert list(tmp_path.iterdir()) == []


def test_whatever_changes_an_answer_changes_the_key() -> None:
    other_row = Table(("a", "b"), frozenset({(0, 1), (1, 2), (2, 0), (2, 2)}), origin("pairs"))
    spaces = [
        SPACE,
        SPACE.without({"pairs"}),
        SPACE.without({"sum"}),
        Space(SPACE.choices, (other_row, SPACE.tables[1]), SPACE.sums),
        Space(SPACE.choices, SPACE.tables, (replace(SPACE.sums[0], at_most=8),)),
        Space((*SPACE.choices[:3], Choice("d", ("0", "1", "2"))), SPACE.tables, SPACE.sums),
    ]
    assert len({content_key(space, CARRIED) for space in spaces}) == len(spaces)
    assert content_key(SPACE, CARRIED) != content_key(SPACE, Guards())
