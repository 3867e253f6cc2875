"""The storage sheet: what the drives, controllers and packs of builds give and risk."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from baywright.facts.parts import Controller, Drive, Media
from baywright.sizing.case import Case
from baywright.sizing.figure import Figure, Limit, Listing, Sheet
from baywright.sizing.storage.external import of_external
from baywright.sizing.storage.groups import groups_of
from baywright.sizing.storage.keeping import of_losses, of_rebuilds, of_wear
from baywright.sizing.storage.media import of_backups
from baywright.sizing.storage.packs import of_packs
from baywright.sizing.storage.paths import of_paths
from baywright.sizing.storage.ranking import of_layouts
from baywright.sizing.storage.space import of_space
from baywright.sizing.storage.stated import fitted
from baywright.sizing.subject import Subject


def sheet(case: Case) -> Sheet:
    """Return what storage says of some builds."""
    found = list(_found(case))
    return Sheet(
        tuple(each for each in found if isinstance(each, Figure)),
        tuple(each for each in found if isinstance(each, Limit)),
        _cautions(case),
    )


def _found(case: Case) -> Iterator[Figure | Limit]:
    if fitted(case, Drive):
        groups = groups_of(case)
        yield from of_space(case, groups)
        yield from of_paths(case, groups)
        yield from of_rebuilds(case)
        yield from of_losses(case, groups)
    yield from of_external(case)
    yield from of_wear(case)
    yield from of_packs(case)
    yield from of_backups(case)


def _cautions(case: Case) -> tuple[str, ...]:
    stored = bool(fitted(case, Drive) or fitted(case, Media))
    cached = any(card.flush for card in fitted(case, Controller).values())
    keys = {"rebuild": stored, "write-cache": cached, "removed-media": stored, "estimate": stored}
    return tuple(key for key, applies in keys.items() if applies)


def listings(case: Case) -> Iterable[Listing]:
    """Return the layouts of the drives of one build."""
    return of_layouts(case, groups_of(case))


SUBJECT = Subject("storage", "Storage", sheet, listings)
