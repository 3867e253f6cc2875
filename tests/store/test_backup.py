"""Copies of a store: whole, private, made while others write."""

from __future__ import annotations

import stat
from collections.abc import Iterator
from pathlib import Path

import pytest

from baywright.problems import Problems
from baywright.store import Store, StoreUnavailable, open_store
from tests.store.conftest import QUICK
from tests.store.servers import Server


@pytest.fixture
def file(tmp_path: Path) -> Iterator[Store]:
    with open_store(f"sqlite:///{tmp_path}/store.sqlite", passwords=QUICK) as store:
        yield store


def test_a_copy_is_a_store_with_all_that_was_kept(file: Store, tmp_path: Path) -> None:
    file.people.add("Anna", "seven grey ferries", ["work"])
    kept = file.builds.keep("Office", "f2", "text", "Anna")
    copy = tmp_path / "copy.sqlite"
    with file._transactions.writing() as session:
        session.connection().exec_driver_sql("DELETE FROM builds")
        file.back_up(copy)
    assert stat.S_IMODE(copy.stat().st_mode) == 0o600
    assert [path.name for path in tmp_path.glob("copy*")] == ["copy.sqlite"]
    with open_store(f"sqlite:///{copy}", passwords=QUICK) as opened:
        assert opened.builds.get(kept.id) == kept
        assert opened.people.check("Anna", "seven grey ferries") is not None


def test_no_file_is_written_over(file: Store, tmp_path: Path) -> None:
    copy = tmp_path / "copy.sqlite"
    copy.write_text("mine")
    with pytest.raises(Problems) as refused:
        file.back_up(copy)
    assert refused.value.problems[0].kind == "store-backup"
    assert copy.read_text() == "mine"
    with pytest.raises(Problems):
        file.back_up(tmp_path / "none" / "copy.sqlite")


def test_a_copy_that_fails_leaves_no_file(file: Store, tmp_path: Path) -> None:
    file.close()
    (tmp_path / "store.sqlite").write_bytes(b"no longer a database" * 100)
    with pytest.raises(StoreUnavailable):
        file.back_up(tmp_path / "copy.sqlite")
    assert not (tmp_path / "copy.sqlite").exists()


def test_a_server_is_left_to_its_own_means(server: Server, tmp_path: Path) -> None:
    with (
        open_store(server.url(server.database())) as store,
        pytest.raises(Problems, match="pg_dump"),
    ):
        store.back_up(tmp_path / "copy.sqlite")
    assert not (tmp_path / "copy.sqlite").exists()
