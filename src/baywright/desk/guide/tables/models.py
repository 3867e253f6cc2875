"""Ready-made models: what is in them, and how far each is from its limits."""

from __future__ import annotations

from collections.abc import Iterable

from baywright.desk.guide.writer import Writer, joined
from baywright.desk.statements.query import Query
from baywright.facts.book import ReadyMade
from baywright.facts.parts import Supply
from baywright.papers.document import Block, Column, Line, Run, Table


def models(writer: Writer) -> Iterable[Block]:
    """Yield what each ready-made model has."""
    found = writer.book.models
    if not found:
        return
    rows = tuple(
        (
            (Run(str(model.name), "strong"),),
            _contents(writer, model),
            (writer.fact(f"models.{name}.price"),),
        )
        for name, model in found.items()
    )
    columns = (Column("model"), Column("has exactly"), Column("list price", right=True))
    yield Table("Ready-made models", columns, rows)


def _contents(writer: Writer, model: ReadyMade) -> Line:
    counts: dict[str, int] = {}
    for fitted in model.places.values():
        for item in fitted.items:
            counts[item.part] = counts.get(item.part, 0) + item.count
    parts: list[Line] = [
        (Run(f"{count} × " if count > 1 else ""), Run(str(writer.book.parts[part].name)))
        for part, count in counts.items()
    ]
    return joined(parts)


def builds(writer: Writer) -> list[tuple[str, str]]:
    """Return ready-made models with their names, or else the builds that come with the book.

    The latter stand there as examples: whom they were made for is nobody's business.
    """
    named = [(name, str(model.name)) for name, model in writer.book.models.items()]
    if named:
        return named
    files = list(writer.shared.build_files)
    if len(files) == 1:
        return [(files[0], "an example build")]
    return [(name, f"example build {at}") for at, name in enumerate(files, 1)]


def sites(writer: Writer) -> list[tuple[str, str, str]]:
    """Return each kind of input power: its id, its name, and a site on it at the least voltage."""
    facts = writer.shared.facts
    return [
        (name, str(line.name), f"voltage={facts[f'power.lines.{name}.volts_from'].text}")
        for name, line in writer.book.power.lines.items()
    ]


def runs_on(writer: Writer, build: str, line: str) -> bool:
    """Say whether the supplies of a build are rated on a kind of input power."""
    places = writer.shared.build(Query("figure", "", build)).places
    parts = [writer.book.parts[i.part] for fitted in places.values() for i in fitted.items]
    return all(line in part.ratings for part in parts if isinstance(part, Supply))


def figure_on(writer: Writer, key: str, build: str, site: tuple[str, str, str]) -> Run:
    """Return a figure of a build on a kind of input power; a dash where it does not run."""
    line, _, volts = site
    return writer.figure(key, build, volts) if runs_on(writer, build, line) else Run("–")


def limits(writer: Writer) -> Iterable[Block]:
    """Yield peak draw, and what one supply fewer leaves, for each model on each kind of power."""
    there = list(sites(writer))
    heads = [Column(f"spare on {words} after a loss", right=True) for _, words, _ in there]
    rows = tuple(
        (
            (Run(title, "strong"),),
            (writer.figure("power.dc.peak", name),),
            *((figure_on(writer, "power.left.redundant", name, site),) for site in there),
            (writer.figure("rack.mass", name),),
        )
        for name, title in builds(writer)
    )
    columns = (
        Column("build"),
        Column("peak draw", right=True),
        *heads,
        Column("mass", right=True),
    )
    note: Line = (
        Run("Spare after a loss is what the supplies still carry beyond the peak when one fewer "),
        Run("works; less than nothing means that the machine is not redundant there."),
    )
    if rows:
        title = "Ready-made models" if writer.book.models else "Example builds"
        yield Table(f"{title} against their limits", columns, rows, (note,))
