"""Rendering: templates, and what every page of the workbench carries."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from urllib.parse import quote, unquote_plus

from fastapi import Request
from fastapi.responses import HTMLResponse
from jinja2 import ChoiceLoader, Environment, PackageLoader, StrictUndefined, select_autoescape

from baywright.papers.dates import with_dates
from baywright.papers.load_line import load_line
from baywright.web.marks import mark_for
from baywright.web.texts import text
from baywright.web.workbench import Visitor, workbench

STATIC = Path(__file__).parent / "static"
VENDOR = STATIC / "vendor"

THEME = "theme"
"""The cookie that remembers a choice of light or dark."""


@cache
def environment() -> Environment:
    """Return the templates of all pages; a name that is missing is an error."""
    found = Environment(
        loader=ChoiceLoader([PackageLoader("baywright.web"), PackageLoader("baywright.papers")]),
        autoescape=select_autoescape(("html.j2",), default=False),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    found.filters["load_line"] = load_line
    found.filters["with_dates"] = with_dates
    found.globals["t"] = text
    return found


def has_assets() -> bool:
    """Say whether the fonts and the script from outside are there."""
    return (VENDOR / "htmx.min.js").is_file()


def page(
    request: Request,
    template: str,
    title: str,
    *,
    here: str = "",
    book: str = "",
    status: int = 200,
    **context: object,
) -> HTMLResponse:
    """Return a page.

    Args:
        request: what was asked.
        template: name of the template.
        title: title of the page.
        here: the page of the navigation it belongs to.
        book: the book it is about, or empty.
        status: the HTTP status.
        context: what the template shows.
    """
    held = workbench(request)
    who: Visitor = getattr(request.state, "visitor", Visitor())
    books = held.shelf.books
    about = book if book in books else next(iter(books), "")
    theme = request.cookies.get(THEME, "")
    html = (
        environment()
        .get_template(template)
        .render(
            title=title,
            here=here,
            book=book,
            navigation=[_link(each, about if of_book else "") for each, of_book in held.navigation],
            theme=theme if theme in ("light", "dark") else "",
            who=who,
            must_sign_in=held.settings.must_sign_in,
            mark=mark_for(held.settings.secret, who.visit, who.session),
            assets=has_assets(),
            address=_path(request),
            **context,
        )
    )
    return HTMLResponse(html, status_code=status)


def _link(name: str, book: str) -> tuple[str, str]:
    """Return a page of the navigation with its address; the books stand at the root."""
    if book:
        return name, f"/{name}/{quote(book)}"
    return name, "/" if name == "books" else f"/{name}"


def _path(request: Request) -> str:
    """Return the address of a page without the server, as it is shown in the title block."""
    query = f"?{unquote_plus(request.url.query)}" if request.url.query else ""
    return request.url.path + query
