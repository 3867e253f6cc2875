"""The command draw: views of a machine as SVG, PNG or PDF."""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path

from baywright.cli.guarding import ANSWERED, guarded
from baywright.cli.output import progress, show_json
from baywright.desk.drawing import VIEW_NAMES, Wanted, draw, drawing_json, picture
from baywright.desk.request import Request, opened
from baywright.files.books import read_build
from baywright.files.folders import write_files
from baywright.problems import Problems, problem

__all__ = ["Output", "Request", "Wanted", "draw_views"]

FORMS = ("svg", "png", "dark.png", "pdf")


@dataclass(frozen=True, slots=True)
class Output:
    """Where drawings go.

    Args:
        views: names of views; all of them when there are none.
        out: a file for one view, a folder for several, or ``None`` for standard output.
        form: form of files in a folder.
    """

    views: tuple[str, ...]
    out: Path | None
    form: str = "svg"


@guarded
def draw_views(
    book: str, path: Path | None, request: Request, wanted: Wanted, output: Output, *, as_json: bool
) -> int:
    """Draw a book, with a build or with nothing decided."""
    views = output.views or VIEW_NAMES
    form = _form(output)
    if not as_json and output.out is None and len(views) > 1:
        raise _no_folder(len(views))
    with progress(f"Drawing {book}", as_json=as_json):
        build = read_build(path) if path is not None else None
        open_book = opened(book, request)
        svgs = {view: draw(open_book, build, view, wanted) for view in views}
        pictures = {view: picture(svg, form) for view, svg in svgs.items()}
    if output.out is not None:
        write_files(*_files(output.out, pictures, form))
    if as_json:
        show_json({"drawings": [drawing_json(view, svg) for view, svg in svgs.items()]})
    elif output.out is None:
        sys.stdout.write(svgs[views[0]])
    return ANSWERED


def _form(output: Output) -> str:
    """Return the form: as the name of the file ends, or else as it was asked for."""
    if output.out is not None and output.out.suffix:
        for form in sorted(FORMS, key=len, reverse=True):
            if output.out.name.endswith(f".{form}"):
                return form
        message = f"{output.out}: drawings are not written in that form."
        raise problem("no-form", message, None, f"Let the name end in {', '.join(FORMS)}.")
    return output.form if output.out is not None else "svg"


def _files(
    out: Path, pictures: dict[str, str | bytes], form: str
) -> tuple[dict[str, str | bytes], Path]:
    if not out.suffix:
        return {f"{view}.{form}": each for view, each in pictures.items()}, out
    if len(pictures) > 1:
        raise _no_folder(len(pictures))
    return {out.name: next(iter(pictures.values()))}, out.parent


def _no_folder(number: int) -> Problems:
    message = f"{number} views do not go into one file."
    return problem("one-file", message, None, "Give a folder with --out, or one view with --view.")
