"""The command order: a list of parts against a book."""

from __future__ import annotations

from pathlib import Path

from baywright.cli.guarding import code_of, guarded
from baywright.cli.output import progress, show, show_json
from baywright.cli.sheets import sheet
from baywright.desk.order.as_json import order_json
from baywright.desk.order.checking import check_file
from baywright.desk.order.telling import order_sheet
from baywright.desk.request import Request, opened

__all__ = ["Request", "order"]


@guarded
def order(book: str, path: Path, given: str, request: Request, *, as_json: bool) -> int:
    """Check an order."""
    with progress(f"Checking {path}", as_json=as_json):
        found = check_file(opened(book, request), path, given)
    if as_json:
        show_json(order_json(found))
    else:
        show(sheet(order_sheet(found)))
    return code_of(found.verdict)
