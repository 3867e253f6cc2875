"""The command upgrade: a machine that stands, what it is to become, and the steps in between."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from rich.console import RenderableType
from rich.padding import Padding
from rich.text import Text

from baywright.cli.guarding import ANSWERED, guarded
from baywright.cli.output import progress, show, show_json
from baywright.cli.sheets import caution, heading, sheet, table
from baywright.desk.request import Request
from baywright.desk.upgrade.as_json import upgrade_json
from baywright.desk.upgrade.telling import Part, StepSheet, UpgradeSheet, upgrade_sheet
from baywright.desk.upgrade.upgrading import upgraded
from baywright.facts.cautions import Caution

__all__ = ["Request", "upgrade"]


@guarded
def upgrade(
    book: str,
    start: Path,
    need: Path,
    others: Sequence[str],
    request: Request,
    *,
    as_json: bool,
) -> int:
    """Upgrade a machine."""
    with progress(f"Upgrading {start}", as_json=as_json):
        opened, found = upgraded(book, start, need, request, others)
    if as_json:
        show_json(upgrade_json(found))
    else:
        show(_sheet(upgrade_sheet(opened, found)))
    return ANSWERED


def _sheet(told: UpgradeSheet) -> Iterator[RenderableType]:
    yield Text(told.title, style="bold")
    for refusal in told.refusal:
        yield from sheet(refusal)
    yield from _cautions(told.cautions)
    if told.paths is not None:
        yield ""
        yield table(told.paths)
    for part in told.parts:
        yield from _part(part)
    yield ""
    yield Text(told.standing, style="dim")
    yield Text(told.aid)


def _part(part: Part) -> Iterator[RenderableType]:
    yield from heading(part.title)
    for sentence in part.sentences:
        yield Text(sentence)
    for rows in part.tables:
        yield ""
        yield table(rows)
    for step in part.steps:
        yield from _step(step)
    if part.foot:
        yield ""
        yield Text(part.foot, style="dim")


def _step(step: StepSheet) -> Iterator[RenderableType]:
    yield from heading(f"Step {step.number} ({step.power})")
    yield from (Padding(each, (0, 0, 0, 2)) for each in _cautions(step.cautions))
    if step.again:
        said = f"\N{WHITE UP-POINTING TRIANGLE} As before: {', '.join(step.again)}."
        yield Padding(Text(said), (0, 0, 0, 2))
    for act in step.acts:
        yield Padding(Text(act), (0, 0, 0, 2))
    for detail in step.details:
        yield Padding(Text(detail, style="dim"), (0, 0, 0, 2))


def _cautions(cautions: Iterable[Caution]) -> Iterator[RenderableType]:
    for each in cautions:
        yield from caution(each, indent=0)
