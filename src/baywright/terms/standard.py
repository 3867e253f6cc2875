"""The functions that conditions on machines are written with."""

from __future__ import annotations

from collections.abc import Mapping

from baywright.terms.vocabulary import (
    NUMBER,
    TRUTH,
    FunctionEntry,
    Parameter,
    Role,
    Words,
    one_of,
)

_AT = Parameter("at", Role.PLACE, required=False)

COUNT = FunctionEntry(
    (Parameter("parts", Role.SELECTION),),
    NUMBER,
    "How many parts of a kind, or of one part, are fitted.",
    keywords=(_AT,),
    filtered=True,
    words=Words("{parts}{filters}{at}", "{parts}{filters}{at}"),
)

TOTAL = FunctionEntry(
    (Parameter("field", Role.FIELD), Parameter("parts", Role.SELECTION)),
    None,
    "The sum of a field over the parts of a kind that are fitted.",
    keywords=(_AT,),
    filtered=True,
    words=Words("the total {field} of the {parts}{filters}{at}"),
)


def ports(types: frozenset[str]) -> FunctionEntry:
    """Return the function that counts ports of a type.

    Args:
        types: every type of port there is.
    """
    return FunctionEntry(
        (Parameter("type", type=one_of(types)),),
        NUMBER,
        "How many ports of a type there are.",
        keywords=(_AT,),
        words=Words("{type} port{at}", "{type} ports{at}"),
    )


def arrays(kind: str) -> FunctionEntry:
    """Return the function that asks for arrays of so many drives each.

    Args:
        kind: the kind of part that arrays are made of.
    """
    return FunctionEntry(
        (Parameter("size", type=NUMBER),),
        TRUTH,
        "There is room for arrays of these sizes, none over two controllers.",
        repeated=Parameter("size", type=NUMBER),
        filtered=True,
        kind=kind,
        words=Words("there is room for arrays of {size} {parts}{filters}"),
    )


def standard(port_types: frozenset[str], array_kind: str) -> Mapping[str, FunctionEntry]:
    """Return the standard functions by name: count, total, ports and arrays.

    Args:
        port_types: every type of port there is.
        array_kind: the kind of part that arrays are made of.
    """
    return {
        "count": COUNT,
        "total": TOTAL,
        "ports": ports(port_types),
        "arrays": arrays(array_kind),
    }
