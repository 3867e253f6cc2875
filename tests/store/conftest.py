"""Stores for the tests: each test runs on SQLite and on PostgreSQL."""

from __future__ import annotations

import datetime
import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from pwdlib.hashers.argon2 import Argon2Hasher

from baywright.store import Passwords, Store, open_store
from baywright.store.tables import Base
from tests.store.servers import CHOSEN, Server, programs

QUICK = Passwords(Argon2Hasher(time_cost=1, memory_cost=8, parallelism=1))
"""Digests that cost next to nothing, for tests of something else."""


class Clock:
    """A clock that the test sets."""

    def __init__(self) -> None:
        self.now = datetime.datetime(2031, 3, 17, 9, 0, tzinfo=datetime.UTC)

    def __call__(self) -> datetime.datetime:
        return self.now

    def later(self, seconds: float) -> None:
        self.now += datetime.timedelta(seconds=seconds)


@pytest.fixture(scope="session")
def server() -> Iterator[Server]:
    found = programs()
    if found is None:
        message = f"no PostgreSQL server was found; install one, or name its folder in {CHOSEN}"
        if os.environ.get("POSTGRESQL_NEEDED"):
            pytest.fail(message)
        pytest.skip(message)
    running = Server(found)
    try:
        running.start()
        yield running
    finally:
        running.remove()


@pytest.fixture(params=["sqlite", "postgresql"])
def kind(request: pytest.FixtureRequest) -> str:
    """The kind of database a test runs on: each test on both."""
    return str(request.param)


@pytest.fixture
def new_url(kind: str, request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """The address of a database without tables."""
    if kind == "sqlite":
        return f"sqlite:///{tmp_path}/store.sqlite"
    server: Server = request.getfixturevalue("server")
    return server.url(server.database())


@pytest.fixture(scope="session")
def shared(server: Server) -> str:
    """The address of one database of the server, which tests take in turn."""
    return server.url(server.database())


@pytest.fixture
def url(kind: str, request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """The address of a store that holds nothing."""
    if kind == "sqlite":
        return f"sqlite:///{tmp_path}/store.sqlite"
    found: str = request.getfixturevalue("shared")
    with open_store(found) as store:
        empty(store)
    return found


def empty(store: Store) -> None:
    """Take out all that a store holds."""
    with store._engine.begin() as connection:
        for table in reversed(Base.metadata.sorted_tables):
            connection.execute(table.delete())


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def store(url: str, clock: Clock) -> Iterator[Store]:
    with open_store(url, clock=clock, passwords=QUICK, patience=2) as opened:
        yield opened
