"""Access: what a page asks of who reads it, and what a form has to carry."""

from __future__ import annotations

from typing import Annotated, TypeAlias
from urllib.parse import quote

from fastapi import Depends, Request
from starlette.datastructures import FormData

from baywright.problems import Problem, Problems, problem
from baywright.web.marks import MARK, is_mark
from baywright.web.workbench import Visitor, visitor, workbench


class SignInFirst(Exception):  # noqa: N818 - reads as what has to be done
    """Raised when a page is for people who signed in; carries the address to come back to."""

    def __init__(self, back: str) -> None:
        super().__init__(back)
        self.back = back


class NotAllowed(Problems):
    """Raised when somebody may not do what was asked."""


def reader(request: Request) -> Visitor:
    """Return who reads.

    Raises:
        SignInFirst: when nobody is signed in.
        NotAllowed: when the person may not read.
    """
    who = visitor(request)
    if who.may_read:
        return who
    if who.person is None:
        path = request.url.path + (f"?{request.url.query}" if request.url.query else "")
        raise SignInFirst(f"/sign-in?to={quote(path if request.method == 'GET' else '/', safe='')}")
    raise _refused("read")


def worker(request: Request) -> Visitor:
    """Return who keeps builds.

    Raises:
        SignInFirst: when nobody is signed in.
        NotAllowed: when the person may only read.
    """
    who = reader(request)
    if not who.may_work:
        raise _refused("keep builds")
    return who


def owner(request: Request, book: str) -> Visitor:
    """Return who changes the facts of a book.

    Raises:
        SignInFirst: when nobody is signed in.
        NotAllowed: when the person does not own the book.
    """
    who = reader(request)
    if not who.may_own(book):
        raise _refused(f"change the facts of {book}")
    return who


def _refused(what: str) -> NotAllowed:
    hint = "Ask the person who runs this workbench for the role."
    return NotAllowed([Problem("not-allowed", f"You may not {what} here.", None, hint)])


async def marked_form(request: Request) -> FormData:
    """Return the fields of a form that was sent from one of our own pages.

    Raises:
        Problems: kind ``not-our-form``.
    """
    form = await request.form(max_files=1, max_fields=1000)
    who, secret = visitor(request), workbench(request).settings.secret
    given = form.get(MARK)
    if not isinstance(given, str) or not is_mark(secret, who.visit, who.session, given):
        message = "The form does not come from a page of this visit, so nothing was done."
        raise problem("not-our-form", message, None, "Load the page again and send it once more.")
    return form


MarkedForm: TypeAlias = Annotated[FormData, Depends(marked_form)]
"""The fields of a form, for a page that gets one."""


def field(form: FormData, name: str) -> str:
    """Return a field of a form as text; one that is missing is empty."""
    value = form.get(name)
    return value if isinstance(value, str) else ""
