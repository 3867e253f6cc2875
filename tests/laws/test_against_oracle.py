"""The compiled laws of random small books against the same laws said in the simplest way."""

from __future__ import annotations

import pytest
from hypothesis import given, settings

from baywright.space import broken
from tests.laws.oracle import broken_laws, legal
from tests.laws.random_books import Sample, samples


def check(sample: Sample) -> None:
    """The legal builds of the space are those that the oracle finds legal, each once."""
    found = sample.legal()
    by_space = {tuple(values[name] for name in sample.own) for values in found}
    assert len(by_space) == len(found), "a derived choice is not determined by the others"
    names = sample.own
    by_oracle = {
        row for row in sample.rows() if legal(sample.subject(dict(zip(names, row, strict=True))))
    }
    for row in sorted(by_space ^ by_oracle)[:1]:
        subject = sample.subject(dict(zip(names, row, strict=True)))
        raise AssertionError(f"{subject.built} breaks {broken_laws(subject)}, {row in by_space}")


@settings(max_examples=150)
@given(samples())
def test_the_space_has_the_builds_that_the_laws_allow(sample: Sample) -> None:
    check(sample)


@given(samples(most=400))
def test_the_evaluator_agrees_with_the_brute_engine(sample: Sample) -> None:
    assert all(not broken(sample.machine.space, values) for values in sample.legal())


@pytest.mark.slow
@pytest.mark.timeout(900)
@settings(max_examples=1500)
@given(samples())
def test_the_space_has_the_builds_that_the_laws_allow_at_length(sample: Sample) -> None:
    check(sample)
