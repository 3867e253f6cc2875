"""Moments in time: read from a clock, kept in UTC."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from typing import TypeAlias

from sqlalchemy import DateTime, Dialect
from sqlalchemy.types import TypeDecorator

Clock: TypeAlias = Callable[[], datetime.datetime]
"""A function that returns the present moment, with its zone."""


def present() -> datetime.datetime:
    """Return the present moment in UTC."""
    return datetime.datetime.now(datetime.UTC)


class Moment(TypeDecorator[datetime.datetime]):
    """A column of moments. SQLite keeps no zone, so UTC is taken off and put on again."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(
        self,
        value: datetime.datetime | None,
        dialect: Dialect,  # noqa: ARG002 - part of the signature that is overridden
    ) -> datetime.datetime | None:
        """Return the moment in UTC."""
        return value and value.astimezone(datetime.UTC)

    def process_result_value(
        self,
        value: datetime.datetime | None,
        dialect: Dialect,  # noqa: ARG002 - as above
    ) -> datetime.datetime | None:
        """Return the moment with its zone."""
        if value is None:
            return None
        zoned = value if value.tzinfo else value.replace(tzinfo=datetime.UTC)
        return zoned.astimezone(datetime.UTC)
