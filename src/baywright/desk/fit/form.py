"""A need as a form: the fields of a need file that stand by themselves, read and written back.

What the form has no field for stays in the file as it is.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Annotated, get_args, get_origin

from baywright.facts.fact import Reads, Scalar
from baywright.facts.model import Model
from baywright.facts.need import Need
from baywright.files.roundtrip import LayoutError, Steps, filled
from baywright.files.shape import annotations_of, element_of, fields_of, models_in, without_none
from baywright.files.tree import Node, read_tree
from baywright.problems import Mark, Problems, problem

ELSEWHERE = frozenset({"book", "note"})
"""Fields of a need that the form leaves to the file."""

SITE = frozenset({"voltage", "altitude", "inlet"})
"""Fields of the site that the form has; the file has more."""


@dataclass(frozen=True, slots=True)
class FormField:
    """A field of the form.

    Args:
        path: where its value stands in the file, such as ``demand.guests.count``.
        words: what it means.
        sort: what may be written in it.
        several: whether each line is a value of its own.
        text: what the file says; empty where it says nothing.
    """

    path: str
    words: str
    sort: str
    several: bool
    text: str = ""


@dataclass(frozen=True, slots=True)
class FormSection:
    """Fields that belong together.

    Args:
        words: what they are about; empty for what the need itself says.
        fields: the fields.
    """

    words: str
    fields: tuple[FormField, ...]

    @property
    def filled(self) -> bool:
        """Whether the file says anything about it."""
        return any(field.text for field in self.fields)


def need_form(text: str) -> tuple[FormSection, ...]:
    """Return the form of a need file, filled in; empty where the file cannot be read.

    Args:
        text: the file.
    """
    try:
        root: Node = read_tree(text.encode("utf-8"), "need").root
    except Problems:
        root = {}
    return tuple(_sections(Need, "", "", root))


def _sections(model: type[Model], path: str, words: str, root: Node) -> Iterator[FormSection]:
    fields = tuple(_fields(model, path, root))
    if fields:
        yield FormSection(words, fields)
    annotations = annotations_of(model)
    for name, info in fields_of(model).items():
        inner = models_in(annotations[name])
        if inner and element_of(annotations[name]) is None and not path.startswith("site"):
            yield from _sections(inner[0], f"{path}{name}.", str(info.description), root)


def _fields(model: type[Model], path: str, root: Node) -> Iterator[FormField]:
    annotations = annotations_of(model)
    known = SITE if path == "site." else fields_of(model).keys() - ELSEWHERE
    for name, info in fields_of(model).items():
        annotation, at = annotations[name], f"{path}{name}"
        several = element_of(annotation) is not None
        if name in known and not models_in(annotation) and not _models_inside(annotation):
            said = str(info.description)
            yield FormField(at, said, _sort(annotation), several, _text(root, at.split(".")))


def _models_inside(annotation: object) -> bool:
    return bool(models_in(element_of(annotation)))


def _sort(annotation: object) -> str:
    inner = without_none(annotation)
    extras = get_args(inner)[1:] if get_origin(inner) is Annotated else ()
    found = (str(e.schema.get("description", "")) for e in extras if isinstance(e, Reads))
    return next(found, "")


def _text(node: Node, steps: list[str]) -> str:
    """Return what stands at a path: a value, that of a fact with its source, or lines."""
    for step in steps:
        if not isinstance(node, dict) or step not in node:
            return ""
        node = next(value for key, value in node.items() if key == step)
    if isinstance(node, dict):
        node = next((value for key, value in node.items() if key == "value"), Scalar(""))
    if isinstance(node, list):
        return "\n".join(str(each) for each in node if isinstance(each, str))
    return str(node) if isinstance(node, str) else ""


def fill_need(text: str, given: Mapping[str, str]) -> str:
    """Return a need file with the fields of the form put into it, all else as it was.

    Args:
        text: the file.
        given: texts by the path of their field; an empty one takes the value out. Paths that are
            none of the form are left out of account.

    Raises:
        Problems: kinds of ``read_tree``, and ``layout`` when something else would be lost.
    """
    read_tree(text.encode("utf-8"), "need")
    known = {field.path: field for section in need_form(text) for field in section.fields}
    changed: dict[Steps, str | Sequence[str]] = {
        tuple(path.split(".")): _lines(said) if known[path].several else said.strip()
        for path, said in given.items()
        if path in known and _plain(said) != known[path].text
    }
    try:
        return filled(text, changed)
    except LayoutError as lost:
        message = "Put into the file, the form would lose something else that stands there."
        hint = "Change it in the file: a comment or a longer form stands where the form writes."
        raise problem("layout", message, Mark("need", 1, 1), hint) from lost


def _plain(said: str) -> str:
    return "\n".join(_lines(said))


def _lines(said: str) -> tuple[str, ...]:
    return tuple(filter(None, (line.strip() for line in said.splitlines())))
