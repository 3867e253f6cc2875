"""People: names, passwords, roles."""

from __future__ import annotations

import pytest
from pwdlib.hashers.argon2 import Argon2Hasher

from baywright.problems import Problems
from baywright.store import Passwords, Person, Store, open_store

WORD = "seven grey ferries"


def kind_of(refused: pytest.ExceptionInfo[Problems]) -> str:
    return refused.value.problems[0].kind


def test_name_and_password_together_find_a_person(store: Store) -> None:
    person = store.people.add(" Anna ", WORD, ["work", "own:f2"])
    assert person == Person("Anna", frozenset({"work", "own:f2"}))
    assert store.people.check("anna", WORD) == person
    assert store.people.check("ANNA ", WORD) == person
    assert store.people.check("Anna", "seven grey ferry") is None
    assert store.people.check("Anna", "") is None
    assert store.people.check("Ben", WORD) is None
    assert store.people.check("a\0", WORD) is None
    assert store.people.check("Anna", WORD + "\ud800") is None
    assert store.people.check("Anna", "x" * 5000) is None


def test_a_letter_written_in_two_ways_is_one(store: Store) -> None:
    store.people.add("Zo\u00eb", "caf\u00e9 caf\u00e9 caf\u00e9", ["read"])
    assert store.people.check("Zoe\u0308", "cafe\u0301 cafe\u0301 cafe\u0301") is not None


def test_a_name_is_given_once(store: Store) -> None:
    store.people.add("Anna", WORD, ["work"])
    with pytest.raises(Problems) as refused:
        store.people.add("ANNA", WORD, ["read"])
    assert kind_of(refused) == "person-exists"
    assert store.people.list() == (Person("Anna", frozenset({"work"})),)
    assert len(store.audit.read()) == 1


@pytest.mark.parametrize(
    ("name", "password", "roles", "kind"),
    [
        ("", WORD, ["read"], "no-name"),
        ("a\nb", WORD, ["read"], "person-name"),
        ("n" * 65, WORD, ["read"], "person-name"),
        ("Anna", "eleven char", ["read"], "password"),
        ("Anna", "x" * 1025, ["read"], "password"),
        ("Anna", "half of a pair \ud800", ["read"], "password"),
        ("Anna", WORD, [], "no-role"),
        ("Anna", WORD, ["write"], "unknown-role"),
        ("Anna", WORD, ["own:"], "unknown-role"),
        ("Anna", WORD, ["own:f2 own:l4"], "unknown-role"),
    ],
)
def test_what_a_person_cannot_be_is_refused(
    store: Store, name: str, password: str, roles: list[str], kind: str
) -> None:
    with pytest.raises(Problems) as refused:
        store.people.add(name, password, roles)
    assert kind_of(refused) == kind
    assert store.people.list() == ()


def test_roles_build_on_each_other() -> None:
    reader, worker = Person("r", frozenset({"read"})), Person("w", frozenset({"work"}))
    owner = Person("o", frozenset({"own:f2"}))
    assert [each.may_read for each in (reader, worker, owner)] == [True, True, True]
    assert [each.may_work for each in (reader, worker, owner)] == [False, True, True]
    assert [each.may_own("f2") for each in (reader, worker, owner)] == [False, False, True]
    assert not owner.may_own("f")


def test_another_password_ends_the_sessions(store: Store) -> None:
    person = store.people.add("Anna", WORD, ["work"])
    session = store.sessions.open(person, 600)
    store.people.set_password("anna", "eight grey ferries")
    assert store.sessions.person_of(session) is None
    assert store.people.check("Anna", WORD) is None
    assert store.people.check("Anna", "eight grey ferries") == person


def test_other_roles_hold_in_sessions_at_once(store: Store) -> None:
    session = store.sessions.open(store.people.add("Anna", WORD, ["work"]), 600)
    changed = store.people.set_roles("Anna", ["read"])
    assert store.sessions.person_of(session) == changed == Person("Anna", frozenset({"read"}))


def test_a_removed_person_is_out_and_leaves_the_work(store: Store) -> None:
    person = store.people.add("Anna", WORD, ["work"])
    session, token = store.sessions.open(person, 600), store.tokens.issue(person, "t", ["read"])
    build = store.builds.keep("Office", "f2", "text", "Anna")
    store.people.remove("Anna")
    assert store.people.get("Anna") is None
    assert store.people.check("Anna", WORD) is None
    assert store.sessions.person_of(session) is None
    assert store.tokens.person_of(token) is None
    assert store.builds.get(build.id) == build


def test_nobody_is_changed_or_removed_who_is_not_there(store: Store) -> None:
    for change in (
        lambda: store.people.remove("Ben"),
        lambda: store.people.set_password("Ben", WORD),
        lambda: store.people.set_roles("Ben", ["read"]),
        lambda: store.people.existing("Ben"),
    ):
        with pytest.raises(Problems) as refused:
            change()
        assert kind_of(refused) == "no-such-person"


def test_a_digest_is_made_again_when_digests_are_made_otherwise(store: Store, url: str) -> None:
    store.people.add("Anna", WORD, ["work"])
    stronger = Passwords(Argon2Hasher(time_cost=2, memory_cost=16, parallelism=1))
    before = digest_of(store, "anna")
    with open_store(url, passwords=stronger) as later:
        assert later.people.check("Anna", WORD) is not None
        assert later.people.check("Anna", WORD) is not None
    assert digest_of(store, "anna") != before
    assert store.people.check("Anna", WORD) is not None


def test_no_password_is_kept(store: Store) -> None:
    store.people.add("Anna", WORD, ["work"])
    assert digest_of(store, "anna").startswith("$argon2id$")
    assert WORD not in repr(store.audit.read())


def digest_of(store: Store, key: str) -> str:
    with store._engine.begin() as connection:
        rows = connection.exec_driver_sql(f"SELECT password FROM people WHERE key = '{key}'")  # noqa: S608 - a constant
        return str(rows.scalar_one())
