"""The vocabulary of a book: what its rules and the questions about it may speak of."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from baywright.facts.book import Book
from baywright.facts.fact import Fact, sort_of
from baywright.facts.parts import KINDS, Part
from baywright.facts.places import PlaceBase
from baywright.laws.frame import Frame
from baywright.laws.linear import Linear
from baywright.laws.subsystem import Function, Lookup, Lowest, Meaning, Named, Span
from baywright.terms import Value
from baywright.terms.vocabulary import (
    EMPTY,
    NUMBER,
    TRUTH,
    FieldEntry,
    KindEntry,
    NameEntry,
    Type,
    Vocabulary,
    Words,
    content,
    one_of,
    quantity,
)
from baywright.units import Quantity

PLURALS = {
    "memory": "memory modules",
    "display": "displays",
    "supply": "supplies",
    "media": "media units",
}
"""Plurals of kinds of part that do not just take an s."""


def vocabulary(
    frame: Frame, names: Mapping[str, Named], functions: Mapping[str, Function]
) -> Vocabulary:
    """Return everything that expressions about a book may speak of."""
    book = frame.book
    entries = {name: _name_entry(named) for name, named in names.items()}
    entries |= {name: _place_entry(frame, name, place) for name, place in book.places.items()}
    entries |= {
        name: NameEntry(one_of(frozenset(setting.values)), setting.name, Words(setting.name))
        for name, setting in book.settings.items()
    }
    entries["line"] = NameEntry(one_of(frozenset(book.power.lines)), "kind of input power")
    entries["empty"] = NameEntry(EMPTY, "what a place holds that holds nothing", Words("empty"))
    return Vocabulary(
        names=entries,
        functions={name: function.entry for name, function in functions.items()},
        kinds={kind: _kind_entry(book, kind, model) for kind, model in KINDS.items()},
        parts={name: part.kind for name, part in book.parts.items()},
        places={name: Words(place.name) for name, place in book.places.items()},
    )


def _name_entry(named: Named) -> NameEntry:
    return NameEntry(type_of(named.meaning), named.description, Words(named.words, named.denial))


def type_of(meaning: Meaning) -> Type:
    """Return the type of what a name stands for."""
    if isinstance(meaning, Linear | Lookup | Lowest | Span):
        return quantity(meaning.dimension) if meaning.dimension else NUMBER
    return TRUTH


def _place_entry(frame: Frame, name: str, place: PlaceBase) -> NameEntry:
    known = {
        part
        for choice in frame.at(name)
        for option in frame.options(choice)
        for part, _ in option.parts
    }
    return NameEntry(content(frozenset(known)), f"what is in {place.name}", Words(place.name))


def _kind_entry(book: Book, kind: str, model: type[Part]) -> KindEntry:
    fields = {}
    for name, info in model.model_fields.items():
        sort = sort_of(info)
        if sort and sort not in ("date", "text") and name != "name":
            entry = FieldEntry(_field_type(book, kind, name, sort), info.description or "")
            fields[name] = entry
    plural = PLURALS.get(kind, f"{kind}s")
    singular = "memory module" if kind == "memory" else kind
    return KindEntry(fields, (model.__doc__ or "").split("\n")[0], Words(singular, plural))


def _field_type(book: Book, kind: str, name: str, sort: str) -> Type:
    if sort == "name":
        values = {str(getattr(part, name)) for part in book.parts_of(kind).values()}
        return one_of(frozenset(value for value in values if value))
    if sort == "money":
        return quantity(f"money:{book.book.currency}")
    if sort == "truth":
        return TRUTH
    return NUMBER if sort in ("whole", "ratio") else quantity(sort)


def field_value(part: Part, field: str) -> Value:
    """Return the value of a part's field as expressions see it, ``None`` where it has none."""
    held = getattr(part, field, None)
    value = held.known if isinstance(held, Fact) else held
    if isinstance(value, bool | Quantity | str):
        return value
    return Fraction(value) if isinstance(value, int | Fraction) else None


def fields_of(part: Part) -> Mapping[str, Value]:
    """Return every field of a part as conditions on it see them."""
    return {name: field_value(part, name) for name in type(part).model_fields}
