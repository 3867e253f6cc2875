"""A small vocabulary in the demo scenario."""

from baywright.terms.standard import standard
from baywright.terms.vocabulary import (
    EMPTY,
    NUMBER,
    TRUTH,
    FieldEntry,
    KindEntry,
    NameEntry,
    Vocabulary,
    Words,
    content,
    one_of,
    quantity,
)

_PARTS = {
    "S-2400": "drive",
    "N-1920": "drive",
    "C16": "controller",
    "X8": "controller",
    "M64": "module",
}

VOCABULARY = Vocabulary(
    names={
        "load": NameEntry(quantity("power"), words=Words("the load")),
        "memory": NameEntry(quantity("memory"), words=Words("the memory")),
        "inlet": NameEntry(quantity("temperature"), words=Words("the inlet temperature")),
        "price": NameEntry(quantity("money:FLO"), words=Words("the price")),
        "voltage": NameEntry(quantity("voltage"), words=Words("the voltage")),
        "fans": NameEntry(NUMBER, words=Words("the number of fans")),
        "supplies_redundant": NameEntry(
            TRUTH,
            words=Words("the supplies are redundant", "the supplies are not redundant"),
        ),
        "variant": NameEntry(one_of(frozenset({"hot-swap", "fixed"})), words=Words("the variant")),
        "R1a": NameEntry(content(frozenset({"C16", "X8"})), words=Words("R1a")),
        "O2": NameEntry(content(), words=Words("O2")),
        "empty": NameEntry(EMPTY),
    },
    functions=standard(frozenset({"usb", "video"}), "drive"),
    kinds={
        "drive": KindEntry(
            {
                "interface": FieldEntry(one_of(frozenset({"sas", "pcie"}))),
                "capacity": FieldEntry(quantity("capacity")),
                "lanes": FieldEntry(NUMBER),
                "size": FieldEntry(quantity("length")),
                "mirrored": FieldEntry(TRUTH),
            },
            words=Words("drive", "drives"),
        ),
        "controller": KindEntry({"watts": FieldEntry(quantity("power"))}),
        "module": KindEntry(
            {"capacity": FieldEntry(quantity("memory"), words=Words("size"))},
            words=Words("memory module", "memory modules"),
        ),
    },
    parts=_PARTS,
    places={"A": Words("zone A"), "B": Words("zone B"), "front": Words("front")},
)
