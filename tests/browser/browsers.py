"""A real Chromium and a real server for the tests of the workbench."""

from __future__ import annotations

import os
import shutil
import sys
from pathlib import Path

from playwright.sync_api import Browser, Error, Page, Playwright

ROOT = Path(__file__).parents[2]
AXE = ROOT / "node_modules" / "axe-core" / "axe.min.js"
NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")

VOLUNTARY = not os.environ.get("BROWSER_NEEDED")
"""Whether tests may be left out where there is no browser."""


class NoBrowser(Exception):  # noqa: N818 - reads as what is the matter
    """Raised when there is no Chromium; says how to get one."""


def chromium(playwright: Playwright) -> Browser:
    """Start the Chromium of the machine, or the one that Playwright installed.

    Raises:
        NoBrowser: when there is neither.
    """
    path = next(filter(None, map(shutil.which, NAMES)), None)
    try:
        # Tests run as root in containers, where Chromium has no sandbox.
        return playwright.chromium.launch(executable_path=path, args=["--no-sandbox"])
    except Error as error:
        hint = f"Run '{sys.executable} -m playwright install chromium'."
        raise NoBrowser(f"No Chromium could be started. {hint} ({error})") from error


def complaints(page: Page) -> list[str]:
    """Return a list that fills with what the console of a page complains about."""
    found: list[str] = []
    page.on("console", lambda each: found.append(each.text) if each.type == "error" else None)
    page.on("pageerror", lambda error: found.append(str(error)))
    return found
