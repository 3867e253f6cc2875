"""What a page says of itself, so that the app and the navigation know it."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import APIRouter


@dataclass(frozen=True, slots=True)
class Page:
    """A page, or several that belong together.

    Args:
        router: its addresses.
        name: its name in the navigation, which is the key of its title too; empty for a page
            that others lead to.
        of_book: whether its address ends in the name of a book, as ``/bench/f2`` does.
    """

    router: APIRouter
    name: str = ""
    of_book: bool = True


Navigation = tuple[tuple[str, bool], ...]
"""Names of pages in the order of the navigation, each with whether it is about one book."""


def navigation(pages: tuple[Page, ...]) -> Navigation:
    """Return the pages that stand in the navigation."""
    return tuple((page.name, page.of_book) for page in pages if page.name)
