"""The tables of a store. A change here needs a step under ``migrations/versions``."""

from __future__ import annotations

import datetime

from sqlalchemy import BigInteger, ForeignKey, Integer, Text, UniqueConstraint
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

from baywright.store.moments import Moment


class Base(DeclarativeBase):
    """What every table shares: texts of any length, moments in UTC."""

    type_annotation_map = {str: Text(), datetime.datetime: Moment()}  # noqa: RUF012 - as declared there


# SQLite numbers rows by itself only where the column is a plain INTEGER.
_RowNumber = BigInteger().with_variant(Integer(), "sqlite")


class BuildRow(Base):
    """A build that somebody keeps, with its version and who made it what it is."""

    __tablename__ = "builds"

    id: Mapped[str] = mapped_column(primary_key=True)
    version: Mapped[int]
    name: Mapped[str]
    book: Mapped[str]
    text: Mapped[str]
    owner: Mapped[str] = mapped_column(index=True)
    changed: Mapped[datetime.datetime]
    changed_by: Mapped[str]


class AnswerRow(Base):
    """A question with its answer, in the order they were asked."""

    __tablename__ = "answers"

    number: Mapped[int] = mapped_column(_RowNumber, primary_key=True, autoincrement=True)
    id: Mapped[str] = mapped_column(unique=True)
    book: Mapped[str]
    question: Mapped[str]
    reading: Mapped[str]
    answer: Mapped[str]
    as_of: Mapped[datetime.date]
    by: Mapped[str] = mapped_column(index=True)
    asked: Mapped[datetime.datetime]


class PersonRow(Base):
    """A person who may sign in. The key is the name without regard to capitals."""

    __tablename__ = "people"

    key: Mapped[str] = mapped_column(primary_key=True)
    name: Mapped[str]
    password: Mapped[str]
    roles: Mapped[str]
    added: Mapped[datetime.datetime]


class SessionRow(Base):
    """A person signed in until a moment."""

    __tablename__ = "sessions"

    digest: Mapped[str] = mapped_column(primary_key=True)
    person: Mapped[str] = mapped_column(ForeignKey("people.key", ondelete="CASCADE"), index=True)
    opened: Mapped[datetime.datetime]
    ends: Mapped[datetime.datetime]


class TokenRow(Base):
    """A key that lets a program act for a person, within scopes."""

    __tablename__ = "tokens"
    __table_args__ = (UniqueConstraint("person", "name"),)

    digest: Mapped[str] = mapped_column(primary_key=True)
    person: Mapped[str] = mapped_column(ForeignKey("people.key", ondelete="CASCADE"))
    name: Mapped[str]
    scopes: Mapped[str]
    issued: Mapped[datetime.datetime]


class AuditRow(Base):
    """What was done, by whom, to what. Rows are added and never changed."""

    __tablename__ = "audit"

    number: Mapped[int] = mapped_column(_RowNumber, primary_key=True, autoincrement=True)
    at: Mapped[datetime.datetime]
    by: Mapped[str]
    act: Mapped[str]
    thing: Mapped[str]
    details: Mapped[str]
