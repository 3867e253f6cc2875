"""The pages, in the order of the navigation. A new page is a module, a template and a line here."""

from __future__ import annotations

from baywright.web.pages import (
    ask,
    bench,
    bench_beside,
    books,
    changes,
    facts,
    faults,
    keeping,
    kept,
    losses,
    need,
    papers,
    proofread,
    service,
    signing_in,
    spares,
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
    Page(papers.router, "papers"),
    Page(service.router, "service"),
    Page(faults.router),
    Page(losses.router),
    Page(spares.router),
    Page(changes.router, "changes"),
    Page(kept.router),
    Page(facts.router, "facts"),
    Page(signing_in.router),
)
