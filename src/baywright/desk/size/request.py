"""The site a build is sized for, as people give it: in the build, in a file, and by hand."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from baywright.desk.judging import setting_of
from baywright.desk.opening import Opened, open_book
from baywright.desk.request import Request
from baywright.desk.size.sized import Sized, size
from baywright.facts.build import Build
from baywright.facts.site import Site
from baywright.files.books import Texts, read_build, read_site, site_from
from baywright.problems import problem


@dataclass(frozen=True, slots=True)
class SiteRequest:
    """What is said of the site beside the build; later fields go before earlier ones.

    Args:
        file: a site file, or ``None``.
        volts: voltage of the feeds with its unit, or empty.
        feeds: rating of a feed and the share of it that may run without end, such as
            ``A=32 A, 80 %``, one text for each.
    """

    file: Path | None = None
    volts: str = ""
    feeds: tuple[str, ...] = field(default=())


def sized(book: str, path: Path, request: Request, asked: SiteRequest) -> tuple[Opened, Sized]:
    """Size a build file at the site that is asked for.

    Raises:
        Problems: for the request, the site, the build or the book.
    """
    opened, standing, site = at_site(book, path, request, asked)
    return opened, size(opened, standing, site)


def at_site(
    book: str, path: Path, request: Request, asked: SiteRequest
) -> tuple[Opened, Build, Site]:
    """Open a book for a build file at the site that is asked for.

    Raises:
        Problems: for the request, the site, the build or the book.
    """
    return build_at_site(book, read_build(path), request, asked)


def build_at_site(
    book: str, build: Build, request: Request, asked: SiteRequest
) -> tuple[Opened, Build, Site]:
    """Open a book for a build at the site that is asked for; otherwise like ``at_site``."""
    site = _joined(build.site, read_site(asked.file) if asked.file else Site())
    site = _joined(site, site_from(_by_hand(request, asked)))
    standing = build.model_copy(update={"site": site})
    setting = setting_of(standing, replace(request, altitude="", inlet="").setting())
    return open_book(book, setting, request.panel()), standing, site


def _joined(site: Site, other: Site) -> Site:
    """Return a site with whatever another says of it put in its place."""
    said = {name: getattr(other, name) for name in other.model_fields_set}
    return site.model_copy(update=said)


def _by_hand(request: Request, asked: SiteRequest) -> Mapping[str, Texts]:
    said = {"voltage": asked.volts, "altitude": request.altitude, "inlet": request.inlet}
    given: dict[str, Texts] = {name: text for name, text in said.items() if text}
    if asked.feeds:
        given["feeds"] = dict(_feed(text) for text in asked.feeds)
    return given


def _feed(text: str) -> tuple[str, Mapping[str, str]]:
    name, _, rating = text.partition("=")
    current, comma, share = rating.partition(",")
    if not (name.strip() and current.strip()):
        hint = "Write its name, its rating and what may run without end, such as 'A=32 A, 80 %'."
        raise problem("not-a-feed", f"feed: {text!r} is not a feed.", None, hint)
    said = {"current": current.strip()}
    return name.strip(), said | ({"continuous": share.strip()} if comma else {})
