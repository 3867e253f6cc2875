"""The questions: each takes wishes to an engine and brings back a checked verdict."""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping, Sequence
from fractions import Fraction

from baywright.answers.cheapest import cheapest
from baywright.answers.inquiry import Inquiry, StoppedError
from baywright.answers.nearest import nearest
from baywright.answers.projection import View, view
from baywright.answers.reasons import explain_refusal
from baywright.answers.softening import CHANGED, soften, switch_of
from baywright.answers.verdicts import (
    Bound,
    Count,
    Figure,
    No,
    Reason,
    Stopped,
    Together,
    Verdict,
    Witness,
    Yes,
)
from baywright.answers.witnesses import witness
from baywright.engines.contract import Objective, OutOfTime
from baywright.facts.citation import Citation
from baywright.laws.formula import Formula, compared, encode
from baywright.laws.linear import Linear, whole
from baywright.laws.machine import Machine
from baywright.laws.subsystem import Lookup, Lowest
from baywright.laws.wishes import Wish, with_wishes
from baywright.space import Origin, Space, Table
from baywright.terms import Expression, text

MOST_STRUCTURE = 8
"""A refusal that hangs on more places than this is not explained by what each can be."""

MOST_ROWS = 20_000
"""More combinations than this are not listed."""


def possible(inquiry: Inquiry, wishes: Sequence[Wish], nearby: int = 3) -> Verdict:
    """Say whether some legal build has all of the wishes.

    Args:
        inquiry: the machine and the engines.
        wishes: what is asked of it.
        nearby: how many nearest builds to look for after a no.
    """
    space = with_wishes(inquiry.machine.space, wishes)
    try:
        found = inquiry.possible(space)
        if found is None:
            return _refused(inquiry, space, wishes, nearby)
    except StoppedError as stopped:
        return Stopped(stopped.tried)
    try:
        shown, by = cheapest(inquiry, space) or found, inquiry.panel.optimiser
    except StoppedError:
        # The build already found is an answer too; it is only not the cheapest.
        shown, by = found, None
    return Yes(witness(inquiry.machine, shown), inquiry.proof(by))


def _refused(inquiry: Inquiry, space: Space, wishes: Sequence[Wish], nearby: int) -> No:
    reasons = explain_refusal(inquiry, space, wishes)
    try:
        near = nearest(inquiry, wishes, nearby) if nearby else ()
    except StoppedError:
        # The refusal stands without them.
        near = ()
    proof = inquiry.proof(refusal=True)
    return No(reasons, near, proof, structure=_structure(space, reasons))


def _structure(space: Space, reasons: Sequence[Reason]) -> tuple[Citation, ...]:
    """When wishes alone cannot hold, say what the places they speak of can be."""
    if any(reason.kind != "wish" for reason in reasons):
        return ()
    keys = {reason.key for reason in reasons}
    names = {name for law in space.laws if law.origin.key in keys for name in law.scope}
    found = (choice.structure for choice in space.choices if choice.name in names)
    if len(names) > MOST_STRUCTURE:
        return ()
    return tuple(
        Citation(origin.key, origin.sentence, origin.facts[0].mark if origin.facts else None)
        for origin in dict.fromkeys(found)
        if origin is not None
    )


def always(inquiry: Inquiry, claim: Sequence[Wish], denial: Sequence[Wish]) -> Verdict:
    """Say whether every legal build has what is claimed.

    Args:
        inquiry: the machine and the engines.
        claim: what every build is said to have.
        denial: the opposite.
    """
    machine = inquiry.machine
    space = with_wishes(machine.space, denial)
    try:
        without = inquiry.possible(space)
        if without is not None:
            return No((), (), inquiry.proof(), witness(machine, without))
        values = inquiry.possible(with_wishes(machine.space, claim))
        if values is None:
            return possible(inquiry, claim)
        reasons = explain_refusal(inquiry, space, denial)
        shown = witness(machine, cheapest(inquiry, with_wishes(machine.space, claim)) or values)
    except StoppedError as stopped:
        return Stopped(stopped.tried)
    return Yes(shown, inquiry.proof(refusal=True), always=reasons)


def extreme(
    inquiry: Inquiry, name: str, linear: Linear, wishes: Sequence[Wish], *, most: bool
) -> Verdict:
    """Return the most or the least of a total over all builds that have the wishes.

    Args:
        inquiry: the machine and the engines.
        name: what the total is called.
        linear: the total.
        wishes: what the builds have to have.
        most: true for the most, false for the least.
    """
    space = with_wishes(inquiry.machine.space, wishes)
    weights = whole(linear.scaled(-1 if most else 1))
    try:
        found = inquiry.best(space, Objective(tuple(weights.items())))
    except StoppedError as stopped:
        return _stopped_at(stopped, name, linear, most=most)
    if found is None:
        return possible(inquiry, wishes)
    figure = Figure(name, name, linear.value(found.values), linear.dimension)
    beyond = _beyond(linear, figure.value, most=most)
    rest = Linear(linear.weights, linear.constant - figure.value, linear.dimension)
    reached = (compared(rest, "=="), found.values)
    return _bound(inquiry, figure, reached, beyond, wishes, most=most)


def _beyond(linear: Linear, reached: Fraction, *, most: bool) -> Formula:
    """Return the formula for a whole unit beyond the best, which is easier to explain.

    The best itself is proven by the optimiser; that no value lies within the unit can hang on
    remainders that make no reason for people.
    """
    level = Fraction(math.floor(reached) + 1 if most else math.ceil(reached) - 1)
    rest = Linear(linear.weights, linear.constant - level, linear.dimension)
    return compared(rest, ">=" if most else "<=")


def _stopped_at(stopped: StoppedError, name: str, linear: Linear, *, most: bool) -> Stopped:
    """Return how far an optimisation came, and what no build can pass."""
    cut = stopped.cut
    reached = linear.value(cut.values) if cut and cut.values else None
    best = Figure(name, name, reached, linear.dimension) if reached is not None else None
    if cut is None or cut.bound is None or cut.value is None or reached is None:
        return Stopped(stopped.tried, best)
    # The objective counts whole steps of the total, downwards when the most is wanted.
    steps = Fraction(cut.value - cut.bound) * linear.quantum
    passed = reached + steps if most else reached - steps
    return Stopped(stopped.tried, best, Figure(name, name, passed, linear.dimension))


def extreme_of_lookup(
    inquiry: Inquiry, name: str, looked_up: Lookup | Lowest, wishes: Sequence[Wish], *, most: bool
) -> Verdict:
    """Return the most or the least of a looked-up value; otherwise like ``extreme``."""
    machine = inquiry.machine
    levels = sorted(_levels(machine, looked_up), reverse=most)
    try:
        for level in levels:
            there = machine.translator.level(looked_up, "==", level)
            asked = [*wishes, _wish("view:level", machine, there)]
            values = inquiry.possible(with_wishes(machine.space, asked))
            if values is not None:
                figure = Figure(name, name, level, looked_up.dimension)
                beyond = machine.translator.level(looked_up, ">" if most else "<", level)
                return _bound(inquiry, figure, (there, values), beyond, wishes, most=most)
    except StoppedError as stopped:
        return Stopped(stopped.tried)
    return possible(inquiry, wishes)


def _levels(machine: Machine, looked_up: Lookup | Lowest) -> set[Fraction]:
    """Return every value that some option gives."""
    terms = looked_up.terms if isinstance(looked_up, Lowest) else (looked_up,)
    numbers = (
        term.number(*options)
        for term in terms
        for options in itertools.product(*(machine.frame.options(name) for name in term.scope))
    )
    return {number for number in numbers if number is not None}


def _wish(key: str, machine: Machine, formula: Formula, sentence: str = "") -> Wish:
    """Return a formula as a wish of its own."""
    origin = Origin(key, "wish", sentence)
    encoded = encode(formula, origin, machine.sizes)
    return Wish(origin, sentence, tuple(encoded.choices), tuple(encoded.laws))


def _bound(
    inquiry: Inquiry,
    figure: Figure,
    reached: tuple[Formula, Mapping[str, int]],
    beyond: Formula,
    wishes: Sequence[Wish],
    *,
    most: bool,
) -> Verdict:
    """Return the bound with the reasons why nothing lies beyond it.

    Args:
        inquiry: the machine and the engines.
        figure: the bound.
        reached: the formula that a build reaches it, and a build that does.
        beyond: the formula that a build goes beyond it.
        wishes: what the builds have to have.
        most: true for the most, false for the least.
    """
    machine = inquiry.machine
    there = _wish("view:level", machine, reached[0])
    sentence = f"Asked: a {'higher' if most else 'lower'} value than the one found."
    asked = [*wishes, _wish("wish:beyond", machine, beyond, sentence)]
    space = with_wishes(machine.space, asked)
    try:
        reasons = explain_refusal(inquiry, space, asked)
        proof = inquiry.proof(inquiry.panel.optimiser, refusal=True)
    except StoppedError:
        # The bound is proven by the optimiser; only its reasons were not found in time.
        reasons, proof = (), inquiry.proof(inquiry.panel.optimiser)
    shown = _cheapest_or(inquiry, with_wishes(machine.space, [*wishes, there]), reached[1])
    structure = _structure(space, reasons)
    return Bound(most, figure, witness(machine, shown), reasons, proof, structure)


def _cheapest_or(inquiry: Inquiry, space: Space, found: Mapping[str, int]) -> Mapping[str, int]:
    """Return the cheapest build, or the one already found when no cheaper comes in time."""
    try:
        return cheapest(inquiry, space) or found
    except StoppedError:
        return found


def listed(inquiry: Inquiry, terms: Sequence[Expression], wishes: Sequence[Wish]) -> Verdict:
    """Return every combination of some terms that a legal build with the wishes has.

    Raises:
        Problems: for a term that makes no sense.
    """
    engine, limit = inquiry.panel.prover, inquiry.panel.limit
    seen = view(inquiry.machine, with_wishes(inquiry.machine.space, wishes), terms)
    rows: list[tuple[int, ...]] = []
    try:
        for row in engine.each(seen.space, seen.names, limit=limit):
            rows.append(row)
            if len(rows) > MOST_ROWS:
                return Stopped(f"There are more than {MOST_ROWS:,} combinations")
        _confirm_complete(inquiry, seen, rows)
    except OutOfTime:
        return Stopped(f"{engine.name} found {len(rows):,} combinations in the time it had")
    except StoppedError as stopped:
        return Stopped(stopped.tried)
    labelled = tuple(seen.row(row) for row in sorted(rows))
    return Count(tuple(text(term) for term in terms), labelled, inquiry.proof(engine, refusal=True))


def _confirm_complete(inquiry: Inquiry, seen: View, rows: Sequence[tuple[int, ...]]) -> None:
    """Have the judge prove that there is no combination beside those found."""
    sizes = [seen.space.choice(name).size for name in seen.names]
    found = set(rows)
    every = itertools.product(*(range(size) for size in sizes))
    others = frozenset(row for row in every if row not in found)
    origin = Origin("view.others", "law", "Combinations beside those found.")
    inquiry.confirm_refusal(seen.space.extended(tables=[Table(seen.names, others, origin)]))


def together(inquiry: Inquiry, claims: Sequence[Wish], given: Sequence[Wish] = ()) -> Verdict:
    """Say whether several claims hold together, and if not, which largest sets of them do.

    Args:
        inquiry: the machine and the engines.
        claims: the claims, none of them hard.
        given: what has to hold with them, all of it hard.
    """
    first = possible(inquiry, [*claims, *given], nearby=0)
    if not isinstance(first, No):
        return first
    try:
        largest = tuple(_largest(inquiry, claims, given))
    except StoppedError as stopped:
        return Stopped(stopped.tried)
    asked = tuple(wish.text for wish in claims)
    return Together(asked, first.reasons, largest, inquiry.proof(refusal=True))


def _largest(
    inquiry: Inquiry, claims: Sequence[Wish], given: Sequence[Wish], most: int = 12
) -> list[tuple[tuple[int, ...], Witness]]:
    """Return the largest sets of claims that hold together: all of the greatest size."""
    softened = soften(inquiry.machine.space, [*claims, *given])
    objective = Objective(tuple((switch_of(wish), (0, 1)) for wish in softened.soft))
    found: list[tuple[tuple[int, ...], Witness]] = []
    least = None
    while len(found) < most:
        best = inquiry.best(softened.space, objective)
        if best is None or (least is not None and best.value > least):
            break
        least = best.value
        gone = [wish for wish in softened.soft if best.values[switch_of(wish)] == CHANGED]
        kept = tuple(i for i, claim in enumerate(claims) if claim not in gone)
        found.append((kept, witness(inquiry.machine, best.values)))
        softened = softened.blocked(gone)
    return found
