"""Questions about a space alone, without a book behind it: the same verdicts, the same checks."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from baywright.answers.inquiry import SpaceInquiry, StoppedError
from baywright.answers.reasons import Explanation, build_without, explanation
from baywright.answers.verdicts import (
    Bound,
    Figure,
    No,
    Reason,
    Stopped,
    Tally,
    Verdict,
    Witness,
    Yes,
)
from baywright.engines.contract import Objective
from baywright.laws.builds import Line
from baywright.laws.formula import compared, encode
from baywright.laws.linear import Linear, whole
from baywright.laws.wishes import Wish, with_wishes
from baywright.space import Origin, Space, Sum

BEYOND = "wish:beyond"
"""Key of the wish for more than the most, or less than the least."""


def possible(inquiry: SpaceInquiry, space: Space, wishes: Sequence[Wish]) -> Verdict:
    """Say whether some legal build of a space has all of the wishes.

    Args:
        inquiry: the engines.
        space: the space.
        wishes: what is asked of it.
    """
    asked = with_wishes(space, wishes)
    try:
        values = inquiry.possible(asked)
        if values is not None:
            return Yes(build_of(space, values), inquiry.proof())
        why = explained(inquiry, space, asked)
    except StoppedError as stopped:
        return Stopped(stopped.tried)
    return No(why.reasons, (), inquiry.proof(refusal=True), others=why.others)


def always(
    inquiry: SpaceInquiry, space: Space, claim: Sequence[Wish], denial: Sequence[Wish]
) -> Verdict:
    """Say whether every legal build of a space has what is claimed.

    Args:
        inquiry: the engines.
        space: the space.
        claim: what every build is said to have.
        denial: the opposite.
    """
    denied = with_wishes(space, denial)
    try:
        without = inquiry.possible(denied)
        if without is not None:
            return No((), (), inquiry.proof(), build_of(space, without))
        values = inquiry.possible(with_wishes(space, claim))
        if values is None:
            return possible(inquiry, space, claim)
        why = explained(inquiry, space, denied)
    except StoppedError as stopped:
        return Stopped(stopped.tried)
    proof = inquiry.proof(refusal=True)
    return Yes(build_of(space, values), proof, always=why.reasons, others=why.others)


def extreme(
    inquiry: SpaceInquiry,
    space: Space,
    name: str,
    linear: Linear,
    wishes: Sequence[Wish],
    *,
    most: bool,
) -> Verdict:
    """Return the most or the least of a total over the legal builds of a space.

    Args:
        inquiry: the engines.
        space: the space.
        name: what the total is called.
        linear: the total.
        wishes: what the builds have to have.
        most: true for the most, false for the least.
    """
    weights = whole(linear.scaled(-1 if most else 1))
    try:
        found = inquiry.best(with_wishes(space, wishes), Objective(tuple(weights.items())))
    except StoppedError as stopped:
        cut = stopped.cut
        reached = linear.value(cut.values) if cut and cut.values else None
        best = Figure(name, name, reached) if reached is not None else None
        return Stopped(stopped.tried, best)
    if found is None:
        return possible(inquiry, space, wishes)
    figure = Figure(name, name, linear.value(found.values))
    further = _beyond(space, linear, figure.value, most=most)
    optimiser = inquiry.panel.optimiser
    try:
        why = explained(inquiry, space, with_wishes(space, [*wishes, further]))
        proof = inquiry.proof(optimiser, refusal=True)
    except StoppedError:
        # The bound is proven by the optimiser; only its reasons were not found in time.
        why, proof = Explanation(), inquiry.proof(optimiser)
    shown = build_of(space, found.values)
    return Bound(most, figure, shown, why.reasons, proof, others=why.others)


def _beyond(space: Space, linear: Linear, reached: Fraction, *, most: bool) -> Wish:
    """Return the wish for a whole unit beyond the best."""
    level = Fraction(math.floor(reached) + 1 if most else math.ceil(reached) - 1)
    rest = Linear(linear.weights, linear.constant - level)
    sentence = f"Asked: {'more' if most else 'less'} than {reached}."
    origin = Origin(BEYOND, "wish", sentence)
    sizes = {choice.name: choice.size for choice in space.choices}
    encoded = encode(compared(rest, ">=" if most else "<="), origin, sizes)
    return Wish(origin, sentence, tuple(encoded.choices), tuple(encoded.laws))


def explained(inquiry: SpaceInquiry, space: Space, asked: Space) -> Explanation:
    """Return why a space with wishes has no build, in as many ways as the panel wants.

    Args:
        inquiry: the engines.
        space: the space without the wishes, whose choices are shown.
        asked: the same with them.

    Raises:
        RecheckError: when the judge does not agree.
        StoppedError: at a limit.
    """
    wishes = [key for key, origin in asked.origins.items() if origin.kind == "wish"]

    def tell(needed: Space) -> tuple[Reason, ...]:
        return tuple(_reasons(inquiry, space, asked, needed))

    return explanation(inquiry, asked, wishes, tell)


def _reasons(inquiry: SpaceInquiry, space: Space, asked: Space, needed: Space) -> Iterator[Reason]:
    for key, origin in needed.origins.items():
        laws = [law for law in needed.laws if law.origin.key == key]
        total = laws[0] if len(laws) == 1 and isinstance(laws[0], Sum) else None
        bounded = Objective(total.weights) if total else None
        values = build_without(inquiry, asked, needed, key, bounded)
        tally = _tally(total, values) if total else None
        build = build_of(space, values)
        yield Reason(key, origin.kind, origin.sentence, origin.facts, tally, build)


def _tally(total: Sum, values: Mapping[str, int]) -> Tally:
    """Return what a sum comes to: weights below zero count for the bound, others against it."""
    weights = [(name, of_value[values[name]]) for name, of_value in total.weights]
    given = total.at_most - sum(weight for _, weight in weights if weight < 0)
    shares = sorted(((n, Fraction(w)) for n, w in weights if w > 0), key=lambda share: -share[1])
    used = sum((share for _, share in shares), Fraction(0))
    return Tally(used, Fraction(given), "", tuple(shares))


def build_of(space: Space, values: Mapping[str, int]) -> Witness:
    """Return a build of a space: every choice that is not derived, and what each sum comes to."""
    own = {choice.name: values[choice.name] for choice in space.choices}
    lines = tuple(
        Line(choice.name, choice.name, choice.values[own[choice.name]])
        for choice in space.choices
        if not choice.derived
    )
    keys = Counter(total.origin.key for total in space.sums)
    figures = tuple(
        Figure(s.origin.key, s.origin.key, Fraction(sum(w[own[name]] for name, w in s.weights)))
        for s in space.sums
        if keys[s.origin.key] == 1
    )
    return Witness(own, lines, {}, figures)
