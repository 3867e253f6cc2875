"""Pages about the care of a build: picked by link or by list, cautions before acts, said alike."""

from __future__ import annotations

import re
import shutil
from html import unescape
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from baywright.desk.opening import open_book
from baywright.desk.service.access import AccessRequest, service_plan
from baywright.facts.cautions import CAUTIONS
from baywright.files.books import find_book, read_build
from baywright.store import Store
from baywright.web.app import create_app
from baywright.web.settings import Settings
from tests.web.conftest import mark

N4 = find_book("f2") / "builds" / "n4.yaml"

TAGS = re.compile(r"<[^>]+>")


def _said(html: str) -> str:
    return " ".join(unescape(TAGS.sub(" ", html)).split())


def test_a_place_in_the_drawing_is_taken_into_the_plan_and_out_of_it(client: TestClient) -> None:
    text = client.get("/service/f2?build=n4&at=R1b").text
    links = {
        unescape(name): unescape(address)
        for address, name in re.findall(r'href="([^"]+)" aria-label="([^"]+)"', text)
    }
    assert links["slot R1b, controller C16, picked"] == "/service/f2?build=n4"
    also = links["slot R3b, controller C16"]
    assert also == "/service/f2?build=n4&at=R1b&at=R3b"
    both = _said(client.get(also).text)
    assert "slot R1b" in both
    assert "slot R3b" in both


@pytest.mark.parametrize("place", ["R1b", "PS", "A", "M1"])
def test_each_caution_of_a_plan_stands_before_its_act(client: TestClient, place: str) -> None:
    html = client.get(f"/service/f2?build=n4&at={place}").text
    steps = re.findall(r'<li class="(?:runs|off)">(.*?)</li>', html, re.DOTALL)
    plan = service_plan(open_book("f2"), read_build(N4), AccessRequest((place,))).plans[0][1]
    assert len(steps) == len(plan.steps) > 0
    told: set[str] = {"estimate"}
    for shown, step in zip(steps, plan.steps, strict=True):
        act = shown.index('<p class="act">')
        for key in step.says.cautions:
            words = key.replace("-", " ") if key in told else CAUTIONS[key].hazard
            assert -1 < _index(shown, words) < act, key
        told.update(step.says.cautions)


def _index(html: str, words: str) -> int:
    return unescape(html).find(words)


def test_what_cannot_be_done_as_asked_says_why(client: TestClient) -> None:
    said = _said(client.get("/service/f2?build=n4&at=R1b&running=1").text)
    assert "Not as asked" in said
    assert "The book does not allow it while the machine runs." in said


@pytest.mark.parametrize(
    ("page", "says"),
    [
        ("/service/f2?at=R9", "There is no place or step 'R9'."),
        ("/service/f2?at=PS&people=none", "'none' is no number of people."),
        ("/losses/f2?lost=Q7", "Q7"),
        ("/faults/f2?seen=smoke-signals", "smoke-signals"),
        ("/spares/f2?machines=many", "machines"),
        ("/service/f2?build=n9", "The book f2 has no build 'n9'."),
    ],
)
def test_what_makes_no_sense_is_told(client: TestClient, page: str, says: str) -> None:
    answer = client.get(page)
    assert answer.status_code in {404, 422}
    assert 'class="problems"' in answer.text
    assert says in unescape(answer.text)


def test_a_thing_is_lost_by_its_place_in_the_drawing(client: TestClient) -> None:
    text = client.get("/losses/f2?build=n4&view=inside").text
    links = re.findall(r'href="([^"]+)" aria-label="32-core processor, processor 2"', text)
    assert [unescape(each) for each in links] == ["/losses/f2?build=n4&view=inside&lost=P2"]
    lost = client.get(unescape(links[0])).text
    assert "The machine stops." in lost
    assert 'aria-label="32-core processor, processor 2, lost"' in lost


def test_what_is_seen_narrows_the_suspects(client: TestClient) -> None:
    def suspects(page: str) -> int:
        found = re.search(r"(\d+) single faults? can be behind it", client.get(page).text)
        assert found, page
        return int(found[1])

    every, some = suspects("/faults/f2?build=n4"), suspects("/faults/f2?build=n4&seen=drive.A.3")
    assert some < every
    assert 'value="drive.A.3" aria-label="drive light A.3: seen" checked' in (
        client.get("/faults/f2?build=n4&seen=drive.A.3").text
    )


def test_spares_are_those_of_the_command(client: TestClient) -> None:
    said = _said(client.get("/spares/f2?build=n2&machines=140&level=99 %&lead=14 d").text)
    assert "fan 840 8.40 14 0.3222 2 99.561 %" in said


def test_a_kept_build_can_be_serviced(client: TestClient) -> None:
    fields = {"mark": mark(client), "name": "mine", "s": "P1:cpu-32", "version": ""}
    kept = client.post("/bench/f2/keep", data=fields)
    assert kept.status_code == 303, kept.text
    found = re.search(r"kept=([0-9a-f]+)", kept.headers["location"])
    assert found
    page = client.get(f"/service/f2?build=kept:{found[1]}&at=P1")
    assert page.status_code == 200
    assert "mine: replace 32-core processor" in _said(page.text)


def test_a_book_without_builds_leads_to_the_bench(store: Store, bare_book: str) -> None:
    app = create_app(Settings(books=(bare_book,)), store)
    client = TestClient(app, base_url="http://127.0.0.1")
    for page in ("service", "faults", "losses", "spares"):
        answer = client.get(f"/{page}/p1")
        assert answer.status_code == 200
        assert "This book has no build yet" in answer.text


@pytest.fixture
def bare_book(own_book: Path) -> str:
    """A book that no build lies beside."""
    shutil.rmtree(own_book / "builds")
    return str(own_book)
