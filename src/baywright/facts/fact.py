"""A fact: a typed value that knows where it stands, who says so, and whether it is known."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import UnionType
from typing import (
    Annotated,
    Any,
    Generic,
    Literal,
    TypeAlias,
    TypeVar,
    Union,
    cast,
    get_args,
    get_origin,
)

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic.fields import FieldInfo
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from baywright.facts.readers import (
    CARD_HEIGHTS,
    CARD_LENGTHS,
    Reader,
    named_length,
    read_date,
    read_factor,
    read_money,
    read_ratio,
    read_truth,
    read_whole,
    refusal,
    shown,
)
from baywright.problems import Mark, suggestion
from baywright.units import DIMENSIONS, Quantity, UnitError, parse

T = TypeVar("T")

Status = Literal["stated", "derived", "assumed", "pre-release", "withdrawn"]
STATUSES: tuple[str, ...] = get_args(Status)
_KEYS = ("value", "could_be", "told", "source", "date", "status", "note")
_TOLD_KEYS = ("value", "source", "date")


class Scalar(str):
    """A text from a file that remembers its place.

    Attributes:
        mark: file, line and column.
        path: dotted path in the book.
    """

    __slots__ = ("mark", "path")

    mark: Mark | None
    path: str

    def __new__(cls, text: str, mark: Mark | None = None, path: str = "") -> Scalar:
        """Make a text with its place."""
        scalar = super().__new__(cls, text)
        scalar.mark = mark
        scalar.path = path
        return scalar


def mark_of(text: object) -> Mark | None:
    """Return the place of a text that came from a file, or ``None`` for anything else."""
    return text.mark if isinstance(text, Scalar) else None


class UnknownFactError(Exception):
    """A fact was used whose value nobody has stated yet."""


@dataclass(frozen=True, slots=True)
class Told:
    """A fact as one of several sources states it.

    Args:
        text: the value as written.
        source: id of the source, or empty for the book's main source.
        date: date it was stated, or ``None`` for the date of its source.
        mark: file, line and column.
    """

    text: str
    source: str = ""
    date: datetime.date | None = None
    mark: Mark | None = None


@dataclass(frozen=True, slots=True)
class Fact(Generic[T]):
    """A typed value with its provenance.

    Args:
        value: the value, or ``None`` while it is unknown.
        text: the value as written.
        path: dotted path in the book.
        mark: file, line and column, or ``None`` for a value that no file holds.
        could_be: the values an unknown fact could have, as written.
        source: id of a source of the book, or empty for the book's main source.
        date: date the fact was stated, or ``None`` for the date of its source.
        status: how firm it is.
        note: a remark for readers.
        told: what each source states, where several do. A fact on which they differ is unknown,
            and could be what any of them states.
    """

    value: T | None
    text: str
    path: str = ""
    mark: Mark | None = None
    could_be: tuple[str, ...] = ()
    source: str = ""
    date: datetime.date | None = None
    status: Status = "stated"
    note: str = ""
    told: tuple[Told, ...] = ()

    @property
    def disputed(self) -> bool:
        """Whether several sources state it and differ."""
        return self.value is None and bool(self.told)

    @property
    def known(self) -> T:
        """The value; raises ``UnknownFactError`` while it is unknown."""
        if self.value is None:
            raise UnknownFactError(self.path)
        return self.value


@dataclass(frozen=True, eq=False)
class Reads:
    """Pydantic glue: how a field reads its fact, and what editors are told about it.

    Args:
        reader: turns the written text into the typed value; raises ``ValueError``.
        schema: JSON Schema of the written value.
        sort: name of a dimension, or ``whole``, ``ratio``, ``date``, ``truth``, ``text`` or
            ``money``.
    """

    reader: Reader
    schema: Mapping[str, Any]
    sort: str

    def __get_pydantic_core_schema__(
        self, source: object, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        """Validate with our own reader."""
        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        """Describe both forms: the bare value, and the value with its provenance."""
        return {"anyOf": [dict(self.schema), _long_form(self.schema)]}

    def read(self, raw: object) -> Fact[Any]:
        """Read a bare value, or a mapping with a value or the values it could have."""
        if isinstance(raw, Fact):
            return raw
        if isinstance(raw, Mapping):
            return self._read_mapping(raw)
        return self._read_bare(raw)

    def _read_bare(self, raw: object, at: str = "") -> Fact[Any]:
        text = _text(raw, at)
        path = raw.path if isinstance(raw, Scalar) else ""
        return Fact(self._value(text, at), str(text), path, mark_of(text))

    def _read_mapping(self, raw: Mapping[str, Any]) -> Fact[Any]:
        _check_keys(raw)
        if "told" in raw:
            return self._read_told(raw)
        could_be = raw.get("could_be", [])
        values = [self._read_bare(value, f"could_be.{i}") for i, value in enumerate(could_be)]
        known = "value" in raw
        bare = self._read_bare(raw["value"], "value") if known else values[0]
        return Fact(
            value=bare.value if known else None,
            text=bare.text if known else "unknown",
            path=bare.path.removesuffix(".value").removesuffix(".could_be.0"),
            mark=bare.mark,
            could_be=tuple(value.text for value in values),
            source=_text(raw.get("source", ""), "source"),
            date=_date(raw["date"]) if "date" in raw else None,
            status=_status(raw.get("status", "stated")),
            note=_text(raw.get("note", ""), "note"),
        )

    def _read_told(self, raw: Mapping[str, Any]) -> Fact[Any]:
        """Read what several sources state: known where all agree, otherwise unknown."""
        entries = [_entry(each, f"told.{i}") for i, each in enumerate(raw["told"])]
        stated = [self._read_bare(e["value"], f"told.{i}.value") for i, e in enumerate(entries)]
        told = tuple(
            Told(fact.text, entry.get("source", ""), _date_of(entry, i), fact.mark)
            for i, (entry, fact) in enumerate(zip(entries, stated, strict=True))
        )
        first = stated[0]
        differing = tuple(
            fact.text
            for i, fact in enumerate(stated)
            if all(fact.value != earlier.value for earlier in stated[:i])
        )
        agreed = len(differing) == 1
        return Fact(
            value=first.value if agreed else None,
            text=first.text if agreed else "disputed",
            path=first.path.removesuffix(".told.0.value"),
            mark=first.mark,
            could_be=() if agreed else differing,
            source=told[0].source,
            date=told[0].date,
            status=_status(raw.get("status", "stated")),
            note=_text(raw.get("note", ""), "note"),
            told=told,
        )

    def _value(self, text: str, at: str) -> object:
        try:
            return self.reader(text)
        except UnitError as error:
            raise refusal(error.kind, error.message, error.hint, at) from error
        except PydanticCustomError as error:
            context = error.context or {}
            raise refusal(error.type, context["message"], context["hint"], at) from error


def _check_keys(raw: Mapping[str, Any]) -> None:
    for key in raw:
        if key not in _KEYS:
            message = f"A fact has nothing called {shown(key)}."
            raise refusal("unknown-key", message, suggestion(key, _KEYS), key)
    could_be, told = raw.get("could_be", []), raw.get("told", [])
    lists = isinstance(could_be, list) and isinstance(told, list)
    if not lists or [("value" in raw), bool(could_be), bool(told)].count(True) != 1:
        message = "A fact has a value, a list of values under could_be, or what sources told."
        raise refusal("fact-without-value", message, "Give one of them, such as 'value: 8'.")
    if told and (len(told) == 1 or "source" in raw or "date" in raw):
        message = "Under told stand two or more entries, each with its own source."
        raise refusal("told", message, "Write - {value: 8 W, source: data-sheet}.", "told")


def _entry(raw: object, at: str) -> Mapping[str, Any]:
    if not isinstance(raw, Mapping) or "value" not in raw:
        message = "What a source told has a value, and the source."
        raise refusal("told", message, "Write {value: 8 W, source: data-sheet}.", at)
    for key in raw:
        if key not in _TOLD_KEYS:
            message = f"What a source told has nothing called {shown(key)}."
            raise refusal("unknown-key", message, suggestion(key, _TOLD_KEYS), f"{at}.{key}")
    return {key: _text(value, f"{at}.{key}") for key, value in raw.items()}


def _text(raw: object, at: str) -> str:
    if isinstance(raw, Mapping | list | tuple):
        message = "A single value is wanted here."
        raise refusal("not-a-value", message, "Write one text or number.", at)
    return raw if isinstance(raw, str) else str(raw)


def _date(raw: object, at: str = "date") -> datetime.date:
    try:
        return read_date(_text(raw, at))
    except PydanticCustomError as error:
        context = error.context or {}
        raise refusal(error.type, context["message"], context["hint"], at) from error


def _date_of(entry: Mapping[str, Any], at: int) -> datetime.date | None:
    return _date(entry["date"], f"told.{at}.date") if "date" in entry else None


def _status(raw: object) -> Status:
    text = _text(raw, "status")
    if text not in STATUSES:
        message = f"{shown(text)} is not a status."
        raise refusal("unknown-status", message, suggestion(text, STATUSES), "status")
    return cast(Status, str(text))


def _long_form(value: Mapping[str, Any]) -> dict[str, Any]:
    return {
        "type": "object",
        "additionalProperties": False,
        "properties": {
            "value": dict(value),
            "could_be": {"type": "array", "items": dict(value), "minItems": 1},
            "told": {"type": "array", "items": _told_form(value), "minItems": 2},
            "source": {"type": "string"},
            "date": {"type": "string", "format": "date"},
            "status": {"enum": list(STATUSES)},
            "note": {"type": "string"},
        },
        "oneOf": [{"required": [way]} for way in ("value", "could_be", "told")],
    }


def _told_form(value: Mapping[str, Any]) -> dict[str, Any]:
    return {
        "type": "object",
        "additionalProperties": False,
        "properties": {
            "value": dict(value),
            "source": {"type": "string"},
            "date": {"type": "string", "format": "date"},
        },
        "required": ["value"],
    }


TEXT: Mapping[str, Any] = {"type": ["string", "number", "boolean"]}
"""JSON Schema of a text; editors take an unquoted 2.4 or true for something else."""


def _quantity(dimension: str) -> Reads:
    example = DIMENSIONS[dimension].example
    words = f"{DIMENSIONS[dimension].phrase}, such as {example}"
    schema = {"type": "string", "description": words, "examples": [example]}
    return Reads(lambda text: parse(text, dimension), schema, dimension)


def _card_size(names: Mapping[str, str]) -> Reads:
    words = f"{', '.join(names)}, or a length"
    schema = {"type": "string", "description": words, "examples": list(names)}
    return Reads(named_length(names), schema, "length")


Power: TypeAlias = Annotated[Fact[Quantity], _quantity("power")]
Voltage: TypeAlias = Annotated[Fact[Quantity], _quantity("voltage")]
Current: TypeAlias = Annotated[Fact[Quantity], _quantity("current")]
Length: TypeAlias = Annotated[Fact[Quantity], _quantity("length")]
Area: TypeAlias = Annotated[Fact[Quantity], _quantity("area")]
Volume: TypeAlias = Annotated[Fact[Quantity], _quantity("volume")]
Angle: TypeAlias = Annotated[Fact[Quantity], _quantity("angle")]
Mass: TypeAlias = Annotated[Fact[Quantity], _quantity("mass")]
Duration: TypeAlias = Annotated[Fact[Quantity], _quantity("time")]
Temperature: TypeAlias = Annotated[Fact[Quantity], _quantity("temperature")]
Rise: TypeAlias = Annotated[Fact[Quantity], _quantity("temperature_difference")]
Flow: TypeAlias = Annotated[Fact[Quantity], _quantity("flow")]
Capacity: TypeAlias = Annotated[Fact[Quantity], _quantity("capacity")]
MemorySize: TypeAlias = Annotated[Fact[Quantity], _quantity("memory")]
DataRate: TypeAlias = Annotated[Fact[Quantity], _quantity("data_rate")]
TransferRate: TypeAlias = Annotated[Fact[Quantity], _quantity("transfer_rate")]
Sound: TypeAlias = Annotated[Fact[Quantity], _quantity("sound")]
Capacitance: TypeAlias = Annotated[Fact[Quantity], _quantity("capacitance")]
Energy: TypeAlias = Annotated[Fact[Quantity], _quantity("energy")]
Pressure: TypeAlias = Annotated[Fact[Quantity], _quantity("pressure")]
Rotation: TypeAlias = Annotated[Fact[Quantity], _quantity("rotation")]
IoRate: TypeAlias = Annotated[Fact[Quantity], _quantity("io_rate")]
Endurance: TypeAlias = Annotated[Fact[Quantity], _quantity("endurance")]
Money: TypeAlias = Annotated[
    Fact[Quantity],
    Reads(
        read_money,
        {"type": "string", "description": "a price, such as 420 FLO", "examples": ["420 FLO"]},
        "money",
    ),
]
CardLength: TypeAlias = Annotated[Fact[Quantity], _card_size(CARD_LENGTHS)]
CardHeight: TypeAlias = Annotated[Fact[Quantity], _card_size(CARD_HEIGHTS)]
Whole: TypeAlias = Annotated[
    Fact[int],
    Reads(read_whole, {"type": ["integer", "string"], "description": "a whole number"}, "whole"),
]
Ratio: TypeAlias = Annotated[
    Fact[Fraction],
    Reads(
        read_ratio,
        {"type": ["number", "string"], "description": "a share, such as 0.62 or 62 %"},
        "ratio",
    ),
]
Factor: TypeAlias = Annotated[
    Fact[Fraction],
    Reads(
        read_factor,
        {"type": ["number", "string"], "description": "a plain number, such as 1.2"},
        "ratio",
    ),
]
Date: TypeAlias = Annotated[
    Fact[datetime.date], Reads(read_date, {"type": "string", "format": "date"}, "date")
]
Truth: TypeAlias = Annotated[
    Fact[bool],
    Reads(read_truth, {"type": ["boolean", "string"], "description": "yes or no"}, "truth"),
]
Words: TypeAlias = Annotated[Fact[str], Reads(str, TEXT, "text")]


def sort_of(field: FieldInfo) -> str | None:
    """Return the sort of a model field that holds one fact or one name, or ``None``."""
    optional = (
        get_args(field.annotation) if get_origin(field.annotation) in (Union, UnionType) else ()
    )
    extras = [extra for part in optional for extra in getattr(part, "__metadata__", ())]
    for extra in (*field.metadata, *extras):
        if isinstance(extra, Reads):
            return extra.sort
        if isinstance(extra, KeepsPlace):
            return "name"
    return None


class KeepsPlace:
    """Pydantic glue for names: the text keeps its mark, so that a bad reference can be shown."""

    def __get_pydantic_core_schema__(
        self, source: object, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        """Accept a single text and hand it on as it is."""
        return core_schema.no_info_plain_validator_function(self._read)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        """Describe the field as a text."""
        return dict(TEXT)

    @staticmethod
    def _read(raw: object) -> str:
        if not isinstance(raw, str):
            message = "A single name is wanted here."
            raise refusal("not-a-name", message, "Write one word or text.")
        return raw


Name: TypeAlias = Annotated[str, KeepsPlace()]
"""The id of something in the book, or a text; it remembers its place."""
