"""Nearest builds of what cannot be built: which version allows which of them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import partial

from baywright.answers.verdicts import Nearest, No
from baywright.answers.witnesses import witness
from baywright.answers.wording import Names
from baywright.answers.wording.grounds import turns
from baywright.answers.wording.numbers import against
from baywright.desk.changes.builds import at_site_of, build_files
from baywright.desk.changes.said import Pair, Said
from baywright.desk.changes.watched import Versions, Watched
from baywright.desk.judging import asks_redundancy, judge_build, kept_wishes, margins
from baywright.desk.opening import Opened
from baywright.engines.contract import Assumptions, Possible
from baywright.facts.build import Build
from baywright.files.books import read_build
from baywright.laws.machine import Machine
from baywright.laws.wishes import with_wishes


@dataclass(frozen=True, slots=True)
class _Near:
    """A build near to one that cannot be built.

    Args:
        name: its changes in words.
        given_up: what it gives up of what was asked.
        labels: the whole build, label by choice that is not derived.
    """

    name: str
    given_up: frozenset[str]
    labels: Mapping[str, str]


def nearest(versions: Versions, watched: Watched) -> Iterator[Pair]:
    """Yield the builds near to each that cannot be built, under both versions."""
    for path in build_files(versions, watched):
        build = read_build(path)
        found = [
            each
            for shared in (versions.old, versions.new)
            for each in _near(at_site_of(build, shared.opened), build)
        ]
        for near in {each.name: each for each in found}.values():
            before, after = versions.pair(partial(_allowed, build, near))
            yield Pair("nearest build", f"{path.stem}: {near.name}", before, after)


def _near(here: Opened, build: Build) -> Iterator[_Near]:
    verdict = judge_build(here, build).verdict
    for each in verdict.nearest if isinstance(verdict, No) else ():
        name = "; ".join(map(str, turns(each.changes, Names(here.book))))
        given_up = frozenset(change.what for change in each.changes)
        yield _Near(name, given_up, _labels(here.machine, each))


def _labels(machine: Machine, near: Nearest) -> dict[str, str]:
    choices = (choice for choice in machine.space.choices if not choice.derived)
    return {choice.name: choice.values[near.witness.values[choice.name]] for choice in choices}


def _allowed(build: Build, near: _Near, opened: Opened) -> Said:
    """Say whether a version allows a build, with what is kept of what was asked."""
    here = at_site_of(build, opened)
    machine, panel, given = here.machine, here.panel, _fixed(here.machine, near)
    kept = [wish for wish in kept_wishes(machine, build) if wish.text not in near.given_up]
    found = panel.prover.prove(with_wishes(machine.space, kept), given, panel.limit)
    if isinstance(found, Possible):
        load = _load(machine, found, build)
        return Said("possible", f"It can be built and keeps what is asked besides{load}.")
    alone = panel.prover.prove(machine.space, given, panel.limit)
    if isinstance(alone, Possible):
        load = _load(machine, alone, build)
        return Said("legal", f"It does not keep what is asked besides{load}.")
    return Said("not legal", "It cannot be built.")


def _fixed(machine: Machine, near: _Near) -> Assumptions:
    """Return a build of either version as assumptions: what follows from its choices stays open."""
    allowed = {
        choice.name: frozenset(
            index
            for index, label in enumerate(choice.values)
            if label == near.labels.get(choice.name)
        )
        for choice in machine.space.choices
        if not choice.derived
    }
    return Assumptions(allowed)


def _load(machine: Machine, found: Possible, build: Build) -> str:
    """Return the load of a build against its supplies, in words."""
    telling = f"the supplies {'when redundant' if asks_redundancy(build.must) else 'together'}"
    for each in margins(machine, witness(machine, found.values)):
        if each.words == telling:
            return f": {telling}, peak draw {against(each.used, each.given, each.dimension)}"
    return ""
