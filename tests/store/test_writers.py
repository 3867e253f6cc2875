"""Several who write at once: one is kept, the others are told; nothing is lost."""

from __future__ import annotations

import threading
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor

from baywright.store import Conflict, Kept, Store, open_store
from tests.store.conftest import QUICK


def at_once(many: int, work: Callable[[int], object]) -> list[object]:
    """Do the work in threads that begin together; return what each gave or raised."""
    start = threading.Barrier(many)

    def run(number: int) -> object:
        start.wait()
        try:
            return work(number)
        except Conflict as refused:
            return refused

    with ThreadPoolExecutor(many) as pool:
        return list(pool.map(run, range(many)))


def changing(stores: Sequence[Store], build: str) -> Callable[[int], Kept]:
    """Return how a program of each number changes the first version of a build."""
    return lambda number: stores[number].builds.change(build, 1, f"{number}", f"{number}")


def test_two_programs_change_one_build(url: str) -> None:
    with open_store(url) as first, open_store(url) as second:
        for _ in range(15):
            kept = first.builds.keep("Office", "f2", "text", "anna")
            found = at_once(2, changing((first, second), kept.id))
            (won,) = (each for each in found if isinstance(each, Kept))
            (lost,) = (each for each in found if isinstance(each, Conflict))
            assert (lost.kept_by, lost.text, lost.version) == (won.changed_by, won.text, 2)
            assert first.builds.get(kept.id) == second.builds.get(kept.id) == won


def test_no_change_of_many_is_lost(store: Store) -> None:
    """Each adds its mark to what is kept, and again when another was quicker."""
    build = store.builds.keep("Office", "f2", "", "anna").id

    def add(number: int) -> int:
        refusals = 0
        for turn in range(5):
            while True:
                kept = store.builds.get(build)
                assert kept is not None
                try:
                    store.builds.change(build, kept.version, f"{kept.text} {number}.{turn}", "")
                    break
                except Conflict:
                    refusals += 1
        return refusals

    at_once(4, add)
    kept = store.builds.get(build)
    assert kept is not None
    assert sorted(kept.text.split()) == sorted(f"{n}.{turn}" for n in range(4) for turn in range(5))
    assert kept.version == 21
    assert len(store.audit.read()) == 21


def test_one_of_many_removes_a_build(store: Store) -> None:
    build = store.builds.keep("Office", "f2", "", "anna").id
    store.builds.change(build, 1, "new", "ben")
    found = at_once(3, lambda _: store.builds.remove(build, 1, "anna"))
    assert all(isinstance(each, Conflict) for each in found)
    assert store.builds.get(build) is not None


def test_many_programs_open_a_new_store(new_url: str) -> None:
    def open_and_keep(number: int) -> str:
        with open_store(new_url, passwords=QUICK) as store:
            return store.builds.keep(f"{number}", "f2", "text", "").id

    made = at_once(6, open_and_keep)
    with open_store(new_url) as store:
        assert {kept.id for kept in store.builds.of(None)} == set(made)
