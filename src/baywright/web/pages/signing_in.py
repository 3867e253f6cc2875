"""Signing in and out, and the choice of light or dark."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from baywright.web.access import MarkedForm, field
from baywright.web.marks import SESSION, VISIT, new_visit
from baywright.web.rendering import THEME, page
from baywright.web.texts import text
from baywright.web.workbench import visitor, workbench

router = APIRouter(include_in_schema=False)

YEAR = 365 * 24 * 3600


@router.get("/sign-in")
def sign_in_page(request: Request, to: str = "/") -> Response:
    """Show where to sign in."""
    return page(request, "sign_in.html.j2", text("sign_in"), to=own(to), failed=False)


@router.post("/sign-in")
def sign_in(request: Request, form: MarkedForm) -> Response:
    """Sign in, and go on where it was asked for."""
    held, back = workbench(request), own(field(form, "to"))
    person = held.store.people.check(field(form, "name"), field(form, "password"))
    if person is None:
        held.store.audit.note("", "sign in refused", field(form, "name")[:64])
        title = text("sign_in")
        return page(request, "sign_in.html.j2", title, status=401, to=back, failed=True)
    seconds = held.settings.seconds
    token = held.store.sessions.open(person, seconds)
    answer = RedirectResponse(back, status_code=303)
    secure = request.url.scheme == "https"
    answer.set_cookie(SESSION, token, seconds, httponly=True, samesite="lax", secure=secure)
    return answer


@router.post("/sign-out")
def sign_out(request: Request, form: MarkedForm) -> Response:
    """Sign out; the next visit begins anew."""
    session = visitor(request).session
    if session:
        workbench(request).store.sessions.close(session)
    answer = RedirectResponse("/", status_code=303)
    answer.delete_cookie(SESSION)
    answer.set_cookie(VISIT, new_visit(), httponly=True, samesite="lax")
    return answer


@router.post("/theme")
def theme(request: Request, form: MarkedForm) -> Response:
    """Remember light or dark, or go back to what the browser prefers."""
    chosen = field(form, "theme")
    answer = RedirectResponse(own(field(form, "to")), status_code=303)
    if chosen in ("light", "dark"):
        answer.set_cookie(THEME, chosen, YEAR, httponly=True, samesite="lax")
    else:
        answer.delete_cookie(THEME)
    return answer


def own(address: str) -> str:
    """Return an address of ours; anything else becomes the first page.

    >>> own("/bench/f2"), own("//elsewhere"), own("https://elsewhere")
    ('/bench/f2', '/', '/')
    """
    plain = address.startswith("/") and not address.startswith(("//", "/\\"))
    return address if plain and address.isprintable() else "/"
