"""Ready-made models: what is in them, and how far each is from its limits."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from baywright.desk.guide.writer import Writer, joined
from baywright.facts.book import ReadyMade
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
    columns = (Column("model"), Column("has exactly", share=1), Column("list price", right=True))
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


def sites(writer: Writer) -> Iterator[tuple[str, str]]:
    """Yield a site on each kind of input power, with its words: the least voltage of its range."""
    for name, line in writer.book.power.lines.items():
        volts = writer.shared.facts[f"power.lines.{name}.volts_from"].text
        yield str(line.name), f"voltage={volts}"


def limits(writer: Writer) -> Iterable[Block]:
    """Yield peak draw, and what one supply fewer leaves, for each model on each kind of power."""
    there = list(sites(writer))
    heads = [Column(f"spare on {words} after a loss", right=True) for words, _ in there]
    rows = tuple(
        (
            (Run(title, "strong"),),
            (writer.figure("power.dc.peak", name),),
            *((writer.figure("power.left.redundant", name, site),) for _, site in there),
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
