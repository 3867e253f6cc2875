"""A live Redfish service: sessions, and everything that can go wrong on the way."""

from __future__ import annotations

import time
import tracemalloc
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import trustme

from baywright.exchange.redfish import Credentials, Limits, read_service
from baywright.facts.record import Record
from baywright.problems import Problems
from tests.exchange.redfish import services
from tests.exchange.redfish.services import Service, serving, trusted

ROOT = "/redfish/v1"
SYSTEM = f"{ROOT}/Systems/1"
READER = Credentials("reader", "right")
BRISK = Limits(seconds=3, reply_seconds=0.6, body=200_000, resources=60, levels=8)


def link(path: str) -> dict[str, str]:
    return {"@odata.id": path}


def small() -> dict[str, dict[str, Any]]:
    """A machine with one processor; invented."""
    processors = f"{SYSTEM}/Processors"
    return {
        ROOT: {
            "@odata.id": f"{ROOT}/",
            "RedfishVersion": "1.20.0",
            "Systems": link(f"{ROOT}/Systems"),
            "Links": {"Sessions": link(services.SESSIONS)},
        },
        f"{ROOT}/Systems": {"@odata.id": f"{ROOT}/Systems", "Members": [link(SYSTEM)]},
        SYSTEM: {"@odata.id": SYSTEM, "Name": "host", "Processors": link(processors)},
        processors: {"@odata.id": processors, "Members": [link(f"{processors}/1")]},
        f"{processors}/1": {
            "@odata.id": f"{processors}/1",
            "Socket": "PROC 1",
            "TotalCores": 16,
            "ProcessorType": "CPU",
        },
    }


@pytest.fixture(scope="module")
def authority() -> trustme.CA:
    return trustme.CA()


@pytest.fixture
def service(authority: trustme.CA) -> Iterator[Service]:
    with serving(Service(small()), authority) as running:
        yield running


@pytest.fixture
def pem(authority: trustme.CA, tmp_path: Path) -> Path:
    return trusted(authority, tmp_path)


def read(service: Service, pem: Path | None, **more: Any) -> Record:
    more = {"limits": BRISK, **more}
    return read_service(service.address, more.pop("credentials", READER), pem, **more)


def kinds(service: Service, pem: Path | None, **more: Any) -> list[str]:
    with pytest.raises(Problems) as found:
        read(service, pem, **more)
    assert all(each.message and each.hint for each in found.value.problems)
    return [each.kind for each in found.value.problems]


def test_a_machine_is_read_inside_a_session_that_is_deleted(service: Service, pem: Path) -> None:
    record = read(service, pem)
    (entry,) = record.entries
    assert (entry.kind, entry.label, entry.values["cores"].value) == ("processor", "PROC 1", 16)
    assert record.standard == "Redfish 1.20.0"
    assert service.paths("POST") == [services.SESSIONS]
    assert service.paths("DELETE") == [services.SESSION]
    assert service.sessions == 0


def test_each_resource_is_asked_for_once(service: Service, pem: Path) -> None:
    read(service, pem)
    asked = [path for path in service.paths() if path != ROOT]
    assert sorted(asked) == sorted(set(asked))


def test_a_service_without_sessions_is_read_anonymously(service: Service, pem: Path) -> None:
    service.protected = False
    read(service, pem, credentials=None)
    assert not service.paths("POST")


def test_a_wrong_password_is_told_and_never_shown(service: Service, pem: Path) -> None:
    wrong = Credentials("reader", "secret-of-mine")
    with pytest.raises(Problems) as found:
        read(service, pem, credentials=wrong)
    assert [each.kind for each in found.value.problems] == ["not-allowed"]
    assert "The user or the password is wrong" in str(found.value)
    assert "secret-of-mine" not in f"{found.value} {wrong!r}"


def test_without_a_session_a_protected_service_is_refused(service: Service, pem: Path) -> None:
    assert kinds(service, pem, credentials=None) == ["not-allowed"]


def test_a_session_is_deleted_after_a_failure(service: Service, pem: Path) -> None:
    service.bad[SYSTEM] = services.is_huge
    assert kinds(service, pem) == ["too-large"]
    assert service.sessions == 0


def test_a_session_that_cannot_be_deleted_is_a_finding(service: Service, pem: Path) -> None:
    service.bad[services.SESSION] = services.fails
    assert any("session could not be deleted" in each.says for each in read(service, pem).findings)


# --- certificates ---


def test_a_certificate_nobody_vouches_for_is_refused_before_anything_is_sent(
    service: Service,
) -> None:
    assert kinds(service, None) == ["certificate"]
    assert not service.asked


def test_a_certificate_of_another_host_is_refused(authority: trustme.CA, pem: Path) -> None:
    with serving(Service(small()), authority, "other.invalid") as running:
        assert kinds(running, pem) == ["certificate"]
        assert not running.asked


def test_a_file_without_certificates_is_told(service: Service, tmp_path: Path) -> None:
    (tmp_path / "empty.pem").write_text("nothing", encoding="utf-8")
    assert kinds(service, tmp_path / "empty.pem") == ["no-certificates"]
    assert kinds(service, tmp_path / "missing.pem") == ["no-certificates"]


# --- time, size, number ---


@pytest.mark.parametrize(
    ("bad", "kind"),
    [
        (services.sleeps(5), "too-slow"),
        (services.drips, "too-slow"),
        (services.drips_head, "too-slow"),
        (services.cuts_off, "cut-off"),
        (services.says_nothing, "cut-off"),
        (services.is_huge, "too-large"),
        (services.says_it_is_huge, "too-large"),
        (services.fails, "service-error"),
        (services.speaks_otherwise, "not-http"),
        (services.answers("{"), "not-a-resource"),
        (services.answers("[]"), "not-a-resource"),
        (services.answers('{"a": 1, "a": 2}'), "not-a-resource"),
        (services.answers('{"a": NaN}'), "not-a-resource"),
        (services.answers('{"a": 1' + "0" * 5000 + "}"), "not-a-resource"),
        (services.answers('{"a":' * 60 + "1" + "}" * 60), "not-a-resource"),
        (services.answers('{"a":' + "[" * 90_000 + "]" * 90_000 + "}"), "not-a-resource"),
        (services.points_to("https://elsewhere.invalid/"), "strange-link"),
        (services.points_to(SYSTEM), "service-error"),
    ],
)
def test_a_service_that_misbehaves_is_told_soon(
    service: Service, pem: Path, bad: services.Misbehave, kind: str
) -> None:
    service.bad[SYSTEM] = bad
    started = time.monotonic()
    assert kinds(service, pem) == [kind]
    assert time.monotonic() - started < 2.5
    assert service.sessions == 0


def test_a_huge_body_takes_no_more_memory_than_its_limit(service: Service, pem: Path) -> None:
    read(service, pem)  # what loads on first use
    service.bad[SYSTEM] = services.is_huge
    tracemalloc.start()
    try:
        assert kinds(service, pem) == ["too-large"]
        _, peak = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    # The service of the test runs here as well and holds pieces of 100,000 bytes.
    assert peak < 10 * BRISK.body


def test_resources_without_end_are_told(service: Service, pem: Path) -> None:
    wide = [link(f"{ROOT}/Systems/{n}") for n in range(100)]
    service.tree[f"{ROOT}/Systems"]["Members"] = wide
    service.tree |= {f"{ROOT}/Systems/{n}": {} for n in range(100)}
    assert kinds(service, pem) == ["too-many-resources"]


def test_a_loop_of_links_ends(service: Service, pem: Path) -> None:
    processors = service.tree[f"{SYSTEM}/Processors"]
    processors["Members@odata.nextLink"] = f"{SYSTEM}/Processors"
    service.tree[f"{SYSTEM}/Processors/1"]["Systems"] = link(f"{ROOT}/Systems")
    assert len(read(service, pem).entries) == 1


def test_links_deeper_than_the_limit_are_gaps(service: Service, pem: Path) -> None:
    path = f"{SYSTEM}/Processors/1"
    for n in range(12):
        service.tree[path]["Members"] = [link(f"{ROOT}/deep/{n}")]
        path = f"{ROOT}/deep/{n}"
        service.tree[path] = {}
    assert kinds(service, pem) == ["too-many-resources"]
    record = read(service, pem, incomplete=True)
    assert any("too many links away" in each.says for each in record.findings)


def test_links_to_other_places_are_not_followed(service: Service, pem: Path) -> None:
    service.tree[SYSTEM]["Memory"] = link("https://elsewhere.invalid/redfish/v1/Memory")
    service.tree[SYSTEM]["Oem"] = {"Processors": link("/redfish/v1/Oem/Processors")}
    service.tree[SYSTEM]["LogServices"] = link(f"{SYSTEM}/LogServices")
    read(service, pem)
    assert not [path for path in service.paths() if "Oem" in path or "Log" in path]


def test_gaps_are_told_all_together_or_listed(service: Service, pem: Path) -> None:
    service.tree[SYSTEM] |= {"Memory": link(f"{SYSTEM}/Memory"), "Storage": link(f"{SYSTEM}/No")}
    service.bad[f"{SYSTEM}/Memory"] = services.fails
    assert sorted(kinds(service, pem)) == ["no-resource", "service-error"]
    record = read(service, pem, incomplete=True)
    said = [each.says for each in record.findings if each.kind == "unknown"]
    assert any("An internal part has failed" in each for each in said)
    assert "memory" not in record.listed_in_full


@pytest.mark.parametrize(
    "address",
    [
        "http://localhost",
        "https://",
        "ftp://x",
        "https://u:p@host",
        "https://host:port",
        "https://[",
    ],
)
def test_addresses_that_are_none_are_told(address: str) -> None:
    with pytest.raises(Problems) as found:
        read_service(address, None)
    assert [each.kind for each in found.value.problems] == ["not-an-address"]
    assert "u:p" not in str(found.value)


def test_nobody_there_is_told() -> None:
    with pytest.raises(Problems) as found:
        read_service("https://127.0.0.1:9", None, limits=BRISK)
    assert [each.kind for each in found.value.problems] == ["no-connection"]
