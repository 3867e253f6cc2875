"""What the book itself tells, as lines at the stations it belongs to."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from baywright.desk.walk.lines import Line
from baywright.desk.walk.stations import Station
from baywright.facts.book import Book
from baywright.language.told.registry import told_by
from baywright.language.told.telling import Told
from baywright.language.word_forms import stems

AT: Mapping[str, str] = {
    "machine": "machine", "models": "machine", "stance": "machine", "firmware": "boot",
    "lock": "lock", "lights": "lock", "marks": "lock", "slots": "slots",
    "memory": "memory", "packs": "packs", "supplies": "supplies", "air": "fans", "service": "fans",
}  # fmt: skip
"""Station of each topic of what a book tells; other topics go by their words."""

WORDS: Mapping[str, str] = {
    "stick": "boot", "boot": "boot", "drive": "zones", "zone": "zones", "cage": "zones",
    "controller": "slots", "supply": "supplies", "fan": "fans", "memory": "memory",
    "module": "memory", "processor": "processors", "pack": "packs", "accelerator": "slots",
    "network": "network", "display": "zones", "riser": "slots", "sink": "processors",
    "kit": "machine", "bracket": "machine", "board": "slots", "bay": "zones",
}  # fmt: skip
"""Station of a sentence by the first word in it that tells one."""

OF_CAUTIONS = ("caution", "planning-aid", "cover", "interlock", "wait")
"""Topics that belong to an act and are said before it."""


def told_lines(book: Book, held: Sequence[Station]) -> Iterator[Line]:
    """Yield the sentences of a book that go with a station rather than with an act."""
    known = {station.key for station in held}
    for told in told_by(book):
        topic = told.topic.partition(" ")[0]
        if topic == "interlock" and not told.says.startswith("Caution"):
            yield from _at_guide(told, held)
        if topic in OF_CAUTIONS or not told.facts:
            continue
        station = station_of(told, known)
        if topic == "must-say":
            yield Line(station, topic, told.says, "must", facts=told.facts)
        else:
            bundle = topic if topic in ("marks", "lock") else ""
            yield Line(station, topic, told.says, facts=told.facts, bundle=bundle)


def _at_guide(told: Told, held: Sequence[Station]) -> Iterator[Line]:
    """Yield what the machine answers when it starts, at the cover that it is about."""
    words = set(stems(told.says))
    for station in held:
        if station.key.startswith("guide") and set(stems(station.title)) - {"the"} <= words:
            yield Line(station.key, "interlock", told.says, facts=told.facts)


def station_of(told: Told, known: set[str]) -> str:
    """Return the station a sentence belongs to; the machine where no better one is there."""
    topic, _, rest = told.topic.partition(" ")
    wanted = AT.get(topic)
    if topic == "work" and rest in ("memory", "network"):
        wanted = rest
    if wanted is None:
        words = stems(rest) + stems(told.says)
        wanted = next((WORDS[word] for word in words if word in WORDS), "machine")
    return wanted if wanted in known else "machine"
