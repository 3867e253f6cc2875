"""A book that tells which of its facts laws read, and which they look for in vain."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from typing import Any

from baywright.facts.book import Book
from baywright.facts.model import Model


class Watch:
    """Notes which facts are read, and which are asked for in vain.

    Args:
        book: the book to watch; it stays as it is.
    """

    def __init__(self, book: Book) -> None:
        self._paths: dict[int, str] = {}
        self._entries: dict[str, Model] = {}
        self._found: dict[tuple[str, str], None] | None = None
        self._read: set[tuple[str, str]] | None = None
        self.book: Book = self._copied(book, "")

    @contextmanager
    def looking(self) -> Iterator[dict[tuple[str, str], None]]:
        """Yield a mapping that fills with each entry and field asked for in vain, in order."""
        self._found = {}
        try:
            yield self._found
        finally:
            self._found = None

    @contextmanager
    def reading(self) -> Iterator[set[tuple[str, str]]]:
        """Yield a set that fills with the model and the field of each value that is read."""
        self._read = set()
        try:
            yield self._read
        finally:
            self._read = None

    def entry(self, path: str) -> Model | None:
        """Return the entry of a path."""
        return self._entries.get(path)

    def asked(self, entry: object, model: str, field: str, value: object) -> None:
        """Take note that a field was read."""
        if self._read is not None:
            self._read.add((model, field))
        if value is None and self._found is not None and id(entry) in self._paths:
            self._found.setdefault((self._paths[id(entry)], field))

    def _copied(self, value: Any, path: str) -> Any:  # noqa: ANN401 - whatever a field holds
        if isinstance(value, dict):
            return {key: self._copied(each, f"{path}.{key}") for key, each in value.items()}
        if isinstance(value, list):
            return [self._copied(each, f"{path}.{at}") for at, each in enumerate(value)]
        if not isinstance(value, Model):
            return value
        fields = {
            name: self._copied(getattr(value, name), f"{path}.{name}")
            for name in type(value).model_fields
        }
        copy = _watched(type(value)).model_construct(value.model_fields_set, **fields)
        object.__setattr__(copy, "watch_", self)
        self._paths[id(copy)] = path.removeprefix(".")
        self._entries[path.removeprefix(".")] = copy
        return copy


@cache
def _watched(model: type[Model]) -> type[Model]:
    """Return a model like another whose fields are noted when they are read."""

    class Watched(model):  # type: ignore[misc, valid-type]
        __slots__ = ("watch_",)

        def __getattribute__(self, name: str) -> Any:  # noqa: ANN401 - whatever a field holds
            value = super().__getattribute__(name)
            if name in model.model_fields:
                watch = object.__getattribute__(self, "watch_")
                watch.asked(self, model.__name__, name, value)
            return value

    return Watched
