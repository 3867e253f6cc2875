"""Drawings on a page: styled by the page, and each place in them a link."""

from __future__ import annotations

import re
from collections.abc import Callable
from xml.etree import ElementTree as ET

from markupsafe import Markup

SVG = "{http://www.w3.org/2000/svg}"

_STYLE = re.compile(r"<style>.*?</style>", re.DOTALL)
_REFERENCE = re.compile(r"url\(#([^)]+)\)")

ET.register_namespace("", "http://www.w3.org/2000/svg")


def on_page(
    svg: str, name: str, link: Callable[[str], tuple[str, str] | None] | None = None
) -> Markup:
    """Return a drawing for a page.

    Args:
        svg: the drawing as a document.
        name: its name on the page; ids in it begin with it.
        link: for the id of a place, its address and what it is called, or ``None``.
    """
    root = ET.fromstring(_STYLE.sub("", svg))  # noqa: S314 - a drawing that we made ourselves
    _rename(root, name)
    if link is not None:
        _link(root, link)
    return Markup(ET.tostring(root, encoding="unicode"))  # noqa: S704 - escaped by ElementTree


def _rename(root: ET.Element, name: str) -> None:
    """Begin every id with the name of the drawing, so that two drawings share none."""
    for element in root.iter():
        if "id" in element.attrib:
            element.set("id", f"{name}-{element.attrib['id']}")
        for key, value in element.attrib.items():
            if "url(#" in value:
                element.set(key, _REFERENCE.sub(rf"url(#{name}-\1)", value))


def _link(root: ET.Element, link: Callable[[str], tuple[str, str] | None]) -> None:
    """Make a link of every place; the drawing is then a group and no longer one picture."""
    title = root.find(f"{SVG}title")
    root.set("role", "group")
    if title is not None:
        root.set("aria-label", title.text or "")
    led_to: set[str] = set()
    for element in list(root.iter(f"{SVG}g")):
        found = link(element.get("data-at", ""))
        if found is None:
            continue
        if found[0] in led_to:  # Another position of the same place: for a pointer alone.
            element.set("tabindex", "-1")
            element.set("aria-hidden", "true")
        led_to.add(found[0])
        element.tag = f"{SVG}a"
        element.set("href", found[0])
        element.set("aria-label", found[1])
        element.set("class", " ".join(filter(None, (element.get("class"), "place"))))
    for words in root.iter(f"{SVG}text"):
        words.set("aria-hidden", "true")
