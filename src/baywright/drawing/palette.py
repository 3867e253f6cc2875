"""The colours of drawings: ink for what is there, one pen for what is said about it.

Contrast is tested with the formula of WCAG 2.2, `relative luminance` and `contrast ratio`.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType
from typing import TypeAlias

Palette: TypeAlias = Mapping[str, str]

LIGHT: Palette = MappingProxyType(
    {
        "sheet": "#fbfcfa",
        "fill": "#ffffff",
        "ink": "#13201d",
        "ink2": "#3f4e4a",
        "ink3": "#586762",
        "edge": "#76857f",
        "rule": "#c3cec8",
        "grid": "#e4ebe6",
        "grid5": "#d0dbd5",
        "pen": "#9c0f57",
        "solid": "#2b3a36",
    }
)
DARK: Palette = MappingProxyType(
    {
        "sheet": "#121b18",
        "fill": "#18231f",
        "ink": "#e9efeb",
        "ink2": "#bac7c1",
        "ink3": "#98a7a0",
        "edge": "#74847d",
        "rule": "#33433e",
        "grid": "#1c2825",
        "grid5": "#283733",
        "pen": "#ff8abd",
        "solid": "#c9d5cf",
    }
)
PRINT: Palette = MappingProxyType(
    {**LIGHT, "sheet": "#ffffff", "ink": "#000000", "pen": "#000000", "solid": "#333333"}
)
"""On paper there is ink only; what the pen says differs from a part by its shape and weight."""

_VARIABLE = re.compile(r"var\(--([a-z0-9]+)\)")


def variables(palette: Palette) -> str:
    """Return a palette as CSS variables."""
    return " ".join(f"--{name}: {colour};" for name, colour in palette.items())


def coloured(svg: str, palette: Palette) -> str:
    """Return a drawing with every variable replaced by its colour of one palette.

    For renderers that know no CSS variables and no dark or print media.
    """
    start, end = svg.find("<style>"), svg.find("</style>")
    style = svg[start:end]
    plain = re.sub(r"@media[^{]*\{[^{}]*\{[^{}]*\}\s*\}", "", style)
    filled = _VARIABLE.sub(lambda match: palette[match[1]], plain)
    return svg[:start] + re.sub(r"--[a-z0-9]+: [^;]*; ?", "", filled) + svg[end:]
