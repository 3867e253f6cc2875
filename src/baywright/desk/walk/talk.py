"""What joins the statements of a walkthrough: it states nothing of the machine itself."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from baywright.desk.walk.acts import POWER_OFF, cover_said, turn_said
from baywright.desk.walk.stations import Station, covers, stations
from baywright.facts.book import Book

OPENINGS = ("Now {}.", "Next, {}.", "On to {}.", "Let us look at {}.")
"""Ways to come to a station, one after the other."""

CLOSING = ("Everything goes back in the reverse order.", "Thank you for watching.")
"""What is said at the end; the first only where something has come off."""


def opening(station: Station, number: int, machine: str, *, after_act: bool = False) -> str:
    """Return how a station is come to.

    Args:
        station: the station.
        number: how many stations came before it.
        machine: name of the machine.
        after_act: whether something was done just before.
    """
    if number == 0:
        return f"This is the {machine}."
    if after_act:
        return f"Here {'are' if station.title.endswith('s') else 'is'} {station.title}."
    return OPENINGS[number % len(OPENINGS)].format(station.title)


def promise(ahead: Sequence[Station]) -> str:
    """Return a sentence that says what comes later, or nothing where nothing does.

    Args:
        ahead: the stations that come.
    """
    wanted = ("memory", "slots", "supplies", "zones")
    titles = {station.key: station.title for station in ahead}
    named = next((titles[key] for key in wanted if key in titles), "")
    return f"We will come to {named} later." if named else ""


def talk_of(book: Book) -> Iterator[str]:
    """Yield every sentence that may join the statements about a machine."""
    held = stations(book)
    for station in held:
        yield station.title
        yield from (opening(station, number, book.book.name) for number in range(5))
        yield opening(station, 1, book.book.name, after_act=True)
    for at, name in enumerate(covers(book)):
        yield cover_said(at, name)
    yield from (turn_said(side) for side in ("front", "rear", "inside"))
    yield from (POWER_OFF, *CLOSING)
