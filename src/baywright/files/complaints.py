"""What the models refuse, as problems with a place and in our own words."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from baywright.facts.fact import Scalar
from baywright.facts.model import Model
from baywright.facts.readers import shown
from baywright.files.shape import (
    annotations_of,
    element_of,
    fields_of,
    literals,
    models_in,
    tag_of,
    tag_value,
    walk,
)
from baywright.files.tree import Node
from baywright.problems import Mark, Problem, suggestion


@dataclass(frozen=True, slots=True)
class Spot:
    """A spot in the tree that an error points at.

    Args:
        name: the last key or position, as text.
        title: the same as a sentence starts with it, such as ``'R1a'`` or ``Entry 1 of 'at'``.
        owner: title of what is around it, or ``The book``.
        node: what stands there, or ``None`` when nothing does.
        key: the key itself, with its place, where there is one.
        around: place of the mapping or list around it; a whole book has none.
        annotation: what the models want there, or ``None`` when they know nothing of it.
        model: the model of the mapping around it, if it has one.
    """

    name: str
    title: str
    owner: str
    node: Node | None
    key: Scalar | None
    around: Mark | None
    annotation: object
    model: type[Model] | None

    @property
    def mark(self) -> Mark | None:
        """Place of the value, else of its key, else of what is around it."""
        own = place_of(self.node) if isinstance(self.node, Scalar) else None
        inner = place_of(self.node) if self.node is not None else None
        return own or (self.key.mark if self.key else None) or inner or self.around

    @property
    def key_mark(self) -> Mark | None:
        """Place of the key, else of the value."""
        return self.key.mark if self.key else self.mark


def place_of(node: Node) -> Mark | None:
    """Return the first place inside a node, or ``None`` when it is empty."""
    while not isinstance(node, Scalar):
        first = next(iter(node), None)
        if first is None:
            return None
        node = first
    return node.mark


def complaints(error: ValidationError, root: Node, model: type[Model]) -> list[Problem]:
    """Turn what pydantic found into problems, in the order of the models."""
    return [_complaint(detail, root, model) for detail in error.errors(include_url=False)]


def _complaint(detail: ErrorDetails, root: Node, model: type[Model]) -> Problem:
    spot = locate(root, model, detail["loc"])
    context = detail.get("ctx", {})
    words = _WORDS.get(detail["type"])
    if words:
        return words(spot, context)
    if "message" in context:
        return _from_reader(detail["type"], spot, context)
    message = f"{spot.title} does not hold what is wanted here."
    hint = "Compare it with the reference of the format."
    return Problem("not-fitting", message, spot.mark, hint)


def locate(root: Node, model: type[Model], location: tuple[str | int, ...]) -> Spot:
    """Find the spot of a location in a tree; it may be one where nothing stands."""
    top = f"The {model.__name__.lower()}"
    spot = Spot("", top, "", root, None, None, model, None)
    tagged: type[Model] | None = None
    for step, annotation in walk(model, location):
        models = models_in(spot.annotation)
        key, child = _child(spot.node, step)
        title = f"Entry {step + 1} of {spot.title}" if isinstance(step, int) else shown(step)
        around = None if spot.title == top else spot.mark
        within = tagged or (models[0] if len(models) == 1 else None)
        spot = Spot(str(step), title, spot.title, child, key, around, annotation, within)
        tagged = _chosen(annotation, child)
    return spot


def _child(node: Node | None, step: str | int) -> tuple[Scalar | None, Node | None]:
    if isinstance(node, dict):
        return next(((key, value) for key, value in node.items() if key == step), (None, None))
    if isinstance(node, list) and isinstance(step, int) and step < len(node):
        return None, node[step]
    return None, None


def _chosen(annotation: object, node: Node | None) -> type[Model] | None:
    models = models_in(annotation)
    tag = tag_of(models)
    if not tag or not isinstance(node, dict):
        return None
    _, word = _child(node, tag)
    return next((model for model in models if tag_value(model, tag) == word), None)


def _from_reader(kind: str, spot: Spot, context: Mapping[str, Any]) -> Problem:
    mark, node = spot.mark, spot.node
    at = str(context["at"])
    for step in at.split(".") if at.startswith(("could_be.", "told.")) else filter(None, [at]):
        key, node = _child(node, int(step) if isinstance(node, list) else step)
        mark = (node.mark if isinstance(node, Scalar) else key and key.mark) or mark
    return Problem(kind, str(context["message"]), mark, str(context["hint"]))


def _missing(spot: Spot, _: Mapping[str, Any]) -> Problem:
    info = fields_of(spot.model).get(spot.name) if spot.model else None
    hint = f"Give {spot.name}: {info.description}." if info else f"Give {spot.name}."
    return Problem("missing", f"{spot.owner} has no {shown(spot.name)}.", spot.around, hint)


def _unknown_key(spot: Spot, _: Mapping[str, Any]) -> Problem:
    known: Iterable[str] = annotations_of(spot.model) if spot.model else ()
    hint = suggestion(spot.name, known, most=20)
    message = f"{spot.owner} has nothing called {shown(spot.name)}."
    return Problem("unknown-key", message, spot.key_mark, hint)


def _not_a_mapping(spot: Spot, _: Mapping[str, Any]) -> Problem:
    models = models_in(spot.annotation)
    keys = list(annotations_of(models[0]))[:4] if models else ["id"]
    hint = f"Write indented lines below it, such as '{keys[0]}: ...'."
    return Problem("not-a-mapping", f"{spot.title} holds keys with values.", spot.key_mark, hint)


def _not_a_list(spot: Spot, _: Mapping[str, Any]) -> Problem:
    inner = "[a, b]" if not models_in(element_of(spot.annotation)) else "- and indented lines"
    hint = f"Write a list, such as {inner}, even for one value."
    return Problem("not-a-list", f"{spot.title} holds a list of values.", spot.key_mark, hint)


def _no_tag(spot: Spot, _: Mapping[str, Any]) -> Problem:
    tag, words = _tags(spot)
    message = f"{spot.title} does not say its {tag}."
    return Problem("missing", message, spot.key_mark, f"Give {tag}, one of {', '.join(words)}.")


def _unknown_tag(spot: Spot, _: Mapping[str, Any]) -> Problem:
    tag, words = _tags(spot)
    key, written = _child(spot.node, tag)
    if not isinstance(written, Scalar):
        message = f"The {tag} of {spot.title} is a single word."
        mark = key.mark if key else spot.key_mark
        return Problem("not-a-name", message, mark, f"Give one of {', '.join(words)}.")
    hint = suggestion(written, words, most=20)
    return Problem(f"unknown-{tag}", f"There is no {tag} {shown(written)}.", written.mark, hint)


def _tags(spot: Spot) -> tuple[str, list[str]]:
    models = models_in(spot.annotation)
    tag = tag_of(models) or "type"
    return tag, [tag_value(model, tag) for model in models]


def _not_among(spot: Spot, _: Mapping[str, Any]) -> Problem:
    words = literals(spot.annotation)
    if not isinstance(spot.node, Scalar):
        hint = f"Give one of {', '.join(words)}."
        return Problem("not-a-name", f"{spot.title} is a single word.", spot.mark, hint)
    hint = suggestion(spot.node, words)
    message = f"{spot.title} cannot be {shown(spot.node)}."
    return Problem("unknown-word", message, spot.mark, hint)


_WORDS: dict[str, Callable[[Spot, Mapping[str, Any]], Problem]] = {
    "missing": _missing,
    "extra_forbidden": _unknown_key,
    "model_type": _not_a_mapping,
    "model_attributes_type": _not_a_mapping,
    "dict_type": _not_a_mapping,
    "list_type": _not_a_list,
    "union_tag_not_found": _no_tag,
    "union_tag_invalid": _unknown_tag,
    "literal_error": _not_among,
}
"""The wording of each type of error that pydantic itself finds in our models."""
