"""Following links from the service root, breadth first, each resource once."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any, Protocol

from baywright.exchange.redfish.bodies import Resource, read_body
from baywright.exchange.redfish.folder import ROOT
from baywright.exchange.redfish.limits import Budget
from baywright.exchange.redfish.values import link_of, tidy
from baywright.problems import Problem, Problems

FOLLOWED = frozenset(
    {
        "Batteries",
        "Chassis",
        "Contains",
        "Controllers",
        "Drives",
        "Fans",
        "Members",
        "Members@odata.nextLink",
        "Memory",
        "NetworkAdapters",
        "PCIeDevice",
        "PCIeDevices",
        "PCIeSlots",
        "Ports",
        "Power",
        "PowerSubsystem",
        "PowerSupplies",
        "Processors",
        "SimpleStorage",
        "Storage",
        "StorageControllers",
        "Systems",
        "Thermal",
        "ThermalSubsystem",
        "Volumes",
    }
)
"""Properties whose links lead to parts. Sensors, logs, accounts and actions are left alone: a
service has thousands of them, and none is a part."""

_CLOSED = frozenset({"Oem", "Actions", "RelatedItem"})
"""Objects that are not looked into."""


class Source(Protocol):
    """Where resources come from."""

    name: str

    def fetch(self, path: str) -> bytes:
        """Return the body at a path; raise ``Problems`` where that fails."""
        ...


@dataclass(frozen=True, slots=True)
class Gap:
    """A resource that another one names and that cannot be had.

    Args:
        path: its path.
        named_by: the resource that names it.
        problem: why it cannot be had.
    """

    path: str
    named_by: str
    problem: Problem


@dataclass(slots=True)
class Crawl:
    """The resources of a source.

    Args:
        resources: each by its path, the service root first.
        gaps: what is named and cannot be had.
    """

    resources: dict[str, Resource] = field(default_factory=dict)
    gaps: list[Gap] = field(default_factory=list)

    def at(self, path: str | None) -> Resource:
        """Return a resource, or an empty one where there is none."""
        return self.resources.get(path or "", {})


def crawl(source: Source, budget: Budget) -> Crawl:
    """Read all resources of a source that lead to parts.

    A resource that is missing or refused, or that is no JSON, is a gap; so is one that the limit
    of levels leaves out. Whatever makes the source itself doubtful ends it: too slow, cut off, too
    large, too many.

    Raises:
        Problems: from the source and from the budget.
    """
    found = Crawl()
    level: list[tuple[str, str]] = [(ROOT, "")]
    seen = {ROOT}
    for _ in range(budget.limits.levels):
        following: list[tuple[str, str]] = []
        for path, named_by in level:
            for link in _visit(source, budget, found, path, named_by):
                if link not in seen:
                    seen.add(link)
                    following.append((link, path))
        level = following
    found.gaps += [Gap(path, named_by, _too_deep(path)) for path, named_by in level]
    return found


def _visit(source: Source, budget: Budget, found: Crawl, path: str, named_by: str) -> list[str]:
    budget.start(path)
    try:
        data = source.fetch(f"{ROOT}/" if path == ROOT else path)
        budget.take(path, len(data))
        body = read_body(data, path)
    except Problems as problems:
        if path == ROOT or problems.problems[0].kind not in _GAPS:
            raise
        found.gaps.append(Gap(path, named_by, problems.problems[0]))
        return []
    found.resources[path] = body
    return list(dict.fromkeys(_links(body)))


_GAPS = ("no-resource", "not-a-resource", "service-error", "strange-link", "unreadable")


def _links(body: Resource) -> Iterator[str]:
    """Yield the links of a resource that are followed, by the nearest property around them."""
    waiting: list[tuple[str, Any]] = [("", {k: v for k, v in body.items() if k != "@odata.id"})]
    while waiting:
        name, value = waiting.pop(0)
        if isinstance(value, list):
            waiting += [(name, each) for each in value]
        elif isinstance(value, dict):
            link = link_of(value)
            if link is not None and name in FOLLOWED:
                yield link
            waiting += [(key, each) for key, each in value.items() if key not in _CLOSED]
        elif name == "Members@odata.nextLink" and isinstance(value, str) and value[:1] == "/":
            yield tidy(value)


def _too_deep(path: str) -> Problem:
    message = f"{path} is too many links away from the service root."
    return Problem("too-many-resources", message, None, "It was not followed.")
