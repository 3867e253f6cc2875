"""A walkthrough as a script: times, drawings with call-outs, kit, numbers and questions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from baywright.desk.walk.kit import kit_of
from baywright.desk.walk.lines import Line
from baywright.desk.walk.questions import likeliest
from baywright.desk.walk.stations import Station, covers, name_of_mark
from baywright.desk.walk.tour import Cost
from baywright.desk.walk.walk import Shot, Walk, act_pause
from baywright.drawing.draw import scene_of
from baywright.drawing.shots import Shot as Drawn
from baywright.drawing.shots import shot as drawn_shot
from baywright.facts.cautions import PLANNING_AID
from baywright.facts.status import standing_line
from baywright.language.spoken import spoken, spoken_numbers
from baywright.papers.script import CallOut, Part, SaidKind, Script, Spoken

WIDTH = 640.0
"""Width of the drawing of a station [px]."""


def script_of(made: Walk) -> Script:
    """Return a walkthrough as a script with everything that goes with it."""
    opened, book = made.opened, made.opened.machine.book
    clock = _Clock(made)
    parts = tuple(clock.part(number, shot) for number, shot in enumerate(made.shots, 1))
    closing = tuple(clock.said(says, "talk") for says in made.closing)
    day = opened.as_of.isoformat()
    return Script(
        machine=book.book.name,
        maker=book.book.maker,
        standing=standing_line(book.book.name, book.book.id, day, opened.status),
        build=made.build.name.text if made.build is not None else "",
        stance=made.asked.stance.name,
        audience=made.asked.audience,
        rate=made.asked.pace.rate,
        planning_aid=PLANNING_AID,
        tour=_tour(made.cost),
        parts=parts,
        closing=closing,
        kit=kit_of(made),
        numbers=tuple(_numbers(parts, book.book.currency)),
        questions=likeliest(made),
        left_out=tuple(station.title for station in made.left_out),
    )


def _tour(cost: Cost) -> str:
    return (
        f"covers off and on {cost.covers}, quarter turns {cost.turns}, "
        f"{cost.travel:,} mm between stations; no order costs less"
    )


class _Clock:
    """Gives every sentence its time, one after the other."""

    def __init__(self, made: Walk) -> None:
        self._made, self._pace, self._now = made, made.asked.pace, 0.0

    def said(self, text: str, kind: SaidKind, stands_on: str = "") -> Spoken:
        """Return a sentence that is spoken now; the time after it is gone on to."""
        start = self._now
        end = start + self._pace.speech(text)
        self._now = end + self._pace.breath
        aloud = spoken(text, self._made.opened.book.book.currency)
        return Spoken(text, aloud, kind, start, end, stands_on)

    def part(self, number: int, shot: Shot) -> Part:
        """Return a station that starts now."""
        start = self._now
        spoken_here = [*self._acts(shot)]
        self._now += self._pace.look
        spoken_here.append(self.said(shot.opening, "talk"))
        spoken_here += [self._line(line) for line in shot.lines]
        book = self._made.opened.machine.book
        deepest = max(each.station.off for each in self._made.shots[:number])
        drawn = _drawing(self._made, shot.station)
        return Part(
            number,
            shot.station.title,
            shot.station.side,
            covers(book)[:deepest],
            start,
            self._now,
            tuple(spoken_here),
            tuple(_callouts(shot, drawn)),
            drawn.svg,
        )

    def _acts(self, shot: Shot) -> Iterator[Spoken]:
        for act in shot.acts:
            for line in act.before:
                yield self._line(line)
            yield self.said(act.says, "act")
            self._now += act_pause(act, self._pace)

    def _line(self, line: Line) -> Spoken:
        kind: SaidKind = "caution" if line.topic.startswith("caution") else "line"
        if line.topic in ("promise", "where"):
            kind = "talk" if line.topic == "promise" else "line"
        return self.said(line.says, kind, stands_on(line))


def stands_on(line: Line) -> str:
    """Return what a line was proven from: its reading, or its facts with their sources."""
    if line.reading:
        # Where a sentence can be read in several ways, all of them were proven.
        return " or ".join(dict.fromkeys(line.reading.split("; or ")))
    facts = dict.fromkeys(
        f"{fact.path} = {fact.text}" + (f" ({fact.source}, {fact.date})" if fact.source else "")
        for fact in line.facts
    )
    return "; ".join(facts)


def _drawing(made: Walk, station: Station) -> Drawn:
    scene = scene_of(
        station.side, made.opened.machine.book, made.build, stance=made.asked.stance, narrow=True
    )
    return drawn_shot(scene, station.marked, station.title, WIDTH)


def _callouts(shot: Shot, drawn: Drawn) -> Iterator[CallOut]:
    where = {each.place: each for each in shot.where}
    for name, number in drawn.numbers.items():
        held = where.get(name)
        if held is not None:
            yield CallOut(number, held.name, held.words)
        else:
            yield CallOut(number, name_of_mark(name), "")


def _numbers(parts: Sequence[Part], currency: str) -> Iterator[tuple[str, str]]:
    """Yield each number that is not spoken as it is written, once."""
    found: dict[str, str] = {}
    for part in parts:
        for said in part.spoken:
            for token, words in spoken_numbers(said.text, currency):
                found.setdefault(token.text, words)
    yield from sorted(found.items(), key=lambda pair: (len(pair[0]), pair[0]))
