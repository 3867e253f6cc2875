"""The command changes: what flips when a book becomes another."""

from __future__ import annotations

from baywright.cli.guarding import ANSWERED, guarded
from baywright.cli.output import progress, show, show_json
from baywright.cli.sheets import sheet
from baywright.desk.changes.as_json import changes_json
from baywright.desk.changes.changing import Changes, changes
from baywright.desk.changes.telling import changes_sheet
from baywright.desk.changes.versions import change, every_note, notes_to_carry_out
from baywright.desk.changes.watched import Watched
from baywright.desk.request import Request

__all__ = ["Request", "Watched", "all_notes", "changed"]


@guarded
def changed(
    old: str, new: str, request: Request, until: str, watched: Watched, *, as_json: bool
) -> int:
    """Compare two versions, or carry out each change note beside a book in turn."""
    notes = [new] if new or until else notes_to_carry_out(old)
    _tell([(old, note) for note in notes], request, until, watched, as_json=as_json)
    return ANSWERED


@guarded
def all_notes(request: Request, *, as_json: bool) -> int:
    """Carry out every change note beside every bundled book, each alone."""
    _tell(every_note(), request, "", Watched(), as_json=as_json)
    return ANSWERED


def _tell(
    wanted: list[tuple[str, str]], request: Request, until: str, watched: Watched, *, as_json: bool
) -> None:
    found: list[Changes] = []
    for old, new in wanted:
        with (
            progress(f"Comparing {old} with {new or until}", as_json=as_json),
            change(old, new, request, until) as asked,
        ):
            found.append(changes(asked.old, asked.new, watched, asked.title, asked.says))
    if as_json:
        show_json([changes_json(each) for each in found])
    for each in () if as_json else found:
        show(sheet(changes_sheet(each)))
