"""Tokens: no more than the person may do, and gone when revoked."""

from __future__ import annotations

import pytest

from baywright.problems import Problems
from baywright.store import Person, Store

WORD = "seven grey ferries"


@pytest.fixture
def anna(store: Store) -> Person:
    return store.people.add("Anna", WORD, ["work", "own:f2"])


def test_a_program_acts_within_the_scopes_of_its_token(store: Store, anna: Person) -> None:
    secret = store.tokens.issue(anna, "nightly", ["read"])
    acting = store.tokens.person_of(secret)
    assert acting == Person("Anna", frozenset({"read"}))
    assert not acting.may_work


def test_a_role_that_was_lost_gives_nothing(store: Store, anna: Person) -> None:
    secret = store.tokens.issue(anna, "nightly", ["read", "own:f2"])
    store.people.set_roles("Anna", ["work"])
    acting = store.tokens.person_of(secret)
    assert acting is not None
    assert acting.roles == {"read"}


@pytest.mark.parametrize("scopes", [["own:l4"], ["read", "own:l4"]])
def test_nothing_beyond_the_roles_is_given(store: Store, anna: Person, scopes: list[str]) -> None:
    with pytest.raises(Problems) as refused:
        store.tokens.issue(anna, "nightly", scopes)
    assert refused.value.problems[0].kind == "beyond-roles"
    assert "own:l4" in str(refused.value)
    assert store.tokens.of(anna) == ()


def test_a_revoked_token_opens_nothing(store: Store, anna: Person) -> None:
    first, second = (store.tokens.issue(anna, name, ["read"]) for name in ("one", "two"))
    store.tokens.revoke(anna, "one")
    assert store.tokens.person_of(first) is None
    assert store.tokens.person_of(second) is not None
    assert [issued.name for issued in store.tokens.of(anna)] == ["two"]
    for name in ("one", "a\0"):
        with pytest.raises(Problems) as refused:
            store.tokens.revoke(anna, name)
        assert refused.value.problems[0].kind == "no-such-token"


def test_a_name_is_given_once_a_person(store: Store, anna: Person) -> None:
    ben = store.people.add("Ben", WORD, ["read"])
    store.tokens.issue(anna, "nightly", ["read"])
    store.tokens.issue(ben, "nightly", ["read"])
    with pytest.raises(Problems) as refused:
        store.tokens.issue(anna, "nightly", ["work"])
    assert refused.value.problems[0].kind == "token-exists"


def test_the_secret_is_kept_nowhere(store: Store, anna: Person) -> None:
    secret = store.tokens.issue(anna, "nightly", ["read"])
    with store._engine.begin() as connection:
        rows = [*connection.exec_driver_sql("SELECT * FROM tokens")]
    assert secret not in repr(rows)
    assert secret not in repr(store.audit.read())
    assert secret.startswith("baywright_")


@pytest.mark.parametrize("secret", ["", "baywright_", "\0", "\ud800"])
def test_an_unknown_secret_is_nobody(store: Store, anna: Person, secret: str) -> None:
    store.tokens.issue(anna, "nightly", ["read"])
    assert store.tokens.person_of(secret) is None
