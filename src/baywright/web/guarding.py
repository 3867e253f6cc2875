"""Guarding: every request is counted, measured and named before a page sees it."""

from __future__ import annotations

from collections.abc import Awaitable, Callable

from fastapi import FastAPI, Request, Response
from fastapi.concurrency import run_in_threadpool

from baywright.problems import Problem, Problems
from baywright.web.limits import Rate
from baywright.web.marks import SESSION, VISIT, is_visit, new_visit
from baywright.web.settings import is_loopback
from baywright.web.telling import refused
from baywright.web.workbench import Visitor, workbench

Next = Callable[[Request], Awaitable[Response]]

HEADERS = {
    "Content-Security-Policy": (
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
        "font-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'none'; "
        "frame-ancestors 'none'"
    ),
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=()",
}
"""Said with every answer. Nothing inline runs or styles, nothing comes from elsewhere."""

WRITING = frozenset({"POST", "PUT", "PATCH", "DELETE"})


def guard(app: FastAPI) -> None:
    """Put the guard before every page of an app."""
    settings = app.state.workbench.settings
    reads, writes = Rate(settings.reads), Rate(settings.writes)
    sign_ins = Rate(settings.sign_ins)

    async def guarded(request: Request, call_next: Next) -> Response:
        address = request.client.host if request.client else ""
        writing = request.method in WRITING
        rate = sign_ins if writing and request.url.path == "/sign-in" else reads
        if not (writes if writing and rate is reads else rate).allows(address):
            return _headed(request, refused(request, _too_often(), 429))
        if not settings.must_sign_in and not _is_here(request):
            return _headed(request, refused(request, _elsewhere(), 421))
        found = _too_large(request, settings.largest)
        if found is not None:
            return _headed(request, refused(request, found, 413))
        try:
            request.state.visitor = await run_in_threadpool(_visitor, request)
        except Problems as failed:
            return _headed(request, refused(request, failed, 503))
        return _headed(request, await call_next(request))

    app.middleware("http")(guarded)


def _visitor(request: Request) -> Visitor:
    """Return who is asking; pictures and styles are for everybody and ask for nobody."""
    held = workbench(request)
    visit = request.cookies.get(VISIT, "")
    visit = visit if is_visit(visit) else new_visit()
    session = request.cookies.get(SESSION, "")
    if request.url.path.startswith("/static/"):
        return Visitor(visit)
    person = held.store.sessions.person_of(session) if session else None
    if person is None:
        secret = request.headers.get("authorization", "").removeprefix("Bearer ").strip()
        person = held.store.tokens.person_of(secret) if secret else None
    return Visitor(visit, session, person, trusted=not held.settings.must_sign_in)


def _headed(request: Request, response: Response) -> Response:
    for name, value in HEADERS.items():
        response.headers.setdefault(name, value)
    who = getattr(request.state, "visitor", None)
    if who is not None and request.cookies.get(VISIT) != who.visit:
        secure = request.url.scheme == "https"
        response.set_cookie(VISIT, who.visit, httponly=True, samesite="lax", secure=secure)
    if not request.url.path.startswith("/static/"):
        response.headers.setdefault("Cache-Control", "no-store")
    return response


def _is_here(request: Request) -> bool:
    """Say whether a page is asked for by a name of this machine.

    Where nobody signs in, a page of somebody else could otherwise reach this one under a name
    that it lets point here.
    """
    return is_loopback((request.url.hostname or "").strip("[]"))


def _elsewhere() -> Problems:
    hint = "Use http://127.0.0.1 with the port, or start it with --accounts."
    message = "Without signing in, the workbench answers to names of this machine only."
    return Problems([Problem("elsewhere", message, None, hint)])


def _too_often() -> Problems:
    hint = "Wait a minute, then go on."
    message = "That were more requests in a minute than this workbench answers."
    return Problems([Problem("too-often", message, None, hint)])


def _too_large(request: Request, most: int) -> Problems | None:
    """Return what is wrong with the size of a request, which has to say it."""
    if request.method not in WRITING:
        return None
    said = request.headers.get("content-length", "")
    if said.isdigit() and int(said) <= most:
        return None
    message = "The request is too large, or does not say its size."
    return Problems([Problem("too-large", message, None, f"Send at most {most:,} bytes.")])
