"""Random legal builds of a book, for tests, for examples and for a look at what is possible."""

from __future__ import annotations

import time
from collections.abc import Mapping
from dataclasses import dataclass

from baywright.answers.as_json import Json, build_json
from baywright.answers.inquiry import EVALUATOR, RecheckError, StoppedError
from baywright.answers.verdicts import Proof, Witness
from baywright.answers.witnesses import witness
from baywright.answers.wording import Group, Names, Row, Sheet
from baywright.answers.wording.builds import fitted
from baywright.desk.opening import Opened
from baywright.desk.space_telling import proof_json, proof_words
from baywright.engines.contract import Limit, OutOfTime
from baywright.engines.diagram import Diagram
from baywright.laws.machine import Machine
from baywright.laws.wishes import read_wishes, with_wishes
from baywright.laws.wording import counted
from baywright.problems import Mark, problem
from baywright.space import Space, broken
from baywright.terms import parse, wording

MOST = 1000
"""Builds drawn at a time."""

GIVEN = Mark("given", 1, 1)


@dataclass(frozen=True, slots=True)
class Draw:
    """What is to be drawn.

    Args:
        number: how many builds, from 1.
        seed: the same one draws the same builds.
        given: a condition that they have to meet, or empty for none.
    """

    number: int
    seed: int
    given: str = ""


@dataclass(frozen=True, slots=True)
class RandomBuilds:
    """Legal builds drawn at random, each as likely as any other.

    Args:
        book: id of the book.
        as_of: the day they are legal on, in ISO form.
        seed: what they were drawn by.
        given: the condition they meet, in words, or empty.
        supposed: what unknown facts were taken to be, by path.
        builds: the builds; none when no legal build exists.
        proof: who drew them, and that the evaluator checked each.
    """

    book: str
    as_of: str
    seed: int
    given: str
    supposed: Mapping[str, str]
    builds: tuple[Witness, ...]
    proof: Proof


def random_builds(opened: Opened, draw: Draw) -> RandomBuilds:
    """Draw legal builds of a book, in the first way unknown facts could be.

    Builds are told apart by what each place, cable and setting has; interchangeable parts by how
    many there are.

    Args:
        opened: the book, with day and site.
        draw: how many, by which seed, with which condition.

    Raises:
        Problems: when the number or the condition makes no sense.
        StoppedError: at the limit of the engine.
        RecheckError: when a build breaks a law.
    """
    if not 1 <= draw.number <= MOST:
        message = f"{draw.number} builds cannot be drawn at a time."
        raise problem("number-of-builds", message, None, f"Ask for 1 to {MOST}.")
    machine, given = opened.machine, draw.given
    condition = machine.condition(parse(given, GIVEN), GIVEN) if given else None
    world, (builds, proof) = opened.in_worlds(lambda each: _drawn(opened, each, draw))[0]
    return RandomBuilds(
        opened.book.book.id,
        opened.as_of.isoformat(),
        draw.seed,
        wording(condition, machine.vocabulary) if condition else "",
        world.given,
        builds,
        proof,
    )


def _drawn(opened: Opened, machine: Machine, draw: Draw) -> tuple[tuple[Witness, ...], Proof]:
    """Draw builds, and have each checked."""
    start = time.perf_counter()
    wishes = read_wishes(machine, draw.given, GIVEN) if draw.given else []
    space, engine = with_wishes(machine.space, wishes), Diagram()
    found = _sampled(engine, space, draw, opened.panel.limit)
    for values in found:
        failed = broken(space, values)
        if failed:
            keys = ", ".join(sorted({law.origin.key for law in failed}))
            raise RecheckError(f"a build drawn by {engine.name} breaks {keys}")
    builds = tuple(witness(machine, values) for values in found)
    milliseconds = (time.perf_counter() - start) * 1000
    return builds, Proof(engine.name, EVALUATOR, milliseconds)


def _sampled(engine: Diagram, space: Space, draw: Draw, limit: Limit) -> list[Mapping[str, int]]:
    try:
        return engine.sample(space, draw.number, draw.seed, limit=limit)
    except OutOfTime as late:
        tried = f"{engine.name} worked for up to {limit.seconds:g} s: {late}"
        raise StoppedError(tried) from late
    except ValueError as refused:
        raise StoppedError(f"{engine.name} cannot draw from this: {refused}") from refused


def random_builds_sheet(opened: Opened, found: RandomBuilds) -> Sheet:
    """Return random builds in words."""
    names = Names(opened.book)
    given = f", given {found.given}" if found.given else ""
    if not found.builds:
        sentence = f"No legal build exists{given}."
    else:
        sentence = (
            f"Drawn by seed {found.seed} from all legal builds{given}, each as likely as any other."
        )
    supposed = tuple(Row(path, value) for path, value in found.supposed.items())
    return Sheet(
        counted(len(found.builds), "build"),
        "random",
        sentence,
        notes=(Group("Not known, and taken to be", supposed),) if supposed else (),
        fitted=tuple(
            fitted(build, names, f"Build {place}") for place, build in enumerate(found.builds, 1)
        ),
        proof=proof_words(found.proof),
        standing=f"Book {found.book}, as of {found.as_of}.",
    )


def random_builds_json(found: RandomBuilds) -> Json:
    """Return random builds as plain JSON values."""
    return {
        "book": found.book,
        "as_of": found.as_of,
        "seed": found.seed,
        "given": found.given or None,
        "supposed": dict(found.supposed),
        "builds": [build_json(build) for build in found.builds],
        "proof": proof_json(found.proof),
    }
