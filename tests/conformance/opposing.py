"""Random sums that oppose each other: what the one limits, the other asks for."""

from __future__ import annotations

from hypothesis import strategies as st

from baywright.space import Choice, Origin, Space, Sum
from tests.conformance.spaces import tables

Columns = dict[str, tuple[int, ...]]

KEYS = ("limit", "wanted")


def _origin(key: str) -> Origin:
    return Origin(key, "law", f"The law of {key} holds.")


@st.composite
def opposing_sums(draw: st.DrawFn) -> tuple[dict[str, int], list[Sum]]:
    """Draw two sums, and the number of values of each choice.

    The second is the first turned round, in another unit and rounded as it may be; each has a
    choice or two of its own. The bounds lie where some totals pass and some do not.
    """
    columns: Columns = {
        f"shared {n}": tuple(draw(st.lists(st.integers(0, 9), min_size=1, max_size=3)))
        for n in range(draw(st.integers(3, 4)))
    }
    own = [tuple(draw(st.lists(st.integers(-9, 9), min_size=2, max_size=3))) for _ in range(2)]
    unit, fine = draw(st.integers(1, 4)), draw(st.sampled_from((1, 1, 10_000)))
    noise = st.integers(0, 1) if fine > 1 else st.just(0)
    turned: Columns = {
        name: tuple(-unit * fine * w + draw(noise) for w in column)
        for name, column in columns.items()
    }
    most = sum(map(max, columns.values()))
    first = Sum(
        (*columns.items(), ("own 0", own[0])), draw(st.integers(-9, most + 9)), _origin("limit")
    )
    second = Sum(
        (*turned.items(), ("own 1", tuple(fine * w for w in own[1]))),
        -unit * fine * draw(st.integers(-9, most + 9)),
        _origin("wanted"),
    )
    sizes = {name: len(column) for name, column in (*first.weights, *second.weights)}
    return sizes, [first, second]


@st.composite
def opposing_spaces(draw: st.DrawFn) -> Space:
    """Draw a space with two opposing sums and a few tables."""
    sizes, sums = draw(opposing_sums())
    choices = [Choice(name, tuple(map(str, range(size)))) for name, size in sizes.items()]
    return Space(tuple(choices), tuple(draw(st.lists(tables(choices), max_size=2))), tuple(sums))
