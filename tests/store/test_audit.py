"""The audit trail: what the store changes is in it, in the transaction of the change."""

from __future__ import annotations

import pytest

from baywright.problems import Problems
from baywright.store import Conflict, Entry, Store
from tests.store.conftest import Clock

WORD = "seven grey ferries"


def test_every_change_stands_in_it_the_last_first(store: Store, clock: Clock) -> None:
    anna = store.people.add("Anna", WORD, ["work"], by="(terminal)")
    store.people.set_roles("Anna", ["read", "work"], by="(terminal)")
    store.people.set_password("Anna", WORD, by="(terminal)")
    session = store.sessions.open(anna, 60)
    build = store.builds.keep("Office", "f2", "text", "Anna").id
    store.builds.change(build, 1, "new", "Anna")
    store.builds.remove(build, 2, "Anna")
    store.tokens.issue(anna, "nightly", ["read"])
    store.tokens.revoke(anna, "nightly")
    store.sessions.close(session)
    store.people.remove("Anna", by="(terminal)")
    found = [(entry.by, entry.act, entry.thing) for entry in reversed(store.audit.read())]
    assert found == [
        ("(terminal)", "add person", "Anna"),
        ("(terminal)", "set roles", "Anna"),
        ("(terminal)", "set password", "Anna"),
        ("Anna", "sign in", "Anna"),
        ("Anna", "keep build", build),
        ("Anna", "change build", build),
        ("Anna", "remove build", build),
        ("Anna", "issue token", "nightly"),
        ("Anna", "revoke token", "nightly"),
        ("Anna", "sign out", "Anna"),
        ("(terminal)", "remove person", "Anna"),
    ]


def test_what_others_note_comes_back(store: Store, clock: Clock) -> None:
    store.audit.note("anna", "edit fact", "f2", {"fact": "fan.cfm", "was": "32 CFM"})
    store.audit.note("", "upload", "draft.md")
    assert store.audit.read(1) == (Entry(clock.now, "", "upload", "draft.md", {}),)
    assert store.audit.read()[1].details == {"fact": "fan.cfm", "was": "32 CFM"}


def test_what_was_refused_is_not_in_it(store: Store) -> None:
    build = store.builds.keep("Office", "f2", "text", "anna").id
    with pytest.raises(Conflict):
        store.builds.change(build, 7, "new", "ben")
    with pytest.raises(Problems):
        store.people.add("Anna", "short", ["read"])
    assert [entry.act for entry in store.audit.read()] == ["keep build"]
