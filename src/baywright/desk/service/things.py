"""Things in a sentence: those of one place said together."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from baywright.answers.wording import Rows
from baywright.laws.wording import listed
from baywright.service.losing.graph import Graph
from baywright.service.losing.standing import place_of

FEW = 2
"""Up to so many things of one place are said one by one."""


def brief(graph: Graph, things: Iterable[str], *, named: bool = False) -> str:
    """Return things as a list in a sentence; many of one place and kind are said together.

    Args:
        graph: the machine.
        things: their ids.
        named: whether single things are said by name as well.
    """
    return listed(_said(graph, list(things), named=named))


def _said(graph: Graph, things: list[str], *, named: bool) -> Iterator[str]:
    groups: dict[tuple[str, str], list[str]] = {}
    for thing in things:
        groups.setdefault((place_of(thing), graph.by_id[thing].kind), []).append(thing)
    for group in groups.values():
        if len(group) > FEW:
            yield f"{group[0]} to {group[-1]} ({len(group)} things)"
        else:
            yield from (_name(graph, thing) if named else thing for thing in group)


def _name(graph: Graph, thing: str) -> str:
    name = graph.by_id[thing].name
    return name if thing in name.split() else f"{name} ({thing})"


def thing_rows(graph: Graph) -> Rows:
    """Return everything that can be lost, as a table."""
    rows = tuple((thing.id, thing.kind, thing.name) for thing in graph.things)
    return Rows(("id", "kind", "what it is"), rows)
