"""Drawing: a view of a book and a build as an SVG document."""

from __future__ import annotations

from dataclasses import replace

from baywright.drawing.framing import NARROW
from baywright.drawing.orientation import Stance, needed, stance_of, standing
from baywright.drawing.registry import VIEWS
from baywright.drawing.scene import Scene
from baywright.drawing.sheet import Imprint, Layout, sheet
from baywright.drawing.subject import Subject
from baywright.facts.book import Book
from baywright.facts.build import Build


def scene_of(
    view: str,
    book: Book,
    build: Build | None,
    *,
    stance: Stance | None = None,
    narrow: bool = False,
) -> Scene:
    """Return a view of a machine as it stands.

    Args:
        view: one of ``VIEWS``.
        book: the facts.
        build: the build, or ``None`` for the machine with nothing decided.
        stance: how it stands; as the build or the book says unless given.
        narrow: whether it has to do with a narrow column.
    """
    subject = Subject.of(book, build, narrow=narrow)
    stands = stance or stance_of(book, build)
    scene = standing(VIEWS[view](subject), stands, narrow=narrow)
    return replace(scene, remarks=(*_nothing(scene), *scene.remarks, *needed(stands, subject)))


def _nothing(scene: Scene) -> tuple[str, ...]:
    """Return a sentence where no place is drawn: the view is empty, and not the machine."""
    if scene.groups or scene.view == "side":
        return ()
    return ("No place of the book is drawn in this view.",)


def drawn(
    view: str,
    book: Book,
    build: Build | None,
    as_of: str,
    layout: Layout | None = None,
    stance: Stance | None = None,
) -> str:
    """Return a view as an SVG document.

    Args:
        view: one of ``VIEWS``.
        book: the facts.
        build: the build, or ``None`` for the machine with nothing decided.
        as_of: the day the drawing holds for, in ISO form.
        layout: width, numbering and highlights.
        stance: how the machine stands; as the build or the book says unless given.
    """
    wanted = layout or Layout()
    stands = stance or stance_of(book, build)
    scene = scene_of(view, book, build, stance=stands, narrow=wanted.width < NARROW)
    imprint = Imprint(
        str(book.book.name),
        book.book.edition.text,
        as_of,
        build.name.text if build is not None else "",
        stands.name,
    )
    return sheet(scene, imprint, wanted)
