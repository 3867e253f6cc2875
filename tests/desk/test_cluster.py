"""A table judged by worker processes, one of which is killed on the way."""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from pyarrow import parquet

from baywright.desk.bulk import Wanted, judge_table, prepared
from baywright.problems import Problems
from tests.exchange.tables import BUILDS, CART, write

distributed = pytest.importorskip("distributed", reason="the extra 'cluster' is not installed")
cluster = pytest.importorskip("baywright.desk.cluster")

FILES = 12


@pytest.fixture(scope="module")
def workers() -> Iterator[Any]:
    with distributed.LocalCluster(
        n_workers=2, threads_per_worker=1, processes=True, dashboard_address=":0"
    ) as started:
        yield started


@pytest.fixture
def table(tmp_path: Path) -> Path:
    (tmp_path / "in").mkdir()
    for number in range(FILES):
        more = {name: values * (5_000 + number) for name, values in BUILDS.items()}
        write(tmp_path / "in" / f"{number:02}.parquet", more)
    return tmp_path / "in"


@pytest.mark.slow
def test_a_killed_worker_loses_nothing(workers: Any, table: Path, tmp_path: Path) -> None:
    told: list[str] = []
    lost: list[str] = []

    def kill_one(step: str) -> None:
        told.append(step)
        if not lost:
            worker, parts = max(client.processing().items(), key=lambda item: len(item[1]))
            os.kill(pids[worker], signal.SIGKILL)
            lost.extend(parts)

    here = prepared([CART], Wanted(table, tmp_path / "here", every=True))
    there = prepared([CART], Wanted(table, tmp_path / "there", every=True))
    with distributed.Client(workers.scheduler_address, set_as_default=False) as client:
        pids = client.run(os.getpid)
        found = cluster.judge_on(workers.scheduler_address, there, kill_one)
    assert lost
    assert found == judge_table(here)
    assert told[-1].startswith(f"{FILES} of {FILES} parts")
    names = sorted(file.name for file in (tmp_path / "here").iterdir())
    assert sorted(file.name for file in (tmp_path / "there").iterdir()) == names
    for name in names:
        one, other = (parquet.read_table(tmp_path / where / name) for where in ("here", "there"))
        assert one.equals(other)


@pytest.mark.slow
def test_a_wrong_value_is_told_as_it_is_here(workers: Any, table: Path) -> None:
    write(table / "03.parquet", {**BUILDS, "motor": ["none", "none", "none", "smal"]})
    with pytest.raises(Problems, match=r"03.parquet, row 4, column 'motor': 'smal'"):
        cluster.judge_on(workers.scheduler_address, prepared([CART], Wanted(table)))


def test_a_cluster_writes_to_a_folder(table: Path, tmp_path: Path) -> None:
    job = prepared([CART], Wanted(table, tmp_path / "out.parquet"))
    with pytest.raises(Problems, match="Give a folder"):
        cluster.judge_on("tcp://127.0.0.1:1", job)


def test_a_scheduler_that_is_not_there_is_named(
    table: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(cluster, "PATIENCE", "1s")
    with pytest.raises(Problems, match="does not answer"):
        cluster.judge_on("tcp://127.0.0.1:1", prepared([CART], Wanted(table)))
