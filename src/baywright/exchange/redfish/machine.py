"""Which resources belong to the one machine that is read."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.exchange.redfish.crawl import Crawl
from baywright.exchange.redfish.folder import ROOT
from baywright.exchange.redfish.values import inside, link_of, links_of
from baywright.facts.record import Finding
from baywright.problems import problem, suggestion


def members(found: Crawl, path: str | None) -> list[str]:
    """Return the members of a collection that were read, all its pages included."""
    listed: list[str] = []
    seen: set[str] = set()
    while path and path not in seen:
        seen.add(path)
        page = found.at(path)
        listed += [each for each in links_of(page.get("Members")) if each in found.resources]
        following = page.get("Members@odata.nextLink")
        path = following if isinstance(following, str) else link_of(following)
    return list(dict.fromkeys(listed))


def system_of(found: Crawl, wanted: str) -> str:
    """Return the path of the system to read.

    Args:
        found: the resources.
        wanted: its id or path; may be empty where there is one.

    Raises:
        Problems: kind ``no-system``.
    """
    systems = members(found, link_of(found.at(ROOT).get("Systems")))
    ids = {path.rpartition("/")[2]: path for path in systems}
    if wanted:
        if wanted not in ids and wanted not in systems:
            message = f"There is no system {wanted!r}."
            raise problem("no-system", message, None, suggestion(wanted, ids))
        return ids.get(wanted, wanted)
    if len(systems) != 1:
        message = f"There are {len(systems)} systems here." if systems else "There is no system."
        hint = f"Give one with --system: {', '.join(ids)}." if systems else "Check the address."
        raise problem("no-system", message, None, hint)
    return systems[0]


def chassis_of(found: Crawl, system: str) -> tuple[list[str], list[Finding]]:
    """Return the chassis of a system, those inside them included, and what was left out."""
    every = members(found, link_of(found.at(ROOT).get("Chassis")))
    own = links_of(inside(found.at(system), "Links", "Chassis"))
    chosen = list(dict.fromkeys(each for each in own if each in found.resources))
    if not chosen:
        return every, []
    for path in chosen:  # grows while it is gone through
        inner = dict.fromkeys(_within(found, every, path))
        chosen += [each for each in inner if each not in chosen]
    return chosen, [_left_out(path, system) for path in every if path not in chosen]


def _within(found: Crawl, every: list[str], path: str) -> Iterator[str]:
    yield from (
        each
        for each in links_of(inside(found.at(path), "Links", "Contains"))
        if each in found.resources
    )
    for other in every:
        if link_of(inside(found.at(other), "Links", "ContainedBy")) == path:
            yield other


def _left_out(path: str, system: str) -> Finding:
    says = f"This chassis is not said to be one of {system}; what is in it was left out."
    return Finding("unknown", path, says)
