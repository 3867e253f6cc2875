"""Places where the machine has them: groups of shapes from the outlines of a book.

Bays, module sockets and rows of slots have no outlines of their own. Bays and slots lie side by
side across the outline of their place; module sockets are strips across its shorter side. Fans,
supplies and others have an outline for each position, or are drawn as one.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from baywright.drawing import naming
from baywright.drawing.contents import Content, State, Unit
from baywright.drawing.geometry import Rect
from baywright.drawing.scene import Form, Group, Shape
from baywright.drawing.subject import Subject, outline_rect
from baywright.facts.model import Outline, Port
from baywright.facts.parts import Drive
from baywright.facts.places import Bank, Fans, Slot, Zone


def groups(subject: Subject, view: str, shift: float = 0.0) -> Iterator[Group]:
    """Yield the places with an outline in a view.

    Args:
        subject: the machine.
        view: ``front``, ``rear``, ``inside`` or ``side``.
        shift: how far the body lies to the right of the edge of the view [mm].
    """
    for name, place in subject.book.places.items():
        rects = rects_in(place.at, view, shift)
        if rects:
            yield group(subject, name, rects)


def rects_in(outlines: Sequence[Outline], view: str, shift: float = 0.0) -> tuple[Rect, ...]:
    """Return the outlines that lie in a view [mm]."""
    found = (outline_rect(each) for each in outlines if each.view == view)
    return tuple(replace(rect, x=rect.x + shift) for rect in found if rect is not None)


def group(subject: Subject, name: str, rects: tuple[Rect, ...]) -> Group:
    """Return a place with a shape for each position, or with one for all of them."""
    content = subject.contents[name]
    says = naming.says(subject.book, content)
    cells = _cells(subject, name, content, rects)
    named = naming.named_with_id(subject.book, name)
    if cells is None:
        return Group(name, named, says, rects, (_whole(subject, content, rects[0], says),))
    shapes = tuple(
        _unit_shape(subject, name, unit, rect)
        for unit, rect in zip(content.units, cells, strict=True)
    )
    if len(shapes) == 1:
        return Group(name, named, says, rects, (_whole(subject, content, cells[0], says),))
    return Group(name, named, says, rects, shapes, _frame(subject, content, rects[0], says))


def _cells(
    subject: Subject, name: str, content: Content, rects: tuple[Rect, ...]
) -> list[Rect] | None:
    """Return a rectangle for each position, or ``None`` where the outlines do not tell."""
    place, number = subject.book.places[name], len(content.units)
    if number == len(rects):
        return list(rects)
    if not isinstance(place, Zone | Slot | Bank):
        return None
    share, more = divmod(number, len(rects))
    counts = [share + (i < more) for i in range(len(rects))]
    if isinstance(place, Bank):
        return [cell for rect, n in zip(rects, counts, strict=True) for cell in rect.strips(n)]
    return [
        cell
        for rect, n in zip(rects, counts, strict=True)
        for cell in rect.inset(min(1.5, rect.height / 20)).across(n)
    ]


def _whole(subject: Subject, content: Content, rect: Rect, says: str) -> Shape:
    parts = [str(item.part) for item in content.items for _ in range(item.count)]
    return Shape(
        content.place,
        rect,
        content.state,
        " ".join(parts),
        f"{naming.place_name(subject.book, content.place)}: {says}",
        naming.place_letters(subject.book, content),
    )


def _frame(subject: Subject, content: Content, rect: Rect, says: str) -> Shape | None:
    """Return the outline around bays or slots; other positions have outlines of their own."""
    if not isinstance(subject.book.places[content.place], Zone | Slot):
        return None
    cage = naming.cage_name(subject.book, content)
    name = naming.place_name(subject.book, content.place)
    letters = [f"{each} · {cage}" if cage else each for each in (name, content.place)]
    letters.append(content.place)
    words = f"{name}: {says}"
    rows = tuple((each,) for each in letters)
    return Shape(content.place, rect, content.state, cage, words, rows, form=Form.FRAME)


def _unit_shape(subject: Subject, name: str, unit: Unit, rect: Rect) -> Shape:
    book, place = subject.book, subject.book.places[name]
    form, strokes = Form.PLAIN, 0
    part = book.parts.get(unit.part)
    if isinstance(part, Drive):
        form, strokes = Form.DRIVE, 1 if part.interface == "sas" else 2
    elif isinstance(place, Bank):
        form = Form.MODULE
    elif isinstance(place, Fans):
        form = Form.FAN
    return Shape(
        unit.id,
        rect,
        unit.state,
        unit.part,
        naming.unit_words(book, name, unit),
        naming.unit_letters(book, unit),
        unit.label,
        form,
        strokes,
    )


def ports(subject: Subject, view: str, shift: float = 0.0) -> Iterator[Group]:
    """Yield the ports that are always there and have an outline in a view."""
    numbers = Counter[str]()
    for port in subject.book.chassis.ports:
        rects = rects_in(port.at, view, shift)
        if rects:
            kind = f"{view} {port.type}".replace(" ", "-")
            numbers[kind] += 1
            more = f"-{numbers[kind]}" if numbers[kind] > 1 else ""
            yield _port_group(f"port-{kind}{more}", port, rects)


def _port_group(name: str, port: Port, rects: tuple[Rect, ...]) -> Group:
    speed = f", {port.speed.text}" if port.speed is not None else ""
    says = f"{len(rects)} × {port.type}{speed}"
    shapes = tuple(
        Shape(f"{name}.{i + 1}", rect, State.FITTED, "", says, form=Form.PORT)
        for i, rect in enumerate(rects)
    )
    return Group(name, "ports" if len(rects) > 1 else "port", says, rects, shapes)


def interlocks(subject: Subject, view: str) -> Iterator[Group]:
    """Yield the interlocks with an outline in a view; those at one spot are one."""
    spots: dict[Rect, list[str]] = {}
    for name, interlock in subject.book.interlocks.items():
        for rect in rects_in(interlock.at, view):
            spots.setdefault(rect, []).append(name)
    for rect, names in spots.items():
        stated = [subject.book.interlocks[name] for name in names]
        says = "; ".join(f"{each.action.text}, {each.effect.text}" for each in stated)
        key = f"interlock-{names[0]}"
        shape = Shape(key, rect, State.FITTED, "", f"interlock: {says}", form=Form.PORT)
        yield Group(key, "interlock", says, (rect,), (shape,))


def undrawn_ports(subject: Subject, view: str) -> Iterator[str]:
    """Yield ports of the machine at one side that have no outline."""
    for port in subject.book.chassis.ports:
        left = (port.count.value or 0) - len(port.at)
        if port.scope == view and left > 0:
            yield f"{left} × {port.type}"


def ports_on_parts(subject: Subject, view: str) -> Iterator[str]:
    """Yield ports that fitted parts have at one side; they are not drawn one by one."""
    fitted = [str(item.part) for c in subject.contents.values() for item in c.items]
    for part in dict.fromkeys(fitted):
        held = subject.book.parts.get(part)
        for port in held.ports if held is not None else ():
            if port.scope == view:
                yield f"{port.count.text} × {port.type} on {naming.part_name(subject.book, part)}"


def undrawn_places(subject: Subject) -> Iterator[str]:
    """Yield the places that have no outline in any view."""
    for name, place in subject.book.places.items():
        if not place.at:
            yield naming.named_with_id(subject.book, name)


def unstated(subject: Subject, view: str) -> tuple[str, ...]:
    """Return sentences that name what belongs into a view and is not drawn there."""
    missing = [*undrawn_ports(subject, view), *undrawn_places(subject)]
    said = []
    if missing:
        said.append(f"Not drawn, no place on the drawing is stated: {', '.join(missing)}.")
    on_parts = list(ports_on_parts(subject, view))
    if on_parts:
        said.append(f"Ports on parts, not drawn one by one: {', '.join(on_parts)}.")
    said.extend(left_over(subject))
    return tuple(said)


def left_over(subject: Subject) -> Iterator[str]:
    """Yield a sentence for each place with more parts than positions."""
    for name, content in subject.contents.items():
        if content.over:
            parts = ", ".join(naming.part_name(subject.book, part) for part in content.over)
            where = naming.place_name(subject.book, name)
            yield f"Not drawn, no position is left in {where}: {parts}."
