"""Pictures of every page into docs/pictures: ``python -m tests.browser.pictures [name ...]``."""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

from tests.browser.browsers import ROOT, chromium
from tests.web.serving import serving

FOLDER = ROOT / "docs" / "pictures"

BENCH = (
    "/bench/f2?s=P1:cpu-32&s=P2:cpu-32&s=A:S8&s=A+drives:8+x+sas-2400&s=R1b:C16&s=O2:net-25"
    "&at=C&why=1"
)
SHOWN = (
    "/bench/f2?s=P1:cpu-32&s=P2:cpu-32&s=A:S8&s=A+drives:8+x+sas-2400&p=A&at=C&look=C:S8"
    "&volts=230+V&m=supplies_redundant"
)
N4 = (
    '/ask/f2?q=can(count(drive, interface="sas") == 24 and processors == 2 and memory == 1 TB '
    'and P1 == "cpu-32" and supplies_redundant and voltage == 120 V)'
)
DRAFT = (
    "The F2 takes up to 24 fast drives and two network modules. It has 28 memory sockets. "
    "It holds 4 TB at 5600 MT/s. One controller drives all 24 SAS drives. "
    "The 128 GB modules are available now."
)

PAGES = {
    "books": "/",
    "bench": BENCH,
    "bench-shown": SHOWN,
    "compare": BENCH.replace("/bench/f2", "/bench/f2/compare").replace("&at=C&why=1", "&other=n2"),
    "limits": BENCH.replace("/bench/f2", "/bench/f2/limits").replace("&at=C&why=1", ""),
    "ask": N4,
    "proofread": "/proofread/f2",
    "need": "/need/f2?example=n4",
    "facts": "/facts/f2?section=power",
    "sign-in": "/sign-in",
    "service": "/service/f2?build=n4&at=R1b",
    "faults": "/faults/f2?build=n4&seen=summary&else=no",
    "losses": "/losses/f2?build=n4&lost=P2",
    "spares": "/spares/f2?machines=140&level=99+%25&lead=14+d",
    "papers": "/papers/p1?make=walk&audience=service",
    "changes": "/changes/l4?note=cn-5",
    "answers": "/answers/f2",
}

SHOTS = {
    "": (1440, "light", "screen"),
    "-narrow": (390, "light", "screen"),
    "-wide": (2560, "light", "screen"),
    "-dark": (1440, "dark", "screen"),
    "-print": (794, "light", "print"),
}
"""Endings of the names of pictures, with width [px], colours and medium."""

IN_FULL = ("bench", "books")
"""Pages whose pictures are kept in every shot; of the others the first is."""

KEPT = ("", "-narrow", "-dark")
"""Shots that are written unless a folder for all of them is named."""


def take(folder: Path, names: list[str], shots: tuple[str, ...]) -> None:
    """Take pictures of pages.

    Args:
        folder: where they are written.
        names: names of the pages.
        shots: endings of the shots.
    """
    with tempfile.TemporaryDirectory() as store, sync_playwright() as playwright:
        browser = chromium(playwright)
        with serving(Path(store)) as (address, _):
            for name in names:
                for shot in shots if name in IN_FULL or shots != KEPT else shots[:1]:
                    _take(browser, address, name, shot, folder / f"page-{name}{shot}.png")
        browser.close()


def _take(browser: Browser, address: str, name: str, shot: str, path: Path) -> None:
    width, colours, medium = SHOTS[shot]
    page = browser.new_page(
        base_url=address,
        viewport={"width": width, "height": 1000},
        color_scheme="dark" if colours == "dark" else "light",
        reduced_motion="reduce",
    )
    page.goto(PAGES[name])
    if name == "proofread":
        page.get_by_label("Text", exact=True).fill(DRAFT)
        page.get_by_role("button", name="Proofread").click()
    if name in ("papers", "changes"):
        page.wait_for_selector("#waiting", state="detached", timeout=120_000)
    if name == "answers":
        page.get_by_label("Question or expression").fill("Can the F2 hold 24 SAS drives?")
        page.get_by_role("button", name="Answer and keep").click(timeout=60_000)
    if name == "need":
        page.get_by_role("button", name="Propose builds", exact=True).click(timeout=120_000)
        page.wait_for_selector(".answer", timeout=120_000)
    page.emulate_media(media="print" if medium == "print" else "screen")
    page.evaluate("document.querySelectorAll('img').forEach(each => { each.loading = 'eager'; })")
    page.wait_for_load_state("networkidle")
    # In a window as high as the page, what sticks to its lower edge covers nothing.
    height = int(page.evaluate("document.documentElement.scrollHeight"))
    page.set_viewport_size({"width": width, "height": height})
    page.screenshot(path=path, full_page=True)
    page.close()


def main(arguments: list[str]) -> None:
    """Take the pictures named, or all; a folder as first argument gets every shot."""
    folder = Path(arguments[0]) if arguments and "/" in arguments[0] else FOLDER
    names = [each for each in arguments if each in PAGES] or list(PAGES)
    folder.mkdir(parents=True, exist_ok=True)
    take(folder, names, tuple(SHOTS) if folder != FOLDER else KEPT)


if __name__ == "__main__":
    main(sys.argv[1:])
