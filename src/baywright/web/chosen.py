"""The build that a page is about: one that lies beside the book, or one that is kept."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from fastapi import Request

from baywright.desk.opening import Opened
from baywright.desk.request import Request as Asked
from baywright.desk.size.request import SiteRequest, build_at_site
from baywright.facts.build import Build
from baywright.facts.site import Site
from baywright.files.books import build_from
from baywright.problems import problem, suggestion
from baywright.web.addresses import Address
from baywright.web.workbench import workbench

BUILD, VOLTS = "build", "volts"
"""Fields of an address that say which build, and at which voltage."""

KEPT = "kept:"
"""Begins the name of a build that is kept in the store."""


@dataclass(frozen=True, slots=True)
class Written:
    """A build as it can be picked.

    Args:
        name: what it is called in an address.
        title: what it is called on a page.
        text: its file.
    """

    name: str
    title: str
    text: str


@dataclass(frozen=True, slots=True)
class Chosen:
    """A build on a page.

    Args:
        written: the build as it was picked.
        opened: the book, open for its site.
        build: the build at its site.
        site: the site that counts.
        known: the builds that can be picked.
    """

    written: Written
    opened: Opened
    build: Build
    site: Site
    known: tuple[Written, ...]


def chosen(request: Request, book: str, address: Address) -> Chosen | None:
    """Return the build that an address names, the first unless named, or ``None`` if none is.

    Raises:
        Problems: for a build that there is not, and what is wrong with it or its site.
    """
    known = tuple(builds_of(request, book))
    name = address.one(BUILD) or (known[0].name if known else "")
    found = {each.name: each for each in known}
    if not name:
        return None
    if name not in found:
        message = f"The book {book} has no build {name!r}."
        raise problem("no-such-build", message, None, suggestion(name, found))
    written = found[name]
    opened, build, site = at_site(request, book, written.text, address.one(VOLTS))
    return Chosen(written, opened, build, site, known)


def at_site(request: Request, book: str, text: str, volts: str = "") -> tuple[Opened, Build, Site]:
    """Return a book open for a build where it stands, the build there, and its site.

    Raises:
        Problems: for the book, the build or the site.
    """
    folder = workbench(request).shelf.bench(book).opened.folder
    build = build_from(text.encode("utf-8"), "build")
    return build_at_site(str(folder), build, Asked(), SiteRequest(volts=volts))


def builds_of(request: Request, book: str) -> Iterator[Written]:
    """Yield the builds beside a book, then those of it that are kept."""
    held = workbench(request)
    folder = held.shelf.bench(book).opened.folder / "builds"
    for file in sorted(folder.glob("*.yaml")) if folder.is_dir() else ():
        yield Written(file.stem, f"{_title(file)} ({file.stem})", _read(file))
    for kept in held.store.builds.of(None):
        if kept.book == book:
            yield Written(f"{KEPT}{kept.id}", f"{kept.name}, {kept.version}", kept.text)


def _title(file: Path) -> str:
    return str(build_from(file.read_bytes(), file.name).name.known)


def _read(file: Path) -> str:
    return file.read_text(encoding="utf-8")
