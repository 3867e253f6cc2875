"""What goes wrong, told as a page to people and as JSON to programs."""

from __future__ import annotations

from fastapi import FastAPI, Request, Response
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse, RedirectResponse
from starlette.exceptions import HTTPException

from baywright.answers.inquiry import RecheckError, StoppedError
from baywright.problems import Problem, Problems
from baywright.store import Conflict, StoreUnavailable
from baywright.web.access import NotAllowed, SignInFirst
from baywright.web.rendering import page
from baywright.web.texts import text

NOT_THERE = frozenset({"no-book", "no-view", "no-such-build", "no-such-token", "unknown-fact"})
"""Kinds of problem that say that something is not there."""


def refused(request: Request, found: Problems, status: int | None = None) -> Response:
    """Return problems as an answer.

    Args:
        request: what was asked.
        found: what is wrong.
        status: the HTTP status; by the kind of the problems unless given.
    """
    code = status or _status(found)
    if request.url.path.startswith("/api/"):
        body = {"problems": [each.as_json() for each in found.problems]}
        return JSONResponse(body, status_code=code)
    title = text(f"error_{code}") if code in (403, 404, 409, 413, 429, 503) else text("error")
    return page(request, "error.html.j2", title, status=code, problems=found.problems)


def _status(found: Problems) -> int:
    if isinstance(found, StoreUnavailable):
        return 503
    if isinstance(found, NotAllowed):
        return 403
    kinds = {each.kind for each in found.problems}
    if "busy" in kinds:
        return 503
    if isinstance(found, Conflict) or "changed-meanwhile" in kinds:
        return 409
    return 404 if kinds & NOT_THERE else 422


def tell(app: FastAPI) -> None:
    """Give an app a way to tell everything that can go wrong."""

    async def problems(request: Request, error: Exception) -> Response:
        return refused(request, error if isinstance(error, Problems) else _unforeseen(error))

    async def stopped(request: Request, error: Exception) -> Response:
        tried = error.tried if isinstance(error, StoppedError) else ""
        hint = "Ask for less at once, or ask again."
        return refused(request, _one("stopped", f"It was not decided: {tried}.", hint), 503)

    async def withheld(request: Request, error: Exception) -> Response:
        report = error.report if isinstance(error, RecheckError) else ""
        return refused(request, _one("recheck", f"The answer is withheld: {report}.", ""), 500)

    async def sign_in(request: Request, error: Exception) -> Response:
        if request.url.path.startswith("/api/"):
            return refused(request, _one("sign-in", "A token is needed.", _TOKEN), 401)
        back = error.back if isinstance(error, SignInFirst) else "/sign-in"
        return RedirectResponse(back, status_code=303)

    async def http(request: Request, error: Exception) -> Response:
        code = error.status_code if isinstance(error, HTTPException) else 500
        message = text("not_there") if code == 404 else f"{text('not_done')} ({code})."
        return refused(request, _one("http", message, text("go_on")), code)

    async def misread(request: Request, error: Exception) -> Response:
        found = error.errors() if isinstance(error, RequestValidationError) else []
        said = [
            Problem("misread", f"{'.'.join(map(str, e['loc']))}: {e['msg']}.", None, "")
            for e in found
        ]
        return refused(request, Problems(said), 422)

    app.add_exception_handler(Problems, problems)
    app.add_exception_handler(StoppedError, stopped)
    app.add_exception_handler(RecheckError, withheld)
    app.add_exception_handler(SignInFirst, sign_in)
    app.add_exception_handler(HTTPException, http)
    app.add_exception_handler(RequestValidationError, misread)


_TOKEN = "Send it as 'Authorization: Bearer TOKEN'."  # noqa: S105 - a hint, no secret


def _one(kind: str, message: str, hint: str) -> Problems:
    return Problems([Problem(kind, message, None, hint)])


def _unforeseen(error: Exception) -> Problems:
    return _one("unforeseen", str(error), "")
