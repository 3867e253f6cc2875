"""Builds judged by the million: against a plain loop, on one core and two, from files."""

from __future__ import annotations

import json
import os
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

import numpy as np
import pyarrow as pa
from numpy.typing import NDArray
from pyarrow import parquet

from baywright.engines.bulk import Checker, Codes
from baywright.engines.contract import Assumptions, Possible
from baywright.engines.search import Search
from baywright.files.spaces import write_space
from baywright.space import Law, Space, holds
from benchmarks.grounds import Ground, grounds, note
from benchmarks.tables import Finding, Table, Wanted, milliseconds, number, timed

BUILDS = 1_000_000
PLAIN = 2_000
RUNS = 5
FILES = (1, 10)

_START = """
import time
start = time.perf_counter()
from baywright.engines.bulk import Checker
from baywright.space import Choice, Origin, Space, Sum, Table
law = Origin("law", "law", "")
space = Space((Choice("a", ("0", "1")),), (Table(("a",), frozenset({(0,)}), law),))
loaded = time.perf_counter()
checker = Checker(space)
checker.verdicts(checker.empty(1), every=True)
print(loaded - start, time.perf_counter() - loaded)
"""

_COMMAND = """
import atexit, pathlib, sys
from baywright.cli import main
status = pathlib.Path("/proc/self/status")
most = lambda: status.read_text().split("VmHWM:")[1].split()[0] if status.exists() else 0
atexit.register(lambda: print(most(), file=sys.stderr))
main()
"""
"""Runs a command of ours, then says on Linux how many kibibytes it held at most. What the system
calls the largest resident set is no use here: a new process inherits it from its parent."""


def findings() -> Iterator[Finding]:
    """Yield the tables, and the figures that were set."""
    measured = [ground for ground in grounds() if ground.name in ("two-socket", "f2", "l4")]
    rows = []
    for ground in measured:
        row, figures = _speed(ground)
        rows.append(row)
        yield from figures
    yield Table(
        "Builds judged a second, in millions",
        ("space", "legal", "plain loop", "one core", "all cores", "ratio", "all laws", "derived"),
        tuple(rows),
        f"{BUILDS:,} builds, legal ones of which up to three choices were changed at random; the "
        f"plain loop is the evaluator on {PLAIN:,} of them, stopping at the first broken law. "
        "Ratio: all cores to the plain loop. All laws: every broken law named, on all cores. "
        f"Derived: derived choices left out and filled in, on all cores. {note()}",
    )
    yield _start()
    for ground in measured:
        yield _from_files(ground)


def near_legal(space: Space, builds: int) -> Codes:
    """Return builds that are legal, or were before up to three of their choices were changed."""
    random = np.random.default_rng(1)
    start = _proven(space, random)
    codes = Checker(space).empty(builds)
    codes[:] = start[:, random.integers(start.shape[1], size=builds)]
    own = np.array([at for at, choice in enumerate(space.choices) if not choice.derived])
    sizes = np.array([choice.size for choice in space.choices])
    for _ in range(3):
        changed = np.flatnonzero(random.random(builds) < 0.4)
        choice = own[random.integers(len(own), size=len(changed))]
        codes[choice, changed] = random.integers(sizes[choice])
    return codes


def _proven(space: Space, random: np.random.Generator) -> NDArray[np.int64]:
    engine, found = Search(), []
    for choice in random.permutation(len(space.choices))[:25]:
        name, size = space.choices[choice].name, space.choices[choice].size
        proof = engine.prove(space, Assumptions({name: frozenset({int(random.integers(size))})}))
        if isinstance(proof, Possible):
            found.append([proof.values[each.name] for each in space.choices])
    return np.array(found, np.int64).T


def _speed(ground: Ground) -> tuple[tuple[str, ...], list[Wanted]]:
    space = ground.space
    codes = near_legal(space, BUILDS)
    checker = Checker(space)
    expected, plain = _plain(space, codes[:, :PLAIN])
    found = checker.verdicts(codes)
    if found.first[:PLAIN].tolist() != expected:
        raise RuntimeError(f"the verdicts on {ground.name} differ from the evaluator's")
    own = Checker(space, [choice.name for choice in space.choices if not choice.derived])
    one, both = _rate(checker, codes, cores=1), _rate(checker, codes)
    every, derived = _rate(checker, codes, every=True), _rate(own, codes.copy())
    figures = [
        Wanted(f"builds judged a second, {ground.name}", both, 2e6, 4e6, "", at_least=True),
        Wanted(f"bulk to plain loop, {ground.name}", both / plain, 200, None, "", at_least=True),
    ]
    rates = (f"{rate / 1e6:.2f}" for rate in (one, both))
    more = (f"{rate / 1e6:.2f}" for rate in (every, derived))
    legal = f"{found.legal.mean():.0%}"
    row = (ground.name, legal, f"{plain / 1e6:.4f}", *rates, number(both / plain), *more)
    return row, figures


def _plain(space: Space, codes: Codes) -> tuple[list[int], float]:
    """Return the first broken law of each build by the evaluator, and its builds a second."""
    names = [choice.name for choice in space.choices]
    builds = [dict(zip(names, row, strict=True)) for row in codes.T.tolist()]
    seconds, found = timed(lambda: [_first_broken(space.laws, build) for build in builds])
    return found, len(builds) / seconds


def _first_broken(laws: Sequence[Law], build: Mapping[str, int]) -> int:
    return next((at for at, law in enumerate(laws) if not holds(law, build)), -1)


def _rate(
    checker: Checker, codes: Codes, *, every: bool = False, cores: int | None = None
) -> float:
    """Return the builds a second at the median, after a run that does not count."""
    runs = [timed(checker.verdicts, codes, every=every, cores=cores)[0] for _ in range(RUNS + 1)]
    return int(codes.shape[1]) / statistics.median(runs[1:])


def _start() -> Table:
    with tempfile.TemporaryDirectory() as folder:
        cold, warm = (_started(Path(folder)) for _ in range(2))
    return Table(
        "Bulk engine in a fresh process, in milliseconds",
        ("machine code", "loading", "first verdict"),
        (("compiled now", *cold), ("kept from before", *warm)),
        "One run each.",
    )


def _started(cache: Path) -> tuple[str, str]:
    done = _python(_START, NUMBA_CACHE_DIR=str(cache))
    loading, first = map(float, done.stdout.split())
    return milliseconds(loading), milliseconds(first)


def _from_files(ground: Ground) -> Table:
    with tempfile.TemporaryDirectory() as folder:
        rows = tuple(_judged(ground.space, Path(folder), files) for files in FILES)
    return Table(
        f"Builds of {ground.name} judged from Parquet files",
        ("builds", "seconds", "a second", "a second, all laws written", "memory", "writing"),
        rows,
        f"The command bulk on files of {BUILDS:,} builds in texts, derived choices left out, in a "
        "process of its own; the most memory that it held, in megabytes, on Linux only. "
        "One run each.",
    )


def _judged(space: Space, folder: Path, files: int) -> tuple[str, ...]:
    table, described = folder / f"in-{files}", folder / "space.json"
    table.mkdir()
    write_space(space, described)
    first = table / "0.parquet"
    parquet.write_table(_texts(space, near_legal(space, BUILDS)), first, row_group_size=1 << 18)
    for place in range(1, files):
        (table / f"{place}.parquet").symlink_to(first)
    command = ["bulk", "--space", str(described), str(table), "--json"]
    plain, memory = _run(command)
    written, more = _run([*command, "--all", "--out", str(folder / f"out-{files}")])
    if plain["legal"] != written["legal"] or plain["builds"] != files * BUILDS:
        raise RuntimeError("two runs over one table do not agree")
    rates = (number(each["builds"] / each["seconds"]) for each in (plain, written))
    return f"{plain['builds']:,}", number(plain["seconds"]), *rates, str(memory), str(more)


def _run(command: Sequence[str]) -> tuple[dict[str, Any], int]:
    """Return what a command of ours prints, and the megabytes it held at most."""
    done = _python(_COMMAND, *command)
    return json.loads(done.stdout), int(done.stderr) * 1024 // 1_000_000


def _python(program: str, *arguments: str, **more: str) -> subprocess.CompletedProcess[str]:
    """Run a program of ours in a process of its own, with more in its environment."""
    command, told = [sys.executable, "-c", program, *arguments], {**os.environ, **more}
    return subprocess.run(command, env=told, check=True, capture_output=True, text=True)  # noqa: S603


def _texts(space: Space, codes: Codes) -> pa.Table:
    return pa.table(
        {
            choice.name: pa.DictionaryArray.from_arrays(
                pa.array(codes[at].astype(np.int32)), pa.array(choice.values)
            )
            for at, choice in enumerate(space.choices)
            if not choice.derived
        }
    )
