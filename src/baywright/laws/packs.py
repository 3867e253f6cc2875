"""Energy packs: which mount serves which controller."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from baywright.facts.book import Book
from baywright.facts.parts import Controller, Part
from baywright.facts.places import Mount
from baywright.laws.frame import Fitting, Frame, alternatives, structure
from baywright.laws.linear import added
from baywright.laws.subsystem import Subsystem
from baywright.laws.wording import listed
from baywright.space import Law


def _choices(book: Book) -> Iterator[Fitting]:
    for name, mount in book.places_of(Mount).items():
        why = structure(book, name, f"{mount.name} holds one pack.")
        yield Fitting(name, name, alternatives(book.taken(mount.takes)), why)


def _laws(frame: Frame) -> Iterable[Law]:
    """Each pack serves a controller with a write cache, and no two packs the same one.

    That is so exactly when no set of packs outnumbers the controllers they could serve (Hall).
    """
    mounts = frame.book.places_of(Mount)
    for served in _unions([tuple(mount.serves) for mount in mounts.values()]):
        group = [name for name, mount in mounts.items() if set(mount.serves) <= set(served)]
        packs = added(frame.by_option(name, lambda option: option.count) for name in group)
        cached = frame.linear(_cached, places=served)
        names = listed(mounts[name].name for name in group)
        sentence = (
            f"A pack in {names} needs a controller with a write cache in {listed(served, 'or')}."
        )
        origin = frame.law(f"packs.controller/{'-'.join(served)}", sentence)
        yield from frame.at_most(origin, packs.minus(cached), 0)


def _unions(served: Iterable[tuple[str, ...]]) -> list[tuple[str, ...]]:
    """Return the sets of slots, and what they come to wherever they overlap, smaller ones first.

    Sets without a slot in common need no union: what holds for each holds for both.
    """
    found: dict[frozenset[str], tuple[str, ...]] = {}
    waiting = list(served)
    while waiting:
        each = waiting.pop(0)
        if frozenset(each) not in found:
            overlapping = (other for other in found.values() if set(other) & set(each))
            waiting += [tuple(dict.fromkeys((*other, *each))) for other in overlapping]
            found[frozenset(each)] = each
    return sorted(found.values(), key=len)


def _cached(name: str, part: Part) -> int:
    return int(isinstance(part, Controller) and part.flush is not None)


SUBSYSTEM = Subsystem("packs", _choices, _laws)
