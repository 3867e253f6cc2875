"""Builds from the bench to a build file and back."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.desk.bench.bench import Bench
from baywright.desk.bench.conditions import FREE, Conditions
from baywright.desk.bench.standing import Standing, build_so_far
from baywright.desk.bench.steps import Step
from baywright.facts.build import Build, Fitted
from baywright.facts.places import Zone
from baywright.facts.references import check_build
from baywright.files.books import build_from, bundled_books, read_build
from baywright.laws.builds import build_wishes
from baywright.problems import Problems


def build_text(bench: Bench, standing: Standing, name: str, given: Conditions = FREE) -> str:
    """Return what is decided as a build file; what is open is left out of it.

    Args:
        bench: the bench.
        standing: where the steps have led.
        name: what the build is called.
        given: site and musts that are kept with it; the day is not part of a build.
    """
    build = build_so_far(bench, standing, name)
    lines = [f"book: {build.book}", f"name: {_quoted(name)}"]
    lines += _block("site", {each: _quoted(text) for each, text in given.site.items()})
    lines += _block("places", dict(_places(bench, build)))
    lines += _block("settings", {each: str(value) for each, value in build.settings.items()})
    lines += ["must:", *(f"  - {_quoted(each)}" for each in given.must)] if given.must else []
    return "\n".join(lines) + "\n"


def _block(title: str, rows: dict[str, str]) -> list[str]:
    return [f"{title}:", *(f"  {name}: {text}" for name, text in rows.items())] if rows else []


def _places(bench: Bench, build: Build) -> Iterator[tuple[str, str]]:
    for name, fitted in build.places.items():
        zone = isinstance(bench.machine.book.places[name], Zone)
        yield name, _zone(bench, fitted) if zone and fitted.items else _items(fitted)


def _items(fitted: Fitted) -> str:
    said = [str(i.part) if i.count == 1 else f"{i.count} x {i.part}" for i in fitted.items]
    return f"[{', '.join(said)}]" if len(said) > 1 else "".join(said) or "empty"


def _zone(bench: Bench, fitted: Fitted) -> str:
    drives = [i for i in fitted.items if bench.machine.book.parts[i.part].kind == "drive"]
    cages = [i for i in fitted.items if i not in drives]
    pairs = {"cage": _items(Fitted(tuple(cages)))} if cages else {}
    pairs |= {"drives": _items(Fitted(tuple(drives)))} if drives else {}
    pairs |= {"controller": fitted.controller} if fitted.controller else {}
    return "{" + ", ".join(f"{key}: {text}" for key, text in pairs.items()) + "}"


def _quoted(name: str) -> str:
    """Return a name as a quoted YAML text, so that no sign in it means anything else."""
    escaped = name.replace("\\", "\\\\").replace('"', '\\"')
    return '"' + "".join(c if c.isprintable() else " " for c in escaped) + '"'


def steps_of_text(bench: Bench, text: str, name: str) -> tuple[Step, ...]:
    """Return a build file as steps.

    Args:
        bench: the bench.
        text: the build file.
        name: the name it has in problems.

    Raises:
        Problems: for what is wrong with it, or does not fit the book.
    """
    return steps_of_build(bench, build_from(text.encode("utf-8"), name))


def steps_of_build(bench: Bench, build: Build) -> tuple[Step, ...]:
    """Return a build as steps, one for each group of places that changes together.

    Raises:
        Problems: for what does not fit the book.
    """
    problems = check_build(build, bench.opened.book)
    if problems:
        raise Problems(problems)
    frame = bench.machine.frame
    return tuple(
        Step(tuple((name, frame.options(name)[value].label) for name, value in wish.asked))
        for wish in build_wishes(bench.machine, build)
    )


def builds_beside(bench: Bench) -> dict[str, Build]:
    """Return the builds that lie in the folder of the book, by the name of their file."""
    folder = bench.opened.folder / "builds"
    files = sorted(folder.glob("*.yaml")) if folder.is_dir() else []
    return {file.stem: read_build(file) for file in files}


def books_at_hand() -> tuple[str, ...]:
    """Return the names of the books that come with the package."""
    return tuple(bundled_books())
