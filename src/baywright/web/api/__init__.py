"""The interface for programs: what the desk answers, as JSON, described by OpenAPI."""

from __future__ import annotations

from fastapi import APIRouter

from baywright.web.api import (
    builds,
    care,
    changes,
    faults,
    lists,
    machines,
    papers,
    questions,
    work,
)

ROUTERS: tuple[APIRouter, ...] = (
    questions.router,
    work.router,
    lists.router,
    machines.router,
    care.router,
    faults.router,
    papers.router,
    changes.router,
    builds.router,
)
