"""What resources themselves show to be wrong or doubtful."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from baywright.exchange.redfish.bodies import Resource
from baywright.exchange.redfish.crawl import Crawl
from baywright.exchange.redfish.entries import Machine
from baywright.exchange.redfish.folder import ROOT
from baywright.exchange.redfish.totals import volumes_without_drives
from baywright.exchange.redfish.values import (
    UNKNOWN,
    inside,
    is_absent,
    link_of,
    objects,
    text_of,
    word,
)
from baywright.exchange.texts import plain
from baywright.facts.record import Finding


def remarks(machine: Machine) -> Iterator[Finding]:
    """Yield what was noticed in the resources that were read."""
    yield from _gaps(machine.found)
    for path, body in machine.found.resources.items():
        yield from _name_of_itself(path, body)
        yield from _health(path, body)
    yield from _same_identity(machine.found)
    for path, says in volumes_without_drives(machine):
        yield Finding("fragile", path, says)


def _gaps(found: Crawl) -> Iterator[Finding]:
    for gap in found.gaps:
        says = f"{gap.named_by} names this, and it could not be read: {gap.problem.message}"
        yield Finding("unknown", gap.path, says)


def _name_of_itself(path: str, body: Resource) -> Iterator[Finding]:
    own = link_of(body)
    if own is not None and path not in (own, ROOT):
        yield Finding("inconsistent", path, f"The resource names itself {own}.")


def _health(path: str, body: Resource) -> Iterator[Finding]:
    """Yield what a resource says of its health, and that of parts inside it."""
    spots = [(path, body)]
    spots += [
        (f"{path}#/{key}/{index}", inner)
        for key, value in body.items()
        for index, inner in enumerate(objects(value))
    ]
    for where, spot in spots:
        health = word(spot, "Status", "Health")
        if health and health != "OK":
            yield Finding("fragile", where, f"It reports its health as {health}.")
        if inside(spot, "FailurePredicted") is True:
            yield Finding("fragile", where, "It predicts its own failure.")


def _same_identity(found: Crawl) -> Iterator[Finding]:
    """Yield resources of one schema that claim one serial number, durable name or socket."""
    holders: dict[tuple[str, str, str], list[str]] = defaultdict(list)
    for path, body in found.resources.items():
        schema = word(body, "@odata.type").partition(".")[0]
        for name, value in _identities(body):
            holders[schema, name, value].append(path)
    for (_, name, value), paths in holders.items():
        if len(paths) > 1:
            others = ", ".join(paths[1 : 1 + _SHOWN])
            more = f" and {len(paths) - 1 - _SHOWN} more" if len(paths) > 1 + _SHOWN else ""
            says = f"{name} {value} is also that of {others}{more}."
            yield Finding("inconsistent", paths[0], says)


_SHOWN = 3


def _identities(body: Resource) -> Iterator[tuple[str, str]]:
    serial = inside(body, "SerialNumber")
    if isinstance(serial, str) and plain(serial).casefold() not in UNKNOWN:
        yield "SerialNumber", plain(serial)
    for identifier in objects(body.get("Identifiers")):
        name = word(identifier, "DurableName")
        if name:
            yield "DurableName", name
    location = body.get("MemoryLocation")
    if isinstance(location, dict) and not is_absent(body):
        yield "MemoryLocation", text_of(location)
