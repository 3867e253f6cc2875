"""A need, read for the machine that is to meet it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from baywright.desk.fit.asked import wishes_for
from baywright.facts.build import Build
from baywright.facts.fact import mark_of
from baywright.facts.need import Need
from baywright.laws.machine import Machine
from baywright.laws.wishes import Wish, read_wishes
from baywright.problems import Problems, problem


@dataclass(frozen=True, slots=True)
class Read:
    """A need as wishes.

    Args:
        wishes: what the machine has to have.
        unread: conditions that make no sense for it, each with what is wrong.
    """

    wishes: tuple[Wish, ...]
    unread: tuple[tuple[str, str], ...] = ()


def for_one(need: Need, build: Build) -> Need:
    """Return a need for one machine at the site where it stands, without its budget.

    What the need says of the site goes before what the build says. The budget is for what is
    bought and is looked at apart.

    Raises:
        Problems: when it asks for several machines.
    """
    if need.hosts is not None and need.hosts.known != 1:
        message = f"The need is for {need.hosts.known} machines; an upgrade is of one."
        hint = "Write 'hosts: 1' and what this one has to do."
        raise problem("one-machine", message, need.hosts.mark, hint)
    own = need.site.model_fields_set
    site = build.site.model_copy(update={name: getattr(need.site, name) for name in own})
    return need.model_copy(update={"site": site, "budget": None})


def read_for(machine: Machine, need: Need) -> Read:
    """Return what a machine has to have.

    Raises:
        Problems: for a condition that makes no sense in its book.
    """
    return Read(tuple(wishes_for(machine, need, 1)))


def read_for_other(machine: Machine, need: Need) -> Read:
    """Return what the machine of another book has to have; what makes no sense there is listed."""
    unread = tuple(_unread(machine, need))
    left = {text for text, _ in unread}
    other = need.model_copy(
        update={
            "must": [text for text in need.must if text not in left],
            "must_not": [text for text in need.must_not if text not in left],
        }
    )
    return Read(tuple(wishes_for(machine, other, 1)), unread)


def _unread(machine: Machine, need: Need) -> Iterator[tuple[str, str]]:
    for text in (*need.must, *need.must_not):
        try:
            read_wishes(machine, text, mark_of(text))
        except Problems as found:
            yield str(text), " ".join(each.message for each in found.problems)
