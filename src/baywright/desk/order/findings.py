"""What is found beside the verdict: parts that follow, excess, orphans, arrangements, paths."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from baywright.answers.inquiry import Inquiry, StoppedError
from baywright.answers.verdicts import Witness
from baywright.desk.order.asked import Asked, number_of, within
from baywright.engines.contract import Objective, OutOfTime
from baywright.laws.blanks import blanks
from baywright.laws.formula import AllOf, encode
from baywright.laws.linear import whole
from baywright.laws.machine import Machine
from baywright.laws.models import keeps
from baywright.space import Origin, Space, Sum, Table

MOST_ARRANGEMENTS = 200
"""More ways to place the parts than this are not listed."""

FOUND = Origin("order.found", "wish", "Another arrangement than those found already.")

NEEDED_KINDS = frozenset({"processor", "memory", "supply", "fan"})
"""Kinds that every machine has some of; without them nothing would have a home."""


@dataclass(frozen=True, slots=True)
class Follow:
    """A part that follows from the rest of the build, against what the order lists.

    Args:
        part: its id.
        needed: how many the build needs.
        listed: how many the order lists.
        why: ``fitted`` with the machine, ``brought`` by another part, ``closes`` what is empty, or
            ``always`` there.
    """

    part: str
    needed: int
    listed: int
    why: str


@dataclass(frozen=True, slots=True)
class Excess:
    """A part of which more is listed than any legal build has."""

    part: str
    listed: int
    most: int


@dataclass(frozen=True, slots=True)
class Arrangements:
    """The ways to place the parts of an order.

    Args:
        number: how many, or ``None`` for more than were listed.
        open: for each choice that is not settled, what it can be.
        proof: who listed them, and who proved that there is no other, or empty.
    """

    number: int | None
    open: Mapping[str, tuple[str, ...]]
    proof: tuple[str, str] = ("", "")


@dataclass(frozen=True, slots=True)
class Path:
    """A way to buy the parts of a build.

    Args:
        model: id of the ready-made model it starts from, or empty for built to order.
        price: list price, or ``None`` where a price is missing.
        options: parts added to the model, by id.
    """

    model: str
    price: Fraction | None
    options: Mapping[str, int]


def following(asked: Asked, shown: Witness) -> tuple[Follow, ...]:
    """Return the parts that follow from a build and of which the order lists another number."""
    machine, listed = asked.machine, asked.order.counts
    closing = blanks(machine, shown.values)
    found = [
        *(
            Follow(part, number, listed.get(part, 0), "always")
            for part, number in asked.roles.always.items()
            if part in asked.unnamed
        ),
        *(
            Follow(part, shown.parts.get(part, 0), listed.get(part, 0), _why(machine, part))
            for part in asked.roles.follow
        ),
        *(
            Follow(part, closing.get(part, 0), listed.get(part, 0), "closes")
            for part in asked.roles.blanks
        ),
    ]
    return tuple(each for each in found if each.needed != each.listed)


def _why(machine: Machine, part: str) -> str:
    return "fitted" if machine.book.parts[part].kind == "fan" else "brought"


def excess(inquiry: Inquiry, asked: Asked, parts: Sequence[str]) -> tuple[Excess, ...]:
    """Return the parts of which more is listed than any legal build has.

    Raises:
        StoppedError: at a limit.
    """
    found = []
    for part in parts:
        listed = asked.listed.get(part, 0)
        weights = whole(number_of(asked.machine, part).scaled(-1))
        most = inquiry.best(asked.machine.space, Objective(tuple(weights.items())))
        if most is not None and listed > -most.value:
            found.append(Excess(part, listed, -most.value))
    return tuple(found)


def orphans(inquiry: Inquiry, asked: Asked) -> tuple[str, ...]:
    """Return the parts that nothing else listed gives a home, however many are left out.

    Kinds that every machine needs are taken as there, so that one missing processor does not make
    orphans of all the rest.

    Raises:
        StoppedError: at a limit.
    """
    book = asked.machine.book
    needed = NEEDED_KINDS | {book.parts[part].kind for part in asked.roles.always}
    most = dict(asked.listed)
    for reading in asked.readings:
        for part in reading.parts:
            most[part] = most.get(part, 0) + reading.line.count
    sums = [each for part, each in within(asked, most) if book.parts[part].kind not in needed]
    space = asked.machine.space.extended(sums=sums)
    if inquiry.possible(space) is None:
        return ()
    left = inquiry.options(space)
    frame = asked.machine.frame
    at_home = {
        name
        for choice, fitting in frame.fittings.items()
        for at in left[choice]
        for name, _ in fitting.options[at].parts
    }
    return tuple(
        part for part in asked.listed if part not in at_home and book.parts[part].kind not in needed
    )


def arrangements(inquiry: Inquiry, asked: Asked, space: Space) -> Arrangements:
    """Return the ways to place the parts of an order, when they are not too many.

    Args:
        inquiry: the machine and the engines.
        asked: the order.
        space: the machine with the wishes of the order.
    """
    names = (*_placing(asked.machine), *(each.choice.name for each in asked.readings))
    engine, rows = inquiry.panel.prover, list[tuple[int, ...]]()
    try:
        for row in engine.each(space, names, limit=inquiry.panel.limit):
            rows.append(row)
            if len(rows) > MOST_ARRANGEMENTS:
                return Arrangements(None, _open(space, names, rows))
        judge = inquiry.confirm_refusal(_without(space, names, rows), engine).name
    except (OutOfTime, StoppedError):
        return Arrangements(None, _open(space, names, rows))
    return Arrangements(len(rows), _open(space, names, rows), (engine.name, judge))


def _placing(machine: Machine) -> Iterator[str]:
    """Yield the choices that put parts and cables somewhere; settings tell no parts apart."""
    for name, fitting in machine.frame.fittings.items():
        is_cable = fitting.place.removesuffix(" controller") in machine.book.places
        if not fitting.derived and is_cable:
            yield name


def _open(
    space: Space, names: Sequence[str], rows: Sequence[tuple[int, ...]]
) -> dict[str, tuple[str, ...]]:
    found = {}
    for at, name in enumerate(names):
        values = sorted({row[at] for row in rows})
        if len(values) > 1:
            labels = space.choice(name).values
            found[name] = tuple(labels[value] for value in values)
    return found


def _without(space: Space, names: Sequence[str], rows: Sequence[tuple[int, ...]]) -> Space:
    """Return the space without the arrangements found, one sum for each."""
    sums = []
    for row in rows:
        weights = tuple(
            (name, tuple(int(at == value) for at in range(space.choice(name).size)))
            for name, value in zip(names, row, strict=True)
        )
        sums.append(Sum(weights, len(names) - 1, FOUND))
    return space.extended(sums=sums)


def paths(inquiry: Inquiry, asked: Asked, shown: Witness) -> tuple[Path, ...]:
    """Return the ways to buy the parts of a build, cheapest first.

    A ready-made model is a way where some legal build with the same parts still is that model,
    options added.

    Raises:
        StoppedError: at a limit.
    """
    machine = asked.machine
    found = [Path("", _price(shown), {})]
    same = tuple(_exactly(asked, shown))
    for model, made in machine.book.models.items():
        origin = Origin(f"order.model {model}", "wish", f"It is model {made.name}.")
        encoded = encode(AllOf((keeps(machine.frame, model),)), origin, machine.sizes)
        tables = [law for law in encoded.laws if isinstance(law, Table)]
        sums = [law for law in encoded.laws if isinstance(law, Sum)]
        space = machine.space.extended(encoded.choices, tables, (*same, *sums))
        if inquiry.possible(space) is not None:
            found.append(_from_model(machine, model, shown))
    return tuple(sorted(found, key=lambda path: (path.price is None, path.price or 0)))


def _price(shown: Witness) -> Fraction | None:
    return next((each.value for each in shown.figures if each.name == "price"), None)


def _exactly(asked: Asked, shown: Witness) -> Iterator[Sum]:
    """Yield sums that fix how many of each chosen part a build has."""
    for part, at_most in within(asked, shown.parts):
        weights = tuple((name, tuple(-w for w in ws)) for name, ws in at_most.weights)
        yield at_most
        yield Sum(weights, -shown.parts.get(part, 0), at_most.origin)


def _from_model(machine: Machine, model: str, shown: Witness) -> Path:
    made, book = machine.book.models[model], machine.book
    has: dict[str, int] = {}
    for fitted in made.places.values():
        for item in fitted.items:
            has[item.part] = has.get(item.part, 0) + item.count
            for other, each in book.parts[item.part].brings.items():
                has[other] = has.get(other, 0) + item.count * each.known
    options = {
        part: number - has.get(part, 0)
        for part, number in shown.parts.items()
        if number > has.get(part, 0)
    }
    if made.price is None:
        return Path(model, None, options)
    prices = [
        (fact.known.canonical if (fact := book.parts[part].price) else Fraction(0)) * number
        for part, number in options.items()
    ]
    return Path(model, made.price.known.canonical + sum(prices, Fraction(0)), options)
