"""The command parts: the parts list of a build, shown or written."""

from __future__ import annotations

from pathlib import Path

from rich.text import Text

from baywright.answers.verdicts import Yes
from baywright.cli.guarding import code_of, guarded
from baywright.cli.output import progress, show, show_json
from baywright.cli.sheets import sheet
from baywright.desk.parts_list import PartsList, parts_json, parts_list, parts_sheet, table_of
from baywright.desk.request import Request
from baywright.exchange.lists.sheets import write_table

__all__ = ["Request", "parts"]


@guarded
def parts(book: str, build: Path, out: Path | None, request: Request, *, as_json: bool) -> int:
    """List the parts of a build."""
    with progress(f"Listing {build}", as_json=as_json):
        found = parts_list(book, build, request)
    written = out is not None and isinstance(found.verdict, Yes)
    if out is not None and written:
        write_table(table_of(found), out)
    if as_json:
        show_json({**parts_json(found), "written": str(out) if written else None})
    else:
        show(sheet(parts_sheet(found)))
        _say_where(found, out)
    return code_of(found.verdict)


def _say_where(found: PartsList, out: Path | None) -> None:
    if out is not None:
        written = isinstance(found.verdict, Yes)
        show([Text(f"Written to {out}." if written else f"Nothing was written to {out}.")])
