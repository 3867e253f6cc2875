"""Reasons: a minimal set of laws, rules and wishes that cannot hold together.

Found by QuickXplain (Junker, AAAI 2004) over origins, starting from what the engine says
suffices. Every member is shown to be needed: without it alone, a build exists. The whole set
is proven impossible again by another engine.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence

from baywright.answers.inquiry import Inquiry, RecheckError, SpaceInquiry
from baywright.answers.tallies import level_tally, tally
from baywright.answers.verdicts import Reason, Witness
from baywright.answers.witnesses import witness
from baywright.engines.contract import Objective
from baywright.facts.citation import Citation
from baywright.laws.linear import whole
from baywright.laws.wishes import Wish
from baywright.space import Space

Possible = Callable[[frozenset[str]], bool]
"""Whether a build exists when only these origins have to hold."""


def minimal(candidates: Sequence[str], possible: Possible) -> list[str]:
    """Return a minimal part of the candidates that is impossible; earlier ones are kept longer.

    Args:
        candidates: keys that are impossible together.
        possible: whether a set of keys is possible.
    """

    def explain(background: frozenset[str], rest: list[str]) -> list[str]:
        """Explain a background that is possible alone, and impossible with the rest."""
        if len(rest) == 1:
            return rest
        half = len(rest) // 2
        first, second = rest[:half], rest[half:]
        late = beyond(background | frozenset(first), second)
        return beyond(background | frozenset(late), first) + late

    def beyond(background: frozenset[str], rest: list[str]) -> list[str]:
        return explain(background, rest) if possible(background) else []

    keys = list(candidates)
    return explain(frozenset(), keys) if keys else []


def smallest(candidates: Sequence[str], possible: Possible, tries: int = 3) -> list[str]:
    """Return the smallest of the minimal sets that a few orders of the candidates lead to."""
    found = minimal(candidates, possible)
    best = found
    for turn in range(1, tries):
        if len(best) <= 2:
            break
        # What the last set used goes last, so that the next set does without it where it can.
        keys = [key for key in candidates if key not in found] + found[turn:] + found[:turn]
        found = minimal(keys, possible)
        best = min(best, found, key=len)
    return best


def needed_part(inquiry: SpaceInquiry, space: Space, asked: Collection[str]) -> Space:
    """Return a part of a space without builds that has none either, each of its origins needed.

    Args:
        inquiry: the engines.
        space: a space that has no build.
        asked: origin keys of wishes. They are kept as reasons for longest, but only those of
            which each has to be given up, or another, under all laws.

    Raises:
        RecheckError: when the judge does not agree.
        StoppedError: at a limit.
    """
    every = frozenset(space.origins)

    def possible(keys: frozenset[str]) -> bool:
        return inquiry.possible(space, every - keys) is not None

    core = inquiry.core(space)
    order = sorted(core, key=lambda key: (key not in asked, space.origins[key].kind, key))
    # An engine that names no core is slow here as well: one order has to do.
    found = smallest(order, possible, tries=1 if len(core) == len(every) else 3)
    wished = [key for key in found if key in asked]
    laws = every.difference(asked)
    enough = minimal(wished, lambda keys: possible(laws | keys))
    if len(enough) < len(wished):
        # A wish stood in for a law: given up, it would have left the rest impossible all the same.
        found = minimal([*enough, *sorted(laws)], possible)
    needed = space.only(found)
    inquiry.confirm_refusal(needed)
    return needed


def explain_refusal(inquiry: Inquiry, space: Space, wishes: Iterable[Wish]) -> tuple[Reason, ...]:
    """Return why a space has no build, each reason shown to be needed.

    Raises:
        RecheckError: when the judge does not agree.
        StoppedError: at a limit.
    """
    asked = {wish.key: wish for wish in wishes}
    needed = needed_part(inquiry, space, asked)
    return tuple(_reason(inquiry, space, needed, key, asked.get(key)) for key in needed.origins)


def _reason(inquiry: Inquiry, space: Space, needed: Space, key: str, wish: Wish | None) -> Reason:
    machine, origin = inquiry.machine, space.origins[key]
    totals = wish.totals if wish else machine.frame.totals.get(key, ())
    bounded = Objective(tuple(whole(totals[0].linear).items())) if len(totals) == 1 else None
    values = build_without(inquiry, space, needed, key, bounded)
    shown = witness(machine, values)
    counted = (
        level_tally(wish.level, values) if wish and wish.level else tally(machine, totals, values)
    )
    facts = _relevant(origin.facts, shown)
    return Reason(key, origin.kind, origin.sentence, facts, counted, shown)


def build_without(
    inquiry: SpaceInquiry, space: Space, needed: Space, key: str, bounded: Objective | None = None
) -> Mapping[str, int]:
    """Return a build that exists once one reason is given up.

    Everything else holds in it where that is possible, otherwise the other reasons do.

    Args:
        inquiry: the engines.
        space: a space that has no build.
        needed: the part of it that its reasons are.
        key: the reason given up.
        bounded: the total that the reason bounds, which then passes its bound by the least.

    Raises:
        RecheckError: when there is none, so that it was no reason.
        StoppedError: at a limit.
    """
    rest = space.without([key])
    if inquiry.possible(rest) is None:
        rest = needed.without([key])
    best = inquiry.good(rest, bounded) if bounded and bounded.weights else None
    values = best or inquiry.possible(rest)
    if values is None:
        raise RecheckError(f"{key} was called a reason, but nothing is possible without it either")
    return values


def _relevant(facts: tuple[Citation, ...], shown: Witness) -> tuple[Citation, ...]:
    """Leave out facts about parts that the build does not have, where others remain."""
    kept = tuple(
        fact
        for fact in facts
        if not fact.path.startswith("parts.") or fact.path.split(".")[1] in shown.parts
    )
    return kept or facts
