"""What a record puts into each place of a book, and what it leaves open."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace

from baywright.desk.reading.locating import KINDS, Located, locate
from baywright.desk.reading.matching import Match, match
from baywright.desk.reading.zones import boot_medium, cage_of, controller_of
from baywright.facts.book import Book
from baywright.facts.places import AnyPlace, Position, Slot, Zone
from baywright.facts.record import Entry, Record
from baywright.files.drafts import DraftLine
from baywright.laws.wording import counted, listed

READ, FOLLOWS = "read", "follows"
"""How a line came about: the record says it, or it follows from what the record says."""


@dataclass(frozen=True, slots=True)
class Line:
    """A line of the draft.

    Args:
        draft: the line.
        basis: ``read`` or ``follows``.
        where: the resources or structures it comes from.
    """

    draft: DraftLine
    basis: str
    where: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class LeftOpen:
    """A place of which the record does not say what is in it."""

    place: str
    why: str


@dataclass(frozen=True, slots=True)
class NotFitted:
    """An entry that no line comes from.

    Args:
        entry: the entry.
        why: why not, a sentence without its end.
        could_be: parts or places it could be, where there are several.
    """

    entry: Entry
    why: str
    could_be: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class OnBook:
    """A record on a book.

    Args:
        lines: what is in each place.
        left_open: places of which it does not say.
        not_fitted: entries that no line comes from.
        crowded: places that hold one part and are said to hold several, with these entries.
    """

    lines: tuple[Line, ...]
    left_open: tuple[LeftOpen, ...]
    not_fitted: tuple[NotFitted, ...]
    crowded: Mapping[str, tuple[Entry, ...]]


def fit(book: Book, record: Record) -> OnBook:
    """Put what a record lists into the places of a book."""
    return _Fitting(book, record).result()


@dataclass
class _Fitting:
    """The work of one mapping: entries by place, and what could not be placed."""

    book: Book
    record: Record
    located: dict[str, Located] = field(default_factory=dict)
    at: dict[str, list[Entry]] = field(default_factory=dict)
    not_fitted: list[NotFitted] = field(default_factory=list)
    lines: list[Line] = field(default_factory=list)
    left_open: list[LeftOpen] = field(default_factory=list)
    crowded: dict[str, tuple[Entry, ...]] = field(default_factory=dict)

    def result(self) -> OnBook:
        for entry in self.record.entries:
            self._locate(entry)
        for name, place in self.book.places.items():
            self._fill(name, place)
        for name, place in self.book.places.items():
            if not any(line.draft.place == name for line in self.lines):
                self._empty(name, place)
        order = list(self.book.places)
        self.lines.sort(key=lambda line: order.index(line.draft.place))
        self.left_open.sort(key=lambda each: order.index(each.place))
        return OnBook(
            tuple(self.lines), tuple(self.left_open), tuple(self.not_fitted), self.crowded
        )

    def _locate(self, entry: Entry) -> None:
        found = locate(self.book, entry)
        self.located[entry.where] = found
        if len(found.places) == 1:
            self.at.setdefault(found.places[0], []).append(entry)
        elif entry.present and entry.kind != "slot":
            self.not_fitted.append(_nowhere(entry, found))

    def _fill(self, name: str, place: AnyPlace) -> None:
        """Write the line of a place in which something is, or say why it is left open."""
        entries = [each for each in self.at.get(name, []) if each.present]
        parts = self._without_doubles([each for each in entries if each.kind != "slot"])
        if isinstance(place, Zone) and any(e.kind == "drive" for e in self.at.get(name, [])):
            self._fill_zone(name, place, parts)
            return
        if not parts:
            if entries:
                why = "it is in use, and the record does not say by what"
                self.left_open.append(LeftOpen(name, why))
            return
        if isinstance(place, Zone):
            self._fill_zone(name, place, parts)
        elif isinstance(place, Position) and _is_boot(self.book, place, parts):
            found = boot_medium(self.book, place, parts)
            self._write_or_open(name, parts, [found] * len(parts), as_one=True)
        elif len(parts) > _most(place):
            self._crowd(name, parts)
        else:
            taken = list(self.book.taken(getattr(place, "takes", []) or [_KIND_OF[place.type]]))
            found_parts = [match(self.book, each, self._allowed(each, taken)) for each in parts]
            self._write_or_open(name, parts, found_parts)

    def _without_doubles(self, entries: list[Entry]) -> list[Entry]:
        """Leave out a card of no stated kind where one that says more is in the same place."""
        certain = [each for each in entries if each.kind != "device"]
        for each in entries:
            if certain and each.kind == "device":
                why = f"{certain[0].where} is in the same place and says more"
                self.not_fitted.append(NotFitted(each, why))
        return certain or entries

    def _allowed(self, entry: Entry, taken: Iterable[str]) -> list[str]:
        """Return the parts of a place that an entry of its kind may be."""
        kinds = _PARTS_OF.get(entry.kind, (entry.kind,))
        return [name for name in taken if not kinds or self.book.parts[name].kind in kinds]

    def _write_or_open(
        self, name: str, entries: list[Entry], found: list[Match], *, as_one: bool = False
    ) -> None:
        """Write a place whose entries are all certain; otherwise leave it open as a whole."""
        unclear = [pair for pair in zip(entries, found, strict=True) if pair[1].part is None]
        if unclear:
            self.not_fitted += [NotFitted(e, m.grounds, m.could_be) for e, m in unclear]
            first = unclear[0]
            why = f"of {first[0].where} it is not certain what it is: {first[1].grounds}"
            self.left_open.append(LeftOpen(name, why))
            return
        pairs = list(zip(entries, found, strict=True))
        counts = Counter(m.part for _, m in (pairs[:1] if as_one else pairs) if m.part)
        place = self.book.places[name]
        items = tuple(_item(part, count, place) for part, count in counts.items())
        grounds = tuple(dict.fromkeys(self._ground(name, pairs)))
        draft = DraftLine(name, items, grounds=grounds)
        self.lines.append(Line(draft, READ, tuple(entry.where for entry in entries)))

    def _ground(self, name: str, pairs: Iterable[tuple[Entry, Match]]) -> Iterator[str]:
        for part, group in _by_part(pairs).items():
            where = listed(_shortened([entry.where for entry, _ in group]))
            label = self.located[group[0][0].where].label
            here = f"called {label}" if label else f"the only place of its kind is {name}"
            yield f"{part}: {where}, {here}; {group[0][1].grounds}"

    def _crowd(self, name: str, entries: list[Entry]) -> None:
        self.crowded[name] = tuple(entries)
        where = listed(entry.where for entry in entries)
        why = f"it holds one part, and {where} are all said to be in it"
        self.left_open.append(LeftOpen(name, why))
        self.not_fitted += [NotFitted(each, f"{name} is said to hold several") for each in entries]

    def _fill_zone(self, name: str, zone: Zone, entries: list[Entry]) -> None:
        modules = [each for each in entries if each.kind == "module"]
        drives = [each for each in entries if each.kind == "drive"]
        if len(modules) > 1:
            self._crowd(name, modules)
            return
        bays = sum(each.kind == "drive" for each in self.at[name])
        cage = cage_of(self.book, zone, modules, drives, bays)
        if cage.part is None:
            self.not_fitted += [NotFitted(each, cage.grounds, cage.could_be) for each in entries]
            self.left_open.append(LeftOpen(name, f"its cage is not certain: {cage.grounds}"))
            return
        before = len(self.lines)
        taken = list(self.book.parts_of("drive"))
        self._write_or_open(name, drives, [match(self.book, each, taken) for each in drives])
        if len(self.lines) > before:
            controller, said = controller_of(zone, drives, self.record, self.located)
            line = self.lines.pop()
            grounds = (f"{cage.part}: {cage.grounds}", *line.draft.grounds, *said)
            draft = replace(line.draft, cage=cage.part, controller=controller, grounds=grounds)
            self.lines.append(replace(line, draft=draft, where=tuple(e.where for e in entries)))

    def _empty(self, name: str, place: AnyPlace) -> None:
        """Write a place as empty where the record says so or it follows; else leave it open."""
        if any(each.place == name for each in self.left_open):
            return
        always = getattr(place, "always", None)
        if always is not None:
            ground = f"{always} is always there"
            self._write_empty(name, (ground,), (), always, isinstance(place, Zone))
            return
        absent = [each for each in self.at.get(name, []) if not each.present]
        unplaced = self._unplaced(name, place)
        if absent and (not unplaced or _most(place) == 1):
            where = tuple(each.where for each in absent)
            self._write_empty(name, (f"{listed(_shortened(where))}: recorded as empty",), where)
            return
        lists = [self.record.listed_in_full.get(kind) for kind in _LISTED_BY[place.type]]
        if unplaced:
            why = f"{unplaced[0].where}, which goes by {_called(unplaced[0])}, could be in it"
        elif lists and None not in lists:
            said = listed(each for each in lists if each)
            self._write_empty(name, (f"nothing listed in {said} is in it",), ())
            return
        else:
            why = "the record does not speak of it"
        self.left_open.append(LeftOpen(name, why))

    def _write_empty(
        self,
        name: str,
        grounds: tuple[str, ...],
        where: tuple[str, ...],
        always: str = "",
        zone: bool = False,  # noqa: FBT001, FBT002 - of our own making
    ) -> None:
        draft = DraftLine(
            name,
            (always,) if always and not zone else (),
            cage=always if zone else "",
            grounds=grounds,
        )
        self.lines.append(Line(draft, READ if where else FOLLOWS, where))

    def _unplaced(self, name: str, place: AnyPlace) -> list[Entry]:
        """Return entries of no certain place that could be in a place."""
        found: list[Entry] = []
        for entry in (each.entry for each in self.not_fitted):
            places = self.located[entry.where].places
            if entry.kind in KINDS[place.type] and (not places or name in places):
                found.append(entry)
        return found


_PARTS_OF: Mapping[str, tuple[str, ...]] = {
    "device": (),
    "module": (),
    "controller": ("controller",),
}
"""Kinds of part an entry may be, where they are not the kind of the entry; none means any."""

_KIND_OF = {"socket": "processor", "bank": "memory"}
"""What the types of place take that have no list of it."""

_LISTED_BY: Mapping[str, tuple[str, ...]] = {
    "socket": ("processor",),
    "bank": ("memory",),
    "zone": ("drive", "module"),
    "slot": ("device",),
    "supplies": (),
    "fans": (),
    "mount": ("pack",),
    "position": ("drive", "module"),
}
"""Kinds of which a record has to list all before a place of a type is known to be empty."""


def _nowhere(entry: Entry, found: Located) -> NotFitted:
    if found.places:
        why = f"its label {found.label} fits {listed(found.places)}"
        return NotFitted(entry, why, found.places)
    return NotFitted(entry, f"no place of the book goes by {_called(entry)}")


def _called(entry: Entry) -> str:
    others = [label for label in entry.locators if label != entry.where]
    return listed(others[:3], "or") or "no name but its path"


def _is_boot(book: Book, place: Position, entries: list[Entry]) -> bool:
    taken = book.taken([str(each) for each in place.takes]).values()
    return any(part.kind == "boot" for part in taken) and all(e.kind == "drive" for e in entries)


def _most(place: AnyPlace) -> int:
    """Return how many parts a place holds; banks, supplies and fans hold any number."""
    if place.type in ("socket", "mount"):
        return 1
    if isinstance(place, Slot | Position):
        return place.positions.known if place.positions else 1
    return 10_000


def _item(part: str, count: int, place: AnyPlace) -> str:
    counted_place = place.type in ("bank", "zone", "supplies", "fans") or count > 1
    return f"{count} x {part}" if counted_place else part


def _by_part(pairs: Iterable[tuple[Entry, Match]]) -> dict[str, list[tuple[Entry, Match]]]:
    groups: dict[str, list[tuple[Entry, Match]]] = {}
    for entry, found in pairs:
        groups.setdefault(str(found.part), []).append((entry, found))
    return groups


def _shortened(where: Iterable[str]) -> list[str]:
    """Return the first of many resources, and how many more there are."""
    every = list(where)
    if len(every) <= 2:
        return every
    return [every[0], counted(len(every) - 1, "more", "more")]
