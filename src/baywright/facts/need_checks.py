"""What is wrong with a need, beside what its reader already refuses."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.facts.book import Book, facts_of
from baywright.facts.fact import Fact, mark_of
from baywright.facts.need import Need
from baywright.facts.readers import shown
from baywright.facts.site_checks import check_site
from baywright.problems import Problem, Problems
from baywright.terms import parse

MOST_FAILURES = 2
"""No level of the common disk data format survives more drive failures wherever they fall."""


def check_need(need: Need, book: Book) -> list[Problem]:
    """Return what cannot be asked for as it stands."""
    return [
        *_book(need, book),
        *_unknown(need),
        *_expressions(need),
        *_positive(need),
        *_storage(need),
        *_failures(need),
        *_money(need, book),
        *check_site(need.site),
    ]


def _book(need: Need, book: Book) -> Iterator[Problem]:
    if need.book != book.book.id:
        message = f"The need is for the book {shown(need.book)}, not for {shown(book.book.id)}."
        yield Problem("unknown-reference", message, mark_of(need.book), "Read it with its book.")


def _unknown(need: Need) -> Iterator[Problem]:
    """A site may leave something open, as sizing then says; what is asked for may not."""
    for part in (need.demand, need.growth, need.survive, need.budget, need.hosts, need.repeat):
        for fact in facts_of(part):
            if fact.value is None:
                hint = "State one value, or fit a need for each."
                yield Problem("unknown", f"{fact.path} is not known.", fact.mark, hint)


def _expressions(need: Need) -> Iterator[Problem]:
    for text in (*need.must, *need.may, *need.must_not, *need.prefer):
        try:
            parse(text, mark_of(text))
        except Problems as found:
            yield from found.problems


def _positive(need: Need) -> Iterator[Problem]:
    demand = need.demand
    counts = (
        (need.hosts, "hosts"),
        (need.sites, "sites"),
        (need.racks, "racks"),
        (need.repeat, "repeat"),
        (demand.copies, "copies"),
        (demand.fill, "fill"),
        (demand.virtual_cores_per_core, "virtual_cores_per_core"),
    )
    for fact, name in counts:
        if fact is not None and fact.value is not None and fact.value <= 0:
            yield Problem("not-positive", f"{name} has to be above 0.", fact.mark, "Leave it out.")
    wholes: tuple[Fact[int] | None, ...] = (
        demand.drive_failures,
        demand.cores,
        need.survive.hosts,
        need.survive.supplies,
        need.survive.fans,
        need.survive.feeds,
        need.growth.years if need.growth else None,
        *(each.count for each in (demand.guests, demand.users, demand.accelerators) if each),
    )
    for whole in wholes:
        if whole is not None and whole.value is not None and whole.value < 0:
            yield Problem("negative", "This is below 0.", whole.mark, "Write 0 or more.")


def _storage(need: Need) -> Iterator[Problem]:
    demand = need.demand
    asked = [
        fact
        for fact in (
            demand.capacity,
            demand.guests.storage if demand.guests else None,
            demand.users.storage if demand.users else None,
        )
        if fact is not None
    ]
    failures = demand.drive_failures
    if failures is not None and failures.value is not None and failures.value > MOST_FAILURES:
        message = f"No array survives {failures.value} drive failures wherever they fall."
        yield Problem("drive-failures", message, failures.mark, f"Ask for 0 to {MOST_FAILURES}.")
    for fact, name in ((demand.copies, "copies"), (demand.fill, "fill")):
        if fact is not None and not asked:
            message = f"{name} says how data is kept, but no data is asked for."
            hint = "Give capacity, or storage of the guests."
            yield Problem("no-data", message, fact.mark, hint)
    if demand.copies is not None and failures is not None:
        message = (
            "Data is either in copies over machines, or in arrays that survive drive failures."
        )
        yield Problem("two-ways", message, failures.mark, "Keep copies or drive_failures.")
    lost = need.survive.hosts
    if asked and demand.copies is None and lost is not None and lost.value:
        message = "The data of a machine that fails is gone without copies on others."
        yield Problem("no-copies", message, lost.mark, "Say how many copies software keeps.")


def _failures(need: Need) -> Iterator[Problem]:
    survive = need.survive
    for fact, name in (
        (survive.supplies, "supplies"),
        (survive.fans, "fans"),
        (survive.feeds, "feeds"),
    ):
        if fact is not None and fact.value is not None and fact.value > 1:
            message = f"{name} can be 0 or 1 here: what the machine is made to lose, or nothing."
            yield Problem("survive", message, fact.mark, "Write 1, and more under must.")
    hosts, lost = need.hosts, survive.hosts
    if hosts and lost and hosts.value is not None and lost.value is not None:
        message = f"Of {hosts.value} machines {lost.value} may fail, and none is left."
        if hosts.value <= lost.value:
            yield Problem("survive", message, lost.mark, "Ask for more machines.")


def _money(need: Need, book: Book) -> Iterator[Problem]:
    budget = need.budget
    if budget is None or budget.value is None:
        return
    wanted = f"money:{book.book.currency}"
    if budget.value.dimension != wanted:
        message = f"{budget.text} is not in the currency of the book."
        yield Problem("wrong-dimension", message, budget.mark, f"Write {book.book.currency}.")
    if budget.value.canonical < 0:
        yield Problem("negative", "This is below 0.", budget.mark, "Write 0 or more.")
