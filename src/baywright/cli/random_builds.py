"""What the command does that draws random builds of a book."""

from __future__ import annotations

from baywright.cli.guarding import ANSWERED, guarded
from baywright.cli.output import progress, show, show_json
from baywright.cli.sheets import sheet
from baywright.desk.random_builds import (
    Draw,
    random_builds,
    random_builds_json,
    random_builds_sheet,
)
from baywright.desk.request import Request, opened


@guarded
def draw(book: str, number: int, seed: int, given: str, request: Request, *, as_json: bool) -> int:
    """Draw legal builds of a book, each as likely as any other."""
    with progress(f"Drawing from {book}", as_json=as_json):
        held = opened(book, request)
        found = random_builds(held, Draw(number, seed, given))
    if as_json:
        show_json(random_builds_json(found))
    else:
        show(sheet(random_builds_sheet(held, found)))
    return ANSWERED
