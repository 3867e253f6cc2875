"""The question list of a new book, made of the fields of the format.

What a book has to state is asked for first, section by section; after each entry comes the
question which of its other fields to state, and those are asked for in turn.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal, TypeAlias

from baywright.facts.book import Book
from baywright.facts.model import Model
from baywright.files.shape import (
    annotations_of,
    element_of,
    fields_of,
    is_mapping_of_ids,
    literals,
    models_in,
    reads_of,
    tag_of,
    tag_value,
)

Path: TypeAlias = tuple[str, ...]
Answers: TypeAlias = dict[Path, str]
"""Answers by path. That of entries with ids is the list of the ids, that of entries without is
their number, and that of ``more`` names the fields that an entry states beside those it must."""

Shape = Literal["value", "list", "pairs", "ids", "number", "more"]

MORE: Literal["more"] = "more"
UNKNOWN = "unknown"

_LATER = {
    "interlocks", "locks", "lights", "symptoms", "causes", "service", "firmware", "must_say",
    "record", "words",
}  # fmt: skip
"""Sections that a first book does without; they are named, and written with an editor."""


@dataclass(frozen=True, slots=True)
class Question:
    """A question of the list.

    Args:
        path: what it is about.
        says: what is wanted, a few words.
        shape: how the answer is written.
        annotation: the annotation of one value, or ``None`` for ids, numbers and ``more``.
        needed: whether a book cannot do without.
        choices: the words that are an answer, where it is a choice of words.
    """

    path: Path
    says: str
    shape: Shape
    annotation: object = None
    needed: bool = True
    choices: tuple[str, ...] = ()

    @property
    def such_as(self) -> str:
        """Return how an answer is written, with its unit."""
        match self.shape:
            case "ids":
                return "ids, with commas between"
            case "number":
                return "how many"
            case "more":
                return f"none, or some of: {', '.join(self.choices)}"
            case "list":
                return f"{self._one()}; several with commas between"
            case "pairs":
                return f"id: {self._one()}; several with commas between"
            case _:
                return self._one()

    def _one(self) -> str:
        if self.choices:
            return " or ".join(self.choices)
        reads = reads_of(self.annotation)
        if reads is None:
            return "a word or a text"
        dates = "a date, such as 2031-07-01" if reads.sort == "date" else "words"
        return str(reads.schema.get("description") or dates)


def open_questions(answers: Mapping[Path, str]) -> Iterator[Question]:
    """Yield the questions that have no answer yet, as far as the answers tell what is asked.

    Args:
        answers: the answers so far.
    """
    return (each for each in every_question(answers) if each.path not in answers)


def every_question(answers: Mapping[Path, str]) -> Iterator[Question]:
    """Yield every question that the answers so far lead to, in their order."""
    yield from _of_model(Book, (), answers)


def _of_model(model: type[Model], path: Path, answers: Mapping[Path, str]) -> Iterator[Question]:
    fields = fields_of(model)
    tag = next((name for name in ("kind", "type") if _is_tag(model, name)), "")
    needed = [name for name, info in fields.items() if info.is_required() and name != tag]
    others = [n for n in fields if n not in needed and n != tag and (path or n not in _LATER)]
    for name in needed:
        yield from _of_field(model, name, path, answers)
    if not others:
        return
    says = "what else to state" if path else "sections to state beside those every book has"
    yield Question((*path, MORE), says, MORE, needed=False, choices=tuple(others))
    for name in listed(answers.get((*path, MORE), "")):
        if name in others:
            yield from _of_field(model, name, path, answers)


def _is_tag(model: type[Model], name: str) -> bool:
    return name in model.model_fields and len(literals(model.model_fields[name].annotation)) == 1


def _of_field(
    model: type[Model], name: str, path: Path, answers: Mapping[Path, str]
) -> Iterator[Question]:
    annotation, here = annotations_of(model)[name], (*path, name)
    says, needed = _says(model, name), fields_of(model)[name].is_required()
    element = element_of(annotation)
    if models_in(annotation):
        yield from _of_model(models_in(annotation)[0], here, answers)
    elif element is None or not models_in(element):
        yield _of_value(here, says, annotation, needed=needed)
    elif is_mapping_of_ids(annotation):
        yield Question(here, says, "ids", needed=needed)
        for key in listed(answers.get(here, "")):
            yield from _of_entry(models_in(element), (*here, key), answers)
    else:
        yield Question(here, says, "number", needed=needed)
        number = answers.get(here, "")
        for at in range(int(number) if number.isdigit() else 0):
            yield from _of_entry(models_in(element), (*here, str(at)), answers)


def _of_value(path: Path, says: str, annotation: object, *, needed: bool) -> Question:
    element = element_of(annotation)
    shape: Shape = "value"
    if element is not None:
        shape = "pairs" if is_mapping_of_ids(annotation) else "list"
    wanted = annotation if element is None else element
    return Question(path, says, shape, wanted, needed, literals(wanted))


def _of_entry(
    models: tuple[type[Model], ...], path: Path, answers: Mapping[Path, str]
) -> Iterator[Question]:
    """Yield the questions about an entry: first what it is, where it can be several things."""
    tag = tag_of(models)
    if not tag:
        yield from _of_model(models[0], path, answers)
        return
    words = {tag_value(model, tag): model for model in models}
    yield Question((*path, tag), f"{tag} of {path[-1]}", "value", None, choices=tuple(words))
    model = words.get(answers.get((*path, tag), ""))
    if model is not None:
        yield from _of_model(model, path, answers)


def _says(model: type[Model], name: str) -> str:
    return fields_of(model)[name].description or ""


def listed(text: str) -> list[str]:
    """Return the words of a list with commas between; nothing for none and unknown."""
    words = [word.strip() for word in text.split(",")]
    return [word for word in words if word and word not in ("none", UNKNOWN)]
