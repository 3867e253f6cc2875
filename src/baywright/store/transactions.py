"""Transactions: all of a change is kept, or nothing of it."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy import Engine
from sqlalchemy.orm import Session

from baywright.store.connecting import WRITES, place
from baywright.store.faults import told
from baywright.store.moments import Clock


class Transactions:
    """Transactions on one database.

    Args:
        engine: its connections.
        clock: the present moment, for all that is dated.
    """

    def __init__(self, engine: Engine, clock: Clock) -> None:
        self.clock = clock
        self.place = place(engine)
        self._reads = engine
        self._writes = engine.execution_options(**{WRITES: True})

    @contextmanager
    def reading(self) -> Iterator[Session]:
        """Look at one state of the store.

        Raises:
            StoreUnavailable: when it cannot be read now.
        """
        with told(self.place), Session(self._reads) as session:
            yield session

    @contextmanager
    def writing(self) -> Iterator[Session]:
        """Change the store; what the block did is kept when the block has ended well.

        Raises:
            StoreUnavailable: when it cannot be kept now.
        """
        with told(self.place), Session(self._writes, expire_on_commit=False) as session:
            with told(self.place):
                yield session
                session.flush()
            with told(self.place, committing=True):
                session.commit()
