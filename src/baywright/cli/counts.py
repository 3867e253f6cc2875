"""What the commands do that count the builds of a book."""

from __future__ import annotations

from collections.abc import Iterator

from rich.console import RenderableType
from rich.text import Text

from baywright.cli.guarding import ANSWERED, guarded
from baywright.cli.output import progress, show, show_json
from baywright.cli.sheets import columns, sheet
from baywright.desk import count_telling as telling
from baywright.desk import counting
from baywright.desk.request import Request, opened
from baywright.desk.space_telling import proof_words


@guarded
def builds(book: str, given: str, request: Request, *, as_json: bool) -> int:
    """Count the legal builds of a book."""
    with progress(f"Counting {book}", as_json=as_json):
        found = counting.builds(opened(book, request), given)
    if as_json:
        show_json(telling.builds_json(found))
    else:
        show(sheet(telling.builds_sheet(found)))
    return ANSWERED


@guarded
def shares(book: str, given: str, request: Request, *, as_json: bool) -> int:
    """Show what share of the legal builds of a book has each option."""
    with progress(f"Counting {book}", as_json=as_json):
        found = counting.shares(opened(book, request), given)
    if as_json:
        show_json(telling.shares_json(found))
    else:
        show(_shares(found))
    return ANSWERED


def _shares(found: counting.BookShares) -> Iterator[RenderableType]:
    for each in found.choices:
        yield Text(f"{each.choice}  {each.name}" if each.choice != each.name else each.choice)
        yield columns(
            (Text(f"  {label}"), Text(telling.percent(number, found.total)), Text(f"{number:,}"))
            for label, number in each.values
        )
    yield ""
    yield Text(f"{found.total:,} legal builds. {telling.APART}")
    for path, value in found.supposed.items():
        yield Text(f"{path} is not known; counted as if it were {value}.")
    yield Text(proof_words(found.proof), style="dim")
