"""What is typed beside a question: time limits and the number of sets of reasons."""

from __future__ import annotations

import pytest

from baywright.desk.request import SHORTEST, Request
from baywright.problems import Problems


@pytest.mark.parametrize("seconds", [SHORTEST, 1.0, 90.0])
def test_no_step_may_take_longer_than_the_limit(seconds: float) -> None:
    panel = Request(seconds=seconds).panel()
    assert panel.limit.seconds == seconds
    assert panel.patience.seconds <= seconds
    assert panel.patience_for_the_best.seconds <= seconds


@pytest.mark.parametrize("seconds", [0.0, -1.0, 0.0001, 0.099, float("nan")])
def test_a_limit_too_short_to_be_kept_is_refused(seconds: float) -> None:
    with pytest.raises(Problems, match="too short to be kept"):
        Request(seconds=seconds).panel()


def test_one_set_of_reasons_is_shown_unless_more_are_asked_for() -> None:
    assert Request().panel().reason_sets == 1
    assert Request(reasons=7).panel().reason_sets == 7
    with pytest.raises(Problems, match="0 sets of reasons cannot be shown"):
        Request(reasons=0).panel()
