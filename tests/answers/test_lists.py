"""Lists, counts and claims about every build against the list of all legal builds."""

from __future__ import annotations

from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from baywright.answers.questions import listed
from baywright.answers.verdicts import Count, No, Yes
from baywright.desk.asking import ask
from baywright.desk.opening import Opened, Setting, standard_panel
from baywright.terms import parse
from tests.answers.asked import Asked, asked
from tests.answers.test_possible import check_reasons
from tests.laws.oracle import legal
from tests.laws.random_terms import numbers


@settings(max_examples=60)
@given(data=st.data(), case=asked(least=0, most=1))
def test_a_list_has_every_combination_once(data: st.DataObject, case: Asked) -> None:
    own = case.sample.own
    names = data.draw(st.lists(st.sampled_from(own), min_size=1, max_size=3, unique=True))
    names = [name for name in names if name.isidentifier()]
    counted = data.draw(st.lists(st.sampled_from(numbers(case.sample.raw)), max_size=1))
    terms = [parse(term) for term in (*names, *(number.text for number in counted))]
    if not terms:
        return
    verdict = listed(case.inquiry(), terms, case.wishes)
    assert isinstance(verdict, Count)
    options = case.machine.frame.options
    expected = {
        (
            *(options(name)[values[name]].label for name in names),
            *(number.value(case.subject(values)) for number in counted),
        )
        for values in case.sample.legal()
        if not case.violated(case.subject(values))
    }
    assert verdict.number == len(expected)
    width = len(names)
    assert {row[:width] for row in verdict.rows} == {row[:width] for row in expected}


@settings(max_examples=60)
@given(asked(least=1, most=1))
def test_every_build_has_what_is_always_so(case: Asked) -> None:
    site = case.machine.conditions
    setting = Setting(site.as_of, site.altitude, site.inlet)
    opened = Opened(Path(), case.machine.book, setting, standard_panel())
    verdict = ask(opened, f"always({case.terms[0].text})").verdict
    having = list(case.fitting())
    if case.legal and len(having) == len(case.legal):
        assert isinstance(verdict, Yes)
        assert not case.violated(case.subject(verdict.witness.values))
        assert verdict.always
        return
    assert isinstance(verdict, No)
    if verdict.counterexample is None:
        assert not case.legal
        check_reasons(case, verdict.reasons)
        return
    shown = case.subject(verdict.counterexample.values)
    assert legal(shown)
    assert case.violated(shown)
