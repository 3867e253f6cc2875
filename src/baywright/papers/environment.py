"""Templates and how they are filled: HTML is escaped, and a name that is missing is an error."""

from __future__ import annotations

from functools import cache

from jinja2 import Environment, PackageLoader, StrictUndefined, select_autoescape

from baywright.papers.dates import with_dates
from baywright.papers.load_line import load_line


@cache
def environment() -> Environment:
    """Return the templates of all papers."""
    found = Environment(
        loader=PackageLoader("baywright.papers"),
        autoescape=select_autoescape(("html.j2",), default=False),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    found.filters["load_line"] = load_line
    found.filters["with_dates"] = with_dates
    return found
