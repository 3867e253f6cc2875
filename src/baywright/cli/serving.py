"""The workbench from the terminal."""

from __future__ import annotations

from rich.text import Text

from baywright.cli.guarding import ANSWERED, guarded
from baywright.cli.output import show
from baywright.web.serving import serve as serve_pages
from baywright.web.settings import Settings


@guarded
def serve(books: tuple[str, ...], host: str, port: int, database: str, *, accounts: bool) -> int:
    """Serve the workbench until it is stopped."""
    asked = True if accounts else None
    settings = Settings(
        host=host, port=port, database=database or None, books=books, accounts=asked
    )
    serve_pages(settings, lambda sentence: show((Text(sentence),)))
    return ANSWERED
