"""What the pages about the care of a build have in common: the build, and the ways between them."""

from __future__ import annotations

from fastapi import Request, Response

from baywright.problems import Problem
from baywright.web.addresses import Address
from baywright.web.chosen import BUILD, VOLTS, Chosen
from baywright.web.rendering import page
from baywright.web.texts import text
from baywright.web.workbench import workbench

PAGES = ("service", "faults", "losses", "spares")
"""The pages about the care of a build; the first stands in the navigation for all of them."""


def care_page(
    request: Request,
    name: str,
    book: str,
    address: Address,
    held: Chosen | None,
    *,
    problems: tuple[Problem, ...] = (),
    **context: object,
) -> Response:
    """Return a page about the care of a build.

    Args:
        request: what was asked.
        name: which of the pages.
        book: the book.
        address: the address with its fields.
        held: the build, or ``None`` where the book has none.
        problems: what is wrong with what was asked.
        context: what the template shows beside that.
    """
    opened = held.opened if held else workbench(request).shelf.bench(book).opened
    beside = tuple((each, address.at(f"/{each}/{book}", BUILD, VOLTS)) for each in PAGES)
    return page(
        request,
        f"{name}.html.j2" if held else "no_build.html.j2",
        text(name),
        here=PAGES[0],
        book=book,
        status=422 if problems else 200,
        which=name,
        beside=beside,
        state=address,
        held=held,
        problems=problems,
        opened=opened,
        **context,
    )
