"""Judging the parts of a table on a cluster of workers that a scheduler hands them to.

It takes the distributed library, which is installed with the extra ``cluster``. Workers read the
table and write the results at the same paths as this machine does.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

from distributed import Client, KilledWorker, as_completed

from baywright.desk.bulk import Job, Progress, Tally, judge_number, together
from baywright.exchange.results import clear_unfinished, is_folder
from baywright.problems import Problem, Problems, problem

RETRIES = 3
"""How often a part is tried again when it fails for a reason that lies not in the table."""

PATIENCE = "20s"
"""How long to wait for a scheduler to answer."""


def judge_on(scheduler: str, job: Job, progress: Progress = lambda _: None) -> Tally:
    """Judge a table on a cluster; results are those of ``judge_table``.

    A part that was on a worker when it was lost is judged again on another one.

    Args:
        scheduler: address of the scheduler, such as ``tcp://10.0.0.5:8786``, or the file in which
            it wrote its address.
        job: the table; where results are written, it is to a folder.
        progress: told after each part.

    Raises:
        Problems: when the scheduler cannot be reached or too many workers were lost, for a result
            that is not to go to a folder, and as of ``judge_table``.
    """
    out = job.wanted.out
    if out is not None and not is_folder(out):
        message = f"{out} is one file, and a cluster writes a file for each part."
        raise problem("not-a-folder", message, None, "Give a folder with --out.")
    with _client(scheduler) as client:
        try:
            return together(job, _tallies(client, _everywhere(job), out), progress)
        except KilledWorker as lost:
            message = f"Too many workers were lost on one part: {lost}."
            hint = "Give workers more memory, or look at their logs."
            raise problem("workers-lost", message, None, hint) from lost
        finally:
            if out is not None:
                clear_unfinished(out)


def _tallies(client: Client, job: Job, out: Path | None) -> Iterator[Tally]:
    # The table is handed over as a task, so that a lost worker does not take it along.
    shared = client.submit(_itself, job, pure=False, retries=RETRIES)
    parts = [
        client.submit(_judged, shared, number, out and out.resolve(), pure=False, retries=RETRIES)
        for number in range(len(job.parts))
    ]
    done = as_completed(parts, client.loop, with_results=True)  # type: ignore[no-untyped-call]
    for _, result in done:
        if isinstance(result, Tally):
            yield result
        else:
            raise Problems(result)


def _everywhere(job: Job) -> Job:
    """Return a table whose paths do not depend on the folder that a worker runs in."""
    return replace(job, parts=tuple(replace(p, file=p.file.resolve()) for p in job.parts))


def _itself(job: Job) -> Job:
    return job


def _judged(job: Job, number: int, out: Path | None) -> Tally | tuple[Problem, ...]:
    """Judge a part on one core; problems of the table are a result, for no retry would help."""
    try:
        return judge_number(job, number, out, cores=1)
    except Problems as found:
        return found.problems


@contextmanager
def _client(scheduler: str) -> Iterator[Client]:
    where = {"scheduler_file": scheduler} if Path(scheduler).is_file() else {"address": scheduler}
    try:
        client = Client(**where, timeout=PATIENCE, set_as_default=False)  # type: ignore[no-untyped-call]
    except (OSError, ValueError) as error:
        message = f"The scheduler {scheduler} does not answer: {error}."
        hint = "Start one, or give its address with --on, such as tcp://10.0.0.5:8786."
        raise problem("no-scheduler", message, None, hint) from error
    with client:
        yield client
