"""Runs: answers that take long go on while nobody waits, and are there when somebody comes back."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from typing import Generic, TypeAlias, TypeVar

from baywright.problems import Problems, problem

ResultT = TypeVar("ResultT")

Tell: TypeAlias = Callable[[str], None]
"""Told in words how far a run has come."""

AT_ONCE = 2
"""Runs that are worked on at once; further ones wait their turn."""

MOST_WAITING = 16
"""Runs that may wait; one more is refused."""

MOST_KEPT = 64
"""Finished runs whose answer is kept, where nothing else is said."""


AGAIN = 10.0
"""Seconds for which work that was broken off is not begun anew, so that somebody reads of it."""


@dataclass
class Run(Generic[ResultT]):
    """An answer that is being worked on, or is there.

    Args:
        said: how far it has come, in words.
        begun: when work on it began, by ``time.monotonic``; 0 while it waits.
        ended: when it ended; 0 while it goes on.
    """

    said: str = ""
    begun: float = 0.0
    ended: float = 0.0
    _done: threading.Event = field(default_factory=threading.Event)
    _result: ResultT | None = None
    _error: Exception | None = None

    @property
    def done(self) -> bool:
        """Whether the answer is there."""
        return self._done.is_set()

    @property
    def broken(self) -> bool:
        """Whether work was broken off some time ago, so that beginning anew may help."""
        found = self._error
        if found is None or time.monotonic() - self.ended < AGAIN:
            return False
        kinds = {each.kind for each in found.problems} if isinstance(found, Problems) else set()
        return not isinstance(found, Problems) or "broken-off" in kinds

    @property
    def seconds(self) -> float:
        """Seconds of work so far."""
        return time.monotonic() - self.begun if self.begun else 0.0

    def wait(self, seconds: float) -> bool:
        """Wait so long at most, and say whether the answer is there."""
        return self._done.wait(seconds)

    def answer(self) -> ResultT:
        """Return the answer, or raise what came instead of it."""
        if self._error is not None:
            raise self._error
        if self._result is None:
            raise RuntimeError("the run is not done")
        return self._result

    def work(self, make: Callable[[Tell], ResultT]) -> None:
        """Make the answer; whatever is raised is kept for who asks."""
        self.begun = time.monotonic()
        try:
            self._result = make(self._tell)
        except Exception as error:  # noqa: BLE001 - it is raised again where somebody asks
            self._error = error
        finally:
            self.ended = time.monotonic()
            self._done.set()

    def _tell(self, words: str) -> None:
        self.said = words


@dataclass
class Runs(Generic[ResultT]):
    """Runs by what they answer; the same question is worked on once for all who ask it.

    Args:
        most_kept: finished runs whose answer is kept.
    """

    most_kept: int = MOST_KEPT
    _runs: dict[Hashable, Run[ResultT]] = field(default_factory=dict)
    _lock: threading.Lock = field(default_factory=threading.Lock)
    _turns: threading.Semaphore = field(default_factory=lambda: threading.Semaphore(AT_ONCE))

    def of(self, key: Hashable, make: Callable[[Tell], ResultT]) -> Run[ResultT]:
        """Return the run that answers a question, begun if there is none.

        Args:
            key: what is asked.
            make: makes the answer.

        Raises:
            Problems: kind ``busy``, when too many are waiting.
        """
        with self._lock:
            run = self._runs.pop(key, None)
            if run is None or run.broken:
                self._make_room()
                run = Run()
                # A server that is stopped does not wait for a search that nobody reads any more.
                threading.Thread(target=self._take_turn, args=(run, make), daemon=True).start()
            self._runs[key] = run
            return run

    def _take_turn(self, run: Run[ResultT], make: Callable[[Tell], ResultT]) -> None:
        with self._turns:
            run.work(make)

    def _make_room(self) -> None:
        going = sum(not run.done for run in self._runs.values())
        if going >= AT_ONCE + MOST_WAITING:
            message = f"{going} searches are going on, and no more can wait."
            raise problem("busy", message, None, "Ask again in a minute.")
        old = [key for key, run in self._runs.items() if run.done]
        for key in old[: max(0, len(old) - self.most_kept + 1)]:
            del self._runs[key]
