"""The command bulk: a table of builds in, verdicts and counts out."""

from __future__ import annotations

import time
from collections.abc import Iterator
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING

from rich.console import RenderableType
from rich.text import Text

from baywright.cli.guarding import ANSWERED, guarded
from baywright.cli.later import later
from baywright.cli.output import progress, show, show_json
from baywright.cli.sheets import columns, heading
from baywright.desk.bulk import Job, Progress, Tally, Wanted, judge_table, prepared, spaces_of
from baywright.desk.request import Request, opened
from baywright.desk.spaces import open_space
from baywright.problems import problem
from baywright.space import Space

if TYPE_CHECKING:
    from baywright.desk import cluster
else:
    # It takes a library that need not be there.
    cluster = later("baywright.desk.cluster")

__all__ = ["Request", "Wanted", "bulk"]


@guarded
def bulk(
    source: str | Path, wanted: Wanted, request: Request, scheduler: str, *, as_json: bool
) -> int:
    """Judge a table of builds by a book, or by a space file when a path is given."""
    with progress(f"Judging {wanted.path}", as_json=as_json) as step:
        job = prepared(_spaces(source, request), wanted)
        started = time.perf_counter()
        tally = _judged(job, scheduler, step)
        seconds = time.perf_counter() - started
    if as_json:
        show_json(_json(str(source), job, tally, seconds))
    else:
        show(_sheet(job, tally, seconds))
    return ANSWERED


def _spaces(source: str | Path, request: Request) -> tuple[Space, ...]:
    if isinstance(source, Path):
        return (open_space(source, request).file.space,)
    return spaces_of(opened(source, request))


def _judged(job: Job, scheduler: str, step: Progress) -> Tally:
    if not scheduler:
        return judge_table(job, step)
    if find_spec("distributed") is None:
        message = "A cluster takes the library distributed, which is not installed."
        hint = "Install it with: pip install 'baywright[cluster]'."
        raise problem("no-cluster", message, None, hint)
    return cluster.judge_on(scheduler, job, step)


def _json(source: str, job: Job, tally: Tally, seconds: float) -> dict[str, object]:
    return {
        "by": source,
        "builds": tally.builds,
        "legal": tally.legal,
        "undecided": tally.undecided,
        "counted": "all" if job.wanted.every else "first",
        "broken": dict(_counted(job, tally)),
        "seconds": round(seconds, 3),
        "out": None if job.wanted.out is None else str(job.wanted.out),
    }


def _counted(job: Job, tally: Tally) -> list[tuple[str, int]]:
    """Return the laws that are broken and how often, the most often first."""
    pairs = zip(job.keys, tally.broken, strict=True)
    return sorted((pair for pair in pairs if pair[1]), key=lambda pair: -pair[1])


def _sheet(job: Job, tally: Tally, seconds: float) -> Iterator[RenderableType]:
    yield Text(f"{tally.legal:,} of {tally.builds:,} builds are legal.", style="bold")
    if tally.undecided:
        yield Text(f"{tally.undecided:,} are undecided; facts that nobody has stated decide.")
    found = _counted(job, tally)
    if found:
        yield from heading("Broken laws" if job.wanted.every else "First broken law")
        yield columns(
            (Text(f"{count:,}", justify="right"), Text(key), Text(_sentence(job, key)))
            for key, count in found
        )
    yield ""
    rate = tally.builds / seconds if seconds else 0.0
    written = "" if job.wanted.out is None else f" Written to {job.wanted.out}."
    yield Text(f"{rate:,.0f} builds a second.{written}", style="dim")


def _sentence(job: Job, key: str) -> str:
    return job.checkers[0].space.origins[key].sentence
