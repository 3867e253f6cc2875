"""Ended in the middle: what was acknowledged is there, and nothing half."""

from __future__ import annotations

import os
import shutil
import signal
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from baywright.store import open_store
from tests.store.servers import Server

ROOT = Path(__file__).resolve().parents[2]


def start(url: str, most_bytes: int = 0, size: int = 2000) -> subprocess.Popen[str]:
    return subprocess.Popen(
        (sys.executable, "-m", "tests.store.writer", url, str(most_bytes), str(size)),
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        cwd=ROOT,
        env={**os.environ, "PYTHONPATH": f"{ROOT / 'src'}{os.pathsep}{ROOT}"},
    )


def lines(process: subprocess.Popen[str], many: int) -> list[str]:
    assert process.stdout is not None
    found = [process.stdout.readline().rstrip("\n") for _ in range(many)]
    assert all(found), process.stderr and process.stderr.read()
    return found


def rest(process: subprocess.Popen[str]) -> list[str]:
    """Return what was said last; a line without its end was never said."""
    out, _ = process.communicate(timeout=60)
    return [line.rstrip("\n") for line in out.splitlines(keepends=True) if line.endswith("\n")]


def assert_kept(url: str, acknowledged: list[str]) -> None:
    """Check that all that was acknowledged is there, whole, and still can be changed."""
    with open_store(url) as store:
        held = {kept.id: kept for kept in store.builds.of(None)}
        for line in acknowledged:
            build, version = line.split()
            assert held[build].version >= int(version)
        for kept in held.values():
            start = "first" if kept.version == 1 else "second"
            assert kept.text.startswith(start)
            assert len(set(kept.text.split(start)[1:])) == 1
        acts = store.audit.read(100_000)
        assert len(acts) == sum(kept.version for kept in held.values())
        again = store.builds.keep("after", "f2", "text", "anna")
        assert store.builds.change(again.id, 1, "new", "anna").version == 2


@pytest.mark.parametrize("many", [1, 2, 37, 120])
def test_killed_while_writing(url: str, many: int) -> None:
    with start(url) as process:
        said = lines(process, many)
        process.kill()
        said += rest(process)
    assert process.returncode == -signal.SIGKILL
    assert_kept(url, said)


def test_a_sqlite_file_is_sound_after_many_kills(tmp_path: Path) -> None:
    url, said = f"sqlite:///{tmp_path}/store.sqlite", []
    for many in (1, 10, 25):
        with start(url) as process:
            said += lines(process, many)
            process.kill()
            said += rest(process)
    assert_kept(url, said)
    with sqlite3.connect(tmp_path / "store.sqlite") as file:
        assert file.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        assert file.execute("PRAGMA foreign_key_check").fetchall() == []
    file.close()


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of one megabyte, where the tests may mount one."""
    disk = tmp_path / "disk"
    disk.mkdir()
    mount = ("mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", str(disk))
    if shutil.which("mount") is None or subprocess.run(mount, check=False).returncode != 0:
        pytest.skip("no disk can be mounted here; the next test limits the size of files instead")
    yield disk
    subprocess.run(("umount", str(disk)), check=True)  # noqa: S607 - as mounted above


def test_a_full_disk(small_disk: Path) -> None:
    url = f"sqlite:///{small_disk}/store.sqlite"
    ballast = small_disk / "ballast"
    ballast.write_bytes(bytes(200_000))
    with start(url, size=5_000) as process:
        *said, last = rest(process)
    word, kind, sentence = last.split(maxsplit=2)
    assert (word, kind) == ("unavailable", "store-full")
    assert "no room left" in sentence
    assert len(said) > 10
    with open_store(url) as store:
        assert {line.split()[0] for line in said} <= {kept.id for kept in store.builds.of(None)}
    ballast.unlink()
    assert_kept(url, said)


def test_a_file_that_may_not_grow(tmp_path: Path) -> None:
    """The system refuses a write; the limit is the process's own."""
    url = f"sqlite:///{tmp_path}/store.sqlite"
    with start(url, most_bytes=1_000_000, size=20_000) as process:
        *said, last = rest(process)
    assert process.returncode == 0
    word, kind, sentence = last.split(maxsplit=2)
    assert word == "unavailable"
    assert kind in {"store-full", "store-disk"}
    assert str(tmp_path) in sentence
    assert len(said) > 10
    assert_kept(url, said)


def test_the_server_crashes_while_writing(server: Server) -> None:
    url = server.url(server.database())
    with start(url) as process:
        said = lines(process, 60)
        server.stop(signal.SIGQUIT)
        try:
            *more, last = rest(process)
        finally:
            server.start()
    word, kind, sentence = last.split(maxsplit=2)
    assert (word, kind) == ("unavailable", "store-lost")
    assert "does not answer" in sentence
    assert_kept(url, said + more)
