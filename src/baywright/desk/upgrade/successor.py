"""The other path: the machine that follows, with what can be carried over to it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path

from baywright.answers import questions
from baywright.answers.inquiry import Inquiry
from baywright.answers.upgrading import Reached, Upgrades, owned
from baywright.answers.verdicts import Proof, Verdict, Witness
from baywright.answers.witnesses import witness
from baywright.desk.opening import Opened, Setting, open_book
from baywright.desk.upgrade.carrying import Carried, carry
from baywright.desk.upgrade.losses import losses
from baywright.desk.upgrade.needs import Read, read_for_other
from baywright.desk.upgrade.standing import given_up, holding, kept
from baywright.desk.upgrade.ways import Bought, bought_parts
from baywright.desk.upgrade.work import Effort, Piece, effort
from baywright.facts.need import Need
from baywright.facts.parts import Drive
from baywright.facts.status import Status
from baywright.files.books import bundled_books, read_book
from baywright.laws.builds import parts_list
from baywright.laws.machine import Machine
from baywright.laws.wishes import with_wishes
from baywright.problems import Problems
from baywright.space import Assignment

_OF_RUNNING = ("forced-off", "several-cords", "rebuild")
"""Cautions that are about no machine which has never run."""


@dataclass(frozen=True, slots=True)
class Transfer:
    """Moving parts from the machine that stands to the one that follows.

    Args:
        build: what it takes to fit the parts that are bought, before anything is switched off.
        out: what it takes to take the parts out of the one.
        into: what it takes to fit them in the other.
        off: time from stopping the one to starting the other [s], as far as the books say.
        untimed: what the books state no time for.
    """

    build: Effort
    out: Effort
    into: Effort
    off: Fraction
    untimed: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Successor:
    """The path to the machine that follows.

    Args:
        book: id of its book.
        name: its name.
        currency: that of its prices.
        status: what it is on the day.
        unread: conditions of the need that make no sense for it, each with what is wrong.
        verdict: why it cannot meet the need, or ``None`` when it can.
        target: the cheapest build that meets the need, with what can be carried over.
        chassis: price of the machine without parts.
        bought: parts that are bought for it.
        carried: what becomes of each part that is owned.
        transfer: what it takes to move the parts over.
        gives_up: what it does not keep, as sentences.
        lost: what it has less of than the machine that stands.
        proof: how it was found and checked.
        supposed: values taken for facts of its book that nobody has stated yet.
    """

    book: str
    name: str
    currency: str
    status: Status
    unread: tuple[tuple[str, str], ...]
    verdict: Verdict | None
    target: Witness | None = None
    chassis: Fraction = Fraction(0)
    bought: tuple[Bought, ...] = ()
    carried: tuple[Carried, ...] = ()
    transfer: Transfer | None = None
    gives_up: tuple[str, ...] = ()
    lost: tuple[str, ...] = ()
    proof: Proof | None = None
    supposed: tuple[str, ...] = ()

    @property
    def price(self) -> Fraction:
        """List price of the machine and all parts that are bought for it."""
        return self.chassis + sum((each.total for each in self.bought), Fraction(0))


def following(opened: Opened) -> list[Path]:
    """Return the folders of books that name this one as what they follow.

    Looked at are the books that come with the package and those beside this one; what is no
    readable book is passed over.
    """
    here = opened.folder.resolve()
    folders = dict.fromkeys(path.resolve() for path in (*_beside(here), *bundled_books().values()))
    return [path for path in folders if path != here and _follows(path, opened.book.book.id)]


def _beside(folder: Path) -> list[Path]:
    try:
        return [other for other in sorted(folder.parent.iterdir()) if other.is_dir()]
    except OSError:
        # A folder that may not be listed has no books that could be read.
        return []


def _follows(folder: Path, book: str) -> bool:
    if not any(folder.glob("*.yaml")):
        return False
    try:
        return read_book(folder).book.predecessor == book
    except Problems:
        return False


def successor(
    opened: Opened, folder: Path, standing: Machine, start: Assignment, need: Need
) -> Successor:
    """Return the path to the machine of another book.

    Args:
        opened: the book of the machine that stands, with day and site.
        folder: the other book.
        standing: the machine that stands.
        start: its build, complete.
        need: what is needed of one machine, with its site.

    Raises:
        Problems: for the other book.
        StoppedError: at a limit.
        RecheckError: when a result does not pass its check.
    """
    setting = Setting(opened.as_of, opened.setting.altitude, opened.setting.inlet)
    other = open_book(folder, setting, opened.panel)
    world, found = other.in_worlds(
        lambda machine: _in_world(other, machine, standing, start, need)
    )[0]
    return replace(found, supposed=tuple(f"{path} is {v}" for path, v in world.given.items()))


def _in_world(
    other: Opened, machine: Machine, standing: Machine, start: Assignment, need: Need
) -> Successor:
    about, read = machine.book.book, read_for_other(machine, need)
    head = Successor(
        str(about.id), str(about.name), str(about.currency), other.status, read.unread, None
    )
    inquiry = other.inquiry(machine)
    if inquiry.possible(with_wishes(machine.space, read.wishes)) is None:
        return replace(head, verdict=questions.possible(other.inquiry(machine), read.wishes))
    return _reached(head, inquiry, standing, start, read)


def _reached(
    head: Successor, inquiry: Inquiry, standing: Machine, start: Assignment, read: Read
) -> Successor:
    machine = inquiry.machine
    carried = carry(standing.book, machine.book, owned(standing, start))
    stock = _stock(carried)
    drives = {p: n for p, n in stock.items() if isinstance(machine.book.parts[p], Drive)}
    keeps = kept(machine, drives, holding(standing, start))
    lost = given_up(inquiry, read.wishes, keeps)
    space = with_wishes(machine.space, [*read.wishes, *(w for w in keeps if w not in lost)])
    best = Upgrades(machine, stock).best(inquiry, space, ("price", "bought"))
    if best is None:
        raise ValueError("what is needed was possible before")
    shown = witness(machine, best.values)
    wanted = owned(machine, shown.values)
    used = tuple(_used(carried, wanted))
    return replace(
        head,
        target=shown,
        chassis=machine.book.chassis.price.known.canonical,
        bought=tuple(bought_parts(machine.book, Counter(wanted) - Counter(stock))),
        carried=used,
        transfer=_transfer((standing, start), (machine, shown.values), used),
        gives_up=tuple(wish.origin.sentence for wish in lost),
        lost=losses(standing.book, witness(standing, start), machine.book, shown),
        proof=_proof(best, inquiry.proof().milliseconds),
    )


def _transfer(
    old: tuple[Machine, Assignment], new: tuple[Machine, Assignment], carried: Sequence[Carried]
) -> Transfer:
    going = Counter({each.part: each.used for each in carried})
    coming: Counter[str] = Counter()
    for each in carried:
        if each.as_part:
            coming[each.as_part] += each.used
    out = effort(old[0], list(_pieces(*old, going, out=True)), off=True)
    into = effort(new[0], list(_pieces(*new, coming, out=False)), off=True)
    if any(isinstance(new[0].book.parts[part], Drive) for part in +coming):
        # The arrays come to a controller that does not know them.
        into = replace(into, cautions=("moving-array", *into.cautions))
    fitted = Counter(parts_list(*new)) - coming
    build = effort(new[0], list(_pieces(*new, fitted, out=False)), off=True)
    new_yet = tuple(key for key in build.cautions if key not in _OF_RUNNING)
    stop, start = old[0].book.service.stop, new[0].book.service.start
    ends = {"stopping the one": stop, "starting the other": start}
    fixed = sum((fact.known.to("s") for fact in ends.values() if fact), Fraction(0))
    untimed = [words for words, fact in ends.items() if fact is None]
    untimed += [*out.untimed, *into.untimed]
    build = replace(build, cautions=new_yet)
    return Transfer(build, out, into, fixed + out.time + into.time, tuple(dict.fromkeys(untimed)))


def _pieces(
    machine: Machine, values: Assignment, wanted: Counter[str], *, out: bool
) -> Iterator[Piece]:
    """Yield the work on some of the parts of a build, place by place."""
    left = Counter(wanted)
    for name, fitting in machine.frame.fittings.items():
        held = Counter(dict(fitting.options[values[name]].parts)) & left
        if held and not fitting.derived:
            left -= held
            yield Piece(name, fitting.place, *((held, Counter()) if out else (Counter(), held)))


def _proof(best: Reached, milliseconds: float) -> Proof:
    return Proof(best.proven_by, best.rechecked_by, milliseconds)


def _stock(carried: Sequence[Carried]) -> dict[str, int]:
    stock: Counter[str] = Counter()
    for each in carried:
        if each.as_part:
            stock[each.as_part] += each.count
    return dict(stock)


def _used(carried: Sequence[Carried], wanted: Mapping[str, int]) -> Iterator[Carried]:
    """Yield what is carried with how many of it the new build has."""
    left = Counter(wanted)
    for each in carried:
        used = min(each.count, left[each.as_part]) if each.as_part else 0
        left[each.as_part] -= used
        yield replace(each, used=used)
