"""The first tables: builds, answers, people with sessions and tokens, audit."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None

# A step stands for itself: it names its types here and not through the tables of today.
MOMENT = sa.DateTime(timezone=True)
ROW_NUMBER = sa.BigInteger().with_variant(sa.Integer(), "sqlite")


def upgrade() -> None:
    """Make the tables."""
    _builds()
    _answers()
    _people()
    _sessions()
    _tokens()
    _audit()


def downgrade() -> None:
    """Remove the tables with all they hold."""
    for name in ("audit", "tokens", "sessions", "people", "answers", "builds"):
        op.drop_table(name)


def _text(name: str) -> sa.Column[str]:
    return sa.Column(name, sa.Text(), nullable=False)


def _moment(name: str) -> sa.Column[object]:
    return sa.Column(name, MOMENT, nullable=False)


def _person() -> sa.Column[str]:
    of = sa.ForeignKey("people.key", ondelete="CASCADE")
    return sa.Column("person", sa.Text(), of, nullable=False)


def _builds() -> None:
    op.create_table(
        "builds",
        sa.Column("id", sa.Text(), primary_key=True),
        sa.Column("version", sa.Integer(), nullable=False),
        *map(_text, ("name", "book", "text", "owner")),
        _moment("changed"),
        _text("changed_by"),
    )
    op.create_index("ix_builds_owner", "builds", ["owner"])


def _answers() -> None:
    op.create_table(
        "answers",
        sa.Column("number", ROW_NUMBER, primary_key=True, autoincrement=True),
        sa.Column("id", sa.Text(), nullable=False, unique=True),
        *map(_text, ("book", "question", "reading", "answer")),
        sa.Column("as_of", sa.Date(), nullable=False),
        _text("by"),
        _moment("asked"),
    )
    op.create_index("ix_answers_by", "answers", ["by"])


def _people() -> None:
    op.create_table(
        "people",
        sa.Column("key", sa.Text(), primary_key=True),
        *map(_text, ("name", "password", "roles")),
        _moment("added"),
    )


def _sessions() -> None:
    op.create_table(
        "sessions",
        sa.Column("digest", sa.Text(), primary_key=True),
        _person(),
        _moment("opened"),
        _moment("ends"),
    )
    op.create_index("ix_sessions_person", "sessions", ["person"])


def _tokens() -> None:
    op.create_table(
        "tokens",
        sa.Column("digest", sa.Text(), primary_key=True),
        _person(),
        *map(_text, ("name", "scopes")),
        _moment("issued"),
        sa.UniqueConstraint("person", "name"),
    )


def _audit() -> None:
    op.create_table(
        "audit",
        sa.Column("number", ROW_NUMBER, primary_key=True, autoincrement=True),
        _moment("at"),
        *map(_text, ("by", "act", "thing", "details")),
    )
