"""Bundled books and builds as graphs of access, for the tests of plans."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from baywright.desk.opening import Opened, open_book
from baywright.desk.service.access import AccessRequest, circumstances
from baywright.desk.size.sized import case_of
from baywright.facts.build import Build, Fitted, read_fitted
from baywright.files.books import find_book, read_build, site_from
from baywright.service.access.circumstances import Circumstances
from baywright.service.access.graph import Graph
from baywright.service.access.interior import Interior
from baywright.service.access.planning import graph_of
from baywright.service.access.targets import read_targets
from baywright.service.access.tasks import Task, tasks

# Every place of the F2 has something in it: the record office's machine, filled up.
FULL_F2 = {
    "C": "display",
    "R1a": "accel-sw",
    "R3a": "accel-sw",
    "O2": "net-25",
    "K1": "pack",
    "K3": "pack",
    "BOOT": "boot-module",
}
FULL_P1 = {"R1": "card-25"}
FULL = {"f2": FULL_F2, "p1": FULL_P1}


@cache
def opened(book: str) -> Opened:
    return open_book(book)


@cache
def build(book: str, name: str, volts: str = "") -> Build:
    read = read_build(find_book(book) / "builds" / f"{name}.yaml")
    filled = {**read.places, **_fitted(FULL.get(book, {}))}
    site = read.site
    if volts:
        site = site.model_copy(update={"voltage": site_from({"voltage": volts}).voltage})
    return read.model_copy(update={"places": filled, "site": site})


def _fitted(texts: dict[str, str]) -> dict[str, Fitted]:
    return {place: read_fitted(text) for place, text in texts.items()}


def given(book: str, name: str, asked: AccessRequest, volts: str = "") -> Circumstances:
    case = case_of(opened(book).machine, build(book, name, volts))
    return circumstances(case, build(book, name, volts), asked)


def graph(
    book: str, name: str, places: Sequence[str], asked: AccessRequest | None = None, volts: str = ""
) -> tuple[Interior, tuple[Task, ...], Graph]:
    """Return barriers, jobs and the graph of changing some places."""
    asked = asked or AccessRequest(tuple(places))
    interior = Interior(opened(book).machine.book, given(book, name, asked, volts))
    steps = [name for name, each in interior.entrances.items() if each.sort == "step"]
    targets = read_targets(interior.book, interior.given.places, places, asked.doing, steps)
    jobs = tasks(interior, targets, asked.doing)
    return interior, jobs, graph_of(interior, jobs)
