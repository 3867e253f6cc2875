"""Bringing a database to the tables of this release."""

from __future__ import annotations

from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, Engine, inspect

from baywright.problems import problem
from baywright.store.connecting import WRITES, place
from baywright.store.faults import told

VERSION_TABLE = "store_version"
"""Table that holds the step a database stands at."""

_ONE_AT_A_TIME = 0x62617977
"""Number of the lock of PostgreSQL under which one program at a time changes tables."""


def migrate(engine: Engine) -> None:
    """Bring the tables to this release, all steps in one transaction.

    Raises:
        Problems: kind ``store-log``, ``store-newer`` or ``store-foreign``.
        StoreUnavailable: when the database cannot be changed now.
    """
    where = place(engine)
    with told(where):
        with engine.connect() as connection:
            _refuse_without_log(connection, where)
            if not _is_behind(connection, where):
                return
        with engine.execution_options(**{WRITES: True}).begin() as connection:
            if connection.dialect.name == "postgresql":
                connection.exec_driver_sql(f"SELECT pg_advisory_xact_lock({_ONE_AT_A_TIME})")
            # Another program may have done it while this one waited.
            if _is_behind(connection, where):
                command.upgrade(_config(connection), "head")


def _refuse_without_log(connection: Connection, where: str) -> None:
    """Refuse a file on a disk where SQLite cannot write its log ahead."""
    if connection.dialect.name != "sqlite":
        return
    if connection.exec_driver_sql("PRAGMA journal_mode").scalar_one() != "wal":
        message = f"The file {where} lies where SQLite cannot keep its log."
        hint = "Put it on a disk of this machine, not on one shared over a network."
        raise problem("store-log", message, None, hint)


def _is_behind(connection: Connection, where: str) -> bool:
    """Say whether steps are missing; refuse a database that is not ours to change."""
    steps = ScriptDirectory.from_config(_config(connection))
    at = MigrationContext.configure(
        connection, opts={"version_table": VERSION_TABLE}
    ).get_current_revision()
    if at is None and set(inspect(connection).get_table_names()) - {VERSION_TABLE}:
        message = f"The database {where} holds tables of another program."
        raise problem("store-foreign", message, None, "Give a database of its own.")
    if at not in {None, *(step.revision for step in steps.walk_revisions())}:
        message = f"The store {where} was written by a later release of this program."
        hint = "Use that release, or put back a back-up from before."
        raise problem("store-newer", message, None, hint)
    return at != steps.get_current_head()


def _config(connection: Connection) -> Config:
    config = Config()
    config.set_main_option("script_location", str(Path(__file__).parent / "migrations"))
    config.set_main_option("path_separator", "os")
    config.attributes["connection"] = connection
    config.attributes["version_table"] = VERSION_TABLE
    return config
