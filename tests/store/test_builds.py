"""Builds: kept, changed at a version, never lost to another's change."""

from __future__ import annotations

import pytest

from baywright.problems import Problems
from baywright.store import Conflict, Store
from tests.store.conftest import Clock

TEXT = "# Büro, 12 °C\nbook: f2\nname: office\n"


def test_a_build_comes_back_as_it_was_kept(store: Store, clock: Clock) -> None:
    kept = store.builds.keep(" Office ", "f2", TEXT, "anna")
    assert (kept.version, kept.name, kept.book, kept.text) == (1, "Office", "f2", TEXT)
    assert (kept.owner, kept.changed_by, kept.changed) == ("anna", "anna", clock.now)
    assert store.builds.get(kept.id) == kept


def test_a_change_makes_the_next_version(store: Store, clock: Clock) -> None:
    first = store.builds.keep("Office", "f2", TEXT, "anna")
    clock.later(60)
    second = store.builds.change(first.id, 1, "new", "ben")
    assert (second.version, second.text, second.changed_by) == (2, "new", "ben")
    assert (second.owner, second.changed) == ("anna", clock.now)
    assert store.builds.get(first.id) == second


def test_a_change_to_an_old_version_shows_what_is_kept(store: Store) -> None:
    first = store.builds.keep("Office", "f2", TEXT, "anna")
    second = store.builds.change(first.id, 1, "of ben", "ben")
    with pytest.raises(Conflict) as refused:
        store.builds.change(first.id, 1, "of anna", "anna")
    assert (refused.value.kept_by, refused.value.text, refused.value.version) == (
        "ben",
        "of ben",
        2,
    )
    assert "by ben" in str(refused.value)
    assert store.builds.get(first.id) == second


@pytest.mark.parametrize("version", [0, -1, 2, 10**30])
def test_a_version_that_never_was_is_refused(store: Store, version: int) -> None:
    kept = store.builds.keep("Office", "f2", TEXT, "")
    with pytest.raises(Conflict):
        store.builds.change(kept.id, version, "new", "")


def test_a_build_is_removed_at_its_version_only(store: Store) -> None:
    kept = store.builds.keep("Office", "f2", TEXT, "anna")
    store.builds.change(kept.id, 1, "new", "ben")
    with pytest.raises(Conflict):
        store.builds.remove(kept.id, 1, "anna")
    store.builds.remove(kept.id, 2, "anna")
    assert store.builds.get(kept.id) is None


@pytest.mark.parametrize("build", ["", "none", "a\0b", "\ud800", "'; DROP TABLE builds; --"])
def test_an_unknown_build_is_none_and_cannot_be_changed(store: Store, build: str) -> None:
    assert store.builds.get(build) is None
    with pytest.raises(Problems) as refused:
        store.builds.change(build, 1, "new", "")
    assert refused.value.problems[0].kind == "no-such-build"


def test_builds_are_listed_by_owner_the_last_changed_first(store: Store, clock: Clock) -> None:
    made = []
    for owner in ("anna", "ben", "anna"):
        made.append(store.builds.keep("same name", "f2", TEXT, owner).id)
        clock.later(1)
    assert [kept.id for kept in store.builds.of("anna")] == [made[2], made[0]]
    store.builds.change(made[0], 1, "new", "ben")
    assert [kept.id for kept in store.builds.of(None)] == [made[0], made[2], made[1]]
    assert store.builds.of("nobody") == ()


@pytest.mark.parametrize(
    ("name", "text", "kind"),
    [
        ("  ", TEXT, "no-name"),
        ("n" * 201, TEXT, "text-too-long"),
        ("a\0", TEXT, "text-not-keepable"),
        ("Office", "half a pair: \udc00", "text-not-keepable"),
        ("Office", "x" * 1_000_001, "text-too-long"),
    ],
)
def test_what_cannot_be_kept_is_refused(store: Store, name: str, text: str, kind: str) -> None:
    with pytest.raises(Problems) as refused:
        store.builds.keep(name, "f2", text, "")
    assert refused.value.problems[0].kind == kind
    assert store.builds.of(None) == ()
    assert store.audit.read() == ()
