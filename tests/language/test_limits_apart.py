"""A limit belongs to the number that follows it; fewer of something is no claim to pass."""

from __future__ import annotations

import pytest

from baywright.desk.proofreading.proofreading import Proofreader
from tests.desk.demo import opened


@pytest.mark.parametrize(
    ("sentence", "kind"),
    [
        ("With 1 processor no more than 16 drives fit.", "true"),
        ("With 1 processor no more than 2 drives fit.", "false"),
        ("With one processor 16 drives at most fit.", "true"),
        ("With 1 processor fewer than 2 drives fit.", "not-understood"),
        ("Fewer than 17 drives fit.", "not-understood"),
    ],
)
def test_a_limit_belongs_to_the_number_after_it(sentence: str, kind: str) -> None:
    assert Proofreader.of(opened("f1")).sentence(sentence).kind == kind
