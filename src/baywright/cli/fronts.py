"""What the command does that shows a front."""

from __future__ import annotations

from collections.abc import Sequence

from baywright.cli.guarding import ANSWERED, guarded
from baywright.cli.output import progress, show, show_json
from baywright.cli.sheets import sheet
from baywright.desk.fronts import book_front, front_json, front_sheet
from baywright.desk.request import Request, opened


@guarded
def front(book: str, terms: Sequence[str], given: str, request: Request, *, as_json: bool) -> int:
    """Show which builds of a book no other one beats in two numbers."""
    with progress(f"Asking {book}", as_json=as_json):
        held = opened(book, request)
        found = book_front(held, terms, given)
    if as_json:
        show_json(front_json(found))
    else:
        show(sheet(front_sheet(held, found)))
    return ANSWERED
