"""Builds that are kept, and tokens for programs."""

from __future__ import annotations

from dataclasses import asdict

from fastapi import APIRouter, Request

from baywright.answers.as_json import Json
from baywright.files.books import build_from
from baywright.problems import problem
from baywright.store import Kept, Person
from baywright.web.access import reader, worker
from baywright.web.api.bodies import Change, NewBuild, NewToken
from baywright.web.workbench import workbench

router = APIRouter(prefix="/api", tags=["builds"])


@router.get("/builds")
def list_builds(request: Request) -> Json:
    """List the kept builds, the one changed last first."""
    reader(request)
    return {"builds": [_json(each) for each in workbench(request).store.builds.of(None)]}


@router.get("/builds/{build}")
def get_build(request: Request, build: str) -> Json:
    """Return a kept build."""
    reader(request)
    found = workbench(request).store.builds.get(build)
    if found is None:
        raise problem("no-such-build", f"There is no build {build!r}.", None, "List them first.")
    return _json(found)


@router.post("/builds", status_code=201)
def keep_build(request: Request, body: NewBuild) -> Json:
    """Keep a new build."""
    who, held = worker(request), workbench(request)
    held.shelf.bench(body.book)
    build_from(body.text.encode("utf-8"), body.name)
    return _json(held.store.builds.keep(body.name, body.book, body.text, who.name))


@router.put("/builds/{build}")
def change_build(request: Request, build: str, body: Change) -> Json:
    """Change a kept build; refused when it has changed since the version that was read."""
    who, held = worker(request), workbench(request)
    build_from(body.text.encode("utf-8"), build)
    return _json(held.store.builds.change(build, body.version, body.text, who.name))


@router.get("/tokens")
def list_tokens(request: Request) -> Json:
    """List your tokens, without their secrets."""
    held, person = workbench(request), _person(request)
    return {
        "tokens": [
            {"name": each.name, "scopes": sorted(each.scopes), "issued": each.issued.isoformat()}
            for each in held.store.tokens.of(person)
        ]
    }


@router.post("/tokens", status_code=201)
def issue_token(request: Request, body: NewToken) -> Json:
    """Issue a token for a program of yours; its secret is shown this once."""
    held, person = workbench(request), _person(request)
    return {
        "name": body.name,
        "secret": held.store.tokens.issue(person, body.name, body.scopes),
    }


@router.delete("/tokens/{name}", status_code=204)
def revoke_token(request: Request, name: str) -> None:
    """Revoke one of your tokens."""
    workbench(request).store.tokens.revoke(_person(request), name)


def _person(request: Request) -> Person:
    """Return the person who signed in; tokens belong to people.

    Raises:
        SignInFirst: when nobody is signed in where everybody has to.
        Problems: kind ``no-person``, on a machine where nobody has to sign in.
    """
    who = reader(request)
    if who.person is None:
        hint = "Nobody signs in here, so programs need no token."
        raise problem("no-person", "A token belongs to a person.", None, hint)
    return who.person


def _json(kept: Kept) -> Json:
    return {**asdict(kept), "changed": kept.changed.isoformat()}
