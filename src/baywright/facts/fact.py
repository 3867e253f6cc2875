"""A fact: a typed value that knows where it stands, who says so, and whether it is known."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Any, Generic, Literal, TypeAlias, TypeVar, get_args

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from baywright.problems import Mark, suggestion
from baywright.units import DIMENSIONS, Quantity, UnitError, parse

T = TypeVar("T")

Status = Literal["stated", "derived", "assumed", "pre-release", "withdrawn"]
STATUSES: tuple[str, ...] = get_args(Status)
_KEYS = ("value", "could_be", "source", "date", "status", "note")


class Scalar(str):
    """A text from a file that remembers its place.

    Attributes:
        mark: file, line and column.
        path: dotted path in the book.
    """

    mark: Mark | None
    path: str

    def __new__(cls, text: str, mark: Mark | None = None, path: str = "") -> Scalar:
        """Make a text with its place."""
        scalar = super().__new__(cls, text)
        scalar.mark = mark
        scalar.path = path
        return scalar


def mark_of(text: str) -> Mark | None:
    """Return the place of a text that came from a file, or ``None``."""
    return text.mark if isinstance(text, Scalar) else None


class UnknownFactError(Exception):
    """A fact was used whose value nobody has stated yet."""


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

    @property
    def known(self) -> T:
        """The value; raises ``UnknownFactError`` while it is unknown."""
        if self.value is None:
            raise UnknownFactError(self.path)
        return self.value


Reader: TypeAlias = Callable[[str], Any]


@dataclass(frozen=True, eq=False)
class Reads:
    """Pydantic glue: how a field reads its fact, and what editors are told about it.

    Args:
        reader: turns the written text into the typed value; raises ``ValueError``.
        schema: JSON Schema of the written value.
    """

    reader: Reader
    schema: Mapping[str, Any]

    def __get_pydantic_core_schema__(
        self, source: Any, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        """Validate with our own reader."""
        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        """Describe both forms: the bare value, and the value with its provenance."""
        return {"anyOf": [dict(self.schema), _long_form(self.schema)]}

    def read(self, raw: Any) -> Fact[Any]:
        """Read a bare value, or a mapping with a value or the values it could have."""
        if isinstance(raw, Fact):
            return raw
        if isinstance(raw, Mapping):
            return self._read_mapping(raw)
        if isinstance(raw, list):
            raise PydanticCustomError("not-a-fact", "a single value is wanted, not a list")
        text = str(raw)
        path = raw.path if isinstance(raw, Scalar) else ""
        return Fact(self._value(text), text, path, mark_of(text if raw is text else raw))

    def _read_mapping(self, raw: Mapping[str, Any]) -> Fact[Any]:
        for key in raw:
            if key not in _KEYS:
                hint = suggestion(key, _KEYS)
                raise PydanticCustomError(
                    "unknown-key", "a fact has no key {key}. {hint}", {"key": repr(str(key)), "hint": hint}
                )
        could_be = raw.get("could_be", [])
        if ("value" in raw) == bool(could_be) or not isinstance(could_be, list):
            raise PydanticCustomError(
                "fact-without-value",
                "a fact has either a value, or a list of the values it could have under could_be",
            )
        for text in could_be:
            self._value(str(text))
        status = str(raw.get("status", "stated"))
        if status not in STATUSES:
            raise PydanticCustomError(
                "unknown-status",
                "{status} is not a status. {hint}",
                {"status": repr(status), "hint": suggestion(status, STATUSES)},
            )
        written = raw.get("value", could_be[0] if could_be else "")
        bare = self.read(written)
        return Fact(
            value=bare.value if "value" in raw else None,
            text=bare.text if "value" in raw else "unknown",
            path=bare.path.removesuffix(".value").removesuffix(".could_be.0"),
            mark=bare.mark,
            could_be=tuple(str(text) for text in could_be),
            source=str(raw.get("source", "")),
            date=_date(str(raw["date"])) if "date" in raw else None,
            status=status,  # type: ignore[arg-type]  # checked above
            note=str(raw.get("note", "")),
        )

    def _value(self, text: str) -> Any:
        try:
            return self.reader(text)
        except UnitError as error:
            raise PydanticCustomError(
                "unit", "{message} {hint}", {"message": error.message, "hint": error.hint}
            ) from error


def _long_form(value: Mapping[str, Any]) -> dict[str, Any]:
    return {
        "type": "object",
        "additionalProperties": False,
        "properties": {
            "value": dict(value),
            "could_be": {"type": "array", "items": dict(value), "minItems": 1},
            "source": {"type": "string"},
            "date": {"type": "string", "format": "date"},
            "status": {"enum": list(STATUSES)},
            "note": {"type": "string"},
        },
        "oneOf": [{"required": ["value"]}, {"required": ["could_be"]}],
    }


def _quantity(dimension: str) -> Reads:
    example = DIMENSIONS[dimension].example
    schema = {"type": "string", "description": f"{dimension}, such as {example}", "examples": [example]}
    return Reads(lambda text: parse(text, dimension), schema)


def _money(text: str) -> Quantity:
    amount = parse(text)
    if not amount.dimension.startswith("money:"):
        raise PydanticCustomError(
            "unit", "{text} is not a price with a currency, such as 420 FLO", {"text": repr(str(text))}
        )
    return amount


def _whole(text: str) -> int:
    digits = text.replace(",", "").strip()
    if not digits.removeprefix("-").isdecimal() or len(digits) > 15:
        raise PydanticCustomError("not-a-number", "{text} is not a whole number", {"text": repr(text)})
    return int(digits)


def _ratio(text: str) -> Fraction:
    written = text.strip()
    scale = Fraction(1, 100) if written.endswith("%") else Fraction(1)
    try:
        value = Fraction(written.removesuffix("%").strip()) * scale
    except (ValueError, ZeroDivisionError):
        value = Fraction(-1)
    if not 0 <= value <= 1 or len(written) > 20:
        raise PydanticCustomError(
            "not-a-ratio", "{text} is not a share between 0 and 1, such as 0.62 or 62 %", {"text": repr(text)}
        )
    return value


def _date(text: str) -> datetime.date:
    try:
        return datetime.date.fromisoformat(text.strip())
    except ValueError as error:
        raise PydanticCustomError(
            "not-a-date", "{text} is not a date such as 2031-07-01", {"text": repr(text)}
        ) from error


def _truth(text: str) -> bool:
    known = {"yes": True, "true": True, "no": False, "false": False}
    if text.strip().casefold() not in known:
        raise PydanticCustomError("not-yes-or-no", "{text} is neither yes nor no", {"text": repr(text)})
    return known[text.strip().casefold()]


CARD_LENGTHS = {"half": "167.65 mm", "full": "312 mm"}
CARD_HEIGHTS = {"low": "68.9 mm", "full": "111.15 mm"}
"""Card sizes of the PCI Express card electromechanical specification, by their trade names."""


def _named_length(names: Mapping[str, str]) -> Reads:
    def read(text: str) -> Quantity:
        return parse(names.get(text.strip(), text), "length")

    schema = {"type": "string", "description": f"{', '.join(names)}, or a length", "examples": list(names)}
    return Reads(read, schema)


Power: TypeAlias = Annotated[Fact[Quantity], _quantity("power")]
Voltage: TypeAlias = Annotated[Fact[Quantity], _quantity("voltage")]
Current: TypeAlias = Annotated[Fact[Quantity], _quantity("current")]
Length: TypeAlias = Annotated[Fact[Quantity], _quantity("length")]
Area: TypeAlias = Annotated[Fact[Quantity], _quantity("area")]
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
Endurance: TypeAlias = Annotated[Fact[Quantity], _quantity("endurance")]
Money: TypeAlias = Annotated[
    Fact[Quantity],
    Reads(_money, {"type": "string", "description": "a price, such as 420 FLO", "examples": ["420 FLO"]}),
]
CardLength: TypeAlias = Annotated[Fact[Quantity], _named_length(CARD_LENGTHS)]
CardHeight: TypeAlias = Annotated[Fact[Quantity], _named_length(CARD_HEIGHTS)]
Whole: TypeAlias = Annotated[
    Fact[int], Reads(_whole, {"type": ["integer", "string"], "description": "a whole number"})
]
Ratio: TypeAlias = Annotated[
    Fact[Fraction], Reads(_ratio, {"type": ["number", "string"], "description": "a share, such as 0.62 or 62 %"})
]
Date: TypeAlias = Annotated[
    Fact[datetime.date], Reads(_date, {"type": "string", "format": "date"})
]
Truth: TypeAlias = Annotated[
    Fact[bool], Reads(_truth, {"type": ["boolean", "string"], "description": "yes or no"})
]
Words: TypeAlias = Annotated[Fact[str], Reads(str, {"type": "string"})]


class KeepsPlace:
    """Pydantic glue for names: the text keeps its mark, so that a bad reference can be shown."""

    def __get_pydantic_core_schema__(
        self, source: Any, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        """Accept a single text and hand it on as it is."""
        return core_schema.no_info_plain_validator_function(self._read)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        """Describe the field as a text."""
        return {"type": "string"}

    @staticmethod
    def _read(raw: Any) -> str:
        if not isinstance(raw, str):
            raise PydanticCustomError("not-a-name", "a single name is wanted here")
        return raw


Name: TypeAlias = Annotated[str, KeepsPlace()]
"""The id of something in the book, or a text; it remembers its place."""
