"""Ready-made models: whether a build is one with options added, or built to order."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from baywright.facts.build import Fitted
from baywright.laws.formula import AllOf, AtMost, Formula, Rows
from baywright.laws.frame import Frame, Weigh
from baywright.laws.selection import word
from baywright.laws.subsystem import Function, Subsystem
from baywright.terms import Arguments, FunctionEntry, Parameter
from baywright.terms.vocabulary import TRUTH, Words, one_of


def keeps(frame: Frame, model: str) -> Formula:
    """Return the formula that every part of a ready-made model is still in its place.

    Options may be added in the field; whatever removes or swaps a part is built to order.
    """
    made = frame.book.models[model]
    terms = [term for place, fitted in made.places.items() for term in _kept(frame, place, fitted)]
    terms += [_set(frame, setting, value) for setting, value in made.settings.items()]
    return AllOf(tuple(terms))


def _kept(frame: Frame, place: str, fitted: Fitted) -> Iterator[Formula]:
    for item in fitted.items:
        there = frame.linear(_is_part(item.part), places=[place])
        yield AtMost(there.scaled(-1), Fraction(-item.count))


def _is_part(wanted: str) -> Weigh:
    return lambda name, part: int(name == wanted)


def _set(frame: Frame, setting: str, value: str) -> Formula:
    return Rows((setting,), frame.rows((setting,), lambda option: option.value == value))


def _from_model(frame: Frame, arguments: Arguments) -> Formula:
    return keeps(frame, word(arguments.given["model"]))


def _functions(frame: Frame) -> Mapping[str, Function]:
    entry = FunctionEntry(
        (Parameter("model", type=one_of(frozenset(frame.book.models))),),
        TRUTH,
        "The build is that ready-made model, with or without options added.",
        words=Words("it is model {model}, options added or not"),
    )
    return {"from_model": Function(entry, _from_model)}


SUBSYSTEM = Subsystem("models", functions=_functions)
