"""A real Chromium and a real server for the tests of the workbench."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

from playwright.sync_api import Browser, Error, Page, Playwright

ROOT = Path(__file__).parents[2]
AXE = ROOT / "node_modules" / "axe-core" / "axe.min.js"
FETCHED = ROOT / ".venv" / "browser" / "chromium-of-tests"
"""Where `make browser` puts a Chromium on machines that have none."""

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")

VOLUNTARY = not os.environ.get("BROWSER_NEEDED")
"""Whether tests may be left out where there is no browser."""


class NoBrowser(Exception):  # noqa: N818 - reads as what is the matter
    """Raised when there is no Chromium; says how to get one."""


def found() -> Path | None:
    """Return the Chromium of the machine, or the one that was fetched for the tests."""
    if FETCHED.is_file() and os.environ.get("BROWSER_FETCHED"):
        return FETCHED
    own = next(filter(None, map(shutil.which, NAMES)), None)
    return Path(own) if own else FETCHED if FETCHED.is_file() else None


def chromium(playwright: Playwright) -> Browser:
    """Start a Chromium: that of the machine, a fetched one, or the one that Playwright installed.

    Raises:
        NoBrowser: when there is none.
    """
    path = found()
    try:
        # Tests run as root in containers, where Chromium has no sandbox.
        return playwright.chromium.launch(
            executable_path=path, args=["--no-sandbox"], env=_beside(path)
        )
    except Error as error:
        hint = "Run 'make browser'."
        raise NoBrowser(f"No Chromium could be started. {hint} ({error})") from error


def _beside(path: Path | None) -> dict[str, str | float | bool] | None:
    """Return the environment of a fetched Chromium: its libraries and letters lie beside it."""
    if path != FETCHED:
        return None
    folder = FETCHED.parent
    own = {"LD_LIBRARY_PATH": str(folder / "lib"), "FONTCONFIG_FILE": str(folder / "fonts.conf")}
    return {**os.environ, **own}


def complaints(page: Page) -> list[str]:
    """Return a list that fills with what the console of a page complains about."""
    found: list[str] = []
    page.on("console", lambda each: found.append(each.text) if each.type == "error" else None)
    page.on("pageerror", lambda error: found.append(str(error)))
    return found
