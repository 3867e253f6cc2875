"""Arguments and options that several commands take, each described once."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, TypeAlias

import typer

Book: TypeAlias = Annotated[
    str, typer.Argument(metavar="BOOK", help="Folder of a book, or a bundled one: f1, f2, l4, p1.")
]
Terms: TypeAlias = Annotated[
    list[str] | None,
    typer.Argument(metavar="[TERM]...", help="Names; without any, the skeleton of the book."),
]
AsJson: TypeAlias = Annotated[bool, typer.Option("--json", help="Print JSON.")]
AsOf: TypeAlias = Annotated[
    str, typer.Option(metavar="DATE", help="Day the answer holds for; else the edition.")
]
Altitude: TypeAlias = Annotated[
    str, typer.Option(metavar="LENGTH", help="Altitude of the site, such as '2300 m'.")
]
Inlet: TypeAlias = Annotated[
    str, typer.Option(metavar="TEMPERATURE", help="Air taken in, such as '27 °C'.")
]
Seconds: TypeAlias = Annotated[
    float | None, typer.Option("--limit", metavar="SECONDS", help="Most time for one step.")
]
Reasons: TypeAlias = Annotated[
    int,
    typer.Option("--reasons", metavar="COUNT", help="Most minimal sets of reasons for a no."),
]
With: TypeAlias = Annotated[
    str, typer.Option("--with", metavar="CONDITION", help="Legal builds with this only.")
]
SpaceFile: TypeAlias = Annotated[
    Path | None, typer.Option("--space", metavar="FILE", help="A space file in place of a book.")
]
Choose: TypeAlias = Annotated[
    list[str] | None,
    typer.Option("--choose", metavar="NAME=VALUE", help="With --space: a choice made."),
]
