"""A store that cannot work: it says so, keeps what it acknowledged, and works again after."""

from __future__ import annotations

import signal
import sqlite3
from collections.abc import Callable, Iterator
from pathlib import Path

import psycopg
import pytest
from sqlalchemy import Connection, event

from baywright.store import Store, StoreUnavailable, open_store
from tests.store.conftest import QUICK
from tests.store.servers import Server

LONG = "x" * 500_000


def keep(store: Store, text: str = "text") -> str:
    return store.builds.keep("Office", "f2", text, "anna").id


def refusal(work: Callable[[], object]) -> StoreUnavailable:
    with pytest.raises(StoreUnavailable) as refused:
        work()
    assert refused.value.problems[0].hint
    return refused.value


def kind_of(work: Callable[[], object]) -> str:
    return refusal(work).problems[0].kind


# --- SQLite ---


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "store.sqlite"


@pytest.fixture
def file(path: Path) -> Iterator[Store]:
    with open_store(f"sqlite:///{path}", patience=0.2, passwords=QUICK) as store:
        yield store


def test_a_locked_file_is_read_but_not_written(path: Path, file: Store) -> None:
    first = keep(file)
    other = sqlite3.connect(path, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    refused = refusal(lambda: keep(file))
    assert refused.problems[0].kind == "store-locked"
    assert str(path) in refused.sentence
    assert not refused.uncertain
    assert file.builds.get(first) is not None
    other.close()
    second = keep(file)
    assert {kept.id for kept in file.builds.of(None)} == {first, second}


def test_a_file_without_room_refuses_and_goes_on_after(file: Store) -> None:
    first = keep(file)
    most = {"pages": 40}

    def limit(connection: Connection) -> None:
        connection.exec_driver_sql(f"PRAGMA max_page_count = {most['pages']}")

    event.listen(file._engine, "begin", limit)
    refused = refusal(lambda: keep(file, LONG))
    assert refused.problems[0].kind == "store-full"
    assert not refused.uncertain
    refused = refusal(lambda: file.builds.change(first, 1, LONG, "ben"))
    assert [kept.text for kept in file.builds.of(None)] == ["text"]
    most["pages"] = 1_000_000
    assert file.builds.change(first, 1, LONG, "ben").version == 2
    assert len(file.audit.read()) == 2


def test_a_file_that_may_not_be_written_is_read(file: Store) -> None:
    first = keep(file)
    event.listen(file._engine, "begin", _read_only)
    assert kind_of(lambda: keep(file)) == "store-read-only"
    assert [kept.id for kept in file.builds.of(None)] == [first]


def _read_only(connection: Connection) -> None:
    connection.exec_driver_sql("PRAGMA query_only = ON")


def test_a_file_damaged_while_it_is_open_is_said_to_be(path: Path, file: Store) -> None:
    keep(file, LONG)
    file.close()
    with path.open("r+b") as raw:
        raw.write(b"no longer a database" * 10)
    assert kind_of(lambda: file.builds.of(None)) == "store-damaged"


# --- PostgreSQL ---


@pytest.fixture
def database(server: Server) -> str:
    return server.database()


@pytest.fixture
def served(server: Server, database: str) -> Iterator[Store]:
    with open_store(server.url(database), patience=0.2, passwords=QUICK) as store:
        yield store


def end_connections(server: Server, database: str) -> None:
    server.run(
        "SELECT pg_terminate_backend(pid) FROM pg_stat_activity "  # noqa: S608 - a constant
        f"WHERE datname = '{database}'"
    )


def at_insert(server: Server, database: str, table: str, does: str) -> None:
    """Let the server do something before each row of a table."""
    body = f"BEGIN {does}; RETURN NEW; END"
    server.run(
        f"CREATE FUNCTION does() RETURNS trigger LANGUAGE plpgsql AS $${body}$$;"
        f"CREATE TRIGGER does BEFORE INSERT ON {table} FOR EACH ROW EXECUTE FUNCTION does()",
        database,
    )


def test_connections_that_ended_while_idle_are_made_again(
    server: Server, database: str, served: Store
) -> None:
    first = keep(served)
    end_connections(server, database)
    assert served.builds.get(first) is not None
    end_connections(server, database)
    keep(served)
    assert len(served.builds.of(None)) == 2


def test_a_server_that_stops_loses_nothing(server: Server, database: str, served: Store) -> None:
    first = keep(served)
    server.stop(signal.SIGQUIT)
    try:
        for work in (lambda: keep(served), lambda: served.builds.get(first), served.check):
            refused = refusal(work)
            assert refused.problems[0].kind == "store-lost"
            assert not refused.uncertain
    finally:
        server.start()
    served.check()
    second = keep(served)
    assert {kept.id for kept in served.builds.of(None)} == {first, second}


@pytest.mark.parametrize("reached", [False, True])
def test_a_connection_lost_at_the_last_moment_leaves_it_open(
    server: Server,
    database: str,
    served: Store,
    monkeypatch: pytest.MonkeyPatch,
    *,
    reached: bool,
) -> None:
    """Nobody can know whether the server kept the change; saying either would be a guess."""
    first = keep(served)

    def commit(connection: psycopg.Connection) -> None:
        if reached:
            connection.commit()
        end_connections(server, database)
        connection.execute("COMMIT")

    with monkeypatch.context() as patched:
        patched.setattr(served._engine.dialect, "do_commit", commit)
        refused = refusal(lambda: served.builds.change(first, 1, "new", "ben"))
    assert refused.problems[0].kind == "store-lost"
    assert refused.uncertain
    assert "is not known" in refused.sentence
    kept = served.builds.get(first)
    assert kept is not None
    assert (kept.version, kept.text) == ((2, "new") if reached else (1, "text"))


def test_a_connection_lost_before_the_end_keeps_nothing(
    server: Server, database: str, served: Store
) -> None:
    at_insert(server, database, "builds", "PERFORM pg_terminate_backend(pg_backend_pid())")
    refused = refusal(lambda: keep(served))
    assert refused.problems[0].kind == "store-lost"
    assert not refused.uncertain
    assert served.builds.of(None) == ()


def test_a_locked_table_is_waited_for_and_then_told(
    server: Server, database: str, served: Store
) -> None:
    first = keep(served)
    with server.hold(database) as other:
        other.execute("LOCK TABLE builds IN ACCESS EXCLUSIVE MODE")
        assert kind_of(lambda: served.builds.change(first, 1, "new", "ben")) == "store-locked"
        other.rollback()
    assert served.builds.change(first, 1, "new", "ben").version == 2


@pytest.mark.parametrize(
    ("state", "kind"),
    # PostgreSQL documentation, appendix "PostgreSQL Error Codes"; read there.
    [
        ("53100", "store-full"),  # disk_full
        ("53300", "store-crowded"),  # too_many_connections
        ("57014", "store-crowded"),  # query_canceled
        ("40P01", "store-locked"),  # deadlock_detected
        ("25006", "store-read-only"),  # read_only_sql_transaction
        ("42501", "store-refused"),  # insufficient_privilege
        ("58030", "store-failed"),  # io_error
    ],
)
def test_what_the_server_says_is_told(
    server: Server, database: str, served: Store, state: str, kind: str
) -> None:
    at_insert(server, database, "audit", f"RAISE EXCEPTION 'no' USING ERRCODE = '{state}'")
    assert kind_of(lambda: keep(served)) == kind
    server.run("DROP TRIGGER does ON audit", database)
    assert served.builds.of(None) == ()
    keep(served)


def test_a_database_that_may_not_be_written_is_read(
    server: Server, database: str, served: Store
) -> None:
    first = keep(served)
    server.run(f"ALTER DATABASE {database} SET default_transaction_read_only = on")
    served.close()
    assert kind_of(lambda: keep(served)) == "store-read-only"
    assert [kept.id for kept in served.builds.of(None)] == [first]
