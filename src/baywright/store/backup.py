"""A copy of a store in a file, made while others work with it."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing
from pathlib import Path

from sqlalchemy import Engine

from baywright.problems import problem
from baywright.store.connecting import place
from baywright.store.faults import DAMAGED, DISK, unavailable


def back_up(engine: Engine, path: Path) -> None:
    """Write all that a SQLite store holds at this moment to a new file.

    Args:
        engine: connections to the store.
        path: the new file; it is for its owner alone.

    Raises:
        Problems: kind ``store-backup``, for PostgreSQL, or a file that exists or cannot be made.
        StoreUnavailable: when the copy cannot be written whole; no file is left then.
    """
    if engine.dialect.name != "sqlite":
        message = f"{place(engine)} is no file."
        hint = "PostgreSQL is backed up by its own means, such as pg_dump."
        raise problem("store-backup", message, None, hint)
    _make(path)
    try:
        _copy(place(engine), path)
    except sqlite3.Error as error:
        path.unlink()
        raise unavailable(DISK, str(path), str(error)) from error
    except BaseException:
        path.unlink()
        raise


def _make(path: Path) -> None:
    try:
        os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_RDWR, 0o600))
    except FileExistsError as error:
        raise problem("store-backup", f"{path} exists.", None, "Give a new file.") from error
    except OSError as error:
        message = f"{path} cannot be made: {error.strerror}."
        raise problem("store-backup", message, None, "Give a file in another folder.") from error


def _copy(store: str, path: Path) -> None:
    with closing(sqlite3.connect(store)) as source, closing(sqlite3.connect(path)) as copy:
        source.backup(copy)
        # One file by itself is easier to carry than a file with its log.
        copy.execute("PRAGMA journal_mode = DELETE")
        if copy.execute("PRAGMA quick_check").fetchone() != ("ok",):
            raise unavailable(DAMAGED, store)
