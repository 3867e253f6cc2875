"""Spaces as files: read with every index checked, and written back equal."""

from __future__ import annotations

import json
import re
import tempfile
import time
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given

from baywright.desk.opening import open_book
from baywright.engines.brute import Brute
from baywright.files.spaces import SpaceFile, read_space, space_text, write_space
from baywright.problems import Problem, Problems
from baywright.space import Space
from tests.conformance.spaces import spaces

SMALL: dict[str, Any] = {
    "note": "An invented crate of two slots.",
    "choices": {"slot": ["empty", "card"], "fan": ["one", "two"], "heat": ["low", "high"]},
    "derived": ["heat"],
    "tables": [{"id": "heat", "over": ["slot", "heat"], "rows": [[0, 0], [1, 1]]}],
    "sums": [
        {
            "id": "watts",
            "weights": {"slot": [0, 40], "fan": [10, 20]},
            "at_most": 50,
            "budget": True,
        }
    ],
}


def read(text: str | bytes, name: str = "space.json") -> SpaceFile:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / name
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return read_space(path)


def refused(text: str | bytes, name: str = "space.json") -> tuple[Problem, ...]:
    start = time.monotonic()
    with pytest.raises(Problems) as caught:
        read(text, name)
    assert time.monotonic() - start < 10
    assert caught.value.problems
    return caught.value.problems


def changed(*steps: str | int, to: object) -> str:
    """Return the small file with one value replaced, or added."""
    form = json.loads(json.dumps(SMALL))
    inner = form
    for step in steps[:-1]:
        inner = inner[step]
    inner[steps[-1]] = to
    return json.dumps(form, indent=1)


def test_the_form() -> None:
    held = read(json.dumps(SMALL))
    assert [choice.derived for choice in held.space.choices] == [False, False, True]
    assert held.space.tables[0].rows == {(0, 0), (1, 1)}
    assert (
        held.space.tables[0].origin.sentence == "The table 'heat' lists what slot and heat may be."
    )
    assert held.budget_sums == held.space.sums
    assert held.space.sums[0].origin.sentence == "The sum 'watts' is at most 50."
    assert held.without_budgets().sums == ()
    assert held.note == SMALL["note"]


def test_remarks_beside_the_space_may_stay() -> None:
    assert read(changed("drawn", to=7)).space == read(json.dumps(SMALL)).space


@given(spaces())
def test_written_and_read_again(space: Space) -> None:
    assert read(space_text(space)).space == space


@pytest.mark.parametrize("book", ["f1", "f2", "l4", "p1"])
def test_a_book_written_and_read_again(book: str, tmp_path: Path) -> None:
    space = open_book(book).machine.space
    budgets = (len(space.sums) - 1,)
    write_space(space, tmp_path / "book.json", budgets, "A note.")
    held = read_space(tmp_path / "book.json")
    assert (held.space, held.budgets, held.note) == (space, budgets, "A note.")


def test_a_file_that_cannot_be_written(tmp_path: Path) -> None:
    with pytest.raises(Problems, match="cannot be written"):
        write_space(Space(()), tmp_path / "no folder" / "space.json")


@pytest.mark.parametrize(
    ("text", "kind", "says"),
    [
        (changed("choices", to=[]), "not-an-object", "choices"),
        (changed("choices", "slot", to="card"), "not-a-list", "choices.slot"),
        (changed("choices", "slot", to=[]), "too-large", "choices.slot"),
        (changed("choices", "slot", to=["card", "card"]), "given-twice", "'card' stands here"),
        (changed("choices", "slot", to=["card", 7]), "not-a-text", "choices.slot[1]"),
        (changed("choices", "slot", to=["card", "a\u001b[2J"]), "strange-character", "slot[1]"),
        (changed("choices", "slot", to=["card", "x" * 301]), "not-a-name", "slot[1]"),
        (changed("derived", to=["heta"]), "unknown-name", "Did you mean 'heat'?"),
        (changed("derived", to=["heat", "heat"]), "given-twice", "derived[1]"),
        (changed("tables", to={}), "not-a-list", "tables"),
        (changed("tables", 0, to=7), "not-an-object", "tables[0]"),
        (changed("tables", 0, "over", to=["slot", "hat"]), "unknown-name", "tables[0].over[1]"),
        (changed("tables", 0, "rows", to=[[0, 2]]), "not-a-number", "tables[0].rows[0][1]"),
        (changed("tables", 0, "rows", to=[[0, -1]]), "not-a-number", "from 0 to 1"),
        (changed("tables", 0, "rows", to=[[0, True]]), "not-a-number", "true"),
        (changed("tables", 0, "rows", to=[[0, 0.0]]), "not-a-number", "0.0"),
        (changed("tables", 0, "rows", to=[[0]]), "wrong-length", "tables[0].rows[0]"),
        (changed("tables", 0, "rows", to=[7]), "wrong-length", "tables[0].rows[0]"),
        (changed("tables", 0, "row", to=[[0, 0]]), "unknown-key", "Did you mean 'rows'?"),
        (changed("tables", 0, "kind", to="lore"), "unknown-name", "law"),
        (changed("tables", 0, "says", to=7), "not-a-text", "tables[0].says"),
        (changed("tables", 0, "facts", to=[{"fact": "a", "date": "x"}]), "not-a-date", "date"),
        (changed("tables", 0, "facts", to=[{"where": "a:b:c"}]), "not-a-place", "where"),
        (changed("sums", 0, "weights", "slot", to=[0]), "wrong-length", "1 weights for 2"),
        (changed("sums", 0, "weights", "slit", to=[0]), "unknown-name", "Did you mean 'slot'?"),
        (changed("sums", 0, "weights", "slot", to=[0, 2**31]), "not-a-number", "slot[1]"),
        (changed("sums", 0, "weights", "slot", to=[0, 2**31 - 1]), "too-large", "sums[0].weights"),
        (changed("sums", 0, "at_most", to="50"), "not-a-number", "sums[0].at_most"),
        (changed("sums", 0, "at_most", to=None), "not-a-number", "null"),
        (changed("sums", 0, "at_least", to=5), "unknown-key", "Did you mean 'at_most'?"),
        (changed("sums", 0, "budget", to=1), "not-a-truth", "sums[0].budget"),
        (changed("sum", to=5), "unknown-key", "Did you mean 'sums'?"),
        (changed("forbidden", to=[[1, 1]]), "unknown-key", "forbidden"),
        (json.dumps(SMALL).replace("50", "9" * 5000), "not-a-number", "sums[0].at_most"),
        (json.dumps(SMALL).replace("50", "NaN"), "not-a-number", "nan"),
        (json.dumps(SMALL).replace("50", "5e1"), "not-a-number", "50.0"),
        (json.dumps(SMALL).replace('"fan"', '"slot"', 1), "given-twice", "choices.slot"),
        ("[]", "not-an-object", "choices"),
        ('{"choices": {"a": ["b"]}, }', "json", "Look at the comma"),
        ("", "json", "not JSON"),
        ("[" * 100_000, "too-deep", "brackets"),
        (b"\xff\xfe{", "not-text", "UTF-8"),
    ],
)
def test_a_slip_in_a_space(text: str | bytes, kind: str, says: str) -> None:
    found = [problem for problem in refused(text) if problem.kind == kind]
    assert found
    assert says in f"{found[0].message} {found[0].hint}"
    assert found[0].mark is not None


def test_the_place_of_a_slip() -> None:
    text = changed("tables", 0, "rows", to=[[0, 0], [1, 9]])
    (problem,) = refused(text)
    assert problem.mark is not None
    line = text.splitlines()[problem.mark.line - 1]
    assert line[problem.mark.column - 1 :] == "9"


def test_many_slips_are_not_all_told() -> None:
    text = changed("tables", 0, "rows", to=[[9, 9]] * 10_000)
    assert len(refused(text)) == 50


def test_more_rows_than_can_be_read() -> None:
    rows = ",".join(["[0,0]"] * 1_000_001)
    text = json.dumps(SMALL).replace("[[0, 0], [1, 1]]", f"[{rows}]")
    assert refused(text)[0].kind == "too-large"


def test_a_file_of_a_hundred_megabytes(tmp_path: Path) -> None:
    path = tmp_path / "large.json"
    with path.open("wb") as stream:
        stream.truncate(100_000_000)
    with pytest.raises(Problems, match="more than 64,000,000 bytes"):
        read_space(path)


def test_no_file(tmp_path: Path) -> None:
    with pytest.raises(Problems, match="There is no such file"):
        read_space(tmp_path / "none.json")


CLAUSES = """c three switches of an invented lamp
c 1 left
c 2 right
p cnf 3 3
1 2
0
-1 -2 0 3 -3 0
"""


def test_clauses() -> None:
    space = read(CLAUSES, "lamp.cnf").space
    assert [choice.name for choice in space.choices] == ["left", "right", "x3"]
    first, second = space.tables
    assert first.scope == ("left", "right")
    assert first.rows == {(0, 1), (1, 0), (1, 1)}
    assert second.rows == {(0, 0), (0, 1), (1, 0)}
    assert first.origin.sentence == "At least one holds: left is yes, right is yes."
    mark = first.origin.facts[0].mark
    assert mark is not None
    assert mark.line == 5


def test_a_long_clause_is_a_sum() -> None:
    space = read("p cnf 8 1\n1 2 3 4 -5 6 7 8 0\n", "long.dimacs").space
    (total,) = space.sums
    assert total.at_most == -1
    assert dict(total.weights)["x5"] == (-1, 0)


def test_what_tells_solutions_apart() -> None:
    space = read("p cnf 3 1\nc p show 1 3 0\n1 2 0\n", "shown.cnf").space
    assert [choice.derived for choice in space.choices] == [False, True, False]


def test_an_empty_clause_never_holds() -> None:
    (table,) = read("p cnf 1 1\n0\n", "empty.cnf").space.tables
    assert table.rows == frozenset()


@pytest.mark.parametrize(
    ("text", "line", "says"),
    [
        ("1 2 0\n", 1, "There is no variable 1"),
        ("c nothing\n", 1, "no line 'p cnf'"),
        ("p cnf 2\n1 0\n", 1, "header"),
        ("p cnf 2 1\np cnf 2 1\n1 0\n", 2, "header"),
        ("p cnf 2 1\n1 3 0\n", 2, "no variable 3"),
        ("p cnf 2 1\n1 x 0\n", 2, "'x' is no literal"),
        ("p cnf 2 1\n1 2\n", 2, "no end"),
        ("p cnf 2 2\n1 2 0\n", 3, "There are 1 clauses; the header says 2"),
        ("p cnf 2 1\nc p show 5 0\n1 0\n", 2, "no variable 5"),
        ("p cnf 999999999 1\n1 0\n", 1, "too many"),
        ("p cnf 2 1\nc 1 x2\n1 0\n", 1, "named like another"),
        ("p cnf 2 1\n" + "9" * 10_000 + " 0\n", 2, "is no literal"),
    ],
)
def test_a_slip_in_clauses(text: str, line: int, says: str) -> None:
    first = refused(text, "slip.cnf")[0]
    assert says in f"{first.message} {first.hint}"
    assert first.mark is not None
    assert first.mark.line == line


def test_the_example_of_the_documentation() -> None:
    page = Path(__file__).resolve().parents[2] / "docs" / "spaces.md"
    (example,) = re.findall(r"```json\n(.*?)```", page.read_text(encoding="utf-8"), re.DOTALL)
    held = read(example)
    assert Brute().count(held.space) == 9
    assert Brute().count(held.without_budgets()) == 10
