"""The pages, one module each. A new page is a module and a line here."""

from __future__ import annotations

from fastapi import APIRouter

from baywright.web.pages import (
    ask,
    bench,
    bench_beside,
    books,
    facts,
    keeping,
    need,
    proofread,
    signing_in,
)

ROUTERS: tuple[APIRouter, ...] = (
    books.router,
    bench.router,
    bench_beside.router,
    keeping.router,
    ask.router,
    proofread.router,
    need.router,
    facts.router,
    signing_in.router,
)
