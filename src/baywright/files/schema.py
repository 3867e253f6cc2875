"""JSON Schema of the files, for editors."""

from __future__ import annotations

import re
from typing import Any

from baywright.facts.book import Book
from baywright.facts.build import Build
from baywright.facts.model import Model
from baywright.facts.need import Need
from baywright.facts.site import Site

DRAFT = "https://json-schema.org/draft/2020-12/schema"


def book_schema() -> dict[str, Any]:
    """Return the JSON Schema, draft 2020-12, of one file of a book.

    A file may hold any of the sections, so none is required.
    """
    schema = _schema(Book, "File of a platform book", "Some of the sections of a platform book.")
    schema.pop("required", None)
    schema["minProperties"] = 1
    return schema


def build_schema() -> dict[str, Any]:
    """Return the JSON Schema, draft 2020-12, of a build file."""
    return _schema(Build, "Build", "Parts in places, settings, and what is asked of the whole.")


def site_schema() -> dict[str, Any]:
    """Return the JSON Schema, draft 2020-12, of a site file."""
    return _schema(Site, "Site", "Where builds stand, what feeds them, and what is asked there.")


def need_schema() -> dict[str, Any]:
    """Return the JSON Schema, draft 2020-12, of a need file."""
    return _schema(Need, "Need", "What is needed, where, for how much, and what has to hold.")


def _schema(model: type[Model], title: str, description: str) -> dict[str, Any]:
    facts: dict[str, Any] = {}
    described = _plain(model.model_json_schema(), facts)
    described["$defs"] = {**described.get("$defs", {}), **facts}
    described.pop("title", None)
    return {"$schema": DRAFT, "title": title, **described, "description": description}


def _plain(schema: dict[str, Any], facts: dict[str, Any]) -> dict[str, Any]:
    """Drop titles that repeat a name and defaults that say "none"; describe each fact once."""
    plain: dict[str, Any] = {}
    for key, value in schema.items():
        if key in ("properties", "$defs"):
            plain[key] = {name: _plain(inner, facts) for name, inner in value.items()}
        elif key == "anyOf":
            plain |= _choice([entry for entry in value if entry != {"type": "null"}], facts)
        elif key == "discriminator":
            continue  # a word of another standard; the constant of each alternative says the same
        elif isinstance(value, dict):
            plain[key] = _plain(value, facts)
        elif not (key == "title" or (key == "default" and value is None)):
            plain[key] = value
    return plain


def _choice(alternatives: list[dict[str, Any]], facts: dict[str, Any]) -> dict[str, Any]:
    if len(alternatives) == 1:
        return _plain(alternatives[0], facts)
    if "could_be" not in alternatives[-1].get("properties", {}):
        return {"anyOf": alternatives}
    short = alternatives[0]
    words = str(short.get("description") or short.get("format") or "text")
    name = "fact-" + re.sub(r"[^0-9A-Za-z]+", "-", words).strip("-")
    facts[name] = {"anyOf": alternatives}
    return {"$ref": f"#/$defs/{name}"}
