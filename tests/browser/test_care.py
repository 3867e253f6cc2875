"""Care of a build in a browser, by keyboard and by pointer; papers that are waited for."""

from __future__ import annotations

import re

from playwright.sync_api import Browser, Page, expect


def test_a_place_is_picked_in_the_drawing_by_keyboard(page: Page) -> None:
    page.goto("/service/f2?build=n4&view=rear")
    place = page.get_by_role("link", name="slot R1b, controller C16")
    place.focus()
    page.keyboard.press("Enter")
    expect(page).to_have_url(re.compile(r"at=R1b"))
    expect(page.get_by_role("heading", name="replace controller C16")).to_be_visible()
    page.get_by_role("link", name="slot R1b, controller C16, picked").focus()
    page.keyboard.press("Enter")
    expect(page).not_to_have_url(re.compile(r"at=R1b"))


def test_positions_of_one_place_are_one_stop_of_the_tab_key(page: Page) -> None:
    page.goto("/service/f2?build=n4&view=inside")
    links = page.locator('#drawing a[href$="at=F"]')
    assert links.count() == 6
    stops = page.locator('#drawing a[href$="at=F"]:not([tabindex="-1"])')
    assert stops.count() == 1
    links.nth(4).click()
    expect(page).to_have_url(re.compile(r"at=F"))


def test_things_are_ticked_and_lost_by_keyboard(page: Page) -> None:
    page.goto("/losses/f2?build=n4")
    page.get_by_role("checkbox", name="P2 32-core processor, processor 2").focus()
    page.keyboard.press("Space")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="Lost: 32-core processor")).to_be_visible()
    expect(page.locator("#drawing").get_by_text("lost", exact=True)).to_be_visible()


def test_the_build_and_what_is_picked_stay_from_page_to_page(page: Page) -> None:
    page.goto("/service/f2?build=n4&volts=230 V")
    page.get_by_role("link", name="Faults").click()
    expect(page.get_by_label("Build", exact=True)).to_have_value("n4")
    expect(page.get_by_label("Voltage of the feeds")).to_have_value("230 V")
    page.get_by_role("checkbox", name="summary light: seen", exact=True).check()
    page.get_by_role("button", name="Find the fault").click()
    expect(page.get_by_text("Seen: summary.")).to_be_visible()


def test_a_paper_is_waited_for_and_fetched(page: Page) -> None:
    page.goto("/papers/p1")
    page.get_by_label("Which sheet").select_option("models")
    page.get_by_role("button", name="Write the sheet").click()
    link = page.get_by_role("link", name="models.pdf")
    expect(link).to_be_visible(timeout=90_000)
    with page.expect_download() as held:
        link.click()
    assert held.value.suggested_filename == "p1-models.pdf"


def test_a_plan_is_made_without_script(browser: Browser, address: str) -> None:
    context = browser.new_context(base_url=address, java_script_enabled=False)
    page = context.new_page()
    page.goto("/service/f2?build=n4")
    page.get_by_role("checkbox", name="PS supplies").check()
    page.get_by_role("button", name="Plan it").click()
    expect(page.get_by_role("heading", name="replace 1300 W supply")).to_be_visible()
    context.close()
