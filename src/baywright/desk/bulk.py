"""Judging a table of builds: each legal or not, and which law it breaks."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import nullcontext
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from baywright.desk.opening import Opened
from baywright.engines.bulk import Checker, Codes, Verdicts
from baywright.engines.contract import Unsupported
from baywright.exchange.coding import Coder, Integers, check_columns
from baywright.exchange.results import ResultFile, check_target, is_folder, replaced
from baywright.exchange.sources import Batch, Part, batches, column_names, files_of, parts_of
from baywright.problems import problem
from baywright.space import Space

T = TypeVar("T")

Progress = Callable[[str], None]


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is wanted of a table of builds.

    Args:
        path: a file, or a folder of files that are one table.
        out: a file to write to, or a folder for a file of each part, or ``None`` for counts alone.
        every: whether to find all broken laws of a build, not only the first.
        kept: columns that are no choices and are carried along.
        integers: what whole numbers stand for, or ``None`` when that is plain.
    """

    path: Path
    out: Path | None = None
    every: bool = False
    kept: tuple[str, ...] = ()
    integers: Integers | None = None


@dataclass(frozen=True, slots=True)
class Tally:
    """How many builds came out how.

    Args:
        builds: how many there are.
        legal: how many are legal.
        undecided: how many are legal or not depending on facts that are unknown.
        broken: for each key of a law, how many break it first, or at all if that was wanted.
    """

    builds: int
    legal: int
    undecided: int
    broken: tuple[int, ...]

    def plus(self, other: Tally) -> Tally:
        """Return the tally of both."""
        return Tally(
            self.builds + other.builds,
            self.legal + other.legal,
            self.undecided + other.undecided,
            tuple(one + two for one, two in zip(self.broken, other.broken, strict=True)),
        )


@dataclass(frozen=True, slots=True, eq=False)
class Job:
    """A table of builds made ready to be judged, here or elsewhere.

    Args:
        wanted: what is wanted.
        given: the choices that have a column.
        checkers: one for each way the unknown facts could be.
        keys: the keys of the laws, in the order in which they are looked at.
        parts: the parts of the table.
    """

    wanted: Wanted
    given: tuple[str, ...]
    checkers: tuple[Checker, ...]
    keys: tuple[str, ...]
    parts: tuple[Part, ...]

    @property
    def nothing(self) -> Tally:
        """The tally of no builds."""
        return Tally(0, 0, 0, (0,) * len(self.keys))


def spaces_of(opened: Opened) -> tuple[Space, ...]:
    """Return the space of a book for each way its unknown facts could be."""
    return tuple(space for _, space in opened.in_worlds(lambda machine: machine.space))


def prepared(spaces: Sequence[Space], wanted: Wanted) -> Job:
    """Make a table ready to be judged.

    Args:
        spaces: the space; several when facts are unknown, one for each way they could be.
        wanted: what is wanted.

    Raises:
        Problems: for a table that cannot be read, its columns, or a choice that has none and
            does not follow from the others.
    """
    files = files_of(wanted.path)
    if wanted.out is not None:
        check_target(wanted.out, (wanted.path, *files))
    given = check_columns(str(files[0]), column_names(files[0]), spaces[0], wanted.kept)
    for file in files[1:]:
        _check_alike(files[0], given, file, spaces[0], wanted)
    checkers = tuple(_checker(space, given) for space in spaces)
    keys = tuple(spaces[0].origins)
    return Job(wanted, given, checkers, keys, tuple(parts_of(files)))


def judge_table(job: Job, progress: Progress = lambda _: None) -> Tally:
    """Judge a table on this machine, and write the result where it is wanted.

    Raises:
        Problems: for a value that does not exist, or a place that cannot be written.
    """
    out = job.wanted.out
    if out is None or is_folder(out):
        return together(job, _part_by_part(job, out), progress)
    with replaced(out) as path:
        target = _result_file(job, path)
        tallies = (judge_part(job, part, target) for part in job.parts)
        found = together(job, tallies, progress)
        target.close()
    return found


def together(job: Job, tallies: Iterable[Tally], progress: Progress) -> Tally:
    """Return the tally of all parts, telling how far it is."""
    total = job.nothing
    for number, tally in enumerate(tallies, 1):
        total = total.plus(tally)
        progress(f"{number} of {len(job.parts)} parts, {total.builds:,} builds")
    return total


def judge_number(job: Job, number: int, out: Path | None, cores: int | None = None) -> Tally:
    """Judge one part of a table, and write it to a file of its own in a folder.

    The file appears when it is complete, so a part can be judged again after a failure.

    Args:
        job: the table.
        number: number of the part, from 0.
        out: the folder, or ``None`` for counts alone.
        cores: how many cores to use; all unless stated.

    Raises:
        Problems: for a value that does not exist, or a place that cannot be written.
    """
    place = nullcontext(None) if out is None else replaced(out / f"part-{number:05}.parquet")
    with place as path:
        target = None if path is None else _result_file(job, path)
        tally = judge_part(job, job.parts[number], target, cores)
        if target is not None:
            target.close()
    return tally


def judge_part(job: Job, part: Part, target: ResultFile | None, cores: int | None = None) -> Tally:
    """Judge one part of a table, and write it to a file that is open.

    Raises:
        Problems: for a value that does not exist, or a place that cannot be written.
    """
    coders = [Coder(each.space, job.given, job.wanted.integers) for each in job.checkers]
    every, tally = job.wanted.every, job.nothing
    for batch in _ahead(batches(part, (*job.given, *job.wanted.kept))):
        codes = [
            _encoded(checker, coder, batch)
            for checker, coder in zip(job.checkers, coders, strict=True)
        ]
        found = [
            checker.verdicts(builds, every=every, cores=cores)
            for checker, builds in zip(job.checkers, codes, strict=True)
        ]
        tally = tally.plus(_written(batch, codes[0], found, target))
    return tally


def _written(
    batch: Batch, codes: Codes, found: Sequence[Verdicts], target: ResultFile | None
) -> Tally:
    """Return the tally of a batch, and write it if it is to be written."""
    first = found[0]
    legal, undecided = _over_worlds(found)
    keys = np.where(undecided, -1, first.first_keys())
    broken = None if first.bits is None else first.broken_keys() & ~undecided[:, None]
    if target is not None:
        target.write(batch, codes, legal, keys, broken, undecided)
    counts = np.bincount(keys[keys >= 0], minlength=len(first.keys))
    if broken is not None:
        counts = broken.sum(axis=0)
    return Tally(len(keys), int(legal.sum()), int(undecided.sum()), tuple(map(int, counts)))


def _over_worlds(found: Sequence[Verdicts]) -> tuple[NDArray[np.bool_], NDArray[np.bool_]]:
    """Return which builds are legal in every world, and which in some of them only."""
    every = np.logical_and.reduce([each.legal for each in found])
    some = np.logical_or.reduce([each.legal for each in found])
    return every, some & ~every


def _part_by_part(job: Job, out: Path | None) -> Iterator[Tally]:
    return (judge_number(job, number, out) for number in range(len(job.parts)))


def _result_file(job: Job, path: Path) -> ResultFile:
    return ResultFile(job.checkers[0].space, job.given, job.wanted.kept, job.keys, path)


def _encoded(checker: Checker, coder: Coder, batch: Batch) -> Codes:
    codes = checker.empty(batch.rows.num_rows)
    coder.encode(batch, codes)
    return codes


def _checker(space: Space, given: Sequence[str]) -> Checker:
    try:
        return Checker(space, given)
    except Unsupported as error:
        hint = "State the quantities of that law in a larger unit."
        raise problem("too-large", f"The table cannot be judged: {error}.", None, hint) from error


def _check_alike(
    first: Path, given: Sequence[str], file: Path, space: Space, wanted: Wanted
) -> None:
    """Refuse a file of a table whose columns are not those of the first."""
    mine = set(check_columns(str(file), column_names(file), space, wanted.kept))
    if mine != set(given):
        name = min(mine ^ set(given))
        message = f"{first} and {file} do not have the same columns: {name!r} is in one only."
        raise problem("columns-differ", message, None, "Give every file the same columns.")


def _ahead(items: Iterator[T]) -> Iterator[T]:
    """Yield items while the next one is already being fetched."""
    with ThreadPoolExecutor(1) as pool:
        coming = pool.submit(next, items, None)
        while (item := coming.result()) is not None:
            coming = pool.submit(next, items, None)
            yield item
