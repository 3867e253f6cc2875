"""The tables: those of the models after all steps, and no other program's."""

from __future__ import annotations

import pytest
import sqlalchemy as sa
from alembic import command
from alembic.autogenerate import compare_metadata
from alembic.runtime.migration import MigrationContext

from baywright.problems import Problems
from baywright.store import open_store
from baywright.store.connecting import connected
from baywright.store.migrating import VERSION_TABLE, _config, migrate
from baywright.store.tables import Base


def kind_of_refusal(url: str) -> str:
    with pytest.raises(Problems) as refused:
        open_store(url)
    return refused.value.problems[0].kind


def run(url: str, *statements: str) -> None:
    engine = connected(url, 1)
    with engine.begin() as connection:
        for statement in statements:
            connection.exec_driver_sql(statement)
    engine.dispose()


def test_the_steps_lead_to_the_tables_of_the_models(new_url: str) -> None:
    engine = connected(new_url, 1)
    migrate(engine)
    with engine.connect() as connection:
        context = MigrationContext.configure(
            connection, opts={"version_table": VERSION_TABLE, "compare_type": True}
        )
        assert compare_metadata(context, Base.metadata) == []
    engine.dispose()


def test_the_steps_can_be_taken_back(new_url: str) -> None:
    engine = connected(new_url, 1)
    migrate(engine)
    with engine.begin() as connection:
        command.downgrade(_config(connection), "base")
        assert sa.inspect(connection).get_table_names() == [VERSION_TABLE]
    migrate(engine)
    with engine.connect() as connection:
        assert "builds" in sa.inspect(connection).get_table_names()
    engine.dispose()


def test_steps_that_fail_leave_nothing(new_url: str, monkeypatch: pytest.MonkeyPatch) -> None:
    whole = command.upgrade

    def fail(config: object, target: str) -> None:
        whole(config, target)  # type: ignore[arg-type]
        raise RuntimeError("the last step failed")

    engine = connected(new_url, 1)
    with monkeypatch.context() as patched:
        patched.setattr(command, "upgrade", fail)
        with pytest.raises(RuntimeError, match="the last step failed"):
            migrate(engine)
    with engine.connect() as connection:
        assert sa.inspect(connection).get_table_names() == []
    engine.dispose()
    open_store(new_url).close()


def test_a_store_of_a_later_release_is_left_alone(new_url: str) -> None:
    open_store(new_url).close()
    run(new_url, f"UPDATE {VERSION_TABLE} SET version_num = '9999'")  # noqa: S608 - a constant
    assert kind_of_refusal(new_url) == "store-newer"


def test_a_database_of_another_program_is_left_alone(new_url: str) -> None:
    run(new_url, "CREATE TABLE invoices (number INTEGER)")
    assert kind_of_refusal(new_url) == "store-foreign"
    engine = connected(new_url, 1)
    with engine.connect() as connection:
        assert sa.inspect(connection).get_table_names() == ["invoices"]
    engine.dispose()
