"""The command compare: two builds, two books, or a build with its like in another book."""

from __future__ import annotations

from baywright.cli.guarding import ANSWERED, guarded
from baywright.cli.output import progress, show, show_json
from baywright.cli.sheets import sheet
from baywright.desk.compare.asking import Asked, compared
from baywright.desk.compare.telling import compared_json, compared_sheet
from baywright.desk.request import Request

__all__ = ["Asked", "Request", "compare"]


@guarded
def compare(book: str, asked: Asked, request: Request, *, as_json: bool) -> int:
    """Compare what is asked for."""
    with progress(f"Comparing {book}", as_json=as_json):
        found = compared(book, asked, request)
    if as_json:
        show_json(compared_json(found))
    else:
        show(sheet(compared_sheet(found)))
    return ANSWERED
