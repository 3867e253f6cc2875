"""The shape of a book as its models say it: which fields and types stand where."""

from __future__ import annotations

import types
from collections.abc import Iterator
from functools import cache
from typing import Annotated, Any, Literal, Union, get_args, get_origin, get_type_hints

from pydantic.fields import FieldInfo
from pydantic_core import PydanticCustomError

from baywright.facts.fact import Reads
from baywright.facts.model import Model
from baywright.units import UnitError


@cache
def fields_of(model: type[Model]) -> dict[str, FieldInfo]:
    """Return the fields of a model by the name a file uses for them."""
    return {info.alias or name: info for name, info in model.model_fields.items()}


@cache
def annotations_of(model: type[Model]) -> dict[str, Any]:
    """Return the full annotation of each field, by the name a file uses for it."""
    hints = get_type_hints(model, include_extras=True)
    return {info.alias or name: hints[name] for name, info in model.model_fields.items()}


def without_none(annotation: object) -> object:
    """Return an annotation without its ``| None``, the extras of ``Annotated`` kept."""
    if get_origin(annotation) not in (Union, types.UnionType):
        return annotation
    rest = tuple(part for part in get_args(annotation) if part is not type(None))
    return rest[0] if len(rest) == 1 else Union[rest]  # noqa: UP007 - made while running


def bare(annotation: object) -> object:
    """Return an annotation without ``| None`` and without the extras of ``Annotated``."""
    inner = without_none(annotation)
    return bare(get_args(inner)[0]) if get_origin(inner) is Annotated else inner


def reads_of(annotation: object) -> Reads | None:
    """Return how the text of a fact is read, or ``None`` for a name or anything else."""
    inner = without_none(annotation)
    extras = get_args(inner)[1:] if get_origin(inner) is Annotated else ()
    return next((extra for extra in extras if isinstance(extra, Reads)), None)


def refused(reads: Reads, text: str) -> str:
    """Return why a text is no value of a fact, with what to do next; nothing when it is one."""
    try:
        reads.reader(text)
    except UnitError as error:
        return f"{error.message} {error.hint}".strip()
    except PydanticCustomError as error:
        context = error.context or {}
        return f"{context['message']} {context['hint']}".strip()
    return ""


def models_in(annotation: object) -> tuple[type[Model], ...]:
    """Return the models a value may be: none for a fact, several for a part or a place."""
    inner = bare(annotation)
    if isinstance(inner, type) and issubclass(inner, Model):
        return (inner,)
    if get_origin(inner) in (Union, types.UnionType):
        return tuple(model for part in get_args(inner) for model in models_in(part))
    return ()


def element_of(annotation: object) -> object:
    """Return the type of the values of a list or mapping, or ``None`` for anything else."""
    inner = bare(annotation)
    return get_args(inner)[-1] if get_origin(inner) in (dict, list) else None


def tag_of(models: tuple[type[Model], ...]) -> str:
    """Return the field that tells models apart, such as ``kind``, or an empty string."""
    tags = [name for name in ("kind", "type") if len(models) > 1 and name in models[0].model_fields]
    return tags[0] if tags else ""


def tag_value(model: type[Model], tag: str) -> str:
    """Return the word by which a file names a model, or nothing when it cannot be named."""
    info = model.model_fields.get(tag)
    return next(iter(literals(info.annotation)), "") if info else ""


def literals(annotation: object) -> tuple[str, ...]:
    """Return the words a field may hold, or nothing when it is not a choice of words."""
    inner = bare(annotation)
    return tuple(map(str, get_args(inner))) if get_origin(inner) is Literal else ()


def is_mapping_of_ids(annotation: object) -> bool:
    """Say whether a field maps ids to values, so that files can share it."""
    return get_origin(bare(annotation)) is dict


def walk(model: type[Model], location: tuple[str | int, ...]) -> Iterator[tuple[str | int, Any]]:
    """Follow a location through the models.

    Args:
        model: model of the outermost mapping.
        location: keys, list positions and, after a part or place, the word that says its type.

    Yields:
        Each key or position that stands in the file, with the annotation of its value; the
        annotation is ``None`` where the models know no such key.
    """
    annotation: Any = model
    for step in location:
        models = models_in(annotation)
        tag = tag_of(models)
        if tag:  # the location names the alternative here, and the file does not
            annotation = next((m for m in models if tag_value(m, tag) == step), None)
            continue
        known = annotations_of(models[0]) if models else {}
        annotation = known.get(str(step)) if models else element_of(annotation)
        yield step, annotation
