"""Where a record of a machine comes from: told apart by what the source is."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from baywright.exchange.redfish import Credentials, Limits, read_mockup, read_service
from baywright.exchange.redfish.folder import is_mockup
from baywright.exchange.smbios import read_tables
from baywright.exchange.smbios.entry_point import is_tables
from baywright.facts.record import Record
from baywright.problems import problem


@dataclass(frozen=True, slots=True)
class Wanted:
    """What to read and how.

    Args:
        source: an address that starts with ``https://``, a folder or a file.
        system: id of the system, where a Redfish source has several.
        certificates: certificates to trust in place of those of this machine.
        credentials: who asks a service; ``None`` asks without a session.
        incomplete: whether resources that cannot be had become findings of the record.
        limits: what it may take.
    """

    source: str
    system: str = ""
    certificates: Path | None = None
    credentials: Credentials | None = None
    incomplete: bool = False
    limits: Limits | None = None


def is_service(source: str) -> bool:
    """Say whether a source is an address rather than a path."""
    return "://" in source


def read_record(wanted: Wanted) -> Record:
    """Read a record.

    Raises:
        Problems: kind ``no-source`` when it is nothing that can be read, and those of the readers.
    """
    if is_service(wanted.source):
        return read_service(
            wanted.source,
            wanted.credentials,
            wanted.certificates,
            wanted.system,
            wanted.limits,
            incomplete=wanted.incomplete,
        )
    path = Path(wanted.source)
    if path.is_dir() and not is_tables(path):
        if not is_mockup(path):
            message = f"{path} holds neither Redfish resources nor SMBIOS tables."
            hint = "Give a folder with redfish/v1/index.json, or one with the file DMI."
            raise problem("no-source", message, None, hint)
        return read_mockup(path, wanted.system, wanted.limits, incomplete=wanted.incomplete)
    if not path.exists():
        hint = "Give a folder, a file, or an address that starts with https://."
        raise problem("no-source", f"There is no {path}.", None, hint)
    return read_tables(path)
