"""Builds as people write them: parts in places, settings, and what is asked of the whole."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Any, TypeAlias

from pydantic import Field, GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, core_schema

from baywright.facts.fact import Name, Scalar, Words, mark_of
from baywright.facts.model import Model
from baywright.facts.readers import refusal, shown
from baywright.facts.site import Site
from baywright.problems import Mark, suggestion

_ITEM = re.compile(r"(?:(\d{1,4})\s*[x×]\s+)?(\S+)")
_KEYS = ("cage", "drives", "controller")


@dataclass(frozen=True, slots=True)
class Item:
    """A number of one part.

    Args:
        part: id of the part.
        count: how many.
        mark: where it is written.
    """

    part: str
    count: int
    mark: Mark | None = None


@dataclass(frozen=True, slots=True)
class Fitted:
    """What a build has in one place.

    Args:
        items: parts with their numbers; none means the place is empty.
        controller: the slot whose controller drives the place, if it is said.
        mark: where it is written.
    """

    items: tuple[Item, ...]
    controller: str | None = None
    mark: Mark | None = None


def read_item(text: object) -> Item:
    """Read ``8 x dimm-64`` or ``S8``.

    >>> read_item("8 x dimm-64")
    Item(part='dimm-64', count=8, mark=None)
    """
    match = _ITEM.fullmatch(text.strip()) if isinstance(text, str) else None
    if not match:
        hint = "Write the id of a part, or a number of it, such as '8 x dimm-64'."
        raise refusal("not-a-part", "This is not a part.", hint)
    part = Scalar(match[2], mark_of(text), text.path if isinstance(text, Scalar) else "")
    return Item(part, int(match[1] or 1), mark_of(text))


def read_fitted(raw: object) -> Fitted:
    """Read what a build file says of one place: a part, a list of parts, or a cage with drives."""
    if isinstance(raw, Fitted):
        return raw
    if isinstance(raw, Mapping):
        return _read_zone(raw)
    texts = raw if isinstance(raw, list) else [raw]
    items = tuple(read_item(text) for text in texts if text not in ("empty", "blank"))
    return Fitted(items, mark=mark_of(texts[0]) if texts else None)


def _read_zone(raw: Mapping[str, Any]) -> Fitted:
    for key, value in raw.items():
        if key not in _KEYS:
            message = f"A zone has nothing called {shown(key)}."
            raise refusal("unknown-key", message, suggestion(key, _KEYS), key)
        if isinstance(value, Mapping):
            message = "A part or a list of parts is wanted here."
            raise refusal("not-a-part", message, "Write the id of a part.", key)
    controller = raw.get("controller")
    if isinstance(controller, list):
        message = "One slot is wanted here."
        raise refusal("not-a-name", message, "Write the id of one slot.", "controller")
    written = [raw[key] for key in ("cage", "drives") if key in raw]
    items = tuple(item for value in written for item in read_fitted(value).items)
    mark = next((mark_of(value) for value in raw.values() if isinstance(value, str)), None)
    return Fitted(items, controller, mark)


class _ReadsFitted:
    """Pydantic glue for what is in a place."""

    def __get_pydantic_core_schema__(
        self, source: object, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(read_fitted)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        items = {"anyOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}}]}
        zone = {
            "type": "object",
            "additionalProperties": False,
            "properties": {
                "cage": {"type": "string"},
                "drives": items,
                "controller": {"type": "string"},
            },
        }
        return {"anyOf": [*items["anyOf"], zone], "examples": ["S8", "8 x dimm-64"]}


InPlace: TypeAlias = Annotated[Fitted, _ReadsFitted()]


class Build(Model):
    """A build, or the part of one that somebody has decided."""

    book: Name = Field(description="id of the book")
    name: Words = Field(description="what the build is called")
    site: Site = Field(default_factory=Site, description="where it stands")
    places: dict[Name, InPlace] = Field(default_factory=dict, description="what is in each place")
    settings: dict[Name, Name] = Field(default_factory=dict, description="value of each setting")
    must: list[Name] = Field(default_factory=list, description="expressions that have to hold too")
    note: Words | None = Field(None, description="a remark for readers")
