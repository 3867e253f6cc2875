"""Builds, ready-made models, orders and needs under two versions."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from pathlib import Path

from baywright.answers.as_json import Json
from baywright.answers.wording import Sheet
from baywright.desk.changes.said import Pair, Said
from baywright.desk.changes.watched import Versions, Watched
from baywright.desk.fit.as_json import fitted_json
from baywright.desk.fit.fit import fit
from baywright.desk.fit.request import at_site
from baywright.desk.fit.telling import fit_sheet
from baywright.desk.judging import judge_build, setting_of
from baywright.desk.opening import Opened
from baywright.desk.order.checking import check_file
from baywright.desk.order.telling import order_sheet
from baywright.desk.statements.query import Query
from baywright.desk.telling import judgement_sheet
from baywright.facts.build import Build
from baywright.files.books import read_build, read_need

BUILDS, ORDERS, NEEDS = "builds", "orders", "needs"
"""Folders of a book with what is watched."""


def models(versions: Versions, _: Watched) -> Iterator[Pair]:
    """Yield the ready-made models of the old version."""
    for name in versions.old.opened.book.models:
        build = versions.old.build(Query("", "", build=name))
        before, after = versions.pair(partial(_judged, build))
        yield Pair("model", name, before, after)


def builds(versions: Versions, watched: Watched) -> Iterator[Pair]:
    """Yield builds that lie beside the old version, and further ones."""
    for path in build_files(versions, watched):
        before, after = versions.pair(partial(_judged, read_build(path)))
        yield Pair("build", path.stem, before, after)


def build_files(versions: Versions, watched: Watched) -> list[Path]:
    """Return the build files that are watched."""
    return [*_beside(versions, BUILDS), *watched.builds]


def orders(versions: Versions, watched: Watched) -> Iterator[Pair]:
    """Yield lists of parts that lie beside the old version, and further ones."""
    for path in (*_beside(versions, ORDERS, "*"), *watched.orders):
        before, after = versions.pair(partial(_ordered, path))
        yield Pair("order", path.name, before, after)


def needs(versions: Versions, watched: Watched) -> Iterator[Pair]:
    """Yield the needs that were named, with the proposals for each."""
    for path in watched.needs:
        before, after = versions.pair(partial(_proposed, path))
        yield Pair("need", path.stem, before, after)


def _beside(versions: Versions, folder: str, pattern: str = "*.yaml") -> list[Path]:
    """Return the files in a folder of the old version."""
    return sorted((versions.old.opened.folder / folder).glob(pattern))


def at_site_of(build: Build, opened: Opened) -> Opened:
    """Return an open book as it is where a build stands."""
    return opened.at(setting_of(build, opened.setting))


def _judged(build: Build, opened: Opened) -> Said:
    here = at_site_of(build, opened)
    sheet = judgement_sheet(here, judge_build(here, build))
    return Said(_outcome(sheet), _in_words(sheet))


def _ordered(path: Path, opened: Opened) -> Said:
    sheet = order_sheet(check_file(opened, path))
    return Said(_outcome(sheet), _in_words(sheet))


def _proposed(path: Path, opened: Opened) -> Said:
    need = read_need(path)
    here = at_site(opened, need)
    found = fit(here, need)
    words = f"{need.name.known}: {_in_words(fit_sheet(here, found))}"
    return Said(_proposals(fitted_json(here, found)), words)


def _outcome(sheet: Sheet) -> Json:
    """Return what of a judgement is compared: the verdict, its numbers, how near others come.

    Of several builds as near as each other, which is shown says nothing.
    """
    nearest = [len(near.turns) for near in sheet.nearest]
    return {"is": sheet.kind, "says": sheet.sentence, "nearest": nearest}


def _in_words(sheet: Sheet) -> str:
    nearest = ("; ".join(map(str, near.turns)) for near in sheet.nearest)
    numbered = (f"({number}) {each}" for number, each in enumerate(nearest, 1))
    near = f" Nearest: {' '.join(numbered)}." if sheet.nearest else ""
    return f"{sheet.word}. {sheet.sentence}{near}"


def _proposals(found: Json) -> list[Json]:
    """Return what of fitted needs is compared: no times and no counts of what was gone through."""
    return [
        {
            "met": outcome["met"],
            "proposals": [
                {"best_in": each["best_in"], "total": each["total"], "build": each["build"]}
                for each in outcome.get("proposals", ())
            ],
        }
        for outcome in found["outcomes"]
    ]
