"""Why a value is closed: minimal choices and minimal laws, against plain enumeration."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from unittest.mock import Mock

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from baywright.answers.inquiry import RecheckError
from baywright.answers.refused import Refuser
from baywright.engines.brute import Brute
from baywright.engines.contract import Assumptions, Engine, Impossible, Limit, Possible
from baywright.engines.diagram import Diagram
from baywright.engines.search import Search
from baywright.space import Space
from tests.conformance.spaces import spaces

BRUTE = Brute()
LIMIT = Limit(10.0)


def open_after(space: Space, chosen: Mapping[str, int], without: Iterable[str] = ()) -> bool:
    allowed = {name: frozenset({value}) for name, value in chosen.items()}
    given = Assumptions(allowed, frozenset(without))
    return isinstance(BRUTE.prove(space, given), Possible)


@pytest.mark.parametrize("quick", [Diagram, Search])
@given(space=spaces(most=5), data=st.data())
def test_each_choice_and_each_law_is_needed(
    quick: type[Engine], space: Space, data: st.DataObject
) -> None:
    assume(space.choices)
    choices = {choice.name: data.draw(st.integers(0, choice.size - 1)) for choice in space.choices}
    name = data.draw(st.sampled_from(sorted(choices)))
    assume(not open_after(space, choices))
    refusal = Refuser(space, quick(), Search(), LIMIT).explain(choices, name, choices[name])
    kept = {each: choices[each] for each in refusal.choices} | {name: choices[name]}
    keys = {origin.key for origin in refusal.origins}
    others = frozenset(space.origins) - keys
    assert not open_after(space, kept, others)
    for each in refusal.choices:
        assert open_after(space, {n: v for n, v in kept.items() if n != each})
    for key in keys:
        assert open_after(space, kept, others | {key})


@given(spaces(most=3))
def test_a_refusal_that_search_does_not_share_is_withheld(space: Space) -> None:
    assume(space.choices and open_after(space, {}))
    name = space.choices[0].name
    found = BRUTE.prove(space)
    assert isinstance(found, Possible)
    refusing = Mock(spec=Brute, prove=Mock(return_value=Impossible()))
    refusing.name = "refusing"
    with pytest.raises(RecheckError):
        Refuser(space, refusing, Search(), LIMIT).explain({}, name, found.values[name])
