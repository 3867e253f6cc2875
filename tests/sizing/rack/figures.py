"""Figures and limits of rack and room by key, and cases for their tests."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np

from baywright.facts.build import Build
from baywright.facts.site import Site
from baywright.sizing.case import Case
from baywright.sizing.figure import Figure, Limit
from baywright.sizing.rack.sheet import sheet
from tests.sizing.cases import build_of, case_of


def figures_of(case: Case) -> dict[str, Figure]:
    """Return every figure, those of limits included, without the name of the part."""
    found = sheet(case)
    every = (*found.figures, *(limit.figure for limit in found.limits))
    return {figure.key.removeprefix("rack."): figure for figure in every}


def limits_of(case: Case) -> dict[str, Limit]:
    """Return every limit by the key of its figure, without the name of the part."""
    return {limit.figure.key.removeprefix("rack."): limit for limit in sheet(case).limits}


def value(case: Case, key: str) -> float:
    """Return the number of the first build."""
    return figures_of(case)[key].value


def at(book: str, name: str, **site: Any) -> Case:
    """Return a case of a build file, with sections of its site as written in a file."""
    build = build_of(book, name)
    stated = {field: getattr(build.site, field) for field in build.site.model_fields_set}
    return case_of(book, build.model_copy(update={"site": Site.model_validate(stated | site)}))


def changed(book: str, name: str, **places: str) -> Build:
    """Return a build file with something else in some places."""
    build = build_of(book, name)
    other = Build.model_validate({"book": book, "name": "", "places": places})
    return build.model_copy(update={"places": build.places | other.places})


def mixed(case: Case, count: int, seed: int) -> Case:
    """Return as many builds, legal or not, drawn from all values of every choice."""
    rng = np.random.default_rng(seed)
    frame = case.frame
    codes = {name: rng.integers(0, len(frame.options(name)), count) for name in case.codes}
    return replace(case, codes=codes)
