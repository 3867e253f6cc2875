"""What an expression may speak of: the names, functions and kinds of part its caller gives."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum

from baywright.units.lookup import dimension_named


class Sort(Enum):
    """The sorts of value."""

    TRUTH = "a truth"
    NUMBER = "a plain number"
    TEXT = "a text"
    QUANTITY = "an amount"
    CONTENT = "what is in a place"
    EMPTY = "empty"


@dataclass(frozen=True, slots=True)
class Type:
    """What values a name, a field or a function can have.

    Args:
        sort: the sort of value.
        dimension: name of the dimension of an amount.
        known: every text a text or the content of a place can be, or ``None`` when any will do.
    """

    sort: Sort
    dimension: str = ""
    known: frozenset[str] | None = None

    @property
    def phrase(self) -> str:
        """What such a value is called in a sentence, with an example of an amount."""
        if self.sort is not Sort.QUANTITY:
            return str(self.sort.value)
        entry = dimension_named(self.dimension)
        return f"{entry.phrase} such as '{entry.example}'"


TRUTH = Type(Sort.TRUTH)
NUMBER = Type(Sort.NUMBER)
TEXT = Type(Sort.TEXT)
EMPTY = Type(Sort.EMPTY)
"""The type of the one name that stands for a place with nothing in it."""


def quantity(dimension: str) -> Type:
    """Return the type of amounts of a dimension, or raise ``KeyError`` for an unknown one."""
    return Type(Sort.QUANTITY, dimension_named(dimension).name)


def one_of(known: frozenset[str]) -> Type:
    """Return the type of texts out of a list."""
    return Type(Sort.TEXT, known=known)


def content(known: frozenset[str] | None = None) -> Type:
    """Return the type of what is in a place: a text, or ``empty``.

    Args:
        known: the parts that can be in it, or ``None`` when any text will do.
    """
    return Type(Sort.CONTENT, known=known)


@dataclass(frozen=True, slots=True)
class Words:
    """How a person says it.

    Args:
        one: for a name, a phrase such as ``the load``, or for a truth a clause such as ``the
            supplies are redundant``; for a kind, a place or a field, a noun.
        many: the plural of a kind; the clause that denies a truth.
    """

    one: str
    many: str = ""


@dataclass(frozen=True, slots=True)
class NameEntry:
    """A name that stands for a value.

    Args:
        type: what values it has.
        description: what it means, one sentence.
        words: how a person says it; by default the name itself.
    """

    type: Type
    description: str = ""
    words: Words | None = None


@dataclass(frozen=True, slots=True)
class FieldEntry:
    """A field of a kind of part: its type, meaning and noun."""

    type: Type
    description: str = ""
    words: Words | None = None


@dataclass(frozen=True, slots=True)
class KindEntry:
    """A kind of part: its fields by name, its meaning and noun."""

    fields: Mapping[str, FieldEntry]
    description: str = ""
    words: Words | None = None


class Role(Enum):
    """What an argument of a function is."""

    VALUE = "a value"
    SELECTION = "a kind of part or the name of a part"
    FIELD = "a field of the parts selected"
    PLACE = "a place"


@dataclass(frozen=True, slots=True)
class Parameter:
    """An argument that a function takes.

    Args:
        name: its name in sentences; for an argument given by name, that name.
        role: what it is.
        type: the type of a value; a place may be any text when the vocabulary lists no places.
        required: whether it must be given.
    """

    name: str
    role: Role = Role.VALUE
    type: Type | None = None
    required: bool = True


@dataclass(frozen=True, slots=True)
class FunctionEntry:
    """A function.

    Args:
        parameters: arguments by position.
        result: type of its value, or ``None`` when it is that of its field argument.
        description: what it means, one sentence.
        repeated: an argument that may be given any number of times after the others.
        keywords: arguments given by name.
        filtered: whether conditions on the fields of the parts selected may follow, as
            ``interface="sas"`` or ``capacity > 1 TB``.
        kind: the kind of part that filters look at when no argument selects one.
        words: the sentence template, with the name of each parameter in braces and ``{filters}``;
            with two forms it is a countable noun.
    """

    parameters: tuple[Parameter, ...]
    result: Type | None
    description: str = ""
    repeated: Parameter | None = None
    keywords: tuple[Parameter, ...] = ()
    filtered: bool = False
    kind: str = ""
    words: Words | None = None

    @property
    def usage(self) -> str:
        """The arguments as a person would write them, for hints."""
        shown = [parameter.name for parameter in self.parameters]
        if self.repeated:
            shown += [self.repeated.name, "..."]
        shown += ["filters ..."] if self.filtered else []
        shown += [f"{parameter.name}=..." for parameter in self.keywords]
        return ", ".join(shown)


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """Everything an expression may speak of.

    Args:
        names: names that stand for values.
        functions: functions by name.
        kinds: kinds of part by name.
        parts: the kind of each part by the id of the part.
        places: places by name, with their nouns; the argument ``at`` of a function takes one.
    """

    names: Mapping[str, NameEntry] = field(default_factory=dict)
    functions: Mapping[str, FunctionEntry] = field(default_factory=dict)
    kinds: Mapping[str, KindEntry] = field(default_factory=dict)
    parts: Mapping[str, str] = field(default_factory=dict)
    places: Mapping[str, Words] = field(default_factory=dict)
