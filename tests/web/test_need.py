"""The need page: form and file say the same, the address says both, a long search goes on."""

from __future__ import annotations

import re
import time
from html import unescape

import pytest
from starlette.testclient import TestClient

from baywright.desk.fit.form import need_form
from baywright.files.books import find_book
from baywright.problems import Problems
from baywright.web.packing import LONGEST, packed, unpacked
from baywright.web.pages import need
from baywright.web.runs import AT_ONCE, MOST_WAITING, Runs, Tell
from tests.web.conftest import mark

N4 = (find_book("f2") / "needs" / "n4.yaml").read_text(encoding="utf-8")
N3 = (find_book("l4") / "needs" / "n3.yaml").read_text(encoding="utf-8")


def _sent(client: TestClient, **fields: str) -> str:
    return client.post("/need/f2", data={"mark": mark(client), **fields}).headers["location"]


def _file(text: str) -> str:
    found = re.search(r'id="text" name="text"[^>]*>\n(.*?)</textarea>', text, re.DOTALL)
    assert found
    return unescape(found[1])


def test_the_form_goes_into_the_file_and_the_rest_stays(client: TestClient) -> None:
    form = {"site.voltage": "230 V", "growth.share": "5 %", "hosts": ""}
    address = _sent(client, text=N4, do="write", **{"from": "form"}, **form)
    written = _file(client.get(address).text)
    expected = N4.replace("hosts: 1\n", "").replace("voltage: 120 V", "voltage: 230 V")
    assert written == expected + "growth:\n  share: 5 %\n"


def test_the_file_goes_into_the_form(client: TestClient) -> None:
    address = _sent(client, text="book: f2\nname: x\ndemand: {cores: 12}\n", do="read")
    assert 'name="demand.cores" value="12"' in client.get(address).text
    assert "run=1" not in address


def test_every_field_of_the_form_is_a_field_of_the_page(client: TestClient) -> None:
    text = client.get("/need/f2").text
    for section in need_form(""):
        for each in section.fields:
            assert text.count(f'name="{each.path}"') == 1


def test_proposals_come_with_the_front_and_the_bench(client: TestClient) -> None:
    asked = "book: f2\nname: one\nhosts: 1\nmust: [processors == 1]\nsite: {voltage: 230 V}\n"
    text = _waited(client, _sent(client, text=asked, do="propose"))
    assert "The front: price and peak draw" in text
    bench = re.search(r'Open on the bench: <a href="([^"]+)"', text)
    assert bench
    shown = client.get(unescape(bench[1])).text
    assert "0 places are open" in shown
    assert "230 V at the feeds" in shown


def test_the_site_of_a_need_counts(client: TestClient) -> None:
    """The imaging host stands at 2,300 m: proposals are for the air there, not at sea level."""
    address = f"/need/l4?run=1&need={packed(N3)}"
    assert "2,300 m" in _waited(client, address)


def _waited(client: TestClient, address: str) -> str:
    for _ in range(60):
        answer = client.get(address)
        if 'id="waiting"' not in answer.text:
            return answer.text
        time.sleep(0.5)
    pytest.fail("the search did not end")


def test_a_long_search_shows_how_far_it_is_and_is_found_again(
    client: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(need, "AT_ONCE", 0.0)
    address = f"/need/f2?run=1&need={packed(N4)}"
    first = client.get(address)
    assert first.status_code == 200
    assert "Look again" in first.text
    assert "No build meets the need" in _waited(client, address)


@pytest.mark.parametrize("letters", ["!!", "abc", packed("x" * (LONGEST + 1))])
def test_an_address_that_says_no_text_is_refused(client: TestClient, letters: str) -> None:
    assert client.get(f"/need/f2?need={letters}").status_code == 422
    with pytest.raises(Problems, match="not-packed"):
        unpacked(letters)


def test_a_run_is_worked_on_once_for_all_who_ask() -> None:
    runs: Runs[str] = Runs()
    made: list[int] = []

    def make(tell: Tell) -> str:
        tell("half way")
        made.append(1)
        return "done"

    answers = [runs.of("key", make) for _ in range(3)]
    assert all(run.wait(5) for run in answers)
    assert [run.answer() for run in answers] == ["done"] * 3
    assert len(made) == 1
    assert answers[0].said == "half way"


def test_what_a_run_raises_is_raised_where_somebody_asks() -> None:
    runs: Runs[str] = Runs()

    def make(tell: Tell) -> str:
        raise ValueError("no")

    run = runs.of("key", make)
    assert run.wait(5)
    with pytest.raises(ValueError, match="no"):
        run.answer()


def test_too_many_runs_are_refused() -> None:
    runs: Runs[str] = Runs()

    def make(tell: Tell) -> str:
        time.sleep(1)
        return "done"

    for number in range(AT_ONCE + MOST_WAITING):
        runs.of(number, make)
    with pytest.raises(Problems, match="busy"):
        runs.of("one more", make)
