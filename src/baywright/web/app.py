"""The app: settings in, a workbench out."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from fastapi import FastAPI, Response
from fastapi.staticfiles import StaticFiles

from baywright import __version__
from baywright.desk.bench.picture import drawing_css
from baywright.store import Store, open_store
from baywright.web.api import ROUTERS as API
from baywright.web.guarding import guard
from baywright.web.pages import PAGES
from baywright.web.registry import navigation
from baywright.web.rendering import STATIC
from baywright.web.settings import Settings
from baywright.web.shelf import Shelf
from baywright.web.telling import tell
from baywright.web.workbench import Workbench


def create_app(settings: Settings | None = None, store: Store | None = None) -> FastAPI:
    """Return the workbench.

    Args:
        settings: how it runs; on loopback, without accounts, unless given.
        store: what people keep; opened by the settings unless given.

    Raises:
        Problems: when the store cannot be used.
        StoreUnavailable: when it cannot be opened now.
    """
    held = settings or Settings()
    kept = store or open_store(held.database)

    @asynccontextmanager
    async def living(app: FastAPI) -> AsyncIterator[None]:
        yield
        kept.close()

    app = FastAPI(
        title="baywright",
        version=__version__,
        summary="Questions about machines, answered from their books.",
        docs_url=None,
        redoc_url=None,
        openapi_url="/api/openapi.json",
        lifespan=living,
    )
    app.state.workbench = Workbench(held, Shelf(held.books), kept, navigation(PAGES))
    tell(app)
    guard(app)
    app.add_api_route("/static/drawing.css", _drawing_css, include_in_schema=False)
    app.mount("/static", StaticFiles(directory=STATIC), name="static")
    for router in (*(each.router for each in PAGES), *API):
        app.include_router(router)
    return app


def _drawing_css() -> Response:
    return Response(drawing_css(), media_type="text/css")
