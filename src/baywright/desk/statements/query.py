"""A query: what a statement answers, small enough to be written beside it."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from typing import Any

from baywright.problems import problem


@dataclass(frozen=True, slots=True)
class Query:
    """What a statement answers.

    Args:
        kind: one of the kinds of ``registry.KINDS``, such as ``ask`` or ``fact``.
        text: what is asked, as that kind reads it.
        build: id of a ready-made model, name of a build file of the book, or path of another one;
            empty for none.
        site: the site, such as ``altitude=2300 m; voltage=120 V``; empty for that of the book
            as it was opened.
        as_of: the day in ISO form; empty for that of the book as it was opened.
        book: id of another book that stands beside the one at hand; empty for that one.
    """

    kind: str
    text: str
    build: str = ""
    site: str = ""
    as_of: str = ""
    book: str = ""

    @property
    def day(self) -> datetime.date | None:
        """The day, where one is given.

        Raises:
            Problems: kind ``not-a-date``.
        """
        if not self.as_of:
            return None
        try:
            return datetime.date.fromisoformat(self.as_of)
        except ValueError:
            message = f"{self.as_of!r} is not a day."
            raise problem("not-a-date", message, None, "Write it as 2031-07-01.") from None

    @property
    def site_texts(self) -> dict[str, str]:
        """The site as texts by field.

        Raises:
            Problems: kind ``not-a-site``.
        """
        found = {}
        for part in filter(None, (each.strip() for each in self.site.split(";"))):
            name, equals, text = part.partition("=")
            if not (equals and text.strip()):
                hint = "Write it as 'altitude=2300 m; voltage=120 V'."
                raise problem("not-a-site", f"{part!r} says nothing of a site.", None, hint)
            found[name.strip()] = text.strip()
        return found

    def as_json(self) -> dict[str, str]:
        """Return the query as JSON values; what is empty is left out."""
        return {name: text for name, text in asdict(self).items() if text}

    @classmethod
    def from_json(cls, written: Mapping[str, Any]) -> Query:
        """Return the query that ``as_json`` wrote.

        Raises:
            Problems: kind ``not-a-query``.
        """
        try:
            return cls(**{str(name): str(text) for name, text in written.items()})
        except TypeError as wrong:
            message = f"This is not a query: {wrong}."
            raise problem("not-a-query", message, None, "Write the file again.") from wrong
