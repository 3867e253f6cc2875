"""The command walk: the walkthrough of a machine as script, captions, cards and drawings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict, dataclass
from pathlib import Path

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from baywright.cli.guarding import ANSWERED, guarded
from baywright.cli.output import progress, show, show_json
from baywright.desk.request import Request, opened
from baywright.desk.walk.asked import audience_of, stance_asked
from baywright.desk.walk.folder import walk_files
from baywright.desk.walk.pace import pace_of
from baywright.desk.walk.planning import walk
from baywright.desk.walk.script import script_of
from baywright.desk.walk.walk import Asked
from baywright.files.books import read_build
from baywright.files.folders import write_files
from baywright.papers.script import Script, clock

__all__ = ["Request", "Wanted", "show_walk"]


USUAL_MINUTES = 12.0
"""How long a walkthrough is at most where no minutes are asked for."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """How a walkthrough is wanted, as typed.

    Args:
        minutes: how long it takes; up to ``USUAL_MINUTES``, if there is as much, unless given.
        audience: who listens.
        rate: words a minute.
        orientation: how the machine stands, by id; as the build says unless given.
        out: folder to write to, or ``None`` for the terminal.
    """

    minutes: float | None
    audience: str
    rate: float
    orientation: str
    out: Path | None


@guarded
def show_walk(
    book: str, path: Path | None, request: Request, wanted: Wanted, *, as_json: bool
) -> int:
    """Plan a walkthrough; write its files where a folder is given."""
    with progress(f"Planning a walkthrough of {book}", as_json=as_json):
        open_book = opened(book, request)
        build = read_build(path) if path is not None else None
        asked = Asked(
            wanted.minutes if wanted.minutes is not None else USUAL_MINUTES,
            audience_of(wanted.audience),
            pace_of(wanted.rate),
            stance_asked(open_book, build, wanted.orientation),
            at_most=wanted.minutes is None,
        )
        script = script_of(walk(open_book, build, asked))
        if wanted.out is not None:
            write_files(walk_files(script), wanted.out)
    if as_json:
        show_json(asdict(script))
    else:
        show(_shown(script, wanted.out))
    return ANSWERED


def _shown(script: Script, out: Path | None) -> Iterator[RenderableType]:
    for name, said in script.head:
        yield Text.assemble((name, "bold"), " ", said)
    table = Table("from", "to", "station", "side", "off", "sentences", box=None, header_style="dim")
    for part in script.parts:
        table.add_row(
            clock(part.start), clock(part.end), part.title, part.side,
            ", ".join(part.covers) or "nothing", str(len(part.spoken)),
        )  # fmt: skip
    yield table
    if out is None:
        yield "Give a folder with --out for script, captions, cards and drawings."
    else:
        yield f"Written to {out}."
