"""Addresses of the bench: the whole state of the page is in them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from urllib.parse import quote, urlencode

from fastapi import Request


@dataclass(frozen=True, slots=True)
class BenchAddress:
    """The state of the bench.

    Args:
        book: name of the book.
        steps: the steps, as texts.
        undone: steps taken back, the next to do again first.
        at: id of the picked place, or empty.
        show: value whose details are wanted, as ``choice:label``, or empty.
        why: whether reasons that take longer are wanted.
        view: the view that is drawn large, or empty for the one that shows the place.
        kept: id of the kept build that is worked on, or empty.
        version: its version.
    """

    book: str
    steps: tuple[str, ...] = ()
    undone: tuple[str, ...] = ()
    at: str = ""
    show: str = ""
    why: bool = False
    view: str = ""
    kept: str = ""
    version: int = 0

    @classmethod
    def of(cls, request: Request, book: str) -> BenchAddress:
        """Return the state that an address says; what cannot be read is left out."""
        query = request.query_params
        version = query.get("version", "")
        return cls(
            book,
            tuple(query.getlist("s")),
            tuple(query.getlist("r")),
            query.get("at", ""),
            query.get("show", ""),
            query.get("why", "") == "1",
            query.get("view", ""),
            query.get("kept", ""),
            int(version) if version.isdigit() and len(version) < 10 else 0,
        )

    def __str__(self) -> str:
        return self.to("")

    def to(self, page: str, **more: str) -> str:
        """Return the address of the bench, or of a page about what is on it."""
        path = f"/bench/{quote(self.book)}" + (f"/{page}" if page else "")
        pairs = [*self.pairs(), *more.items()]
        return f"{path}?{urlencode(pairs, safe=':;,')}" if pairs else path

    def pairs(self) -> list[tuple[str, str]]:
        """Return the state as fields of an address or a form."""
        found = [("s", step) for step in self.steps] + [("r", step) for step in self.undone]
        said = {"at": self.at, "show": self.show, "view": self.view, "kept": self.kept}
        said |= {"why": "1"} if self.why else {}
        said |= {"version": str(self.version)} if self.kept else {}
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

    def showing(self, choice: str, label: str) -> BenchAddress:
        """Return the state with the details of a value."""
        return replace(self._calm(), show=f"{choice}:{label}")

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
        return replace(self, show="", why=False)
