"""Judging a build: legal or not, what it comes to, and the nearest builds that are legal."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path

from baywright.answers.verdicts import No, Verdict, Witness, Yes
from baywright.desk.opening import Opened, Setting, open_book
from baywright.desk.worlds import possible_over_worlds
from baywright.facts.build import Build
from baywright.facts.fact import mark_of
from baywright.facts.references import check_build
from baywright.facts.status import Status
from baywright.files.books import read_build
from baywright.laws.builds import build_wishes
from baywright.laws.formula import compiled
from baywright.laws.linear import Linear
from baywright.laws.machine import Machine
from baywright.laws.models import keeps
from baywright.laws.wishes import Wish, read_wishes
from baywright.problems import Problems


@dataclass(frozen=True, slots=True)
class Margin:
    """A limit of a build, and how far it is from it.

    Args:
        words: what is limited.
        used: what is used.
        given: what may be used.
        dimension: dimension of both.
        needed: true for a limit of every legal build, false for one that is asked for.
    """

    words: str
    used: Fraction
    given: Fraction
    dimension: str
    needed: bool

    @property
    def holds(self) -> bool:
        """Whether the limit is kept."""
        return self.used <= self.given


@dataclass(frozen=True, slots=True)
class Judgement:
    """A build with its verdict.

    Args:
        name: what the build is called.
        book: id of the book.
        as_of: the day it holds for, in ISO form.
        site: the site in words.
        asked: the build as written, line by line.
        must: what has to hold beside the laws.
        verdict: the outcome.
        margins: limits of the build when it is complete, whatever the verdict.
        made_from: names of the ready-made models it still is, options added or not.
        status: what the machine is on that day.
    """

    name: str
    book: str
    as_of: str
    site: str
    asked: tuple[str, ...]
    must: tuple[str, ...]
    verdict: Verdict
    margins: tuple[Margin, ...]
    made_from: tuple[str, ...]
    status: Status


def judge(
    path: Path, book: str | Path | None = None, as_of: datetime.date | None = None, nearby: int = 4
) -> Judgement:
    """Judge the build in a file.

    Args:
        path: the build file.
        book: the book it is for; the bundled book it names unless given.
        as_of: the day; the edition of the book unless given.
        nearby: how many nearest builds to look for.

    Raises:
        Problems: for what is wrong with the build or its book.
    """
    build = read_build(path)
    setting = setting_of(build, Setting(as_of))
    return judge_build(open_book(book or build.book, setting), build, nearby)


def setting_of(build: Build, asked: Setting) -> Setting:
    """Return day and site of a build; what is asked goes before the site of the build."""
    site = build.site
    altitude = asked.altitude or (site.altitude.known if site.altitude else None)
    inlet = asked.inlet or (site.inlet.known if site.inlet else None)
    return Setting(asked.as_of, altitude, inlet)


def judge_build(opened: Opened, build: Build, nearby: int = 4) -> Judgement:
    """Judge a build on an open book; otherwise like ``judge``."""
    problems = check_build(build, opened.book)
    if problems:
        raise Problems(problems)
    machine = opened.machine
    verdict = possible_over_worlds(opened, lambda each: wishes_of_build(each, build), nearby)
    shown = _shown(machine, build, verdict)
    return Judgement(
        build.name.known,
        opened.book.book.id,
        opened.as_of.isoformat(),
        _site(build),
        tuple(wish.text for wish in build_wishes(machine, build)),
        tuple(str(must) for must in build.must),
        verdict,
        tuple(margins(machine, shown)) if shown else (),
        tuple(made_from(machine, shown)) if shown else (),
        opened.status,
    )


def asks_redundancy(musts: Iterable[object]) -> bool:
    """Say whether expressions speak of redundant supplies, whose bound then matters to a reader."""
    return any("supplies_redundant" in str(must) for must in musts)


def wishes_of_build(machine: Machine, build: Build) -> list[Wish]:
    """Return a build as wishes: its places, what it must have besides, and the voltage of its site.

    What a build must have is hard: nearest builds keep it.
    """
    wishes = build_wishes(machine, build)
    return [*wishes, *kept_wishes(machine, build, len(wishes) + 1)]


def kept_wishes(machine: Machine, build: Build, start: int = 1) -> list[Wish]:
    """Return what is asked beside the places of a build: what it must have, and its voltage."""
    wishes: list[Wish] = []
    for must in build.must:
        read = read_wishes(machine, must, mark_of(must), start + len(wishes))
        wishes += [replace(wish, hard=True) for wish in read]
    voltage = build.site.voltage
    if voltage is not None:
        asked = f"voltage == {voltage.text}"
        wishes += read_wishes(machine, asked, voltage.mark, start + len(wishes))
    return wishes


def _site(build: Build) -> str:
    site = build.site
    said = [
        f"{fact.text} {words}"
        for fact, words in (
            (site.voltage, "at the feeds"),
            (site.altitude, "above sea level"),
            (site.inlet, "air taken in"),
        )
        if fact is not None
    ]
    return ", ".join(said) or "no site given"


def _shown(machine: Machine, build: Build, verdict: Verdict) -> Witness | None:
    """Return a build with every line as written: the witness, or one that gives up one reason."""
    asked = [pair for wish in build_wishes(machine, build) for pair in wish.asked]
    candidates = [verdict.witness] if isinstance(verdict, Yes) else []
    if isinstance(verdict, No):
        # Given up a reason that bounds a total, what supplies and fans carry still follows.
        ordered = sorted(verdict.reasons, key=lambda reason: reason.tally is None)
        candidates = [reason.without for reason in ordered]
    return next((w for w in candidates if all(w.values[n] == v for n, v in asked)), None)


LIMITS = (
    ("the supplies together", "load", "supplies_carry", True),
    ("the supplies when redundant", "load", "supplies_carry_redundant", False),
    ("all fans", "load", "air_carries", True),
    ("one fan fewer", "load", "air_carries_redundant", False),
)
"""Limits that every judgement shows: what carries, the load, what it may be, needed to be legal."""


def margins(machine: Machine, shown: Witness) -> Iterator[Margin]:
    """Yield the limits of a complete build."""
    for words, used, given, needed in LIMITS:
        mine, theirs = machine.names[used].meaning, machine.names[given].meaning
        if isinstance(mine, Linear) and isinstance(theirs, Linear):
            values = shown.values
            yield Margin(words, mine.value(values), theirs.value(values), mine.dimension, needed)


def made_from(machine: Machine, shown: Witness) -> Iterator[str]:
    """Yield the ready-made models that a build still is, options added or not."""
    names = [choice.name for choice in machine.space.choices]
    row = tuple(shown.values[name] for name in names)
    position = {name: index for index, name in enumerate(names)}
    for model, made in machine.book.models.items():
        if compiled(keeps(machine.frame, model), position)(row):
            yield made.name
