"""Places that a phrase names: zones, slots, risers, switch boards and pack mounts, by name or all.

"Riser 1" is one place of several slots; "zones A and B" are two places. So what is named comes in
groups, and with how it is meant: all together, each on its own, or any one of them.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from baywright.facts.book import Book
from baywright.facts.places import Mount, Slot, Zone
from baywright.language.glossary import Slot as Phrase

How = Literal["", "every", "any"]
Group = tuple[str, ...]


class Places(tuple[str, ...]):  # noqa: SLOT001 - holds attributes
    """Ids of places, flat, with how they were named.

    Args:
        groups: the places, those that have one name together in one group.
        how: every where each is meant on its own, any where one of them is, else empty.
    """

    groups: tuple[Group, ...]
    how: How

    @classmethod
    def of(cls, groups: Iterable[Group], how: How = "") -> Places:
        """Return places from their groups."""
        held = tuple(groups)
        made = cls(name for group in held for name in group)
        made.groups, made.how = held, how
        return made


def groups_of(names: Sequence[str]) -> tuple[Group, ...]:
    """Return the groups of places, each place alone where none were named together."""
    return names.groups if isinstance(names, Places) else tuple((name,) for name in names)


def how_of(names: Sequence[str]) -> How:
    """Return how places are meant."""
    return names.how if isinstance(names, Places) else ""


def family(book: Book, feature: str, filters: Sequence[str] = ()) -> tuple[Group, ...]:
    """Return the places of a kind, as groups.

    Args:
        book: the book.
        feature: zones, slots, risers, boards, places or mounts.
        filters: lengths that slots are to have, such as ``slots.length=full``.
    """
    slots = {n: s for n, s in book.places_of(Slot).items() if "network" not in s.takes}
    if feature == "zones":
        return tuple((name,) for name in book.places_of(Zone))
    if feature == "mounts":
        return tuple((name,) for name in book.places_of(Mount))
    if feature == "slots":
        return tuple((n,) for n, s in slots.items() if not s.positions and _passes(s, filters))
    if feature in ("boards", "places"):
        return tuple((name,) for name, slot in slots.items() if slot.positions)
    if feature == "risers":
        insides = dict.fromkeys(str(s.inside) for s in slots.values() if s.inside)
        risers = [each for each in insides if each.startswith("riser")]
        return tuple(tuple(n for n, s in slots.items() if s.inside == each) for each in risers)
    return ()


def _passes(slot: Slot, filters: Sequence[str]) -> bool:
    for each in filters:
        path, _, value = each.partition("=")
        fact = getattr(slot, path.removeprefix("slots."), None)
        if not path.startswith("slots.") or fact is None or fact.text != value:
            return False
    return True


FAMILIES = ("zones", "slots", "risers", "boards", "places", "mounts")
"""Features whose places a phrase can name all at once."""


@dataclass(frozen=True, slots=True)
class Named:
    """All places of a kind as a phrase names them, before the number is looked at."""

    quant: str = ""
    number: int = 0
    one: bool = False
    definite: bool = False
    filters: tuple[str, ...] = ()


def all_of_a_kind(
    book: Book, slots: Sequence[Phrase], at: int, *, inside: bool
) -> tuple[Places, int] | None:
    """Read all or each of a kind of place: ``all zones``, ``each riser``, ``the three slots``.

    Args:
        book: the book.
        slots: the phrases.
        at: where it starts.
        inside: whether it follows a word such as in, so that the article alone will do.
    """
    named, here = _before(slots, at)
    if here >= len(slots):
        return None
    feature = next((f for f in FAMILIES if slots[here].has("feature", f)), "")
    groups = family(book, feature, named.filters) if feature else ()
    if not groups or (here + 1 < len(slots) and slots[here + 1].has("id")):
        return None
    plural = slots[here].text.casefold().endswith("s")
    found = _meant(named, groups, plural=plural, inside=inside)
    return (found, here + 1) if found is not None else None


def _before(slots: Sequence[Phrase], at: int) -> tuple[Named, int]:
    """Return what stands before the noun."""
    quant, number, one, definite, filters, here = "", 0, False, False, list[str](), at
    while here < len(slots):
        slot = slots[here]
        word = slot.text.casefold()
        if slot.has("link", "per") and here == at:
            quant = "every"
        elif slot.has("quant"):
            quant = word if word != "any" else "every"
        elif slot.has("number"):
            number = int(slot.token.number)
        elif word in ("a", "an", "one of the", "the same", "a single"):
            one = True
        elif word in ("the", "its", "their", "front", "of", "these"):
            definite = definite or word in ("the", "its", "their", "these")
        elif slot.has("filter"):
            filters.append(slot.of("filter")[0])
        else:
            break
        here += 1
    return Named(quant, number, one, definite, tuple(filters)), here


_EACH = ("every", "each", "either", "each one", "each and every")
_ALL = ("all", "both")


def _meant(named: Named, groups: tuple[Group, ...], *, plural: bool, inside: bool) -> Places | None:
    if named.quant in _EACH:
        return Places.of(groups, "every")
    if named.quant and named.quant not in _ALL:
        return None
    if named.quant == "both" and len(groups) != 2:
        return None
    if (named.one or named.number == 1) and not named.quant:
        return Places.of(groups, "any") if inside and not plural else None
    if named.number and named.number != len(groups):
        return None
    if named.quant or named.number:
        return Places.of(groups)
    if plural and inside and (named.definite or named.filters):
        return Places.of(groups)
    single = len(groups) == 1 and named.definite and not plural
    return Places.of(groups) if single else None
