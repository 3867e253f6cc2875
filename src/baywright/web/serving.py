"""Serving: the workbench listens at an address until it is stopped."""

from __future__ import annotations

from collections.abc import Callable

import uvicorn

from baywright.problems import problem
from baywright.store import open_store
from baywright.web.app import create_app
from baywright.web.rendering import has_assets
from baywright.web.settings import Settings, is_loopback

MOST_OPEN = 400
"""Connections at a time; further ones are told to come again."""


def serve(settings: Settings, say: Callable[[str], None]) -> None:
    """Serve the workbench until it is stopped.

    Args:
        settings: how it runs.
        say: tells the person who starts it where it is and what it lacks.

    Raises:
        Problems: for an address that would let everybody in, or when nobody could sign in.
        StoreUnavailable: when the store cannot be opened now.
    """
    if not is_loopback(settings.host) and not settings.must_sign_in:
        message = f"At {settings.host} others can reach the workbench, so people have to sign in."
        raise problem("open-door", message, None, "Leave --accounts as it is, or use 127.0.0.1.")
    store = open_store(settings.database)
    if settings.must_sign_in and not store.people.list():
        store.close()
        hint = "Add somebody first: baywright people add NAME --role work."
        raise problem("nobody", "Nobody could sign in to this workbench.", None, hint)
    say(f"The workbench is at http://{_written(settings.host)}:{settings.port}/ (Ctrl-C stops it).")
    say(f"What is kept lies in {store.place}.")
    if not has_assets():
        say("Fonts and the script are not there, so pages are plainer; 'make assets' fetches them.")
    uvicorn.run(
        create_app(settings, store),
        host=settings.host,
        port=settings.port,
        log_level="warning",
        limit_concurrency=MOST_OPEN,
        timeout_graceful_shutdown=10,
    )


def _written(host: str) -> str:
    """Return an address as it stands in the address of a page."""
    return f"[{host}]" if ":" in host else host
