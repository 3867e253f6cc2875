"""Planning a walkthrough: which stations, which lines, in which order."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from baywright.answers.verdicts import Yes
from baywright.desk.judging import judge_build
from baywright.desk.opening import Opened
from baywright.desk.walk.acts import Act, cover_acts, station_cautions, turn_said
from baywright.desk.walk.audience import ranked
from baywright.desk.walk.built import build_lines
from baywright.desk.walk.choosing import Chosen, Group, Item, chosen
from baywright.desk.walk.lines import Line, Subject
from baywright.desk.walk.positions import outlines_of, position_sentence, positions
from baywright.desk.walk.stations import Station, stations
from baywright.desk.walk.talk import CLOSING, opening, promise
from baywright.desk.walk.told_lines import told_lines
from baywright.desk.walk.topics.registry import proven_lines
from baywright.desk.walk.tour import Tour, best_tour
from baywright.desk.walk.walk import OFF_BY, Asked, Shot, Walk
from baywright.facts.build import Build
from baywright.problems import Problems, problem

SHOWN = 200
"""What a station is worth for being shown at all: as much as two lines that should be said."""

MOST_TRIES = 3
"""How often lines are chosen again when turns took longer than was reckoned with."""

_VALUE = {"should": 100, "may": 10}


def walk(opened: Opened, build: Build | None, asked: Asked) -> Walk:
    """Return the walkthrough of a machine.

    Args:
        opened: the book, with day and site.
        build: a build to show, or ``None`` for what can be built.
        asked: minutes, audience, speed of speech and how the machine stands.

    Raises:
        Problems: kind ``too-short`` when what must be said takes longer; ``too-few-lines`` when
            all there is to say takes less; ``not-legal`` for a build that is none.
    """
    if build is not None:
        _check(opened, build)
    planner = _Planner(opened, build, asked)
    made = planner.planned()
    least, most = (60 * asked.minutes * (1 + by) for by in (-OFF_BY, OFF_BY))
    if made is None or made.seconds > most:
        raise _too_short(planner)
    if made.seconds < least and not asked.at_most:
        everything = planner.longest()
        raise _too_few(everything) if everything.seconds < least else _too_coarse(made)
    return made


def _check(opened: Opened, build: Build) -> None:
    judgement = judge_build(opened, build)
    if not isinstance(judgement.verdict, Yes):
        message = f"{build.name.text} is not a legal build of the {opened.book.book.name}."
        hint = "baywright judge says why; a walkthrough shows what can be built."
        raise problem("not-legal", message, None, hint)


class _Planner:
    """Plans a walkthrough: which stations, which lines, in which order."""

    def __init__(self, opened: Opened, build: Build | None, asked: Asked) -> None:
        self._opened, self._build, self.asked = opened, build, asked
        self._book = opened.machine.book
        self._stations = {each.key: each for each in stations(self._book)}
        self._must, self._free = self._lines()
        # A cover of which nothing is said is taken off, and not shown by itself.
        for key in [each for each in self._stations if each.startswith("guide")]:
            if not self._must[key] and not self._free[key]:
                del self._stations[key]

    def _lines(self) -> tuple[dict[str, list[Line]], dict[str, list[Line]]]:
        """Return the lines of each station: those that must be said, and the others by rank."""
        subject = Subject(self._opened)
        status, about = self._opened.status.note, self._book.book
        dates = self._book.cite(about.announced, about.ships, about.last_order)
        found = [
            *([Line("machine", "status", status, "must", facts=dates)] if status else []),
            *(line for station in self._stations.values()
              for line in station_cautions(self._book, station)),
            *proven_lines(subject),
            *told_lines(self._book, tuple(self._stations.values())),
            *(build_lines(subject, self._build) if self._build is not None else ()),
        ]  # fmt: skip
        must: dict[str, list[Line]] = {key: [] for key in self._stations}
        free: dict[str, list[Line]] = {key: [] for key in self._stations}
        for line in found:
            held = ranked(line, self.asked.audience)
            if held is not None:
                station = held.station if held.station in must else "machine"
                (must if held.rank == "must" else free)[station].append(held)
        return must, free

    def planned(self) -> Walk | None:
        """Return the walkthrough, or ``None`` where what must be said takes longer than asked.

        The machine is opened as deep as serves best: to a depth at which there is enough to say,
        and of those to the one at which what is said is worth most.
        """
        depths = sorted({station.off for station in self._stations.values()})
        needed = max(station.off for key, station in self._stations.items() if self._is_needed(key))
        found = [self._to_depth(depth) for depth in depths if depth >= needed]
        enough = 60 * self.asked.minutes * (1 - OFF_BY)
        made = [each for each in found if each is not None]
        best = max(made, key=lambda each: (each[0].seconds >= enough, each[1]), default=None)
        return best[0] if best is not None else None

    def _to_depth(self, depth: int) -> tuple[Walk, int] | None:
        """Return the best walkthrough that takes no more than so many covers off, and its value.

        What a turn costs is known only once stations are chosen, so the choice is made again where
        it took longer than was reckoned with.
        """
        room, best = 60 * self.asked.minutes, None
        for _ in range(MOST_TRIES):
            found = self._chosen(depth, room)
            if found is None:
                return best
            best = (self._made(found.keys), found.value)
            over = best[0].seconds - 60 * self.asked.minutes
            if over <= 0:
                return best
            room -= over
        return best

    def shortest(self) -> Walk:
        """Return the walkthrough of what must be said alone."""
        needed = frozenset(key for key in self._stations if self._is_needed(key))
        return self._made(needed)

    def longest(self) -> Walk:
        """Return the walkthrough of all there is to say."""
        items = (item.key for key in self._stations for item in self._items(key))
        return self._made(frozenset([*self._stations, *items]))

    def _is_needed(self, key: str) -> bool:
        topics = {line.topic for line in self._must[key]}
        return key == "machine" or not topics.isdisjoint(("must-say", "build"))

    def _chosen(self, depth: int, room: float) -> Chosen | None:
        held = {key: each for key, each in self._stations.items() if each.off <= depth}
        fixed = self._made(frozenset(held)).seconds - sum(map(self._opening_seconds, held))
        groups = [
            Group(key, self._opening_seconds(key), self._items(key), self._is_needed(key), SHOWN)
            for key in held
        ]
        return chosen(groups, room - fixed)

    def _opening_seconds(self, key: str) -> float:
        """Return how long a station takes with nothing but what must be said at it [s]."""
        station, pace = self._stations[key], self.asked.pace
        where = position_sentence(self._book, station, self.asked.stance)
        said = [opening(station, 1, ""), *(line.says for line in self._must[key])]
        said += [where] if where else []
        return pace.look + sum(map(pace.sentence, said))

    def _items(self, key: str) -> tuple[Item, ...]:
        bundles: dict[str, list[Line]] = {}
        for number, line in enumerate(self._free[key]):
            bundles.setdefault(line.bundle or f"{number}", []).append(line)
        pace = self.asked.pace
        return tuple(
            Item(
                f"{key}/{name}",
                sum(pace.sentence(line.says) for line in lines),
                sum(_VALUE[line.rank] + line.weight for line in lines),
            )
            for name, lines in bundles.items()
        )

    def _made(self, keys: frozenset[str]) -> Walk:
        held = [each for key, each in self._stations.items() if key in keys]
        tour = best_tour([each.stop for each in held])
        shots = tuple(self._shots(tour, keys))
        opened_up = any(act.kind == "cover" for shot in shots for act in shot.acts)
        said = sum(len(shot.lines) for shot in shots)
        every = sum(map(len, (*self._free.values(), *self._must.values())))
        return Walk(
            self._opened,
            self._build,
            self.asked,
            shots,
            tour.cost,
            CLOSING if opened_up else CLOSING[1:],
            tuple(each for key, each in self._stations.items() if key not in keys),
            max(0, every - said),
        )

    def _shots(self, tour: Tour, keys: frozenset[str]) -> Iterator[Shot]:
        order = [self._stations[stop.key] for stop in tour.order]
        said: set[str] = set()
        side, off = "front", 0
        for number, station in enumerate(order):
            acts = [*cover_acts(self._book, station, off)]
            if station.side != side:
                acts.append(Act("turn", station.side, (), turn_said(station.side)))
            acts = [replace(act, before=_once(act.before, said)) for act in acts]
            again = number > 0 and station.side == side and side == "inside"
            lines = self._lines_at(station, keys, order[number + 1 :], again=again)
            yield Shot(
                station,
                tuple(acts),
                opening(station, number, self._book.book.name, after_act=bool(acts)),
                positions(self._book, station, self.asked.stance),
                _once(lines, said),
            )
            side, off = station.side, max(off, station.off)

    def _lines_at(
        self, station: Station, keys: frozenset[str], ahead: Sequence[Station], *, again: bool
    ) -> Sequence[Line]:
        where = position_sentence(self._book, station, self.asked.stance, again=again)
        outlines = outlines_of(self._book, station)
        free = self._free[station.key]
        taken = [
            line for number, line in enumerate(free)
            if f"{station.key}/{line.bundle or number}" in keys
        ]  # fmt: skip
        cautions = [line for line in self._must[station.key] if _is_caution(line)]
        rest = [line for line in self._must[station.key] if not _is_caution(line)]
        promised = promise(ahead) if station.key == "machine" else ""
        return (
            *([Line(station.key, "where", where, "must", facts=outlines)] if where else []),
            *cautions,
            *in_order([*rest, *taken]),
            *([Line(station.key, "promise", promised, "must")] if promised else []),
        )


def in_order(lines: Sequence[Line]) -> list[Line]:
    """Return lines as they were proposed, those of one bundle together at the first of them.

    What a book tells of the machine and of locks opens a station, what else it tells closes it.
    """
    first: dict[str, int] = {}
    for at, line in enumerate(lines):
        first.setdefault(line.bundle or str(at), at)

    def place(pair: tuple[int, Line]) -> tuple[int, int]:
        at, line = pair
        told = not line.reading and line.topic != "status"
        part = 0 if line.topic in OPENING else 2 if told else 1
        return part, first[line.bundle or str(at)]

    return [line for _, line in sorted(enumerate(lines), key=place)]


OPENING = ("status", "machine", "lock")
"""Topics that open their station."""


def _is_caution(line: Line) -> bool:
    return line.topic.startswith("caution")


def _once(lines: Sequence[Line], said: set[str]) -> tuple[Line, ...]:
    """Return the lines that were not said before; cautions are said once."""
    new = [line for line in lines if line.says not in said]
    said.update(line.says for line in new)
    return tuple(new)


def _too_short(planner: _Planner) -> Problems:
    held = planner.shortest()
    needed = held.seconds / 60
    asked = planner.asked
    message = (
        f"{asked.minutes:g} min are too short: what must be said takes {needed:.1f} min at "
        f"{asked.pace.rate:g} words a minute."
    )
    return problem(
        "too-short", message, None, f"Ask for {needed / (1 + OFF_BY) + 0.05:.1f} or more."
    )


def _too_coarse(made: Walk) -> Problems:
    held, asked = made.seconds / 60, made.asked
    message = (
        f"No choice of lines takes {asked.minutes:g} min within {OFF_BY:.0%}: the nearest takes "
        f"{held:.1f} min, and one station more is too long."
    )
    return problem("too-short", message, None, "Ask for more minutes.")


def _too_few(made: Walk) -> Problems:
    held = made.seconds / 60
    message = (
        f"There is {held:.1f} min to say to {made.asked.audience}, and {made.asked.minutes:g} min "
        "were asked for."
    )
    hint = f"Ask for {held / (1 - OFF_BY) - 0.05:.1f} min or less, or state more in the book."
    return problem("too-few-lines", message, None, hint)
