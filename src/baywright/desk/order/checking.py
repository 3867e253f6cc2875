"""Checking an order: read, asked, repaired, with everything that was found."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path as FilePath

from baywright.answers.inquiry import Inquiry, StoppedError
from baywright.answers.verdicts import No, Verdict, Witness, Yes
from baywright.desk.opening import Opened
from baywright.desk.order.asked import Asked, asked, wishes
from baywright.desk.order.findings import (
    Arrangements,
    Excess,
    Follow,
    Path,
    arrangements,
    excess,
    following,
    orphans,
    paths,
)
from baywright.desk.order.reading import Order, read_order
from baywright.desk.order.repair import Repair, repairs
from baywright.desk.worlds import possible_over_worlds
from baywright.exchange.lists.rows import Row, read_rows
from baywright.facts.book import Book
from baywright.facts.status import Status
from baywright.files.books import bundled_books, read_book
from baywright.laws.wishes import Wish, read_wishes, with_wishes
from baywright.problems import Mark, Problems

GIVEN = Mark("given", 1, 1)


@dataclass(frozen=True)
class Checked:
    """An order with everything that was found.

    Args:
        name: name of the file.
        book: id of the book.
        as_of: the day it holds for, in ISO form.
        status: what the machine is on that day.
        order: what was read and what was not.
        asked: how it was asked of the machine.
        verdict: whether a build has exactly these parts, those that follow left free.
        repairs: the fewest changes that make it possible, when it is not.
        follow: parts that follow from the build and are missing or left over.
        excess: parts of which more is listed than any build has.
        orphans: parts that nothing listed gives a home.
        arrangements: the ways to place the parts, when it can be built.
        paths: the ways to buy it, cheapest first.
        stopped: what was not found in time, sentences.
        supposed: values of unknown facts that repairs, prices and arrangements hang on, by path.
    """

    name: str
    book: str
    as_of: str
    status: Status
    order: Order
    asked: Asked
    verdict: Verdict
    repairs: tuple[Repair, ...] = ()
    follow: tuple[Follow, ...] = ()
    excess: tuple[Excess, ...] = ()
    orphans: tuple[str, ...] = ()
    arrangements: Arrangements | None = None
    paths: tuple[Path, ...] = ()
    stopped: tuple[str, ...] = ()
    supposed: Mapping[str, str] = field(default_factory=dict)

    @property
    def shown(self) -> Witness | None:
        """The build that is shown: of the order, or of its first repair."""
        if isinstance(self.verdict, Yes):
            return self.verdict.witness
        return self.repairs[0].witness if self.repairs else None


def check_file(opened: Opened, path: FilePath, given: str = "") -> Checked:
    """Check the order in a file.

    Args:
        opened: the book, with day and site.
        path: the list.
        given: a condition that the build has to meet too, or empty.

    Raises:
        Problems: when the list cannot be read, or the condition makes no sense.
        StoppedError: at a limit.
        RecheckError: when an engine's result did not pass its re-check.
    """
    return check_rows(opened, read_rows(path), str(path), given)


def check_rows(opened: Opened, rows: Sequence[Row], name: str, given: str = "") -> Checked:
    """Check the rows of an order; otherwise like ``check_file``."""
    order = read_order(opened.book, other_books(opened.book), rows)
    verdict = possible_over_worlds(opened, lambda each: wishes(asked(order, each), given), 0)
    held = asked(order, opened.machine)
    base = Checked(
        name,
        opened.book.book.id,
        opened.as_of.isoformat(),
        opened.status,
        order,
        held,
        verdict,
        supposed=opened.supposed,
    )
    return _Findings(opened.inquiry(), base, given).all()


def other_books(book: Book) -> list[Book]:
    """Return the other bundled books that can be read, the predecessor first."""
    found = []
    for name, folder in bundled_books().items():
        try:
            other = read_book(folder)
        except Problems:  # a book that is being changed is no reason to refuse an order
            continue
        if other.book.id != book.book.id:
            found.append((str(book.book.predecessor or "") != name, name, other))
    return [other for _, _, other in sorted(found, key=lambda each: each[:2])]


class _Findings:
    """Finds what an order's verdict calls for; what takes too long is said to be missing."""

    def __init__(self, inquiry: Inquiry, checked: Checked, given: str) -> None:
        self._inquiry = inquiry
        self._checked = checked
        self._given = given
        self._stopped: list[str] = []

    def all(self) -> Checked:
        checked = self._checked
        if isinstance(checked.verdict, Yes):
            checked = self._buildable(checked.verdict.witness)
        elif isinstance(checked.verdict, No):
            checked = self._refused()
        return replace(checked, stopped=tuple(self._stopped))

    def _buildable(self, shown: Witness) -> Checked:
        held = self._checked.asked
        space = with_wishes(held.machine.space, wishes(held, self._given))
        return replace(
            self._checked,
            follow=following(held, shown),
            arrangements=arrangements(self._inquiry, held, space),
            paths=self._paths(shown),
        )

    def _refused(self) -> Checked:
        held, inquiry = self._checked.asked, self._inquiry
        try:
            found = repairs(inquiry, held, self._kept())
            taken = {step.instead_of or step.part for each in found for step in each.taking}
            checked = replace(
                self._checked,
                repairs=found,
                excess=excess(inquiry, held, [part for part in held.listed if part in taken]),
                orphans=orphans(inquiry, held),
            )
        except StoppedError as stopped:
            self._stopped.append(f"The repair was not found in time: {stopped.tried}.")
            return self._checked
        if not found:
            return checked
        shown = found[0].witness
        return replace(checked, follow=following(held, shown), paths=self._paths(shown))

    def _kept(self) -> list[Wish]:
        """Return what every repair keeps: the voltage and the condition."""
        machine, voltage = self._checked.asked.machine, self._checked.order.voltage
        found = read_wishes(machine, f"voltage == {voltage}", GIVEN) if voltage else []
        return found + (read_wishes(machine, self._given, GIVEN, 100) if self._given else [])

    def _paths(self, shown: Witness) -> tuple[Path, ...]:
        try:
            return paths(self._inquiry, self._checked.asked, shown)
        except StoppedError as stopped:
            self._stopped.append(f"The ways to buy it were not compared in time: {stopped.tried}.")
            return ()
