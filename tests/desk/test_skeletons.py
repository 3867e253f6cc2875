"""The first of the two numbers that fix what the rules of the scenario mean."""

from __future__ import annotations

import itertools
from collections.abc import Collection, Iterator

from baywright.answers.verdicts import Count
from baywright.engines.contract import Assumptions, Possible
from baywright.laws.machine import Machine
from baywright.space import broken
from tests.desk.demo import answer, number, opened

LAYOUTS = 'ways(processors, A, B, C, O2, given=variant == "hot_swap"{})'


def allowed() -> Iterator[tuple[str, ...]]:
    """Every layout that the scenario allows, written out from its sentences."""
    zones = itertools.product(
        (1, 2), ("empty", "N8", "S8"), ("empty", "N8", "S8"), ("empty", "N8h", "S8", "display")
    )
    for (processors, a, b, c), o2 in itertools.product(zones, ("empty", "net-25")):
        second_needed = b == "N8" or c in ("N8h", "S8") or o2 != "empty"
        if (processors == 2 or not second_needed) and not (c == "N8h" and o2 != "empty"):
            yield str(processors), a, b, c, o2


def test_there_are_75_layouts_and_12_with_one_processor() -> None:
    assert number("f2", LAYOUTS.format("")) == 75
    assert number("f2", LAYOUTS.format(" and processors == 1")) == 12


def test_they_are_those_that_the_sentences_allow() -> None:
    verdict = answer("f2", LAYOUTS.format(""))
    assert isinstance(verdict, Count)
    assert len(set(verdict.rows)) == len(verdict.rows)
    assert {tuple(label.removeprefix("1 x ") for label in row) for row in verdict.rows} == set(
        allowed()
    )


def test_every_layout_has_a_build_that_the_evaluator_finds_legal() -> None:
    machine, prover = opened("f2").machine, opened("f2").panel.prover
    for processors, *zones in allowed():
        wanted = dict(zip(("A", "B", "C", "O2"), zones, strict=True))
        fixed = {name: labelled(machine, name, {label}) for name, label in wanted.items()}
        fixed["variant"] = labelled(machine, "variant", {"hot_swap"})
        empty = labelled(machine, "P2", {"empty"})
        fixed["P2"] = empty if processors == "1" else frozenset(range(1, machine.sizes["P2"]))
        found = prover.prove(machine.space, Assumptions(fixed))
        assert isinstance(found, Possible)
        assert not broken(machine.space, found.values)


def labelled(machine: Machine, choice: str, labels: Collection[str]) -> frozenset[int]:
    """Return the values of a choice that are written so."""
    options = machine.frame.options(choice)
    return frozenset(index for index, option in enumerate(options) if option.label in labels)
