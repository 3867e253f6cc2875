"""Every page in Chromium: no violation that axe finds, and no page wider than its window."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page

from baywright.files.books import find_book
from baywright.web.packing import packed
from tests.browser.browsers import AXE, VOLUNTARY

N4 = (find_book("f2") / "needs" / "n4.yaml").read_text(encoding="utf-8")

PAGES = (
    "/",
    "/bench/f2?s=P1:cpu-32&s=P2:cpu-32&s=A:S8&s=A%20drives:8%20x%20sas-2400&s=O2:net-25&at=C&why=1",
    "/bench/f2?at=M1",
    "/bench/f2?s=A:S8&at=C&look=C:S8&p=A&volts=230%20V&m=supplies_redundant",
    "/bench/f2?m=processors%20==%201&m=processors%20==%202",
    "/bench/f2/limits?s=A:S8&volts=230%20V&all_figures=1",
    "/bench/f2/compare?s=A:S8&other=n2",
    "/ask/f2?q=count(drive,interface=%22sas%22)==24%20and%20supplies_redundant",
    "/ask/f2",
    "/ask/f2?q=Where%20can%20the%20fault%20display%20go?",
    "/ask/f2?q=Can%20the%20F2%20hold%2024%20SAS%20drives?",
    "/proofread/f2",
    "/need/f2",
    f"/need/f2?run=1&need={packed(N4)}",
    "/facts/f2?section=power",
    "/facts/f2?edit=power.base",
    "/service/f2?build=n4&at=R1b&at=PS&lock=key",
    "/service/p1?at=PS&view=rear",
    "/faults/f2?build=n4&seen=summary&else=no",
    "/losses/f2?build=n4&lost=P2",
    "/losses/f2?build=n4&view=front",
    "/spares/f2?machines=140&level=99%20%25&lead=14%20d&sites=140",
    "/papers/p1?make=walk&audience=service",
    "/changes/l4?note=cn-5",
    "/answers/f2?show=again",
    "/sign-in",
    "/nowhere",
)


@pytest.fixture(scope="module", params=["light", "dark"])
def quiet(request: pytest.FixtureRequest, browser: Browser, address: str) -> Iterator[Page]:
    """A page that lets the checker in, in light and in dark."""
    context = browser.new_context(
        base_url=address, bypass_csp=True, color_scheme=request.param, reduced_motion="reduce"
    )
    yield context.new_page()
    context.close()


@pytest.mark.parametrize("path", PAGES)
def test_axe_finds_no_violation(quiet: Page, path: str) -> None:
    if not AXE.is_file():
        message = f"{AXE} is not there; 'make assets' fetches it."
        if VOLUNTARY:
            pytest.skip(message)
        pytest.fail(message)
    quiet.goto(path)
    quiet.add_script_tag(path=AXE)
    found = quiet.evaluate("async () => (await axe.run()).violations")
    said = [f"{v['id']}: {n['html'][:160]}" for v in found for n in v["nodes"][:3]]
    assert said == []


@pytest.mark.parametrize("width", [390, 760, 1100, 1440, 2560])
@pytest.mark.parametrize("path", PAGES)
def test_no_page_is_wider_than_its_window(quiet: Page, path: str, width: int) -> None:
    quiet.set_viewport_size({"width": width, "height": 900})
    quiet.goto(path)
    assert quiet.evaluate("document.documentElement.scrollWidth") <= width
