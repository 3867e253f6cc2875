"""Papers in Chromium: no violation that axe finds, and no page wider than its window."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from baywright.desk.guide.folder import guide_files
from tests.browser.browsers import AXE, VOLUNTARY
from tests.desk.guide.guides import book, guide_of


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    target = tmp_path_factory.mktemp("guide")
    for name, content in guide_files(guide_of("f1"), book("f1"), "f1", ["html"]).items():
        (target / name).write_text(str(content), "utf-8")
    return target


@pytest.fixture(scope="module", params=["light", "dark"])
def quiet(request: pytest.FixtureRequest, browser: Browser) -> Iterator[Page]:
    context = browser.new_context(color_scheme=request.param, reduced_motion="reduce")
    yield context.new_page()
    context.close()


@pytest.mark.parametrize("name", ["guide.html", "proof.html"])
def test_axe_finds_no_violation(quiet: Page, folder: Path, name: str) -> None:
    if not AXE.is_file():
        message = f"{AXE} is not there; 'make assets' fetches it."
        if VOLUNTARY:
            pytest.skip(message)
        pytest.fail(message)
    quiet.goto((folder / name).as_uri())
    quiet.add_script_tag(path=AXE)
    found = quiet.evaluate("async () => (await axe.run()).violations")
    said = [f"{v['id']}: {n['html'][:160]}" for v in found for n in v["nodes"][:3]]
    assert said == []


@pytest.mark.parametrize("width", [390, 760, 1440])
def test_no_page_is_wider_than_its_window(quiet: Page, folder: Path, width: int) -> None:
    quiet.set_viewport_size({"width": width, "height": 900})
    for name in ("guide.html", "proof.html"):
        quiet.goto((folder / name).as_uri())
        assert quiet.evaluate("document.documentElement.scrollWidth") <= width
