"""Fronts of a book: which builds no other one beats in two numbers, such as price and load."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from baywright.answers.as_json import Json, amount_json, build_json
from baywright.answers.figures import amount
from baywright.answers.fronts import front
from baywright.answers.verdicts import Figure, Proof, Witness
from baywright.answers.witnesses import witness
from baywright.answers.wording import Names, Outcome, Rows, Sheet
from baywright.desk.opening import Opened
from baywright.desk.space_telling import proof_json, proof_words
from baywright.engines.diagram import Diagram
from baywright.laws.formula import NotEncodable
from baywright.laws.linear import Linear
from baywright.laws.machine import Machine
from baywright.laws.wishes import read_wishes, with_wishes
from baywright.laws.wording import capitalised, counted, listed
from baywright.problems import Mark, problem
from baywright.terms import parse, text, wording

STANDARD = ("price", "load")
"""The numbers of a front when none are named."""

GIVEN = Mark("given", 1, 1)


@dataclass(frozen=True, slots=True)
class FrontPoint:
    """A build that no other one beats.

    Args:
        figures: its two numbers.
        build: the build.
    """

    figures: tuple[Figure, Figure]
    build: Witness


@dataclass(frozen=True, slots=True)
class WorldFront:
    """A front for one way the unknown facts could be.

    Args:
        supposed: the values of unknown facts, by path.
        points: its points, by the first number.
        proof: who answered, and who proved again that none is missing.
    """

    supposed: Mapping[str, str]
    points: tuple[FrontPoint, ...]
    proof: Proof


@dataclass(frozen=True, slots=True)
class BookFront:
    """The front of a book in two numbers.

    Args:
        book: id of the book.
        as_of: the day it holds for, in ISO form.
        numbers: the two numbers, in words.
        given: the condition that was asked for, in words, or empty.
        worlds: the front for each way the unknown facts that matter could be.
    """

    book: str
    as_of: str
    numbers: tuple[str, str]
    given: str
    worlds: tuple[WorldFront, ...]


def book_front(opened: Opened, terms: Sequence[str] = (), given: str = "") -> BookFront:
    """Return the front of a book in two numbers, both to be as small as possible.

    Args:
        opened: the book, with day and site.
        terms: the two numbers as expressions, price and load when there are none.
        given: a condition that the builds have to meet, or empty for none.

    Raises:
        Problems: when the numbers or the condition make no sense.
        StoppedError: at a limit.
        RecheckError: when a point was missed, or a build breaks a law.
    """
    asked = tuple(terms) or STANDARD
    if len(asked) != 2:
        message = f"A front has two numbers, not {len(asked)}."
        raise problem("two-numbers", message, None, "Name two, such as price load.")
    machine = opened.machine
    said = [_words(machine, term, position) for position, term in enumerate(asked, 1)]
    condition = machine.condition(parse(given, GIVEN), GIVEN) if given else None
    worlds = opened.in_worlds(lambda each: _world_front(opened, each, asked, given))
    return BookFront(
        opened.book.book.id,
        opened.as_of.isoformat(),
        (said[0], said[1]),
        wording(condition, machine.vocabulary) if condition else "",
        tuple(WorldFront(world.given, *found) for world, found in worlds),
    )


def _words(machine: Machine, term: str, position: int) -> str:
    mark = Mark("number", position, 1)
    return wording(machine.read(parse(term, mark), mark).expression, machine.vocabulary)


def _linear(machine: Machine, term: str, position: int) -> Linear:
    mark = Mark("number", position, 1)
    expression = machine.read(parse(term, mark), mark).expression
    try:
        value = machine.translator.value(expression)
    except NotEncodable as reason:
        raise problem("not-a-number", f"{text(expression)}: {reason}.", mark) from reason
    except KeyError:
        # Places and settings have no value as numbers.
        value = None
    if not isinstance(value, Linear):
        message = f"{text(expression)} is not a total."
        raise problem("not-a-number", message, mark, "Name a total, such as price or load.")
    return value


def _world_front(
    opened: Opened, machine: Machine, terms: Sequence[str], given: str
) -> tuple[tuple[FrontPoint, ...], Proof]:
    first, second = (_linear(machine, term, place) for place, term in enumerate(terms, 1))
    space = with_wishes(machine.space, read_wishes(machine, given, GIVEN) if given else [])
    found = front(opened.inquiry(machine), space, first, second, Diagram())
    words = [_words(machine, term, place) for place, term in enumerate(terms, 1)]
    points = tuple(
        FrontPoint(
            (
                Figure(terms[0], words[0], point.first, first.dimension),
                Figure(terms[1], words[1], point.second, second.dimension),
            ),
            witness(machine, point.values),
        )
        for point in found.points
    )
    return points, found.proof


def front_sheet(opened: Opened, found: BookFront) -> Sheet:
    """Return a front in words."""
    names = Names(opened.book)
    standing = f"Book {found.book}, as of {found.as_of}."
    fronts = [{(p.figures[0].value, p.figures[1].value) for p in w.points} for w in found.worlds]
    if all(each == fronts[0] for each in fronts):
        return _world_sheet(found, found.worlds[0], names, standing)
    outcomes = (
        Outcome(_supposed(world), _world_sheet(found, world, names, "")) for world in found.worlds
    )
    facts = listed(found.worlds[0].supposed)
    sentence = f"It depends on what is not settled yet: {facts}."
    return Sheet("Not decided", "undecided", sentence, outcomes=tuple(outcomes), standing=standing)


def _world_sheet(found: BookFront, world: WorldFront, names: Names, standing: str) -> Sheet:
    first, second = found.numbers
    given = f", given {found.given}" if found.given else ""
    which, one = ("this", "it") if len(world.points) == 1 else ("these", "one of them")
    sentence = (
        f"No build beats {which}{given}: any other has at least as much of {first} and of "
        f"{second} as {one}."
    )
    heads = (*(capitalised(words.removeprefix("the ")) for words in found.numbers), "Parts")
    return Sheet(
        counted(len(world.points), "build"),
        "front",
        sentence if world.points else f"No legal build exists{given}.",
        table=Rows(heads, tuple(_row(point, names) for point in world.points)),
        proof=proof_words(world.proof),
        standing=standing,
    )


def _row(point: FrontPoint, names: Names) -> tuple[str, ...]:
    numbers = (amount(figure.value, figure.dimension) for figure in point.figures)
    return (*numbers, ", ".join(_parts(point.build, names)))


def _parts(build: Witness, names: Names) -> Iterator[str]:
    for part, number in build.parts.items():
        yield f"{number} × {names.part(part)}" if number > 1 else names.part(part)


def _supposed(world: WorldFront) -> str:
    return listed(f"{path} is {value}" for path, value in world.supposed.items())


def front_json(found: BookFront) -> Json:
    """Return a front as plain JSON values."""
    return {
        "book": found.book,
        "as_of": found.as_of,
        "numbers": list(found.numbers),
        "given": found.given or None,
        "fronts": [
            {
                "supposed": dict(world.supposed),
                "points": [_point_json(point) for point in world.points],
                "proof": proof_json(world.proof),
            }
            for world in found.worlds
        ],
    }


def _point_json(point: FrontPoint) -> Json:
    return {
        "figures": [
            {"name": each.name, "words": each.words, **amount_json(each.value, each.dimension)}
            for each in point.figures
        ],
        "build": build_json(point.build),
    }
