"""What a table can be about: the sections, kinds of part and types of place of the format."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from baywright.facts.book import Book
from baywright.facts.model import Model, Port
from baywright.files.shape import (
    annotations_of,
    bare,
    element_of,
    is_mapping_of_ids,
    models_in,
    reads_of,
    tag_of,
    tag_value,
)
from baywright.problems import problem, suggestion

ID = "id"
"""The column that names an entry."""


@dataclass(frozen=True, slots=True)
class Target:
    """What the rows of a table are about.

    Args:
        name: what it is called.
        steps: where the entries stand in a book.
        models: what an entry may be, by the word that says its kind or type; by an empty word
            where there is one model only.
        tag: the field that says which, or empty.
        fixed: the kind or type of every row, or empty where a column says it.
        keyed: whether entries have ids; otherwise they stand in a list.
    """

    name: str
    steps: tuple[str, ...]
    models: Mapping[str, type[Model]]
    tag: str = ""
    fixed: str = ""
    keyed: bool = True


@dataclass(frozen=True, slots=True)
class Leaf:
    """A field that a cell can fill.

    Args:
        path: its name, and for what stands inside another the name in there; ``*`` stands for a
            key of the book, such as a line of input power.
        annotation: the annotation of one value.
        many: whether it holds a list of such values.
    """

    path: tuple[str, ...]
    annotation: object
    many: bool = False


def targets() -> dict[str, Target]:
    """Return everything a table can be about, by each name it goes by.

    >>> sorted(targets())[:3]
    ['accelerator', 'accelerators', 'bank']
    """
    found: dict[str, Target] = {}
    tagged: list[Target] = []
    for section, annotation in annotations_of(Book).items():
        models = models_in(element_of(annotation)) if is_mapping_of_ids(annotation) else ()
        if models:
            tag = tag_of(models)
            by_word = {tag_value(model, tag) if tag else "": model for model in models}
            found[section] = Target(section, (section,), by_word, tag)
            tagged += [
                Target(word, (section,), {word: model}, tag, word)
                for word, model in by_word.items()
                if word
            ]
    found["ports"] = Target("ports", ("chassis", "ports"), {"": Port}, keyed=False)
    # Parts go before places where both know a word: a table of supplies lists parts.
    for target in sorted(tagged, key=lambda each: each.steps):
        for name in (target.name, _plural(target.name)):
            found.setdefault(name, target)
    return found


def target_named(name: str) -> Target:
    """Return what goes by a name.

    Raises:
        Problems: kind ``unknown-target``.
    """
    known = targets()
    if name.casefold() not in known:
        hint = suggestion(name.casefold(), known, most=100)
        raise problem("unknown-target", f"No table is about {name!r}.", None, hint)
    return known[name.casefold()]


def leaves(model: type[Model]) -> list[Leaf]:
    """Return the fields of a model that a cell can fill, those of inner models with them."""
    found: list[Leaf] = []
    for name, annotation in annotations_of(model).items():
        inner = models_in(annotation)
        element = element_of(annotation)
        if inner:
            found += [
                Leaf((name, *leaf.path), leaf.annotation, leaf.many) for leaf in leaves(inner[0])
            ]
        elif element is None:
            found.append(Leaf((name,), annotation))
        elif not models_in(element) and _is_value(element):
            keyed = is_mapping_of_ids(annotation)
            found.append(Leaf((name, "*") if keyed else (name,), element, not keyed))
    return found


def _is_value(annotation: object) -> bool:
    return reads_of(annotation) is not None or bare(annotation) is str


def _plural(word: str) -> str:
    if word in {"memory"}:
        return word
    return f"{word[:-1]}ies" if word.endswith("y") and word[-2] not in "aeiou" else f"{word}s"
