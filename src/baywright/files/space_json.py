"""The JSON form of a space: read with every index checked, and written back."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from baywright.files.json_places import Path, given_twice, mark_at, path_text, places
from baywright.files.space_checks import Checks, TooManyProblems
from baywright.files.space_origins import ORIGIN, key_of, origin_json, origin_of
from baywright.problems import Mark, Problem, Problems, nearest, problem
from baywright.space import Choice, Origin, Space, Sum, Table

MOST_CHOICES = 5_000
MOST_LAWS = 10_000
"""Tables, and likewise sums; more than this no engine takes up within its time."""

MOST_VALUES = 10_000
"""Of one choice."""

MOST_ROWS = 2_000_000
"""Of all tables together, each counted once for each of its choices."""

LARGEST_TOTAL = 2**31 - 1
"""What the largest weights of a sum may come to; every engine adds that exactly."""

LARGEST_BOUND = 2**53

_TOP = ("note", "choices", "derived", "structures", "tables", "sums")
_TABLE = (*ORIGIN, "over", "rows")
_SUM = (*ORIGIN, "weights", "at_most", "unit", "budget")
_DIGITS = 18


@dataclass(frozen=True, slots=True)
class Content:
    """What a space file says.

    Args:
        space: the space.
        budgets: positions in ``space.sums`` of the sums marked as budgets.
        note: what the file says about itself.
    """

    space: Space
    budgets: tuple[int, ...] = ()
    note: str = ""


class _Twice(Exception):  # noqa: N818 - reads as the outcome it is
    """An object has a key twice."""


def content_of(text: str, file: str) -> Content:
    """Read a space from JSON.

    Args:
        text: the text.
        file: name of the file in problems.

    Raises:
        Problems: everything that is wrong, each with its path, line and column.
    """
    root = _parsed(text, file)
    reading = _Reading(Checks())
    try:
        content = reading.content(root)
    except TooManyProblems:
        content = None
    refusals = reading.checks.refusals
    if content is None or refusals:
        where = places(text, {r.path for r in refusals}, file)
        start = Mark(file, 1, 1)
        raise Problems(
            Problem(r.kind, r.sentence, where.get(r.path, start), r.hint) for r in refusals
        )
    return content


def _parsed(text: str, file: str) -> object:
    try:
        return json.loads(text, object_pairs_hook=_object, parse_int=_whole)
    except json.JSONDecodeError as error:
        mark = mark_at(text, error.pos, file)
        hint = "Look at the comma, quote or bracket before it."
        raise problem("json", "This is not JSON from here on.", mark, hint) from None
    except RecursionError:
        message = f"{file} has too many brackets inside brackets."
        raise problem("too-deep", message, Mark(file, 1, 1), "A space needs five.") from None
    except _Twice:
        raise Problems(_twice(*found) for found in given_twice(text, file)) from None


def _object(pairs: list[tuple[str, object]]) -> dict[str, object]:
    held = dict(pairs)
    if len(held) < len(pairs):
        raise _Twice
    return held


def _twice(path: Path, mark: Mark) -> Problem:
    message = f"{path_text(path)} is given twice."
    return Problem("given-twice", message, mark, "Give it once, or another name.")


def _whole(digits: str) -> int | float:
    """Read a number; one with too many digits becomes no whole number, and is refused as such."""
    return int(digits) if len(digits) <= _DIGITS else math.inf


class _Reading:
    """One reading of a file."""

    def __init__(self, checks: Checks) -> None:
        self.checks = checks
        self.sizes: dict[str, int] = {}
        self.cells = 0

    def content(self, root: object) -> Content:
        held = self.checks.mapping(root, (), "An object with choices, tables and sums")
        self._remarks(held)
        choices = self._choices(held)
        tables = self._laws(held, "tables")
        sums = self._laws(held, "sums")
        read_tables = [self._table(each, ("tables", i)) for i, each in enumerate(tables)]
        read_sums = [self._sum(each, ("sums", i)) for i, each in enumerate(sums)]
        budgets = tuple(i for i, each in enumerate(sums) if _is_budget(each))
        note = held.get("note", "")
        if self.checks.refusals:
            return Content(Space(()))
        return Content(
            Space(
                choices,
                tuple(table for table in read_tables if table is not None),
                tuple(read_sums),
            ),
            budgets,
            note if isinstance(note, str) else "",
        )

    def _laws(self, held: Mapping[str, object], key: str) -> list[object]:
        laws = self.checks.listing(held.get(key, []), (key,), f"A list of {key}")
        if len(laws) > MOST_LAWS:
            message = f"There are {len(laws):,} {key}."
            self.checks.refuse((key,), "too-large", message, f"Keep to {MOST_LAWS:,}.")
            return []
        return laws

    def _remarks(self, held: Mapping[str, object]) -> None:
        """A text or a number beside the rest says nothing about builds and may stay."""
        for key, value in held.items():
            if key in _TOP:
                continue
            close = nearest(key, _TOP)
            if close or isinstance(value, dict | list):
                hint = f"Did you mean {close!r}?" if close else "Take it out, or see the form."
                message = "Nothing of a space is called so."
                self.checks.refuse((key,), "unknown-key", message, hint)

    def _choices(self, held: Mapping[str, object]) -> tuple[Choice, ...]:
        given = self.checks.mapping(held.get("choices"), ("choices",), "An object with choices")
        if len(given) > MOST_CHOICES:
            message = f"There are {len(given):,} choices."
            self.checks.refuse(("choices",), "too-large", message, f"Keep to {MOST_CHOICES:,}.")
            return ()
        labels = {name: self._labels(name, value) for name, value in given.items()}
        self.sizes = {name: len(values) for name, values in labels.items()}
        derived = self._derived(held.get("derived", []))
        structures = self._structures(held.get("structures", {}))
        return tuple(
            Choice(name, values, name in derived, structures.get(name))
            for name, values in labels.items()
        )

    def _labels(self, name: str, value: object) -> tuple[str, ...]:
        path = ("choices", name)
        self.checks.text(name, path)
        values = self.checks.listing(value, path, "A list of values")
        if isinstance(value, list) and not 0 < len(values) <= MOST_VALUES:
            message = f"This choice has {len(values):,} values."
            self.checks.refuse(path, "too-large", message, f"Give 1 to {MOST_VALUES:,}.")
            return ()
        labels = tuple(self.checks.text(each, (*path, i)) for i, each in enumerate(values))
        self._once(labels, path)
        return labels

    def _once(self, names: tuple[str | None, ...], path: Path) -> None:
        seen: set[str] = set()
        for place, name in enumerate(names):
            if name and name in seen:
                message = f"{name!r} stands here twice."
                self.checks.refuse((*path, place), "given-twice", message, "Give it once.")
            seen.add(name or "")

    def _derived(self, value: object) -> frozenset[str]:
        names = self._names(value, ("derived",))
        self._once(names, ("derived",))
        return frozenset(name for name in names if name)

    def _names(self, value: object, path: Path) -> tuple[str | None, ...]:
        listed = self.checks.listing(value, path, "A list of choices")
        return tuple(
            self.checks.name(each, (*path, place), self.sizes, "choice")
            for place, each in enumerate(listed)
        )

    def _structures(self, value: object) -> dict[str, Origin]:
        path = ("structures",)
        found = {}
        for name, each in self.checks.mapping(value, path, "An object with choices").items():
            here = (*path, name)
            if self.checks.name(name, here, self.sizes, "choice"):
                held = self.checks.mapping(each, here, "An object")
                self.checks.keys(held, here, ORIGIN)
                key = key_of(self.checks, held, here)
                found[name] = origin_of(self.checks, held, here, key, f"{name} has these values.")
        return found

    def _table(self, value: object, path: Path) -> Table | None:
        held = self.checks.mapping(value, path, "An object")
        self.checks.keys(held, path, _TABLE)
        scope = self._names(held.get("over"), (*path, "over"))
        names = tuple(name for name in scope if name is not None)
        key = key_of(self.checks, held, path)
        says = f"The table {key!r} lists what {_and(names)} may be."
        origin = origin_of(self.checks, held, path, key, says)
        rows = self.checks.listing(held.get("rows"), (*path, "rows"), "A list of rows")
        self.cells += len(rows) * max(1, len(scope))
        if self.cells > MOST_ROWS:
            message = "The tables are too large together."
            self.checks.refuse(path, "too-large", message, f"Keep to {MOST_ROWS:,} indices.")
            raise TooManyProblems
        if len(names) < len(scope):
            return None
        return Table(names, frozenset(self._rows(rows, names, (*path, "rows"))), origin)

    def _rows(
        self, rows: list[object], scope: tuple[str, ...], path: Path
    ) -> list[tuple[int, ...]]:
        sizes = [self.sizes[name] for name in scope]
        found = []
        for place, row in enumerate(rows):
            if isinstance(row, list) and len(row) == len(sizes):
                found.append(self._row(row, sizes, (*path, place)))
            else:
                hint = f"Give a list of {len(sizes)}, one value index for each choice of over."
                message = "This row does not fit its table."
                self.checks.refuse((*path, place), "wrong-length", message, hint)
        return found

    def _row(self, row: list[object], sizes: list[int], path: Path) -> tuple[int, ...]:
        # Nearly every index is sound, so the slow check that knows its path is kept for the rest.
        return tuple(
            index
            if type(index) is int and 0 <= index < size
            else self.checks.whole(index, (*path, place), 0, size - 1) or 0
            for place, (index, size) in enumerate(zip(row, sizes, strict=True))
        )

    def _sum(self, value: object, path: Path) -> Sum:
        held = self.checks.mapping(value, path, "An object")
        self.checks.keys(held, path, _SUM)
        inside = (*path, "weights")
        given = self.checks.mapping(held.get("weights"), inside, "An object with choices")
        weights = [(n, self._weights(n, each, (*inside, n))) for n, each in given.items()]
        bound = (-LARGEST_BOUND, LARGEST_BOUND)
        at_most = self.checks.whole(held.get("at_most"), (*path, "at_most"), *bound) or 0
        unit = self.checks.text(held["unit"], (*path, "unit")) if held.get("unit") else ""
        if not isinstance(held.get("budget", False), bool):
            self.checks.refuse((*path, "budget"), "not-a-truth", "Write true or false.", "")
        total = sum(max(map(abs, column), default=0) for _, column in weights)
        if total > LARGEST_TOTAL:
            message = f"The weights can come to {total:,}."
            hint = f"Use a larger unit; the total may reach {LARGEST_TOTAL:,}."
            self.checks.refuse(inside, "too-large", message, hint)
        key = key_of(self.checks, held, path)
        says = f"The sum {key!r} is at most {f'{at_most:,} {unit}'.rstrip()}."
        origin = origin_of(self.checks, held, path, key, says)
        return Sum(tuple(weights), at_most, origin, unit)

    def _weights(self, name: str, value: object, path: Path) -> tuple[int, ...]:
        if self.checks.name(name, path, self.sizes, "choice") is None:
            return ()
        listed = self.checks.listing(value, path, "A list of weights")
        if isinstance(value, list) and len(listed) != self.sizes[name]:
            message = f"There are {len(listed)} weights for {self.sizes[name]} values."
            self.checks.refuse(path, "wrong-length", message, "Give one for each value.")
        most = LARGEST_TOTAL
        read = (self.checks.whole(w, (*path, i), -most, most) for i, w in enumerate(listed))
        return tuple(weight or 0 for weight in read)


def _is_budget(value: object) -> bool:
    return isinstance(value, dict) and value.get("budget") is True


def _and(names: tuple[str, ...]) -> str:
    shown = names if len(names) <= 6 else (*names[:5], f"{len(names) - 5} more choices")
    return " and ".join(filter(None, (", ".join(shown[:-1]), *shown[-1:]))) or "nothing"


def json_of(content: Content) -> dict[str, Any]:
    """Return a space in its JSON form; reading it again gives an equal space."""
    space = content.space
    structures = {c.name: origin_json(c.structure) for c in space.choices if c.structure}
    return {
        "note": content.note,
        "choices": {choice.name: list(choice.values) for choice in space.choices},
        "derived": [choice.name for choice in space.choices if choice.derived],
        "structures": structures,
        "tables": [
            {**origin_json(t.origin), "over": list(t.scope), "rows": sorted(map(list, t.rows))}
            for t in space.tables
        ],
        "sums": [
            {
                **origin_json(s.origin),
                "weights": {name: list(weights) for name, weights in s.weights},
                "at_most": s.at_most,
                "unit": s.unit,
                "budget": place in content.budgets,
            }
            for place, s in enumerate(space.sums)
        ],
    }
