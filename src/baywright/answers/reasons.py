"""Reasons: minimal sets of laws, rules and wishes that cannot hold together.

The first starts from what the engine says suffices. Further ones are found on request, and it is
said whether these are all. Every member of a set is shown to be needed: without it alone, a build
exists. The whole set is proven impossible again by another engine.

A wish is a reason only where it, or another wish of the set, has to be given up under all laws; one
that merely says what a law says too is none.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass

from baywright.answers.inquiry import Inquiry, RecheckError, SpaceInquiry, StoppedError
from baywright.answers.minimal import Conflict, minimal, minimal_sets, smallest
from baywright.answers.tallies import level_tally, tally
from baywright.answers.verdicts import More, OtherReasons, Reason, Witness
from baywright.answers.witnesses import witness
from baywright.engines.contract import Objective
from baywright.facts.citation import Citation
from baywright.laws.linear import whole
from baywright.laws.wishes import Wish
from baywright.space import Space

Tell = Callable[[Space], tuple[Reason, ...]]
"""Makes reasons of the part of a space that they are, each shown to be needed."""


@dataclass(frozen=True, slots=True)
class Explanation:
    """Why a space has no build.

    Args:
        reasons: a minimal set, the smallest found; empty when none was found in time.
        others: further minimal sets, where more than one was asked for.
    """

    reasons: tuple[Reason, ...] = ()
    others: OtherReasons | None = None


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


def needed_parts(
    inquiry: SpaceInquiry, space: Space, asked: Collection[str], first: Space
) -> Iterator[Space]:
    """Yield every other part that a space has like the first; ends when there is none.

    Parts with other wishes come before those with the same wishes and other laws.

    Args:
        inquiry: the engines.
        space: a space that has no build.
        asked: origin keys of wishes.
        first: the part of it that ``needed_part`` returned.

    Raises:
        RecheckError: when two engines do not agree.
        StoppedError: at a limit.
    """
    every, wishes = frozenset(space.origins), frozenset(asked) & frozenset(space.origins)
    laws, start = every - wishes, frozenset(first.origins)
    explored = [(start & wishes, [start & laws])]
    for wished in minimal_sets(Conflict(inquiry, space, laws, wishes), [start & wishes]):
        found = Conflict(inquiry, space, wished, laws).smallest(laws)
        yield space.only(wished | found)
        explored.append((wished, [found]))
    for wished, known in explored:
        for found in minimal_sets(Conflict(inquiry, space, wished, laws), known):
            yield space.only(wished | found)


def explanation(
    inquiry: SpaceInquiry, space: Space, asked: Collection[str], tell: Tell
) -> Explanation:
    """Return why a space has no build, in as many ways as the panel wants, smallest first.

    Args:
        inquiry: the engines.
        space: a space that has no build.
        asked: origin keys of wishes.
        tell: makes reasons of a part of the space.

    Raises:
        RecheckError: when the judge does not agree.
        StoppedError: at a limit, before the first set.
    """
    first, wanted = needed_part(inquiry, space, asked), inquiry.panel.reason_sets
    if wanted == 1:
        return Explanation(tell(first))
    parts, more = _gathered(inquiry, needed_parts(inquiry, space, asked, first), wanted - 1)
    smallest_one, *rest = sorted([first, *parts], key=lambda part: len(part.origins))[:wanted]
    reasons, others = tell(smallest_one), list[tuple[Reason, ...]]()
    try:
        with inquiry.aside(inquiry.panel.limit):
            for part in rest:
                others.append(tell(part))
    except StoppedError:
        more = "some"
    return Explanation(reasons, OtherReasons(tuple(others), more))


def _gathered(
    inquiry: SpaceInquiry, parts: Iterator[Space], wanted: int
) -> tuple[list[Space], More]:
    """Return one part more than wanted, if there are so many, and whether there are more then."""
    found: list[Space] = []
    try:
        with inquiry.aside(inquiry.panel.limit):
            for part in parts:
                inquiry.confirm_refusal(part)
                found.append(part)
                if len(found) > wanted:
                    return found, "some"
    except StoppedError:
        return found, "unknown"
    return found, "none"


def explain_refusal(inquiry: Inquiry, space: Space, wishes: Iterable[Wish]) -> Explanation:
    """Return why a space of a machine has no build; otherwise like ``explanation``."""
    asked = {wish.key: wish for wish in wishes}

    def tell(needed: Space) -> tuple[Reason, ...]:
        return tuple(_reason(inquiry, space, needed, key, asked.get(key)) for key in needed.origins)

    return explanation(inquiry, space, asked, tell)


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
        bounded: the total that the reason bounds, which then passes its bound by the least that
            is found in time.

    Raises:
        RecheckError: when there is none, so that it was no reason.
        StoppedError: at a limit.
    """
    rest = space.without([key])
    if inquiry.possible(rest) is None:
        rest = needed.without([key])
    values = _closest(inquiry, rest, bounded) or inquiry.possible(rest)
    if values is None:
        raise RecheckError(f"{key} was called a reason, but nothing is possible without it either")
    return values


def _closest(
    inquiry: SpaceInquiry, space: Space, total: Objective | None
) -> Mapping[str, int] | None:
    """Return a build with a small total, if there is one and it is found in time."""
    if total is None or not total.weights:
        return None
    with suppress(StoppedError):
        return inquiry.good(space, total)
    return None


def _relevant(facts: tuple[Citation, ...], shown: Witness) -> tuple[Citation, ...]:
    """Leave out facts about parts that the build does not have, where others remain."""
    kept = tuple(
        fact
        for fact in facts
        if not fact.path.startswith("parts.") or fact.path.split(".")[1] in shown.parts
    )
    return kept or facts
