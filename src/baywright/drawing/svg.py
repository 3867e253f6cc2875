"""SVG documents: elements with attributes, and what every drawing carries."""

from __future__ import annotations

from collections.abc import Iterable
from xml.etree import ElementTree as ET

from baywright.drawing.palette import DARK, LIGHT, PRINT, variables

Node = ET.Element

STYLE = f"""
svg {{ {variables(LIGHT)}
  font-family: "Sofia Sans Semi Condensed", "Source Sans Pro", "Arial Narrow",
    "Liberation Sans Narrow", sans-serif;
  font-size: 13px; font-variant-numeric: tabular-nums lining-nums; }}
@media (prefers-color-scheme: dark) {{ svg {{ {variables(DARK)} }} }}
@media print {{ svg {{ {variables(PRINT)} }} }}
"""
"""Variables and type; the same for every drawing."""

CLASSES = """
.sheet { fill: var(--sheet); } .body { fill: var(--fill); }
.label { fill: var(--ink2); } .small { fill: var(--ink3); font-size: 12px; }
.title { fill: var(--ink); font-size: 18px; font-weight: 650; } .strong { font-weight: 650; }
.said { fill: var(--ink); } .penned { fill: var(--pen); font-weight: 650; }
.penned, .halo { paint-order: stroke; stroke: var(--sheet); stroke-width: 5px; }
.end { text-anchor: end; } .middle { text-anchor: middle; }
.outline { stroke: var(--ink); stroke-width: 1.6; fill: none; }
.line { stroke: var(--ink); stroke-width: 1.6; fill: none; stroke-linejoin: round; }
.fine { stroke: var(--ink3); stroke-width: .7; fill: none; }
.grid { stroke: var(--grid); stroke-width: 1; fill: none; }
.rule { stroke: var(--rule); stroke-width: 1; fill: none; }
.pen { stroke: var(--pen); stroke-width: 2; fill: none; }
.ring { stroke: var(--ink); stroke-width: 1.1; fill: var(--sheet); }
.solid { fill: var(--solid); } .hatch { stroke: var(--ink2); stroke-width: 1; }
"""


def node(tag: str, *children: Node | str, **attributes: object) -> Node:
    """Return an element.

    Args:
        tag: name of the element.
        children: elements, or text before the first element.
        attributes: attributes; a trailing underscore is dropped and others become hyphens.
            Numbers are written with at most two decimals; ``None`` leaves an attribute out.
    """
    made = ET.Element(tag)
    for name, value in attributes.items():
        if value is not None:
            made.set(name.rstrip("_").replace("_", "-"), written(value))
    for child in children:
        if isinstance(child, str):
            made.text = (made.text or "") + child
        else:
            made.append(child)
    return made


def written(value: object) -> str:
    """Write a number with at most two decimals, anything else as text.

    >>> written(12.5), written(3.0), written("x")
    ('12.5', '3', 'x')
    """
    if isinstance(value, float):
        return f"{value:.2f}".rstrip("0").rstrip(".").replace("-0", "0", value == 0)
    return str(value)


def text(words: str, x: float, y: float, style: str = "said") -> Node:
    """Return a line of text that begins, or with the class ``end`` ends, at a point."""
    return node("text", words, x=x, y=y, class_=style)


def headed(title: str, subtitle: str) -> tuple[Node, Node]:
    """Return the title of a drawing and the line below it."""
    return text(title, 16, 28, "title"), text(subtitle, 16, 48, "label")


def line(x1: float, y1: float, x2: float, y2: float, style: str, dash: str | None = None) -> Node:
    """Return a straight line."""
    return node("line", x1=x1, y1=y1, x2=x2, y2=y2, class_=style, stroke_dasharray=dash)


def document(
    size: tuple[float, float],
    title: str,
    description: str,
    children: Iterable[Node],
    classes: str = CLASSES,
    *,
    fixed: bool = False,
) -> str:
    """Return a whole SVG document.

    Args:
        size: width and height in pixels; the drawing scales with its container.
        title: what it shows; read aloud first.
        description: the same in sentences, for those who do not see it.
        children: what is drawn.
        classes: CSS of the classes it uses.
        fixed: whether it keeps its size in pixels, so that no text gets smaller than it was set.
    """
    width, height = size
    root = node(
        "svg",
        node("title", title),
        node("desc", description),
        node("style", STYLE + classes),
        node("rect", width=width, height=height, class_="sheet"),
        *children,
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {written(width)} {written(height)}",
        width=width if fixed else "100%",
        height=height if fixed else None,
        role="img",
    )
    ET.indent(root, " ")
    return ET.tostring(root, encoding="unicode") + "\n"
