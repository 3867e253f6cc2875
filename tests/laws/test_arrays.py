"""Arrays of drives, none over two controllers, against every way to share them out."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from hypothesis import given, settings
from hypothesis import strategies as st

from baywright.engines.brute import Brute
from baywright.laws.wishes import wish_of, with_wishes
from baywright.terms import parse
from tests.laws.plain import Subject
from tests.laws.random_books import Sample, samples


def drives_behind(s: Subject, slot: str) -> int:
    """How many drives the controller in a slot drives."""
    zones = [zone for zone, cabled in s.built.cables.items() if cabled == slot]
    return sum(s.number("drive", zone) for zone in zones)


def fits(s: Subject, sizes: Sequence[int]) -> bool:
    """Whether some sharing of the arrays among the slots asks no slot for more than it has."""
    slots = sorted({slot for slot in s.built.cables.values() if slot is not None})
    return any(
        all(
            sum(size for size, at in zip(sizes, row, strict=True) if at == slot)
            <= drives_behind(s, slot)
            for slot in slots
        )
        for row in itertools.product(slots, repeat=len(sizes))
    )


@settings(max_examples=100)
@given(
    book=samples(most=3000, first=("storage",)),
    sizes=st.lists(st.integers(1, 3), min_size=1, max_size=3),
)
def test_arrays_fit_where_some_sharing_does(book: Sample, sizes: list[int]) -> None:
    if not any(cable.endswith(" controller") for cable in book.own):
        return
    asked = f"arrays({', '.join(map(str, sizes))})"
    wish = wish_of(book.machine, book.machine.condition(parse(asked)), "wish:1")
    found = set(Brute().each(with_wishes(book.machine.space, [wish]), book.own))
    expected = {
        tuple(values[name] for name in book.own)
        for values in book.legal()
        if fits(book.subject(values), sizes)
    }
    assert found == expected
