"""Ways a machine can stand, as a book states them."""

from __future__ import annotations

import pytest

from baywright.files.books import book_from
from baywright.problems import Problems
from tests.files.example import changed_example, example

CHASSIS = "chassis:\n"


def _with(stated: str) -> dict[str, bytes]:
    new = f"{CHASSIS}  orientations: {{side: {{name: on its side, {stated}}}}}\n"
    return changed_example("t1/book.yaml", CHASSIS, new)


def test_a_book_may_state_none() -> None:
    assert CHASSIS in example()["t1/book.yaml"]


def test_a_quarter_turn_is_one() -> None:
    book = book_from(_with("turn: 270 °"))
    assert book.chassis.orientations["side"].turn.known.to("°") == 270


@pytest.mark.parametrize(
    ("stated", "kind"),
    [("turn: 45 °", "not-a-turn"), ("turn: 90 °, needs: feet", "unknown-reference")],
)
def test_slips_are_found(stated: str, kind: str) -> None:
    with pytest.raises(Problems) as caught:
        book_from(_with(stated))
    assert [problem.kind for problem in caught.value.problems] == [kind]
