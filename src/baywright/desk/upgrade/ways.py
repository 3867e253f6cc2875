"""Ways to what is needed: which parts are bought, moved and left over, and in which steps."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from baywright.answers.inquiry import Inquiry
from baywright.answers.upgrading import CHEAPEST, GENTLEST, Aim, Reached, Upgrades, owned
from baywright.answers.verdicts import Proof, Witness
from baywright.answers.witnesses import witness
from baywright.desk.upgrade.between import Between
from baywright.desk.upgrade.standing import given_up, holding, kept
from baywright.desk.upgrade.steps import Order, order_of
from baywright.desk.upgrade.work import starting_checks, stop_and_start
from baywright.facts.book import Book
from baywright.facts.parts import Drive, Supply
from baywright.laws.blanks import blank_parts
from baywright.laws.machine import Machine
from baywright.laws.wishes import Wish, with_wishes
from baywright.space import Assignment

Aimed = Literal["cheapest", "gentlest"]

AIMS: Mapping[Aimed, tuple[Aim, ...]] = {"cheapest": CHEAPEST, "gentlest": GENTLEST}
"""What a way is best in: the price, or how little is touched of what is there."""


@dataclass(frozen=True, slots=True)
class Bought:
    """A part that is bought.

    Args:
        part: its id.
        name: its name.
        count: how many.
        price: list price of one, or ``None`` when the book states none.
        follows: whether it is a blank, which follows from the other parts.
    """

    part: str
    name: str
    count: int
    price: Fraction | None
    follows: bool = False

    @property
    def total(self) -> Fraction:
        """List price of all of them; nothing where none is stated."""
        return (self.price or Fraction(0)) * self.count


@dataclass(frozen=True, slots=True)
class Way:
    """A way to what is needed.

    Args:
        aimed: what it is best in.
        target: the build it leads to.
        bought: the parts that are bought.
        spare: the parts that are left over, by id.
        order: the steps.
        down: time the machine is off [s], as far as the book states times.
        untimed: what the book states no time for.
        gives_up: what the machine does not keep, as sentences.
        notes: what else has to be known.
        proof: how it was found and checked.
    """

    aimed: Aimed
    target: Witness
    bought: tuple[Bought, ...]
    spare: Mapping[str, int]
    order: Order
    down: Fraction
    untimed: tuple[str, ...]
    gives_up: tuple[str, ...]
    notes: tuple[str, ...]
    proof: Proof

    @property
    def price(self) -> Fraction:
        """List price of all that is bought."""
        return sum((each.total for each in self.bought), Fraction(0))

    @property
    def times_off(self) -> int:
        """How often the machine is switched off."""
        off = [step.off for step in self.order.steps]
        return sum(now and not before for before, now in zip([False, *off], off, strict=False))


def ways(inquiry: Inquiry, start: Assignment, wishes: Sequence[Wish]) -> tuple[Way, ...]:
    """Return the cheapest way, and the gentlest where it leads to another build.

    Args:
        inquiry: the machine that stands, and the engines.
        start: its build, complete.
        wishes: what is needed; some legal build has it.

    Raises:
        StoppedError: at a limit.
        RecheckError: when a result does not pass its check.
    """
    machine = inquiry.machine
    drives = {p: n for p, n in owned(machine, start).items() if _is_drive(machine.book, p)}
    keeps = kept(machine, drives, holding(machine, start))
    lost = given_up(inquiry, wishes, keeps)
    space = with_wishes(machine.space, [*wishes, *(wish for wish in keeps if wish not in lost)])
    upgrades, found = Upgrades(machine, owned(machine, start), start), dict[Aimed, Reached]()
    for aimed, aims in AIMS.items():
        best = upgrades.best(inquiry, space, aims)
        if best is not None and all(_differ(machine, best, each) for each in found.values()):
            found[aimed] = best
    given = tuple(wish.origin.sentence for wish in lost)
    return tuple(_way(inquiry, start, aimed, best, given) for aimed, best in found.items())


def _is_drive(book: Book, part: str) -> bool:
    return isinstance(book.parts[part], Drive)


def _differ(machine: Machine, one: Reached, other: Reached) -> bool:
    own = [name for name, fitting in machine.frame.fittings.items() if not fitting.derived]
    return any(one.values[name] != other.values[name] for name in own)


def _way(
    inquiry: Inquiry, start: Assignment, aimed: Aimed, best: Reached, gives_up: tuple[str, ...]
) -> Way:
    machine, panel = inquiry.machine, inquiry.panel
    shown = witness(machine, best.values)
    order = order_of(Between(machine, start, shown.values, panel))
    had, wanted = Counter(owned(machine, start)), Counter(owned(machine, shown.values))
    down, untimed = _down(machine.book, order)
    bought = tuple(bought_parts(machine.book, wanted - had))
    spent = inquiry.proof(panel.optimiser).milliseconds
    return Way(
        aimed,
        shown,
        bought,
        dict(had - wanted),
        order,
        down,
        untimed,
        gives_up,
        (*_notes(machine.book, had, wanted, bought), *_firmware(machine.book, bought, shown)),
        Proof(best.proven_by, best.rechecked_by, spent),
    )


def bought_parts(book: Book, parts: Mapping[str, int]) -> Iterator[Bought]:
    """Yield the parts that are bought, in the order of the book."""
    follow = blank_parts(book)
    for part, held in book.parts.items():
        if parts.get(part):
            price = held.price.known.canonical if held.price is not None else None
            yield Bought(part, str(held.name), parts[part], price, part in follow)


def _down(book: Book, order: Order) -> tuple[Fraction, tuple[str, ...]]:
    """Return how long the machine is off [s], and what no time is stated for.

    What has to be waited for before some work is waited for once in a stretch without power.
    """
    around, untimed = stop_and_start(book)
    total, waited = Fraction(0), set[str]()
    open_ = [*untimed] if any(step.off for step in order.steps) else []
    before = False
    for step in order.steps:
        if step.off and not before:
            total, waited = total + around, set()
        if step.off:
            total += step.effort.time
            total += sum((w.time for w in step.effort.waits if w.name not in waited), Fraction(0))
            waited.update(wait.name for wait in step.effort.waits)
            open_ += step.effort.untimed
        before = step.off
    return total, tuple(dict.fromkeys(open_))


def _notes(
    book: Book, had: Counter[str], wanted: Counter[str], bought: Sequence[Bought]
) -> Iterator[str]:
    unpriced = [each.name for each in bought if each.price is None]
    if unpriced:
        yield f"No price is stated for {', '.join(unpriced)}."
    yield from _inlets(book, had, wanted)
    yield from starting_checks(book)


def _inlets(book: Book, had: Mapping[str, int], wanted: Mapping[str, int]) -> Iterator[str]:
    """Yield a sentence where other supplies need other cords."""
    for inlet, number in (_inlet_counts(book, wanted) - _inlet_counts(book, had)).items():
        yield f"{number} inlets {inlet} more: cords for them are not in the book."


def _inlet_counts(book: Book, parts: Mapping[str, int]) -> Counter[str]:
    counts: Counter[str] = Counter()
    for part, number in parts.items():
        held = book.parts[part]
        if isinstance(held, Supply) and held.inlet:
            counts[str(held.inlet)] += number
    return counts


def _firmware(book: Book, bought: Sequence[Bought], target: Witness) -> Iterator[str]:
    """Yield the lowest firmware of what is bought under the system of the build."""
    system = next((line.label for line in target.lines if line.choice == "system"), "")
    come = {each.part for each in bought}
    for each in book.firmware.minimum:
        if each.part in come and system in each.systems:
            name, lowest = book.parts[each.part].name, each.at_least.text
            yield f"{name} needs firmware {lowest} or later with this system."
