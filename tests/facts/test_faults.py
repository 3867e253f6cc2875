"""What signs, interlocks and causes of a book refer to."""

from __future__ import annotations

import pytest

from baywright.files.books import book_from
from baywright.problems import Problem, Problems
from tests.files.example import example_book


def problems(text: str) -> tuple[Problem, ...]:
    try:
        book_from({**example_book(), "t1/faults.yaml": text.encode()})
    except Problems as found:
        return found.problems
    return ()


WRONG = [
    ("lights: {l: {shows: a, seen: b, covers: [memry]}}\n", "There is no fault 'memry'."),
    ("lights: {l: {shows: a, seen: b, codes: {fans: 1}}}\n", "There is no fault 'fans'."),
    ("lights: {l: {shows: a, seen: b, needs: panel}}\n", "no part or kind of part 'panel'."),
    ("symptoms: {s: {behind: [hatch]}}\n", "There is no step of service.access 'hatch'."),
    ("symptoms: {s: {masked_by: [no-power]}}\n", "There is no fault 'no-power'."),
    (
        "causes: {c: {name: heat, check: {says: Feel it., behind: [hatch]}}}\n",
        "There is no step of service.access 'hatch'.",
    ),
]


@pytest.mark.parametrize(("text", "says"), WRONG)
def test_what_is_not_there_is_a_problem(text: str, says: str) -> None:
    found = problems(text)
    assert [each.kind for each in found] == ["unknown-reference"]
    assert says in found[0].message


def test_causes_can_be_covered_and_mask() -> None:
    assert not problems(
        "lights: {l: {shows: a, seen: b, covers: [parts, board], masked_by: [off]}}\n"
        "symptoms: {no-power: {covers: [off]}}\ncauses: {off: {name: no feed is live, rate: 3 %}}\n"
    )
