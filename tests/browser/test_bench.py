"""The bench in Chromium: by mouse, by keyboard, with and without script, two people, reload."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from tests.browser.browsers import complaints
from tests.web.serving import serving

SAID = "#said"


def _pick(page: Page, place: str) -> None:
    page.locator(f'.front.wide a.place[aria-label^="{place},"]').click()
    expect(page.locator("#picked")).to_contain_text(place)


def _fit(page: Page, words: str) -> None:
    page.locator(".offer a.fit", has_text=words).first.click()


def test_the_whole_journey_by_mouse(page: Page) -> None:
    found = complaints(page)
    page.goto("/bench/f2")
    _pick(page, "zone A")
    _fit(page, "cage for eight SAS drives")
    expect(page.locator(SAID)).to_contain_text("Step 1: zone A: cage for eight SAS drives")
    page.get_by_label("Fit: 8 × 2.4 TB SAS drive").first.click()
    expect(page.locator(SAID)).to_contain_text("Step 2")
    _pick(page, "zone C")
    expect(page.locator(".offer.never").first).to_be_visible()
    page.get_by_role("link", name=re.compile("^Z Undo")).click()
    expect(page.locator(".steps li")).to_have_count(1)
    page.get_by_role("link", name=re.compile("^Y Do again")).click()
    expect(page.locator(".steps li")).to_have_count(2)
    page.get_by_role("link", name=re.compile("^Complete for me")).click()
    expect(page.locator(SAID)).to_contain_text("0 places are open")
    page.get_by_label("Name of the build").fill("Journey by mouse")
    page.get_by_role("button", name="Keep").click()
    expect(page).to_have_url(re.compile("kept="))
    page.get_by_role("link", name=re.compile("^All limits")).click()
    expect(page.locator("h1")).to_contain_text("Ferryman F2")
    page.goto("/")
    expect(page.get_by_role("link", name="Journey by mouse")).to_be_visible()
    assert found == []


def test_the_whole_journey_by_keyboard(page: Page) -> None:
    page.goto("/bench/f2")
    _tab_to(page, 'a.place[aria-label^="zone A,"]')
    page.keyboard.press("ArrowRight")
    assert page.evaluate("document.activeElement.getAttribute('aria-label')").startswith("zone B")
    page.keyboard.press("ArrowLeft")
    page.keyboard.press("Enter")
    expect(page.locator("#picked")).to_contain_text("zone A")
    page.wait_for_load_state()  # The keys are listened to once the page is whole.
    page.keyboard.press("2")
    expect(page.locator(".steps li")).to_have_count(1)
    page.keyboard.press("z")
    expect(page.locator(".steps li")).to_have_count(0)
    page.keyboard.press("y")
    expect(page.locator(".steps li")).to_have_count(1)
    page.keyboard.press("r")
    expect(page.locator(".steps li")).to_have_count(2)
    page.keyboard.press("c")
    expect(page.locator(SAID)).to_contain_text("0 places are open")
    page.keyboard.press("l")
    expect(page).to_have_url(re.compile("/limits"))


def test_an_option_is_shown_where_one_points_and_where_the_focus_is(page: Page) -> None:
    found = complaints(page)
    page.goto("/bench/f2?s=A:S8&at=C")
    expect(page.locator("#drawing .ghost")).to_have_count(0)
    page.locator(".offer a.fit", has_text="cage for eight SAS drives").hover()
    expect(page.locator("#drawing .ghost")).to_have_count(1)
    expect(page.locator(".looked-at")).to_contain_text("cage for eight SAS drives")
    expect(page.locator("#gauges .change").first).to_be_attached()
    page.locator(".offer a.fit", has_text="fault display").focus()
    expect(page.locator(".looked-at")).to_contain_text("fault display")
    expect(page.locator(".steps li")).to_have_count(1)
    page.locator("#drawing a.place", has=page.locator("title", has_text="zone B")).first.click()
    expect(page.locator("#picked")).to_contain_text("zone B")
    assert found == []


def test_pins_by_mouse_and_by_key(page: Page) -> None:
    page.goto("/bench/f2?s=A:S8&at=A")
    page.keyboard.press("p")
    expect(page.locator(".pins")).to_contain_text("zone A: cage for eight SAS drives")
    expect(page.locator(".offer a.fit")).to_have_count(0)
    page.get_by_role("link", name="Cheapest around the pins").click()
    expect(page.locator(SAID)).to_contain_text("0 places are open")
    expect(page.locator(".pins")).to_contain_text("zone A: cage for eight SAS drives")
    page.get_by_role("link", name="Take the pin out: zone A").click()
    expect(page.locator(".pins")).to_have_count(0)


def test_conditions_are_set_and_taken_away(page: Page) -> None:
    page.goto("/bench/f2?at=line")
    page.get_by_text("Site and what must hold").click()
    page.get_by_label("Voltage of the feeds").fill("120 V")
    page.get_by_label("Must hold").fill("supplies_redundant")
    page.get_by_role("button", name="Set").click()
    expect(page.locator(".conditions summary")).to_contain_text("120 V at the feeds")
    expect(page.locator("#gauges .binding")).to_contain_text("Power, redundant")
    page.get_by_role("link", name="Without conditions").click()
    expect(page).not_to_have_url(re.compile("volts="))


def test_a_need_is_left_while_it_is_searched_for_and_come_back_to(page: Page) -> None:
    page.goto("/need/f2?example=n2")
    page.get_by_label("virtual machines", exact=True).fill("200")
    page.get_by_role("button", name="Put the form into the file").click()
    expect(page.locator("#text")).to_have_value(re.compile("count: 200, cores: 2.5"))
    page.get_by_role("button", name="Propose builds", exact=True).click()
    expect(page.locator("#waiting")).to_contain_text("Still searching")
    address = page.url
    page.goto("/")
    page.goto(address)
    expect(page.locator(".answer .word")).to_contain_text("proposals", timeout=90_000)
    expect(page.locator(".chart")).to_be_visible()
    page.get_by_role("link", name=re.compile("^A ?, Open on the bench")).click()
    expect(page.locator(SAID)).to_contain_text("0 places are open")


def test_the_key_for_reasons(page: Page) -> None:
    """The steps are used by no other test, so that nobody has asked for these reasons before."""
    page.goto("/bench/f2?s=P2:cpu-48&s=O2:net-25&at=C")
    expect(page.locator(".offer.if ol.reasons")).to_have_count(0)
    page.keyboard.press("w")
    expect(page.locator(".offer.if ol.reasons")).to_contain_text("O2 and C share 16 lanes.")


def _tab_to(page: Page, wanted: str, most: int = 60) -> None:
    for _ in range(most):
        page.keyboard.press("Tab")
        if page.evaluate("wanted => document.activeElement.matches(wanted)", wanted):
            return
    pytest.fail(f"the key Tab does not lead to {wanted}")


def test_single_keys_can_be_switched_off(page: Page) -> None:
    page.goto("/bench/f2?s=A:S8")
    page.get_by_role("button", name="Single keys off").click()
    page.keyboard.press("z")
    page.wait_for_timeout(300)
    expect(page.locator(".steps li")).to_have_count(1)


def test_a_reload_in_mid_work_and_the_way_back(page: Page) -> None:
    page.goto("/bench/f2?at=A")
    _fit(page, "cage for eight SAS drives")
    expect(page.locator(".steps li")).to_have_count(1)
    page.reload()
    expect(page.locator(".steps li")).to_have_count(1)
    page.go_back()
    expect(page.locator(".steps li")).to_have_count(0)


def test_the_bench_works_without_script(browser: Browser, address: str) -> None:
    context = browser.new_context(base_url=address, java_script_enabled=False)
    page = context.new_page()
    page.goto("/bench/f2")
    page.locator('.front a.place[aria-label^="zone B,"]').first.click()
    _fit(page, "cage for eight fast drives")
    expect(page.locator(".steps li")).to_have_count(1)
    context.close()


def test_two_people_at_one_build(browser: Browser, address: str, context: BrowserContext) -> None:
    mine = context.new_page()
    mine.goto("/bench/f2?s=A:S8")
    mine.get_by_label("Name of the build").fill("Two people")
    mine.get_by_role("button", name="Keep").click()
    expect(mine).to_have_url(re.compile("version=1"))
    other = browser.new_context(base_url=address)
    theirs = other.new_page()
    theirs.goto("/")
    theirs.get_by_role("link", name="Two people").click()
    theirs.get_by_role("button", name="Keep as the next version").click()
    expect(theirs).to_have_url(re.compile("version=2"))
    mine.get_by_role("button", name="Keep as the next version").click()
    expect(mine.locator("h1")).to_have_text("Changed in the meantime")
    mine.get_by_role("link", name="Keep mine as a build of its own").click()
    expect(mine.locator(".steps li")).to_have_count(1)
    other.close()


def test_what_was_kept_is_there_after_the_server_was_killed(
    browser: Browser, tmp_path: Path
) -> None:
    for name in ("before", "after"):
        with serving(tmp_path) as (address, process):
            page = browser.new_page(base_url=address)
            if name == "after":
                page.goto("/")
                expect(page.get_by_role("link", name="Kept and killed")).to_be_visible()
            else:
                page.goto("/bench/f2?s=A:S8")
                page.get_by_label("Name of the build").fill("Kept and killed")
                page.get_by_role("button", name="Keep").click()
                expect(page).to_have_url(re.compile("kept="))
                process.kill()
            page.close()


def test_asking_proofreading_and_a_need(page: Page) -> None:
    page.goto("/ask/f2")
    page.get_by_label("Question or expression").fill("processors == 2")
    page.keyboard.press("Enter")
    expect(page.locator(".word")).to_have_text("Yes")
    page.goto("/proofread/f2")
    page.get_by_label("Text", exact=True).fill("The F2 has 28 memory sockets.")
    page.get_by_role("button", name="Proofread").click()
    expect(page.locator(".draft .proof-false")).to_be_visible()
    page.goto("/need/f2?example=n4")
    page.get_by_role("button", name="Propose builds", exact=True).click()
    expect(page.locator(".answer .word")).to_be_visible(timeout=90_000)
