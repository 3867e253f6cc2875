"""The reference of the format, written from the models so that it cannot go stale."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Annotated, get_args, get_origin

from pydantic.fields import FieldInfo

from baywright.facts.book import Book
from baywright.facts.build import Build, Fitted
from baywright.facts.fact import Reads
from baywright.facts.model import Model
from baywright.files.shape import (
    annotations_of,
    bare,
    element_of,
    fields_of,
    is_mapping_of_ids,
    literals,
    models_in,
    tag_of,
    tag_value,
    without_none,
)

BEGIN = "<!-- reference: begin -->"
END = "<!-- reference: end -->"
"""The marks on a page between which the reference stands."""

_HEAD = "| field | value | needed | meaning |\n|---|---|---|---|"
_SORTS = {"date": "a date, such as 2031-07-01", "text": "words"}


@dataclass(frozen=True, slots=True)
class _Entry:
    """A table to come: the path of a model, the model, and the alternatives it is one of."""

    path: str
    model: type[Model]
    models: tuple[type[Model], ...]


def reference() -> str:
    """Return the tables of all sections, kinds of part and types of place, in Markdown."""
    entries = [*_entries(Book), *_entries(Build)]
    paths = {entry.model: entry.path for entry in reversed(entries)}
    return "\n\n".join(_table(entry, paths) for entry in entries) + "\n"


def embed(page: str) -> str:
    """Return a page with the reference put between its two marks.

    Raises:
        ValueError: when the page has not both marks.
    """
    before, begin, rest = page.partition(BEGIN)
    _, end, after = rest.partition(END)
    if not (begin and end):
        raise ValueError(f"the page needs {BEGIN} and {END}")
    return f"{before}{BEGIN}\n\n{reference()}\n{END}{after}"


def _entries(model: type[Model]) -> Iterator[_Entry]:
    """Yield an entry for a model and for each that it holds, outer before inner."""
    seen: set[type[Model]] = set()
    waiting: list[tuple[str, tuple[type[Model], ...]]] = [("", (model,))]
    while waiting:
        path, models = waiting.pop(0)
        found = _with_bases(models) if len(models) > 1 else list(models)
        new = [part for part in found if part not in seen]
        seen.update(new)
        inner: list[tuple[str, tuple[type[Model], ...]]] = []
        for part in new:
            yield _Entry(path, part, models)
            inner += _inside(_path_of(path, part, models), part, _own_fields(part, models))
        waiting[:0] = inner


def _path_of(path: str, model: type[Model], models: tuple[type[Model], ...]) -> str:
    tag = tag_of(models)
    if tag and tag_value(model, tag):
        return path.removesuffix("<id>") + f"<{tag_value(model, tag)}>"
    return path


def _inside(
    path: str, model: type[Model], fields: Iterable[str]
) -> Iterator[tuple[str, tuple[type[Model], ...]]]:
    for name in fields:
        annotation = annotations_of(model)[name]
        inner = element_of(annotation) or annotation
        end = ".<id>" if is_mapping_of_ids(annotation) else ""
        if models_in(inner):
            yield f"{path}.{name}{end}".removeprefix("."), models_in(inner)


def _with_bases(models: tuple[type[Model], ...]) -> list[type[Model]]:
    """Put before the first of its heirs each model that several of them build on."""
    ordered: list[type[Model]] = []
    for model in models:
        bases = [base for base in reversed(model.__mro__) if _is_shared(base, models)]
        ordered += [base for base in (*bases, model) if base not in ordered]
    return ordered


def _is_shared(base: type, models: tuple[type[Model], ...]) -> bool:
    heirs = [model for model in models if base in model.__mro__[1:]]
    return issubclass(base, Model) and base is not Model and len(heirs) > 1


def _own_fields(model: type[Model], models: tuple[type[Model], ...]) -> dict[str, FieldInfo]:
    """Return the fields that no shared base has described already."""
    if len(models) == 1:
        return fields_of(model)
    bases = [base for base in model.__mro__[1:] if _is_shared(base, models)]
    known = {name for base in bases for name in fields_of(base)}
    tag = tag_of(models)
    return {n: info for n, info in fields_of(model).items() if n not in known and n != tag}


def _heading(entry: _Entry) -> str:
    path, model, models = entry.path, entry.model, entry.models
    tag = tag_of(models)
    if not path:
        return "A build file" if model is Build else "The sections of a book"
    if not tag:
        return f"`{path}`"
    if tag_value(model, tag):
        return f"`{path}` with `{tag}: {tag_value(model, tag)}`"
    heirs = [other for other in models if issubclass(other, model)]
    if len(heirs) == len(models):
        return f"`{path}`: what all have"
    return f"`{path}`: what {_listed([tag_value(heir, tag) for heir in heirs])} have"


def _listed(words: list[str]) -> str:
    quoted = [f"`{word}`" for word in words]
    return f"{', '.join(quoted[:-1])} and {quoted[-1]}" if len(quoted) > 1 else quoted[0]


def _table(entry: _Entry, paths: Mapping[type[Model], str]) -> str:
    annotations = annotations_of(entry.model)
    meaning = (entry.model.__doc__ or "").strip().partition("\n")[0]
    rows = [
        _row(name, info, _words(annotations[name], paths))
        for name, info in _own_fields(entry.model, entry.models).items()
    ]
    body = "\n".join([_HEAD, *rows]) if rows else "No fields of its own."
    return f"#### {_heading(entry)}\n\n{meaning}\n\n{body}"


def _row(name: str, info: FieldInfo, words: str) -> str:
    needed = "yes" if info.is_required() else "no"
    if isinstance(info.default, str) and info.default:
        needed = f"no: `{info.default}`"
    return f"| `{name}` | {words} | {needed} | {info.description} |"


def _words(annotation: object, paths: Mapping[type[Model], str]) -> str:
    """Say in words what a field holds."""
    element = element_of(annotation)
    if element is not None:
        shape = "by id: " if is_mapping_of_ids(annotation) else "list of: "
        return shape + _words(element, paths)
    if literals(annotation):
        return " or ".join(f"`{word}`" for word in literals(annotation))
    models = models_in(annotation)
    if models:
        tag = tag_of(models)
        return f"fields by its `{tag}`" if tag else f"fields of `{paths[models[0]]}`"
    if bare(annotation) is Fitted:
        return "a part, a list of parts, or a cage with drives"
    return _fact_words(without_none(annotation))


def _fact_words(annotation: object) -> str:
    extras = get_args(annotation)[1:] if get_origin(annotation) is Annotated else ()
    for extra in extras:
        if isinstance(extra, Reads):
            return str(extra.schema.get("description") or _SORTS[extra.sort])
    return "name"
