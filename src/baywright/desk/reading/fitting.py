"""What a record puts into each place of a book, and what it leaves open."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace

from baywright.desk.reading.locating import KINDS, Located, locate
from baywright.desk.reading.matching import Match, match
from baywright.desk.reading.onbook import (
    FOLLOWS,
    READ,
    LeftOpen,
    Line,
    NotFitted,
    OnBook,
)
from baywright.desk.reading.zones import boot_medium, cage_of, controller_of
from baywright.facts.book import Book
from baywright.facts.parts import Cage
from baywright.facts.places import AnyPlace, Position, Slot, Zone
from baywright.facts.record import Entry, Record
from baywright.files.drafts import DraftLine
from baywright.laws.wording import counted, listed


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
        self.lines = [self._with_doubt(line) for line in self.lines]
        order = list(self.book.places)
        self.lines.sort(key=lambda line: order.index(line.draft.place))
        self.left_open.sort(key=lambda each: order.index(each.place))
        return OnBook(
            tuple(self.lines), tuple(self.left_open), tuple(self.not_fitted), self.crowded
        )

    def _with_doubt(self, line: Line) -> Line:
        """Say beside a number of parts that others of their kind are in no known place."""
        place = self.book.places[line.draft.place]
        others = self._unplaced(line.draft.place, place)
        others = [each for each in others if each.kind in _COUNTED.get(place.type, ())]
        if not others:
            return line
        where = listed(_shortened([each.where for each in others]))
        ground = f"not counted, as their place is not known: {where}"
        grounds = (*line.draft.grounds, ground)
        return replace(line, draft=replace(line.draft, grounds=grounds))

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
        pairs = list(zip(entries, found, strict=True))
        unclear = next((pair for pair in pairs if pair[1].part is None), None)
        if unclear is not None:
            why = f"of {unclear[0].where} it is not certain what it is: {unclear[1].grounds}"
            self._leave_open(name, why, pairs)
            return
        counts = Counter(m.part for _, m in (pairs[:1] if as_one else pairs) if m.part)
        place = self.book.places[name]
        items = tuple(_item(part, count, place) for part, count in counts.items())
        grounds = tuple(dict.fromkeys(self._ground(name, pairs)))
        draft = DraftLine(name, items, grounds=grounds)
        self._write(draft, tuple(entry.where for entry in entries))

    def _leave_open(self, name: str, why: str, pairs: Iterable[tuple[Entry, Match]]) -> None:
        """Leave a place open, and list all that is in it."""
        self.left_open.append(LeftOpen(name, why))
        for entry, found in pairs:
            said = f"it is {found.part}, in {name}, which is left open" if found.part else None
            self.not_fitted.append(NotFitted(entry, said or found.grounds, found.could_be))

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
            self._crowd(name, entries)
            return
        bays = sum(each.kind == "drive" for each in self.at.get(name, []))
        cage = cage_of(self.book, zone, modules, drives, bays)
        if cage.part is None:
            why = f"its cage is not certain: {cage.grounds}"
            self._leave_open(name, why, [(each, cage) for each in entries])
            return
        if self._drives_unsaid(name, cage.part):
            why = f"it has {cage.part}, and the record does not speak of its drives"
            self._leave_open(name, why, [(each, cage) for each in entries])
            return
        before = len(self.lines)
        taken = list(self.book.parts_of("drive"))
        self._write_or_open(name, drives, [match(self.book, each, taken) for each in drives])
        if len(self.lines) == before:
            said = f"it is {cage.part}, in {name}, which is left open"
            self.not_fitted += [NotFitted(each, said, cage.could_be) for each in modules]
            return
        controller, said_of = controller_of(zone, drives, self.record, self.located)
        line = self.lines.pop()
        grounds = (f"{cage.part}: {cage.grounds}", *line.draft.grounds, *said_of)
        draft = replace(line.draft, cage=cage.part, controller=controller, grounds=grounds)
        self._write(draft, tuple(entry.where for entry in entries))

    def _drives_unsaid(self, name: str, part: str) -> bool:
        """Say whether a cage may hold drives of which the record does not speak."""
        seen = any(each.kind == "drive" for each in self.at.get(name, []))
        is_cage = isinstance(self.book.parts[part], Cage)
        return is_cage and not seen and "drive" not in self.record.listed_in_full

    def _empty(self, name: str, place: AnyPlace) -> None:
        """Write a place as empty where the record says so or it follows; else leave it open."""
        if any(each.place == name for each in self.left_open):
            return
        always = getattr(place, "always", None)
        absent = [each for each in self.at.get(name, []) if not each.present]
        unplaced = self._unplaced(name, place)
        lists = [self.record.listed_in_full.get(kind) for kind in _LISTED_BY[place.type]]
        if always is not None and isinstance(place, Zone):
            self._fill_zone(name, place, [])
        elif always is not None:
            self._write(DraftLine(name, (always,), grounds=(f"{always} is always there",)))
        elif absent and (not unplaced or _most(place) == 1):
            where = tuple(each.where for each in absent)
            ground = f"{listed(_shortened(where))}: recorded as empty"
            self._write(DraftLine(name, (), grounds=(ground,)), where)
        elif unplaced:
            why = f"{unplaced[0].where}, which goes by {_called(unplaced[0])}, could be in it"
            self.left_open.append(LeftOpen(name, why))
        elif lists and None not in lists:
            ground = f"nothing listed in {listed(each for each in lists if each)} is in it"
            self._write(DraftLine(name, (), grounds=(ground,)))
        else:
            self.left_open.append(LeftOpen(name, "the record does not speak of it"))

    def _write(self, draft: DraftLine, where: tuple[str, ...] = ()) -> None:
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

_COUNTED = {"bank": ("memory",), "zone": ("drive",), "supplies": ("supply",), "fans": ("fan",)}
"""Kinds of entry that types of place hold any number of."""

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
