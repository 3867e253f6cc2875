"""Every page answers, says where it stands, and works without script."""

from __future__ import annotations

import re
import time
from html import unescape
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from starlette.testclient import TestClient

import baywright.web
from baywright.store import Store
from baywright.web.app import create_app
from baywright.web.guarding import HEADERS
from baywright.web.settings import Settings
from baywright.web.texts import texts

PAGES = (
    "/",
    "/bench/f2",
    "/bench/f2?s=P1:cpu-32&s=A:S8&s=A%20drives:4%20x%20sas-2400&at=B",
    "/bench/f2?s=A:S8&at=C&look=C:S8&p=A&volts=230%20V&m=supplies_redundant",
    "/bench/f2/limits?s=A:S8&volts=230%20V",
    "/bench/f2/compare?s=A:S8&other=n2",
    "/ask/f2",
    "/ask/f2?q=count(drive)%20==%2024",
    "/proofread/f2",
    "/need/f2",
    "/facts/f2",
    "/facts/f2?q=supply",
    "/service/f2",
    "/service/f2?build=n4&at=R1b&at=PS&lock=key&view=rear",
    "/faults/f2?build=n4&seen=summary&else=no",
    "/losses/f2",
    "/losses/f2?build=n4&lost=P2",
    "/spares/f2?machines=140&level=99%20%25&lead=14%20d",
    "/papers/f2",
    "/changes/f2",
    "/answers/f2",
    "/sign-in",
)


@pytest.mark.parametrize("page", PAGES)
def test_a_page_answers_with_every_header(client: TestClient, page: str) -> None:
    answer = client.get(page)
    assert answer.status_code == 200, answer.text[-800:]
    assert {name: answer.headers.get(name) for name in HEADERS} == HEADERS


@pytest.mark.parametrize("page", PAGES)
def test_nothing_on_a_page_runs_or_styles_inline(client: TestClient, page: str) -> None:
    """The content policy would stop it; so it must not be there at all."""
    text = client.get(page).text
    assert not re.search(r"<style|\sstyle=|<script(?![^>]*src=)|\son[a-z]+=|javascript:", text)


@pytest.mark.parametrize("page", PAGES)
def test_ids_on_a_page_are_its_own(client: TestClient, page: str) -> None:
    ids = re.findall(r'\sid="([^"]+)"', client.get(page).text)
    assert len(ids) == len(set(ids))


def test_text_from_outside_is_escaped(client: TestClient) -> None:
    text = client.get("/ask/f2", params={"q": "<script>alert(1)</script>"}).text
    assert "<script>alert" not in text
    assert "&lt;script&gt;alert" in text


@pytest.mark.parametrize(
    ("page", "status"),
    [
        ("/nowhere", 404),
        ("/bench/f9", 404),
        ("/bench/f2?s=nonsense", 422),
        ("/bench/f2?s=A:S9", 422),
        ("/bench/f2?at=Z", 422),
        ("/bench/f2?view=roof", 404),
        ("/bench/f2/complete?by=magic", 422),
        ("/kept/none", 404),
        ("/ask/f2?q=count(", 422),
        ("/facts/f2?edit=no.such", 404),
    ],
)
def test_what_is_wrong_is_told_with_what_to_do_next(
    client: TestClient, page: str, status: int
) -> None:
    answer = client.get(page)
    assert answer.status_code == status
    assert 'class="problems"' in answer.text


def test_the_picture_beside_the_page_is_a_drawing(client: TestClient) -> None:
    answer = client.get("/bench/f2/picture/rear.svg?s=O2:net-25&theme=dark")
    assert answer.headers["content-type"].startswith("image/svg+xml")
    root = ET.fromstring(answer.text)  # noqa: S314 - a drawing of ours
    assert {e.get("data-state") for e in root.iter() if e.get("data-at") == "O2"} == {"fitted"}
    assert "prefers-color-scheme" not in answer.text


def test_a_choice_of_dark_is_remembered(client: TestClient) -> None:
    fields = {"mark": _mark(client), "theme": "dark", "to": "//elsewhere"}
    answer = client.post("/theme", data=fields)
    assert answer.headers["location"] == "/"
    assert 'data-theme="dark"' in client.get("/sign-in").text


def _mark(client: TestClient) -> str:
    found = re.search(r'name="mark" value="([^"]+)"', client.get("/sign-in").text)
    assert found
    return found[1]


def test_every_text_is_used_by_a_page() -> None:
    """A text nobody shows would be translated for nothing."""

    folder = Path(baywright.web.__file__).parent
    said = "".join(p.read_text() for p in folder.rglob("*") if p.suffix in {".j2", ".py"})
    made = ("doing_", "error_", "least_", "lock_", "spares_", "state_", "view_")
    unused = [
        key
        for key in texts()
        if not key.startswith(made) and said.count(f'"{key}"') + said.count(f"'{key}'") == 0
    ]
    assert unused == []


def test_a_bench_without_script_is_links_and_forms(client: TestClient) -> None:
    text = client.get("/bench/f2?at=C").text
    fit = re.search(r'<a class="fit" href="([^"]+)"', text)
    assert fit
    after = client.get(unescape(fit[1]))
    assert after.status_code == 200
    assert "Step 1" in after.text


def test_the_list_of_books_tells_what_their_own_words_say(owned_prose: TestClient) -> None:
    text = owned_prose.get("/").text
    for _ in range(60):
        if "Its own words are being read" not in text:
            break
        time.sleep(0.5)
        text = owned_prose.get("/").text
    assert "To be said of its own words: 1" in text
    assert "It has room for 9 processors" in text
    assert "announced <time>2031-02-03</time>" in text


@pytest.fixture
def owned_prose(own_book: Path, store: Store) -> TestClient:
    """A workbench with a book whose purpose says something false."""
    file = own_book / "book.yaml"
    said = re.sub(r"purpose: .*", "purpose: It has room for 9 processors.", file.read_text())
    file.write_text(said)
    app = create_app(Settings(books=(str(own_book),)), store)
    return TestClient(app, base_url="http://127.0.0.1")
