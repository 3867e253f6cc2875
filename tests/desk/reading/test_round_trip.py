"""A build, reported by a machine of the demo, read back: the same build."""

from __future__ import annotations

from pathlib import Path

import pytest

from baywright.answers.verdicts import Yes
from baywright.desk.reading.onbook import FOLLOWS, READ
from baywright.facts.build import Build
from tests.desk.reading.machines import bundled, contents, drafted, full, opened, read, tree_of

BUILDS = [
    ("f2", bundled("f2", "n2")),
    ("f2", bundled("f2", "n4")),
    ("f2", full()),
    ("f1", bundled("f1", "n5-owned")),
    ("l4", bundled("l4", "n3")),
    ("p1", bundled("p1", "n1")),
]


@pytest.mark.parametrize(("book", "build"), BUILDS, ids=lambda each: str(getattr(each, "name", "")))
def test_a_build_comes_back(book: str, build: Build, tmp_path: Path) -> None:
    found = read(book, tree_of(book, build), tmp_path)
    assert drafted(found) == contents(build)
    assert not found.on_book.left_open
    assert not found.on_book.not_fitted
    assert not found.findings
    assert found.judgement is not None
    assert isinstance(found.judgement.verdict, Yes)


def test_the_machine_of_n4_draws_what_the_demo_states(tmp_path: Path) -> None:
    found = read("f2", tree_of("f2", bundled("f2", "n4")), tmp_path)
    assert found.judgement is not None
    assert isinstance(found.judgement.verdict, Yes)
    figures = {each.name: each.value for each in found.judgement.verdict.witness.figures}
    assert figures["load"] == 1159  # W; stated by the demo scenario


def test_each_line_says_where_it_comes_from(tmp_path: Path) -> None:
    tree = tree_of("f2", full())
    found = read("f2", tree, tmp_path)
    for line in found.on_book.lines:
        assert line.draft.grounds
        assert bool(line.where) is (line.basis == READ)
        assert all(where.partition("#")[0] in tree for where in line.where)
    follows = {line.draft.place for line in found.on_book.lines if line.basis == FOLLOWS}
    assert follows == {"K3"}  # no pack of the list is there


def test_the_draft_quotes_its_grounds(tmp_path: Path) -> None:
    draft = read("f2", tree_of("f2", full()), tmp_path).draft
    assert draft.startswith('book: f2\nname: "Brackenmoor Works Ferryman F2, as read"\n')
    assert "\n  # pack: /redfish/v1/Chassis/1/PowerSubsystem/Batteries/K1, called Pack 1" in draft


def test_the_book_itself_stays_as_it_is() -> None:
    assert opened("f2").book.record.places.keys() <= opened("f2").book.places.keys()
