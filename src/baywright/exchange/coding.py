"""Columns of labels as value indices, and back."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from typing import Any, Literal, TypeAlias

import numpy as np
import pyarrow as pa
from numpy.typing import NDArray

from baywright.exchange.sources import Batch
from baywright.problems import Problem, Problems, suggestion
from baywright.space import Choice, Space

Integers: TypeAlias = Literal["index", "label"]
"""What a whole number in a table stands for: the index of a value, or its label."""

Indices: TypeAlias = NDArray[np.unsignedinteger[Any]]

RESULTS = ("legal", "broken", "all_broken")
"""Columns of results. Those that a table has from an earlier run are left out and written anew."""

MOST_PROBLEMS = 20
"""Problems of a table that are shown before reading ends."""


def check_columns(
    file: str, names: Sequence[str], space: Space, kept: Collection[str] = ()
) -> tuple[str, ...]:
    """Return the choices that a table has a column for.

    Args:
        file: the file, as shown.
        names: names of its columns.
        space: the space.
        kept: columns that are carried along unread.

    Raises:
        Problems: for each column that is none of these, and each kept one that is missing.
    """
    choices = [choice.name for choice in space.choices]
    known = {*choices, *kept, *RESULTS}
    found = [_unknown(file, name, choices) for name in names if name not in known]
    found += [
        Problem("missing-column", f"{file} has no column {name!r} to keep.", None, "Leave it out.")
        for name in kept
        if name not in names
    ]
    found += [
        Problem("reserved-column", f"{name!r} is a choice and a column of results.")
        for name in RESULTS
        if name in space or name in kept
    ]
    if found:
        raise Problems(found)
    return tuple(name for name in names if name in space)


def _unknown(file: str, name: str, choices: Sequence[str]) -> Problem:
    hint = suggestion(name, choices) or "Leave it out, or keep it as it is with --keep."
    return Problem(
        "unknown-column", f"{file} has a column {name!r}, which is no choice.", None, hint
    )


class Coder:
    """Reads the columns of a table as value indices.

    Args:
        space: the space.
        names: the choices that have a column.
        integers: what whole numbers stand for, or ``None`` when it must be plain by itself.
    """

    def __init__(
        self, space: Space, names: Sequence[str], integers: Integers | None = None
    ) -> None:
        self._choices = [space.choice(name) for name in names]
        self._positions = [
            at for name in names for at, choice in enumerate(space.choices) if choice.name == name
        ]
        self._integers = integers

    def encode(self, batch: Batch, into: Indices) -> None:
        """Write the value indices of a batch.

        Args:
            batch: some rows.
            into: receives them: a row for each choice of the space, a column for each build.

        Raises:
            Problems: for values that no choice has, each with its column and first row.
        """
        found: list[Problem] = []
        for position, choice in zip(self._positions, self._choices, strict=True):
            column = _Column(choice, batch, self._integers)
            try:
                into[position] = column.indices(into.dtype)
            except Problems as wrong:
                found += wrong.problems
        if found:
            raise Problems(_first_of(found))


class _Column:
    """One column of a batch."""

    def __init__(self, choice: Choice, batch: Batch, integers: Integers | None) -> None:
        self._choice = choice
        self._batch = batch
        self._integers = integers
        self._values = batch.rows.column(choice.name)

    def indices(self, kind: np.dtype[Any]) -> Indices:
        """Return the value indices, or raise ``Problems``."""
        if self._values.null_count:
            row = int(np.flatnonzero(self._values.is_null().to_numpy(zero_copy_only=False))[0])
            raise Problems([self._wrong("empty-value", row, "There is no value", self._hint(""))])
        values = self._values
        if pa.types.is_dictionary(values.type) and pa.types.is_integer(values.type.value_type):
            values = values.dictionary_decode()
        if pa.types.is_integer(values.type):
            return self._from_integers(values, kind)
        if not pa.types.is_dictionary(values.type):
            if not _is_text(values.type):
                raise Problems([self._type_problem(values.type)])
            values = values.dictionary_encode()
        if not _is_text(values.type.value_type):
            raise Problems([self._type_problem(values.type.value_type)])
        return self._from_labels(values.dictionary.to_pylist(), values.indices.to_numpy(), kind)

    def _from_labels(
        self, labels: Sequence[str], places: NDArray[np.integer[Any]], kind: np.dtype[Any]
    ) -> Indices:
        """Return value indices of labels, each given by its place among different ones."""
        index = {label: at for at, label in enumerate(self._choice.values)}
        unknown = [at for at, label in enumerate(labels) if label not in index]
        if unknown:
            found = [
                self._wrong(
                    "unknown-value",
                    int(np.flatnonzero(places == at)[0]),
                    f"{labels[at]!r} is no value of the choice",
                    self._hint(str(labels[at])),
                )
                for at in unknown
                if (places == at).any()
            ]
            if found:
                raise Problems(found)
        code = np.array([index.get(label, 0) for label in labels], kind)
        return np.asarray(code[places])

    def _from_integers(self, values: pa.Array, kind: np.dtype[Any]) -> Indices:
        numbers = values.to_numpy()
        if self._integers == "label":
            labels, places = np.unique(numbers, return_inverse=True)
            return self._from_labels([str(label) for label in labels], places, kind)
        if self._integers is None and _is_ambiguous(self._choice):
            raise Problems([self._ambiguous()])
        wrong = np.flatnonzero((numbers < 0) | (numbers >= self._choice.size))
        if len(wrong):
            row = int(wrong[0])
            message = f"{numbers[row]} is no index of a value"
            hint = f"Indices of this choice run from 0 to {self._choice.size - 1}."
            raise Problems([self._wrong("unknown-value", row, message, hint)])
        return np.asarray(numbers.astype(kind))

    def _hint(self, label: str) -> str:
        return suggestion(label, self._choice.values) or "Write one of its labels."

    def _wrong(self, kind: str, row: int, message: str, hint: str) -> Problem:
        where = f"{self._batch.file}, row {self._batch.row + row}, column {self._choice.name!r}"
        return Problem(kind, f"{where}: {message}.", None, hint)

    def _type_problem(self, kind: pa.DataType) -> Problem:
        message = f"{self._batch.file}, column {self._choice.name!r} holds {kind} values."
        return Problem("column-type", message, None, "Write labels as text, or indices.")

    def _ambiguous(self) -> Problem:
        message = (
            f"{self._batch.file}, column {self._choice.name!r} holds whole numbers, and its "
            "labels are whole numbers too."
        )
        hint = "Say with --integers whether they are an index or a label, or write text."
        return Problem("ambiguous-integers", message, None, hint)


def _is_text(kind: pa.DataType) -> bool:
    return bool(
        pa.types.is_string(kind) or pa.types.is_large_string(kind) or pa.types.is_string_view(kind)
    )


def _is_ambiguous(choice: Choice) -> bool:
    """Say whether a whole number could be a label of one value and the index of another."""
    index = {str(at): at for at in range(choice.size)}
    return any(
        index.get(label, at) != at or (label.lstrip("-").isdecimal() and label not in index)
        for at, label in enumerate(choice.values)
    )


def _first_of(found: Sequence[Problem]) -> Iterator[Problem]:
    yield from found[:MOST_PROBLEMS]
    if len(found) > MOST_PROBLEMS:
        more = len(found) - MOST_PROBLEMS
        yield Problem("more-problems", f"{more} more are not shown.", None, "Correct these first.")
