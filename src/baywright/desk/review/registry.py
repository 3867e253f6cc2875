"""Everything a review looks for. A new finder is a function of a book and a line here."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from baywright.desk.review.age import single_sources, stale_sources
from baywright.desk.review.blocked import blocking_facts
from baywright.desk.review.finding import Finding
from baywright.desk.review.models import unbuildable_models
from baywright.desk.review.never import (
    never_counted,
    never_filled,
    never_fitted,
    never_set,
    never_there,
    nothing_built,
)
from baywright.desk.review.prose import wrong_prose
from baywright.desk.review.rules import idle_rules
from baywright.desk.review.subject import Reviewed
from baywright.desk.review.told import disputed
from baywright.desk.review.words import ambiguous_words


@dataclass(frozen=True, slots=True)
class Finder:
    """Looks for one sort of thing.

    Args:
        find: what it does.
        of_builds: whether it speaks of legal builds, so that it needs one.
    """

    find: Callable[[Reviewed], Iterator[Finding]]
    of_builds: bool = True


FINDERS = (
    Finder(nothing_built, of_builds=False),
    Finder(disputed, of_builds=False),
    Finder(never_fitted),
    Finder(never_filled),
    Finder(never_there),
    Finder(never_counted),
    Finder(never_set),
    Finder(idle_rules),
    Finder(unbuildable_models),
    Finder(wrong_prose),
    Finder(ambiguous_words, of_builds=False),
    Finder(blocking_facts),
    Finder(stale_sources, of_builds=False),
    Finder(single_sources, of_builds=False),
)
