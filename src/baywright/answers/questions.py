"""The questions: each takes wishes to an engine and brings back a checked verdict."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from baywright.answers.cheapest import cheapest
from baywright.answers.inquiry import Inquiry, StoppedError
from baywright.answers.nearest import nearest
from baywright.answers.projection import View, view
from baywright.answers.reasons import explain_refusal
from baywright.answers.softening import CHANGED, soften, switch_of
from baywright.answers.verdicts import (
    Count,
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
    why = explain_refusal(inquiry, space, wishes)
    try:
        near = nearest(inquiry, wishes, nearby) if nearby else ()
    except StoppedError:
        # The refusal stands without them.
        near = ()
    proof = inquiry.proof(refusal=True)
    stands_on = structure(space, why.reasons)
    return No(why.reasons, near, proof, structure=stands_on, others=why.others)


def structure(space: Space, reasons: Sequence[Reason]) -> tuple[Citation, ...]:
    """When wishes alone cannot hold, return what the places they speak of can be.

    Args:
        space: the space with the wishes.
        reasons: why it has no build.
    """
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
        why = explain_refusal(inquiry, space, denial)
        shown = witness(machine, cheapest(inquiry, with_wishes(machine.space, claim)) or values)
    except StoppedError as stopped:
        return Stopped(stopped.tried)
    proof = inquiry.proof(refusal=True)
    return Yes(shown, proof, always=why.reasons, others=why.others)


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
    proof = inquiry.proof(refusal=True)
    return Together(asked, first.reasons, largest, proof, first.others)


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
