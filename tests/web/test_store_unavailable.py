"""A store that cannot work, seen through the pages: told clearly, and nothing kept is lost."""

from __future__ import annotations

import re
import signal
import sqlite3
from collections.abc import Iterator
from pathlib import Path

import httpx2
import pytest
from starlette.testclient import TestClient

from baywright.store import Store, open_store
from baywright.web.app import create_app
from baywright.web.settings import Settings
from tests.store.servers import Server
from tests.web.conftest import mark
from tests.web.serving import serving

KEPT = re.compile(r'href="/kept/([0-9a-f-]+)"')
LARGEST = 300_000
"""Bytes that a file of the server may grow to, as if its disk were full then."""


def client_of(store: Store) -> TestClient:
    app = create_app(Settings(books=("p1",)), store)
    return TestClient(app, base_url="http://127.0.0.1", follow_redirects=False)


def keep(client: TestClient, name: str = "kept") -> int:
    fields = {"mark": mark(client), "name": name, "s": "M1:1 x dimm-16"}
    return client.post("/bench/p1/keep", data=fields).status_code


def said(client: TestClient) -> str:
    fields = {"mark": mark(client), "name": "refused"}
    answer = client.post("/bench/p1/keep", data=fields)
    assert answer.status_code == 503
    assert 'class="problems"' in answer.text
    return answer.text


# --- a file ---


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "store.sqlite"


@pytest.fixture
def file(path: Path) -> Iterator[TestClient]:
    with open_store(f"sqlite:///{path}", patience=0.2) as store:
        yield client_of(store)


def test_a_locked_file_is_told_and_pages_go_on(path: Path, file: TestClient) -> None:
    assert keep(file) == 303
    other = sqlite3.connect(path, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    assert "is held by another program or person" in said(file)
    assert len(KEPT.findall(file.get("/").text)) == 1
    assert file.get("/ask/p1", params={"q": "processors == 1"}).status_code == 200
    other.close()
    assert keep(file) == 303
    assert len(KEPT.findall(file.get("/").text)) == 2


def test_a_full_disk_is_told_and_everything_acknowledged_is_there(tmp_path: Path) -> None:
    """The server's files may grow so far and no further, which the system tells it as a full disk.

    Afterwards another server, with room again, has every build whose keeping was answered.
    """
    limit = f"import resource; resource.setrlimit(resource.RLIMIT_FSIZE, ({LARGEST}, {LARGEST}))"
    acknowledged: list[str] = []
    with (
        serving(tmp_path, "p1", ready="/sign-in", first=limit) as (address, _),
        httpx2.Client(base_url=address, timeout=60) as client,
    ):
        refused = _keep_until_refused(client, acknowledged)
        assert acknowledged
        assert refused.status_code == 503
        assert re.search("The (disk of the )?store .* (failed|has no room)", refused.text)
        assert 'class="problems"' in refused.text
        assert client.get("/bench/p1").status_code == 200
    with (
        serving(tmp_path, "p1", ready="/sign-in") as (address, _),
        httpx2.Client(base_url=address, timeout=60) as client,
    ):
        listed = client.get("/api/builds").json()["builds"]
        assert set(acknowledged) <= {each["id"] for each in listed}
        assert len(listed) <= len(acknowledged) + 1
        more: list[str] = []
        _kept(client, "with room again", more)
        assert len(more) == 1


def _keep_until_refused(client: httpx2.Client, acknowledged: list[str]) -> httpx2.Response:
    for number in range(400):
        answer = _kept(client, f"build {number} {'x' * 100}", acknowledged)
        if answer.status_code != 303:
            return answer
    pytest.fail("the files of the server grew beyond their limit")


def _kept(client: httpx2.Client, name: str, acknowledged: list[str]) -> httpx2.Response:
    page = client.get("/sign-in").text
    found = re.search(r'name="mark" value="([0-9a-f]{64})"', page)
    assert found
    answer = client.post("/bench/p1/keep", data={"mark": found[1], "name": name[:120]})
    kept = re.search(r"kept=([0-9a-f]+)", answer.headers.get("location", ""))
    if kept:
        acknowledged.append(kept[1])
    return answer


# --- a server ---


def test_a_lost_database_is_told_and_everything_is_there_after(server: Server) -> None:
    with open_store(server.url(server.database()), patience=0.2) as store:
        client = client_of(store)
        assert keep(client, "before") == 303
        server.stop(signal.SIGQUIT)
        try:
            assert "does not answer" in said(client)
            assert client.get("/").status_code == 503
            assert client.get("/bench/p1").status_code == 200
            assert client.get("/api/builds").json()["problems"][0]["kind"] == "store-lost"
        finally:
            server.start()
        assert keep(client, "after") == 303
        text = client.get("/").text
        assert len(KEPT.findall(text)) == 2
