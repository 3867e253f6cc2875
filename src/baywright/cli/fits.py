"""The command fit: from a need to proposals, or why there is none."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

from rich.console import RenderableType

from baywright.cli.guarding import ANSWERED, guarded
from baywright.cli.output import progress, show, show_json
from baywright.cli.sheets import caution, sheet
from baywright.desk.fit.as_json import fitted_json
from baywright.desk.fit.request import fitted
from baywright.desk.fit.telling import fit_cautions, fit_sheet
from baywright.desk.request import Request
from baywright.facts.cautions import Caution

__all__ = ["Request", "fit"]


@guarded
def fit(book: str, need: Path, request: Request, *, as_json: bool) -> int:
    """Fit a need."""
    with progress(f"Fitting {need}", as_json=as_json):
        held, found = fitted(book, need, request)
    if as_json:
        show_json(fitted_json(held, found))
    else:
        show((*_cautions(fit_cautions(found)), *sheet(fit_sheet(held, found))))
    return ANSWERED


def _cautions(cautions: Iterable[Caution]) -> Iterator[RenderableType]:
    for each in cautions:
        yield from caution(each)
        yield ""
