"""Reading an order: each row becomes a line that counts, or stands among what was not read."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from baywright.desk.order.columns import MOST, Entry, entries
from baywright.desk.order.matching import Library, Match
from baywright.desk.order.words import key_of
from baywright.exchange.lists.rows import Row
from baywright.facts.book import Book
from baywright.laws.wording import listed
from baywright.problems import Problem, Problems, nearest


@dataclass(frozen=True, slots=True)
class Line:
    """A line that counts parts.

    Args:
        where: its line, with the sheet of a workbook.
        text: the row as written.
        count: how many, of one machine.
        parts: the parts of the book it could be; one where it is clear, none for another book's.
        place: the place it goes to, or empty.
        book: id of another book whose part it is, or empty.
        foreign: id of that part there, or empty.
        notes: how it was read, where that is not plain.
    """

    where: str
    text: str
    count: int
    parts: tuple[str, ...]
    place: str = ""
    book: str = ""
    foreign: str = ""
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class NotRead:
    """A row, or a part of one, that nothing was made of.

    Args:
        where: its line.
        text: what is written there.
        why: why it was not read, one sentence.
        counts: true when it seems to count something, so that a part may be missing.
    """

    where: str
    text: str
    why: str
    counts: bool = False


@dataclass(frozen=True)
class Order:
    """What an order says, of one machine.

    Args:
        book: the book it is for.
        machines: for how many machines it is.
        lines: lines that count parts.
        models: ready-made models it names, with the line.
        settings: values of settings and cables, by name, as written.
        voltage: voltage of the feeds, or empty.
        not_read: what nothing was made of.
        others: other books by id, for what their parts are.
    """

    book: Book
    machines: int
    lines: tuple[Line, ...]
    models: tuple[tuple[str, str], ...] = ()
    settings: tuple[tuple[str, str], ...] = ()
    voltage: str = ""
    not_read: tuple[NotRead, ...] = ()
    others: dict[str, Book] = field(default_factory=dict)

    @property
    def counts(self) -> dict[str, int]:
        """How many of each part the clear lines and the models have."""
        found: dict[str, int] = {}
        for model, _ in self.models:
            for fitted in self.book.models[model].places.values():
                for item in fitted.items:
                    found[item.part] = found.get(item.part, 0) + item.count
        for line in self.lines:
            if len(line.parts) == 1:
                found[line.parts[0]] = found.get(line.parts[0], 0) + line.count
        return found

    @property
    def unclear(self) -> tuple[Line, ...]:
        """Lines that could be one part or another."""
        return tuple(line for line in self.lines if len(line.parts) > 1)

    @property
    def foreign(self) -> tuple[Line, ...]:
        """Lines for parts of other books."""
        return tuple(line for line in self.lines if line.foreign)


@dataclass
class _Found:
    """What was read so far."""

    lines: list[Line] = field(default_factory=list)
    machines: list[tuple[int, str]] = field(default_factory=list)
    models: list[tuple[int, str, str]] = field(default_factory=list)
    settings: list[tuple[str, str]] = field(default_factory=list)
    voltage: str = ""
    not_read: list[NotRead] = field(default_factory=list)


def read_order(book: Book, others: Sequence[Book], rows: Iterable[Row]) -> Order:
    """Read the rows of an order.

    Args:
        book: the book it is for.
        others: other books whose parts it may name, the predecessor first.
        rows: its rows.

    Raises:
        Problems: when it holds no line that could be read, or its numbers are not the same for
            each of several machines.
    """
    found, library = _Found(), Library(book, others)
    for entry in entries(rows):
        _read(entry, library, found)
    if not (found.lines or found.models):
        raise Problems([_nothing(book, found)])
    machines, lines = _for_one(found)
    return Order(
        book,
        machines,
        lines,
        tuple((model, where) for _, model, where in found.models),
        tuple(found.settings),
        found.voltage,
        tuple(found.not_read),
        {other.book.id: other for other in others},
    )


def _nothing(book: Book, found: _Found) -> Problem:
    first = found.not_read[0] if found.not_read else None
    message = f"No line names a part of {book.book.name}" + (
        f"; line {first.where} is {first.text!r}." if first else "; it is empty."
    )
    return Problem("no-parts", message, None, "Write lines such as '8 x dimm-64'.")


def _read(entry: Entry, library: Library, found: _Found) -> None:
    where, book = entry.row.where, library.own.book
    found.not_read += [NotRead(where, each, "Its column says no part.") for each in entry.ignored]
    if entry.value and not entry.code:
        _setting(entry, book, found)
        return
    if key_of(entry.text) in ("total", "sum", "totals") or not entry.text:
        found.not_read.append(NotRead(where, entry.row.text, "It adds up other lines."))
        return
    count, why = _count(entry)
    if count is None:
        found.not_read.append(NotRead(where, entry.row.text, why, counts=True))
    elif count == 0:
        found.not_read.append(NotRead(where, entry.row.text, "It asks for none."))
    elif not (_machine(entry, count, book, found) or _stated(entry, book, found)):
        _part(entry, count, why, library, found)


def _count(entry: Entry) -> tuple[int | None, str]:
    """Return how many an entry says, and a remark about that."""
    written = entry.count.replace(",", "").replace("\N{NO-BREAK SPACE}", "")
    if not written:
        return 1, "no number is given, so it is taken as 1"
    if not (written.isascii() and written.isdigit()) or int(written) > MOST:
        return None, f"{entry.count!r} is no number of pieces."
    return int(written), ""


def _setting(entry: Entry, book: Book, found: _Found) -> None:
    """Read a row that says the value of a setting, of a cable, or of the voltage."""
    name, value = entry.place, entry.value
    slots_or_values = book.settings[name].values if name in book.settings else book.places
    zone = name.removesuffix(" controller")
    if name == "voltage":
        found.voltage = value
    elif value in slots_or_values and (name in book.settings or zone in book.places):
        found.settings.append((name, value))
    else:
        why = f"{name!r} is no setting of {book.book.name}, or cannot be {value!r}."
        found.not_read.append(NotRead(entry.row.where, entry.row.text, why, counts=True))


def _machine(entry: Entry, count: int, book: Book, found: _Found) -> bool:
    """Read a line that names the machine itself or one of its ready-made models."""
    key, where = key_of(entry.text), entry.row.where
    about = book.book
    if not key:
        return False
    bare = key.removesuffix("chassis").removesuffix("barebone").removesuffix("machine")
    if bare in ("", key_of(about.id), key_of(about.name), key_of(f"{about.maker}{about.name}")):
        found.machines.append((count, where))
        return True
    bare = key.removeprefix("readymade").removeprefix("model").removeprefix(key_of(about.maker))
    for model, made in book.models.items():
        if bare in (key_of(model), key_of(made.name), key_of(f"{about.name}{model}")):
            found.models.append((count, model, where))
            return True
    return False


def _stated(entry: Entry, book: Book, found: _Found) -> bool:
    """Read a line that is a value of a setting in its own words, such as a system."""
    key = key_of(entry.text)
    for name, setting in book.settings.items():
        for value, said in setting.values.items():
            if key in (
                key_of(said.text),
                key_of(f"{setting.name}{said.text}"),
                key_of(f"{name}{value}"),
            ):
                found.settings.append((name, value))
                return True
    return False


def _part(entry: Entry, count: int, assumed: str, library: Library, found: _Found) -> None:
    where, book = entry.row.where, library.own.book
    match, notes = _match(entry, library)
    notes += (assumed,) if assumed else ()
    place = entry.place if entry.place in book.places else ""
    if entry.place and not place:
        why = f"There is no place {entry.place!r} in {book.book.name}."
        found.not_read.append(NotRead(where, f"place: {entry.place}", why))
    if match.parts:
        notes += _notes(match)
        found.lines.append(Line(where, entry.row.text, count, match.parts, place, notes=notes))
        return
    for other, part in _elsewhere(entry, library):
        found.lines.append(Line(where, entry.row.text, count, (), "", other.book.id, part, notes))
        return
    why = _why_not(entry, library)
    found.not_read.append(NotRead(where, entry.row.text, why, counts=bool(entry.count)))


def _match(entry: Entry, library: Library) -> tuple[Match, tuple[str, ...]]:
    """Match the id first and then the words; where both say something else, it could be either."""
    by_text = library.own.match(entry.text)
    if not entry.code or entry.code == entry.text:
        return by_text, ()
    by_code = library.own.match(entry.code)
    if by_code.how != "id":
        return (by_text, ()) if by_text.parts else (by_code, ())
    if not by_text.parts or set(by_code.parts) & set(by_text.parts):
        return by_code, ()
    parts = tuple(dict.fromkeys((*by_code.parts, *by_text.parts)))
    return Match(parts, "id"), ("its id and its words say different parts",)


def _notes(match: Match) -> tuple[str, ...]:
    said = [f"{word!r} was read as {other!r}" for word, other in match.respelled]
    if match.left:
        said.append(f"not understood in it: {listed(match.left)}")
    return tuple(said)


def _elsewhere(entry: Entry, library: Library) -> Iterator[tuple[Book, str]]:
    yield from library.elsewhere(entry.text)
    if entry.code and entry.code != entry.text:
        yield from library.elsewhere(entry.code)


def _why_not(entry: Entry, library: Library) -> str:
    known = [name for name in library.own.book.parts if name[:1].isalpha()]
    near = nearest(entry.code or entry.text, known)
    hint = f" Did you mean {near!r}?" if near else ""
    return f"No part of {library.own.book.book.name} is called that.{hint}"


def _for_one(found: _Found) -> tuple[int, tuple[Line, ...]]:
    """Return for how many machines an order is, and its lines for one of them.

    Raises:
        Problems: when the numbers cannot be shared equally.
    """
    named = found.machines or [(count, where) for count, _, where in found.models]
    machines = max(1, sum(count for count, _ in named))
    uneven = [line for line in found.lines if line.count % machines]
    uneven_models = [where for count, _, where in found.models if count != machines]
    if uneven or uneven_models:
        first = uneven[0].where if uneven else uneven_models[0]
        message = (
            f"The order is for {machines} machines, and line {first} is not the same for each."
        )
        raise Problems([Problem("uneven", message, None, "Give one list for each build.")])
    lines = tuple(
        Line(
            line.where,
            line.text,
            line.count // machines,
            line.parts,
            line.place,
            line.book,
            line.foreign,
            line.notes,
        )
        for line in found.lines
    )
    return machines, lines
