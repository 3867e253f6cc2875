"""Every part of sizing, in the order of the page. A new one is a line here."""

from __future__ import annotations

from baywright.sizing.part import Part

PARTS: tuple[Part, ...] = ()
