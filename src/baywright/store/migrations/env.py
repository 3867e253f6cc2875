"""Run by Alembic to take the steps, on the connection that it was given."""

from __future__ import annotations

from alembic import context

attributes = context.config.attributes
context.configure(
    connection=attributes["connection"],
    version_table=attributes["version_table"],
    # SQLite changes tables inside a transaction as well; Alembic leaves that for us to say.
    transactional_ddl=True,
)
context.run_migrations()
