"""Addresses of pages whose state is a list of fields: each change of it is another address."""

from __future__ import annotations

from dataclasses import dataclass, replace
from urllib.parse import quote, urlencode

from fastapi import Request

Pairs = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Address:
    """An address.

    Args:
        path: its path.
        pairs: its fields in order; a name may stand several times.
    """

    path: str
    pairs: Pairs = ()

    @classmethod
    def of(cls, request: Request) -> Address:
        """Return the address that was asked for, without empty fields."""
        pairs = (
            (name, value.strip())
            for name, value in request.query_params.multi_items()
            if value.strip()
        )
        return cls(request.url.path, tuple(dict.fromkeys(pairs)))

    def __str__(self) -> str:
        path = quote(self.path)
        return f"{path}?{urlencode(self.pairs, safe=':,')}" if self.pairs else path

    def all(self, name: str) -> tuple[str, ...]:
        """Return the values of a field."""
        return tuple(value for each, value in self.pairs if each == name)

    def one(self, name: str, otherwise: str = "") -> str:
        """Return the first value of a field, or what it is otherwise."""
        return next(iter(self.all(name)), otherwise)

    def toggled(self, name: str, value: str) -> Address:
        """Return the address with a value of a field taken in, or taken out where it was in."""
        pair = (name, value)
        if pair in self.pairs:
            return replace(self, pairs=tuple(each for each in self.pairs if each != pair))
        return replace(self, pairs=(*self.pairs, pair))

    def having(self, **values: str) -> Address:
        """Return the address with other values of some fields; an empty one leaves a field out."""
        kept = tuple(pair for pair in self.pairs if pair[0] not in values)
        said = tuple((name, value) for name, value in values.items() if value)
        return replace(self, pairs=(*kept, *said))

    def at(self, path: str, *names: str) -> Address:
        """Return the address of another page, with those of the fields that it shares."""
        return Address(path, tuple(pair for pair in self.pairs if pair[0] in names))
