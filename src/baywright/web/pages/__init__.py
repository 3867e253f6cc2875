"""The pages, in the order of the navigation. A new page is a module, a template and a line here."""

from __future__ import annotations

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
from baywright.web.registry import Page

PAGES: tuple[Page, ...] = (
    Page(books.router, "books", of_book=False),
    Page(bench.router, "bench"),
    Page(bench_beside.router),
    Page(keeping.router),
    Page(ask.router, "ask"),
    Page(proofread.router, "proofread"),
    Page(need.router, "need"),
    Page(facts.router, "facts"),
    Page(signing_in.router),
)
