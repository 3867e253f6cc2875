"""Sessions: open until they end; what is kept of one does not open it."""

from __future__ import annotations

import pytest

from baywright.problems import Problems
from baywright.store import Person, Store
from tests.store.conftest import Clock

WORD = "seven grey ferries"


@pytest.fixture
def anna(store: Store) -> Person:
    return store.people.add("Anna", WORD, ["work"])


def test_a_session_lasts_as_long_as_it_was_given(store: Store, anna: Person, clock: Clock) -> None:
    token = store.sessions.open(anna, 60)
    clock.later(59.9)
    assert store.sessions.person_of(token) == anna
    clock.later(0.1)
    assert store.sessions.person_of(token) is None


def test_a_closed_session_is_closed_and_others_are_not(store: Store, anna: Person) -> None:
    first, second = store.sessions.open(anna, 60), store.sessions.open(anna, 60)
    store.sessions.close(first)
    store.sessions.close(first)
    assert store.sessions.person_of(first) is None
    assert store.sessions.person_of(second) == anna


@pytest.mark.parametrize("token", ["", "x", "\0", "\ud800", "x" * 100_000])
def test_an_unknown_token_is_nobody(store: Store, anna: Person, token: str) -> None:
    store.sessions.open(anna, 60)
    assert store.sessions.person_of(token) is None
    store.sessions.close(token)


def test_somebody_who_was_removed_cannot_begin_one(store: Store, anna: Person) -> None:
    store.people.remove("Anna")
    with pytest.raises(Problems) as refused:
        store.sessions.open(anna, 60)
    assert refused.value.problems[0].kind == "no-such-person"


def test_ended_sessions_are_cleared_away_and_tokens_are_not_kept(
    store: Store, anna: Person, clock: Clock
) -> None:
    store.sessions.open(anna, 60)
    clock.later(61)
    token = store.sessions.open(anna, 60)
    with store._engine.begin() as connection:
        (digest,) = connection.exec_driver_sql("SELECT digest FROM sessions").scalars()
    assert token not in digest
    assert store.sessions.person_of(digest) is None
