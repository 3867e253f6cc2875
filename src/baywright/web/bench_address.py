"""Addresses of the bench: the whole state of the page is in them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias
from urllib.parse import quote, urlencode

from fastapi import Request
from starlette.datastructures import FormData, QueryParams

from baywright.desk.bench.conditions import FREE, Conditions

Fields: TypeAlias = QueryParams | FormData

SITE = ("volts", "altitude", "inlet", "day")
"""Fields of an address that say what is given beside the choices."""


@dataclass(frozen=True, slots=True)
class BenchAddress:
    """The state of the bench.

    Args:
        book: name of the book.
        steps: the steps, as texts.
        undone: steps taken back, the next to do again first.
        at: id of the picked place, or empty.
        look: value that is looked at, as ``choice:label``, or empty.
        why: whether reasons that take longer are wanted.
        view: the view that is drawn large, or empty for the one that shows the place.
        kept: id of the kept build that is worked on, or empty.
        version: its version.
        pins: ids of the places that are held as they are.
        given: day, site and what must hold.
    """

    book: str
    steps: tuple[str, ...] = ()
    undone: tuple[str, ...] = ()
    at: str = ""
    look: str = ""
    why: bool = False
    view: str = ""
    kept: str = ""
    version: int = 0
    pins: tuple[str, ...] = ()
    given: Conditions = FREE

    @classmethod
    def of(cls, request: Request, book: str) -> BenchAddress:
        """Return the state that an address says; what cannot be read is left out."""
        return cls.from_fields(request.query_params, book)

    @classmethod
    def from_fields(cls, query: Fields, book: str) -> BenchAddress:
        """Return the state that the fields of an address or a form say."""
        version = _text(query, "version")
        return cls(
            book,
            _texts(query, "s"),
            _texts(query, "r"),
            _text(query, "at"),
            _text(query, "look"),
            _text(query, "why") == "1",
            _text(query, "view"),
            _text(query, "kept"),
            int(version) if version.isdigit() and len(version) < 10 else 0,
            tuple(dict.fromkeys(_texts(query, "p"))),
            _conditions(query),
        )

    def __str__(self) -> str:
        return self.to("")

    def to(self, page: str, **more: str) -> str:
        """Return the address of the bench, or of a page about what is on it."""
        path = f"/bench/{quote(self.book)}" + (f"/{page}" if page else "")
        pairs = [*self.pairs(), *more.items()]
        return f"{path}?{urlencode(pairs, safe=':;,')}" if pairs else path

    def pairs(self, *, given: bool = True) -> list[tuple[str, str]]:
        """Return the state as fields of an address or a form.

        Args:
            given: whether the conditions are among them; a form of their own has fields for them.
        """
        found = [("s", step) for step in self.steps] + [("r", step) for step in self.undone]
        found += [("p", place) for place in self.pins]
        said = {"at": self.at, "look": self.look, "view": self.view, "kept": self.kept}
        said |= {"why": "1"} if self.why else {}
        said |= {"version": str(self.version)} if self.kept else {}
        if given:
            found += [("m", each) for each in self.given.must]
            said |= {name: getattr(self.given, name) for name in SITE}
        return [*found, *((name, value) for name, value in said.items() if value)]

    def after(self, step: str) -> BenchAddress:
        """Return the state after one more step."""
        return replace(self._calm(), steps=(*self.steps, step), undone=())

    def undo(self) -> BenchAddress | None:
        """Return the state without the last step, or ``None`` when there is none."""
        if not self.steps:
            return None
        *before, last = self.steps
        return replace(self._calm(), steps=tuple(before), undone=(last, *self.undone))

    def redo(self) -> BenchAddress | None:
        """Return the state with the step taken back last, or ``None`` when there is none."""
        if not self.undone:
            return None
        return replace(self._calm(), steps=(*self.steps, self.undone[0]), undone=self.undone[1:])

    def until(self, number: int) -> BenchAddress:
        """Return the state after a number of steps, the others taken back."""
        gone = self.steps[number:]
        return replace(self._calm(), steps=self.steps[:number], undone=(*gone, *self.undone))

    def pick(self, place: str) -> BenchAddress:
        """Return the state with another place picked."""
        return replace(self._calm(), at=place, view="")

    def looking_at(self, choice: str, label: str) -> BenchAddress:
        """Return the state with a value looked at: its details, and its ghost in the drawing."""
        return replace(self._calm(), look=f"{choice}:{label}")

    def pin(self, place: str) -> BenchAddress:
        """Return the state with a place held as it is, or free again where it was held."""
        without = tuple(each for each in self.pins if each != place)
        pins = without if place in self.pins else (*self.pins, place)
        return replace(self._calm(), pins=pins)

    def under(self, given: Conditions) -> BenchAddress:
        """Return the state under other conditions."""
        return replace(self._calm(), given=given)

    def asking_why(self) -> BenchAddress:
        """Return the state with every reason found."""
        return replace(self, why=True)

    def looking(self, view: str) -> BenchAddress:
        """Return the state with another view drawn large."""
        return replace(self._calm(), view=view)

    def with_steps(self, steps: Sequence[str]) -> BenchAddress:
        """Return the state with other steps."""
        return replace(self._calm(), steps=tuple(steps), undone=())

    def keeping(self, kept: str, version: int) -> BenchAddress:
        """Return the state of work on a kept build."""
        return replace(self, kept=kept, version=version)

    def _calm(self) -> BenchAddress:
        """Return the state without what was asked of one moment only."""
        return replace(self, look="", why=False)


def _texts(query: Fields, name: str) -> tuple[str, ...]:
    return tuple(each for each in query.getlist(name) if isinstance(each, str))


def _text(query: Fields, name: str) -> str:
    return next(iter(_texts(query, name)), "")


def _conditions(query: Fields) -> Conditions:
    volts, altitude, inlet, day = (_text(query, name).strip() for name in SITE)
    must = (each.strip() for each in _texts(query, "m"))
    return Conditions(volts, altitude, inlet, day, tuple(filter(None, must)))
