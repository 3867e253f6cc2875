"""A record from Redfish resources."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from baywright.exchange.redfish.bodies import Resource
from baywright.exchange.redfish.crawl import Crawl, Source, crawl
from baywright.exchange.redfish.entries import Machine, entries_of
from baywright.exchange.redfish.folder import ROOT, Folder
from baywright.exchange.redfish.limits import Budget, Limits
from baywright.exchange.redfish.machine import chassis_of, system_of
from baywright.exchange.redfish.remarks import remarks
from baywright.exchange.redfish.session import Credentials, Service
from baywright.exchange.redfish.totals import groups_of, totals_of
from baywright.exchange.redfish.values import inside, word
from baywright.facts.record import Finding, Record
from baywright.problems import Problem, Problems


def read_mockup(
    folder: Path, system: str = "", limits: Limits | None = None, *, incomplete: bool = False
) -> Record:
    """Read a folder of mockup resources.

    Args:
        folder: the folder of the service root, or one that holds ``redfish/v1``.
        system: id of the system to read; may be empty where there is one.
        limits: what it may take.
        incomplete: whether resources that are named and missing become findings of the record.

    Raises:
        Problems: whatever is wrong with the resources; every missing one, unless ``incomplete``.
    """
    budget = Budget(limits or Limits())
    return _record(Folder(folder, budget.limits.body), budget, system, incomplete=incomplete)


def read_service(
    address: str,
    credentials: Credentials | None,
    certificates: Path | None = None,
    system: str = "",
    limits: Limits | None = None,
    *,
    incomplete: bool = False,
) -> Record:
    """Read a live service over HTTPS, inside a session that is deleted at the end.

    Args:
        address: where it is, such as ``https://10.1.2.3``.
        credentials: who asks; ``None`` asks without a session.
        certificates: certificates to trust in place of those of this machine.
        system: id of the system to read; may be empty where there is one.
        limits: what it may take.
        incomplete: whether resources that cannot be had become findings of the record.

    Raises:
        Problems: whatever is wrong with the way there, the service or the resources.
    """
    budget = Budget(limits or Limits())
    with Service(address, credentials, certificates, budget) as service:
        record = _record(service, budget, system, incomplete=incomplete)
    if service.left_open:
        says = "The session could not be deleted; it ends by itself after its time."
        left = Finding("unknown", service.name, says)
        record = replace(record, findings=(*record.findings, left))
    return record


def _record(source: Source, budget: Budget, wanted: str, *, incomplete: bool) -> Record:
    found = crawl(source, budget)
    if found.gaps and not incomplete:
        raise Problems(_missing(found))
    system = system_of(found, wanted)
    chassis, left_out = chassis_of(found, system)
    machine = Machine(found, system, tuple(chassis))
    entries = entries_of(machine)
    return Record(
        source.name,
        f"Redfish {word(found.at(ROOT), 'RedfishVersion') or 'of no stated version'}",
        _called(found.at(system), system),
        tuple(entries),
        dict(_in_full(machine)),
        tuple(totals_of(machine, entries)),
        tuple(groups_of(machine)),
        (*left_out, *remarks(machine)),
    )


def _missing(found: Crawl) -> Iterator[Problem]:
    for gap in found.gaps:
        message = f"{gap.problem.message} {gap.named_by} names it."
        hint = "With --incomplete it is listed, and the rest is read."
        yield Problem(gap.problem.kind, message, None, hint)


def _called(system: Resource, path: str) -> str:
    said = (word(system, key) for key in ("Manufacturer", "Model", "Name"))
    return " ".join(filter(None, said)) or path


def _in_full(machine: Machine) -> Iterator[tuple[str, str]]:
    """Yield the kinds of part of which every one is listed, with the list.

    A list with a gap in it is none: what is missing from it may be there.
    """
    candidates = [
        ("processor", machine.collection(machine.system, "Processors")),
        ("memory", machine.collection(machine.system, "Memory")),
        ("drive", machine.collection(machine.system, "Storage")),
    ]
    for chassis in machine.chassis:
        candidates.append(("device", machine.collection(chassis, "PCIeDevices")))
        power = machine.collection(chassis, "PowerSubsystem")
        batteries = machine.collection(power, "Batteries") if power else None
        candidates.append(("pack", batteries))
        if inside(machine.found.at(chassis), "Links", "Contains"):
            candidates.append(("module", chassis))
    broken = {gap.named_by for gap in machine.found.gaps}
    for kind, path in candidates:
        if path is not None and not any(each.startswith(path) for each in broken):
            yield kind, path
