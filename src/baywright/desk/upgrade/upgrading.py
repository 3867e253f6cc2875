"""Upgrading a machine: from how it stands to what is needed, and the path to the one after it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path

from baywright.answers import questions
from baywright.answers.verdicts import Verdict, Yes
from baywright.desk.judging import setting_of
from baywright.desk.opening import Opened, open_book
from baywright.desk.request import Request
from baywright.desk.upgrade.needs import for_one, read_for
from baywright.desk.upgrade.standing import standing
from baywright.desk.upgrade.successor import Successor, following, successor
from baywright.desk.upgrade.ways import Way, ways
from baywright.desk.worlds import mattering
from baywright.facts.build import Build
from baywright.facts.need import Need
from baywright.facts.need_checks import check_need
from baywright.facts.references import check_build
from baywright.facts.status import Status
from baywright.files.books import find_book, read_build, read_need
from baywright.laws.machine import Machine
from baywright.problems import Problems
from baywright.space import Assignment


@dataclass(frozen=True, slots=True)
class Plans:
    """What can be done in one way the unknown facts could be.

    Args:
        supposed: the values of unknown facts, by path.
        machine: the machine, compiled.
        stands: whether the machine is legal as it stands, with its build.
        meets: whether some legal build of it meets the need; ``None`` when it does not stand.
        ways: the ways to such a build, the cheapest first.
    """

    supposed: Mapping[str, str]
    machine: Machine
    stands: Verdict
    meets: Verdict | None = None
    ways: tuple[Way, ...] = ()

    @property
    def start(self) -> Assignment | None:
        """The build that stands, complete, or ``None`` when it is not legal."""
        return self.stands.witness.values if isinstance(self.stands, Yes) else None


@dataclass(frozen=True, slots=True)
class Upgrade:
    """The upgrade of a machine.

    Args:
        name: what its build is called.
        need: what the need is called.
        book: id of its book.
        as_of: the day it holds for, in ISO form.
        status: what the machine is on that day.
        currency: that of its prices.
        budget: most price of what is bought, or ``None``.
        plans: the plan for each way the unknown facts that matter could be.
        successors: the paths to machines that follow.
    """

    name: str
    need: str
    book: str
    as_of: str
    status: Status
    currency: str
    budget: Fraction | None
    plans: tuple[Plans, ...]
    successors: tuple[Successor, ...]


def upgraded(
    book: str, start: Path, need: Path, request: Request, others: Sequence[str] = ()
) -> tuple[Opened, Upgrade]:
    """Upgrade the machine of a build file to a need file.

    Args:
        book: the book of the machine.
        start: file of the build that stands.
        need: file of the need.
        request: day, site and time limit, which go before those of the files.
        others: books of machines that may take its place; those that follow it unless given.

    Raises:
        Problems: for the request, the files or a book.
        StoppedError: at a limit.
        RecheckError: when a result does not pass its check.
    """
    return upgraded_from(book, (read_build(start), read_need(need)), request, others)


def upgraded_from(
    book: str, given: tuple[Build, Need], request: Request, others: Sequence[str] = ()
) -> tuple[Opened, Upgrade]:
    """Upgrade a build to a need; otherwise like ``upgraded``."""
    build, needed = given
    one = for_one(needed, build)
    setting = setting_of(build.model_copy(update={"site": one.site}), request.setting())
    opened = open_book(book, setting, request.panel())
    folders = [find_book(other) for other in others] or following(opened)
    return opened, upgrade(opened, build, needed, folders)


def upgrade(opened: Opened, build: Build, need: Need, successors: Sequence[Path] = ()) -> Upgrade:
    """Upgrade a machine; otherwise like ``upgraded``.

    Args:
        opened: its book, with day and site.
        build: the build that stands.
        need: what is needed.
        successors: folders of books of machines that may take its place.
    """
    problems = [*check_build(build, opened.book), *check_need(need, opened.book)]
    if problems:
        raise Problems(problems)
    one = for_one(need, build)
    found = opened.in_worlds(lambda machine: _plans(opened, machine, build, one))
    plans = _told_apart([replace(each, supposed=dict(world.given)) for world, each in found])
    first = next((each for each in plans if each.start is not None), None)
    return Upgrade(
        build.name.known,
        need.name.known,
        str(opened.book.book.id),
        opened.as_of.isoformat(),
        opened.status,
        str(opened.book.book.currency),
        need.budget.known.canonical if need.budget is not None else None,
        plans,
        tuple(_successors(opened, first, one, successors)) if first else (),
    )


def _told_apart(plans: Sequence[Plans]) -> tuple[Plans, ...]:
    """Return plans of worlds that differ in what the machine has or gets, one of each.

    An unknown fact of a part that stands in no machine here changes nothing that is done.
    """
    if len({(type(each.stands), type(each.meets)) for each in plans}) > 1:
        return tuple(plans)
    builds = [each.stands.witness for each in plans if isinstance(each.stands, Yes)]
    builds += [way.target for each in plans for way in each.ways]
    parts = {part for build in builds for part in build.parts}
    apart: dict[tuple[str, ...], Plans] = {}
    for each in plans:
        supposed = mattering(each.supposed, parts)
        apart.setdefault(tuple(supposed.values()), replace(each, supposed=supposed))
    return tuple(apart.values())


def _successors(
    opened: Opened, plans: Plans, need: Need, folders: Sequence[Path]
) -> list[Successor]:
    start = plans.start
    if start is None:
        return []
    return [successor(opened, folder, plans.machine, start, need) for folder in folders]


def _plans(opened: Opened, machine: Machine, build: Build, need: Need) -> Plans:
    stands = standing(opened, machine, build)
    start = stands.values
    if start is None:
        return Plans({}, stands.machine, stands.verdict)
    wishes = read_for(stands.machine, need).wishes
    meets = questions.possible(opened.inquiry(stands.machine), wishes)
    if not isinstance(meets, Yes):
        return Plans({}, stands.machine, stands.verdict, meets)
    found = ways(opened.inquiry(stands.machine), start, wishes)
    return Plans({}, stands.machine, stands.verdict, meets, found)
