"""Work: builds judged and sized, needs fitted, drafts proofread, steps on the bench."""

from __future__ import annotations

import tempfile
from dataclasses import asdict
from pathlib import Path

from fastapi import APIRouter, Request

from baywright.answers.as_json import Json
from baywright.desk.as_json import judgement_json
from baywright.desk.bench.bench import Bench
from baywright.desk.bench.completing import numbers_left
from baywright.desk.bench.limits import gauges
from baywright.desk.bench.standing import Standing, stand
from baywright.desk.bench.steps import read_steps
from baywright.desk.drafts.as_json import proofread_json
from baywright.desk.drafts.checking import proofread_file
from baywright.desk.fit.as_json import fitted_json
from baywright.desk.fit.fit import fit
from baywright.desk.fit.request import at_site
from baywright.desk.judging import judge_build
from baywright.desk.size.as_json import sized_json
from baywright.desk.size.sized import size
from baywright.files.books import build_from, need_from, site_from
from baywright.web.access import reader
from baywright.web.api.bodies import Steps, Text, opened_for
from baywright.web.pages.need import PATIENCE
from baywright.web.workbench import workbench

router = APIRouter(prefix="/api/books", tags=["work"])


@router.post("/{book}/judge")
def judge(request: Request, book: str, body: Text) -> Json:
    """Judge a build."""
    build = build_from(body.text.encode("utf-8"), "build")
    return judgement_json(judge_build(opened_for(request, book), build))


@router.post("/{book}/size")
def size_build(request: Request, book: str, body: Text) -> Json:
    """Size a build at its site, or at a voltage that is given."""
    build = build_from(body.text.encode("utf-8"), "build")
    site = site_from({"voltage": body.volts}) if body.volts else build.site
    return sized_json(size(opened_for(request, book), build, site))


@router.post("/{book}/fit")
def fit_need(request: Request, book: str, body: Text) -> Json:
    """Propose builds for a need."""
    need = need_from(body.text.encode("utf-8"), "need")
    opened = at_site(opened_for(request, book), need)
    return fitted_json(opened, fit(opened, need, PATIENCE))


@router.post("/{book}/proofread")
def proofread(request: Request, book: str, body: Text) -> Json:
    """Proofread a text in Markdown."""
    opened = opened_for(request, book)
    with tempfile.TemporaryDirectory(prefix="draft-") as folder:
        path = Path(folder) / "draft.md"
        path.write_text(body.text, encoding="utf-8")
        return proofread_json(proofread_file(opened, path))


@router.post("/{book}/bench")
def bench(request: Request, book: str, body: Steps) -> Json:
    """Follow steps on the bench: what each place is, what is left of it, and the limits."""
    reader(request)
    held = workbench(request).shelf.under(book, body.given)
    standing = stand(held, read_steps(held.machine, body.steps), body.pins)
    return {
        "book": book,
        "complete": standing.complete,
        "builds_left": list(numbers_left(held, standing)),
        "refused": [str(each.step) for each in standing.refused],
        "places": [asdict(place) for place in standing.places],
        "options": _options(held, standing),
        "limits": [gauge.sentence for gauge in gauges(held, standing)],
        "answered_by": standing.answered_by,
    }


def _options(held: Bench, standing: Standing) -> Json:
    """Return the labels that each choice can still have."""
    return {
        name: [fitting.options[value].label for value in sorted(standing.options[name])]
        for name, fitting in held.machine.frame.fittings.items()
        if not fitting.derived
    }
