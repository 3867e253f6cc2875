"""The store against dictionaries: any order of calls, closed and opened in between."""

from __future__ import annotations

import itertools
from typing import Any

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    Bundle,
    RuleBasedStateMachine,
    invariant,
    multiple,
    rule,
    run_state_machine_as_test,
)

from baywright.problems import Problems
from baywright.store import Conflict, Kept, Person, open_store
from tests.store.conftest import QUICK, empty

NAMES = st.sampled_from(["Anna", "anna", "Ben", "Zoë"])
ROLES = st.sets(st.sampled_from(["read", "work", "own:f2"]), min_size=1)
WORDS = st.sampled_from(["seven grey ferries", "eight grey ferries"])
TEXTS = st.text(max_size=40)


def cannot_be_kept(text: str) -> bool:
    try:
        text.encode()
    except UnicodeEncodeError:
        return True
    return "\0" in text


class Model(RuleBasedStateMachine):
    """What the store should hold, in dictionaries."""

    url: str

    builds = Bundle("builds")
    sessions = Bundle("sessions")
    tokens = Bundle("tokens")

    def __init__(self) -> None:
        super().__init__()
        self.store = open_store(self.url, passwords=QUICK)
        self.kept: dict[str, Kept] = {}
        self.people: dict[str, tuple[Person, str]] = {}
        self.signed_in: dict[str, str] = {}
        self.issued: dict[str, tuple[str, str, frozenset[str]]] = {}
        self.acts = 0
        empty(self.store)

    def teardown(self) -> None:
        self.store.close()

    @rule(target=builds, text=TEXTS, owner=NAMES)
    def keep(self, text: str, owner: str) -> Any:
        if cannot_be_kept(text):
            with pytest.raises(Problems):
                self.store.builds.keep("Office", "f2", text, owner)
            return multiple()
        made = self.store.builds.keep("Office", "f2", text, owner)
        assert made.id not in self.kept
        self.kept[made.id] = made
        self.acts += 1
        return made.id

    @rule(build=builds, text=TEXTS, by=NAMES, behind=st.integers(0, 2))
    def change(self, build: str, text: str, by: str, behind: int) -> None:
        known = self.kept.get(build)
        version = (known.version if known else 1) - behind
        if cannot_be_kept(text) or known is None:
            with pytest.raises(Problems):
                self.store.builds.change(build, version, text, by)
        elif behind:
            with pytest.raises(Conflict) as refused:
                self.store.builds.change(build, version, text, by)
            assert (refused.value.text, refused.value.version) == (known.text, known.version)
            assert refused.value.kept_by == known.changed_by
        else:
            changed = self.store.builds.change(build, version, text, by)
            assert (changed.version, changed.text) == (known.version + 1, text)
            self.kept[build] = changed
            self.acts += 1

    @rule(build=builds, behind=st.integers(0, 1))
    def remove(self, build: str, behind: int) -> None:
        known = self.kept.get(build)
        if known is None or behind:
            with pytest.raises(Problems):
                self.store.builds.remove(build, (known.version if known else 1) - behind, "Ben")
            return
        self.store.builds.remove(build, known.version, "Ben")
        del self.kept[build]
        self.acts += 1

    @rule(name=NAMES, word=WORDS, roles=ROLES)
    def add_person(self, name: str, word: str, roles: set[str]) -> None:
        if name.casefold() in self.people:
            with pytest.raises(Problems):
                self.store.people.add(name, word, roles)
            return
        self.people[name.casefold()] = self.store.people.add(name, word, roles), word
        self.acts += 1

    @rule(name=NAMES, word=WORDS)
    def sign_in(self, name: str, word: str) -> None:
        person, known = self.people.get(name.casefold(), (None, ""))
        assert self.store.people.check(name, word) == (person if word == known else None)

    @rule(name=NAMES)
    def remove_person(self, name: str) -> None:
        if name.casefold() not in self.people:
            with pytest.raises(Problems):
                self.store.people.remove(name)
            return
        self.store.people.remove(name)
        key = name.casefold()
        del self.people[key]
        self.signed_in = {token: who for token, who in self.signed_in.items() if who != key}
        self.issued = {secret: each for secret, each in self.issued.items() if each[0] != key}
        self.acts += 1

    @rule(name=NAMES, roles=ROLES)
    def set_roles(self, name: str, roles: set[str]) -> None:
        if name.casefold() in self.people:
            _, word = self.people[name.casefold()]
            self.people[name.casefold()] = self.store.people.set_roles(name, roles), word
            self.acts += 1

    @rule(target=sessions, name=NAMES)
    def open_session(self, name: str) -> Any:
        person, _ = self.people.get(name.casefold(), (None, ""))
        if person is None:
            return multiple()
        token = self.store.sessions.open(person, 3600)
        self.signed_in[token] = name.casefold()
        self.acts += 1
        return token

    @rule(token=sessions)
    def close_session(self, token: str) -> None:
        self.store.sessions.close(token)
        self.acts += self.signed_in.pop(token, None) is not None

    @rule(target=tokens, name=NAMES, called=st.sampled_from(["a", "b"]), scopes=ROLES)
    def issue(self, name: str, called: str, scopes: set[str]) -> Any:
        key = name.casefold()
        person, _ = self.people.get(key, (Person(name, frozenset()), ""))
        taken = any(each[:2] == (key, called) for each in self.issued.values())
        if key not in self.people or taken or not scopes <= all_of(person):
            with pytest.raises(Problems):
                self.store.tokens.issue(person, called, scopes)
            return multiple()
        secret = self.store.tokens.issue(person, called, scopes)
        self.issued[secret] = key, called, frozenset(scopes)
        self.acts += 1
        return secret

    @rule(secret=tokens)
    def revoke(self, secret: str) -> None:
        if secret in self.issued:
            key, called, _ = self.issued.pop(secret)
            self.store.tokens.revoke(self.people[key][0], called)
            self.acts += 1

    @rule()
    def open_again(self) -> None:
        self.store.close()
        self.store = open_store(self.url, passwords=QUICK)

    @invariant()
    def builds_are_those_kept(self) -> None:
        assert {kept.id: kept for kept in self.store.builds.of(None)} == self.kept
        for owner, found in itertools.groupby(
            sorted(self.kept.values(), key=lambda kept: kept.owner), lambda kept: kept.owner
        ):
            assert set(self.store.builds.of(owner)) == set(found)

    @invariant()
    def people_are_those_added(self) -> None:
        assert {person.name.casefold(): person for person in self.store.people.list()} == {
            key: person for key, (person, _) in self.people.items()
        }

    @invariant()
    def everybody_may_do_what_was_given(self) -> None:
        for token, key in self.signed_in.items():
            assert self.store.sessions.person_of(token) == self.people[key][0]
        for secret, (key, _, scopes) in self.issued.items():
            acting = self.store.tokens.person_of(secret)
            assert acting is not None
            assert acting.roles == scopes & all_of(self.people[key][0])

    @invariant()
    def every_change_is_in_the_audit_trail(self) -> None:
        assert len(self.store.audit.read(10_000)) == self.acts


def all_of(person: Person) -> set[str]:
    """Return the roles of a person with those within them, written out by hand."""
    if "own:f2" in person.roles:
        return {"own:f2", "work", "read"}
    return {"work", "read"} if "work" in person.roles else set(person.roles)


def test_any_order_of_calls(url: str) -> None:
    run_state_machine_as_test(
        type("Here", (Model,), {"url": url}),
        settings=settings(max_examples=settings().max_examples // 4, stateful_step_count=25),
    )
