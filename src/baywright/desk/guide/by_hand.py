"""Numbers typed by hand in a template: each of them is a query that was not asked."""

from __future__ import annotations

import re
from collections.abc import Iterator

from baywright.desk.guide.notation import Template
from baywright.problems import Mark, Problem

_CALLS = re.compile(r"\{\{.*?\}\}|\{%.*?%\}|\{#.*?#\}", re.DOTALL)
_WORDS = (
    "two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|"
    "seventeen|eighteen|nineteen|twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|hundred|"
    "thousand|dozen|twice|thrice|half|third|quarter|double|triple"
)
_NUMBER = re.compile(rf"\d[\d.,]*|\b(?:{_WORDS})\b(?![-\w])", re.IGNORECASE)
_ORDER = re.compile(r"^\s*\d+[.)]\s", re.MULTILINE)


def typed_numbers(template: Template) -> Iterator[Problem]:
    """Yield a problem for each number of a template that no query gave.

    Numbers of the items of a list are none: they count the items.
    """
    bare = _ORDER.sub(_blanked, _CALLS.sub(_blanked, template.text))
    for match in _NUMBER.finditer(bare):
        before = bare[: match.start()]
        mark = Mark(template.file, before.count("\n") + 1, match.start() - before.rfind("\n"))
        message = f"{match[0]!r} is typed by hand, so nobody proves it and no change reaches it."
        hint = 'Ask for it, such as {{ fact("...") }} or {{ most("...") }}.'
        yield Problem("typed-number", message, mark, hint)


def _blanked(match: re.Match[str]) -> str:
    """Return blanks in place of a text, so that lines and columns stay."""
    return re.sub(r"[^\n]", " ", match[0])
