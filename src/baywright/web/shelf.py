"""The shelf: each book open once for all who read it, opened again when its files change."""

from __future__ import annotations

import gc
import threading
from dataclasses import dataclass, field
from pathlib import Path

from baywright.desk.bench.bench import Bench, open_bench
from baywright.desk.bench.conditions import Conditions, under
from baywright.desk.bench.keeping import books_at_hand
from baywright.desk.bench.remembering import Remembered
from baywright.files.books import find_book
from baywright.problems import problem, suggestion

MOST_UNDER = 24
"""Books under conditions that are kept open beside the books themselves."""


@dataclass
class Shelf:
    """The books that the server offers.

    Args:
        names: names or folders of the books; those of the package when there are none.
    """

    names: tuple[str, ...] = ()
    _under: Remembered[Bench] = field(default_factory=lambda: Remembered(MOST_UNDER))
    _held: dict[str, tuple[int, Bench]] = field(default_factory=dict)
    _locks: dict[str, threading.Lock] = field(default_factory=dict)
    _lock: threading.Lock = field(default_factory=threading.Lock)

    @property
    def books(self) -> dict[str, str]:
        """The books by the last part of their folder, which is their name in addresses."""
        return {Path(name).name: name for name in (self.names or books_at_hand())}

    def bench(self, book: str) -> Bench:
        """Return a book on the bench.

        Raises:
            Problems: kind ``no-book``, and everything that is wrong with the book.
        """
        known = self.books
        if book not in known:
            message = f"There is no book {book!r} here."
            raise problem("no-book", message, None, suggestion(book, known))
        with self._lock:
            lock = self._locks.setdefault(book, threading.Lock())
        with lock:
            held = self._held.get(book)
            if held is None or held[0] != _state(held[1].opened.folder):
                folder = find_book(known[book])
                held = _state(folder), open_bench(str(folder))
                self._held[book] = held
                _set_aside()
            return held[1]

    def name(self, book: str) -> str:
        """Return the name or folder that a book was given by.

        Raises:
            Problems: as ``bench``.
        """
        self.bench(book)
        return self.books[book]

    def state(self, book: str) -> int:
        """Return a number that changes when a file of a book does.

        Raises:
            Problems: as ``bench``.
        """
        return _state(self.bench(book).opened.folder)

    def under(self, book: str, given: Conditions) -> Bench:
        """Return a book on the bench under conditions; those asked for last are kept.

        Raises:
            Problems: as ``bench``, and for conditions that make no sense or that nothing has.
        """
        plain = self.bench(book)
        if not given.any:
            return plain
        key = (book, _state(plain.opened.folder), given)
        return self._under.get(key, lambda: under(plain, given))


def _state(folder: Path) -> int:
    """Return a number that changes when a file of the folder does."""
    files = ((path.name, path.stat()) for path in sorted(folder.glob("*.yaml")))
    return hash(tuple((name, found.st_mtime_ns, found.st_size) for name, found in files))


def _set_aside() -> None:
    """Keep the open books out of the search for garbage, which else stops everybody for it."""
    gc.collect()
    gc.freeze()
