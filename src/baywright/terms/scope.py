"""What names and functions mean at one place in an expression."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from baywright.terms.syntax import IMPLIES
from baywright.terms.vocabulary import (
    TRUTH,
    FunctionEntry,
    KindEntry,
    Parameter,
    Type,
    Vocabulary,
    Words,
)

IMPLIES_ENTRY = FunctionEntry(
    (Parameter("condition", type=TRUTH), Parameter("consequence", type=TRUTH)),
    TRUTH,
    "If the condition holds, so does the consequence.",
    words=Words("if {condition}, then {consequence}"),
)


@dataclass(frozen=True, slots=True)
class Scope:
    """The names that mean something here, and the functions that can be called.

    Args:
        names: types by name.
        functions: functions by name.
        noun: what the names are, for sentences.
    """

    names: Mapping[str, Type]
    functions: Mapping[str, FunctionEntry] = field(default_factory=dict)
    noun: str = "name"


def functions_of(vocabulary: Vocabulary) -> Mapping[str, FunctionEntry]:
    """Return the functions of a vocabulary and ``implies``, which every vocabulary has."""
    return {IMPLIES: IMPLIES_ENTRY, **vocabulary.functions}


def outer_scope(vocabulary: Vocabulary) -> Scope:
    """Return the scope of an expression as a whole."""
    names = {name: entry.type for name, entry in vocabulary.names.items()}
    return Scope(names, functions_of(vocabulary))


def filter_scope(kind: KindEntry) -> Scope:
    """Return the scope of a filter: the fields of one part, and no functions."""
    return Scope({name: entry.type for name, entry in kind.fields.items()}, noun="field")
