"""The bench page: pins, what is shown before it is fitted, conditions, and what is left."""

from __future__ import annotations

import re
from html import unescape

import pytest
from starlette.testclient import TestClient

from baywright.desk.bench.conditions import Conditions
from baywright.web.bench_address import BenchAddress
from tests.web.conftest import mark

FULL = BenchAddress(
    "f2",
    ("A:S8", "O2:net-25"),
    ("R1b:C16",),
    at="C",
    look="C:S8",
    pins=("A", "O2"),
    given=Conditions("230 V", "900 m", "25 °C", "2031-07-01", ("supplies_redundant",)),
)


def test_an_address_says_the_whole_state(client: TestClient) -> None:
    text = client.get(str(FULL)).text
    again = re.search(r"<dt>sheet</dt><dd><code>([^<]*)", text)
    assert again
    assert set(FULL.pairs()) == {
        tuple(pair.partition("=")[::2]) for pair in unescape(again[1]).partition("?")[2].split("&")
    }


def test_the_number_left_stands_with_each_step(client: TestClient) -> None:
    text = client.get("/bench/f2?s=A:S8&s=O2:net-25").text
    first, second = (int(n.replace(",", "")) for n in re.findall(r"<small>([\d,]+) left", text))
    assert first > second > 0
    assert f"<b>{second:,}</b> legal builds are left" in text


def test_what_is_looked_at_is_drawn_and_measured_and_not_fitted(client: TestClient) -> None:
    text = client.get("/bench/f2?s=A:S8&at=C&look=C:S8").text
    assert "Shown, not fitted:" in text
    assert 'class="ghost"' in text
    assert 'class="change"' in text
    assert text.count("<small>") == 1
    link = re.search(r'class="looked-at">.*?href="([^"]+)">Fit', text, re.DOTALL)
    assert link
    assert "zone C: cage for eight SAS drives" in client.get(unescape(link[1])).text


def test_a_pin_keeps_a_place_through_a_completion(client: TestClient) -> None:
    text = client.get("/bench/f2?s=A:S8&p=A&at=A").text
    assert "Take the pin out" in text
    assert '<a class="fit"' not in text
    answer = client.get("/bench/f2/complete?s=A:S8&s=P1:cpu-48&p=A&by=price&keep=pins")
    after = client.get(answer.headers["location"]).text
    assert "Left out" not in after
    assert "cage for eight SAS drives" in after
    assert "0 places are open" in after


def test_conditions_are_set_by_a_form_and_close_options(client: TestClient) -> None:
    sent = "/bench/f2?at=line&volts=120%20V&altitude=&inlet=&day=&m=supplies_redundant&m="
    answer = client.get(sent)
    assert answer.status_code == 303
    text = client.get(answer.headers["location"]).text
    assert "120 V at the feeds, must hold: supplies_redundant" in text
    assert "Power, redundant, binding" in text


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ("m=processors%20==%201&m=processors%20==%202", "No legal build of this book has all"),
        ("altitude=high", "altitude:"),
        ("m=nonsense%20(", "These conditions are left out"),
    ],
)
def test_conditions_that_cannot_be_leave_the_bench_as_it_was(
    client: TestClient, given: str, said: str
) -> None:
    answer = client.get(f"/bench/f2?s=A:S8&{given}")
    assert answer.status_code == 422
    assert said in answer.text
    assert "Step 1: zone A" in answer.text


def test_conditions_are_kept_with_a_build(client: TestClient) -> None:
    fields = {"mark": mark(client), "name": "Low line", "s": "A:S8", "volts": "120 V"}
    kept = client.post("/bench/f2/keep", data={**fields, "m": "supplies_redundant"})
    found = re.search(r"kept=([0-9a-f]+)", kept.headers["location"])
    assert found
    again = client.get(f"/kept/{found[1]}").headers["location"]
    assert "volts=120+V" in again
    assert "m=supplies_redundant" in again


def test_small_drawings_stand_beside_the_options_of_a_zone(client: TestClient) -> None:
    assert client.get("/bench/f2?at=A").text.count('class="small-drawing') >= 4
    assert 'class="small-drawing' not in client.get("/bench/f2?at=R1a").text
