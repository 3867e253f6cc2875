"""The browser and the server that all tests of a run share."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

from tests.browser.browsers import VOLUNTARY, NoBrowser, chromium
from tests.web.serving import serving


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        try:
            found = chromium(playwright)
        except NoBrowser as missing:
            if VOLUNTARY:
                pytest.skip(str(missing))
            pytest.fail(str(missing))
        yield found
        found.close()


@pytest.fixture(scope="session")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    with serving(tmp_path_factory.mktemp("served")) as (found, _):
        yield found


@pytest.fixture
def context(browser: Browser, address: str) -> Iterator[BrowserContext]:
    made = browser.new_context(base_url=address, viewport={"width": 1440, "height": 1000})
    made.set_default_timeout(20_000)
    yield made
    made.close()


@pytest.fixture
def page(context: BrowserContext) -> Page:
    return context.new_page()
