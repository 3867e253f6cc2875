"""A real Chromium and a real server for the tests of the workbench."""

from __future__ import annotations

import os
import shutil
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.error import URLError
from urllib.request import urlopen

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


@contextmanager
def serving(folder: Path, *options: str) -> Iterator[tuple[str, subprocess.Popen[bytes]]]:
    """Run the workbench with a store in a folder; yields its address and its process."""
    port = _free_port()
    program = "from baywright.cli import main; main()"
    database = f"sqlite:///{folder / 'store.sqlite'}"
    command = ["serve", "--port", str(port), "--database", database, *options]
    with (folder / "server.log").open("ab") as log:
        process = subprocess.Popen(
            [sys.executable, "-c", program, *command], stdout=log, stderr=subprocess.STDOUT
        )
    try:
        address = f"http://127.0.0.1:{port}"
        _wait(address, process)
        yield address, process
    finally:
        process.terminate()
        process.wait(30)


def _free_port() -> int:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port: int = free.getsockname()[1]
    return port


def _wait(address: str, process: subprocess.Popen[bytes], seconds: float = 90.0) -> None:
    end = time.monotonic() + seconds
    while time.monotonic() < end and process.poll() is None:
        try:
            with urlopen(f"{address}/bench/f2", timeout=60):  # noqa: S310 - our own server
                return
        except URLError:
            time.sleep(0.2)
    raise TimeoutError(f"the server at {address} did not come up")


def complaints(page: Page) -> list[str]:
    """Return a list that fills with what the console of a page complains about."""
    found: list[str] = []
    page.on("console", lambda each: found.append(each.text) if each.type == "error" else None)
    page.on("pageerror", lambda error: found.append(str(error)))
    return found
