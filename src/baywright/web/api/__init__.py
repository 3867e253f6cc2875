"""The interface for programs: what the desk answers, as JSON, described by OpenAPI."""

from __future__ import annotations

from fastapi import APIRouter

from baywright.web.api import builds, care, lists, machines, questions, work

ROUTERS: tuple[APIRouter, ...] = (
    questions.router,
    work.router,
    lists.router,
    machines.router,
    care.router,
    builds.router,
)
