"""Faults: what can be behind what is seen, what to check next, and the decision tree."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from fastapi import APIRouter, Request

from baywright.answers.as_json import Json
from baywright.desk.service.faults import FaultRequest, diagnose
from baywright.desk.service.faults_json import diagnosis_json
from baywright.web.access import reader
from baywright.web.chosen import at_site

router = APIRouter(prefix="/api/books", tags=["care"])


@dataclass(frozen=True, slots=True)
class Seen:
    """What is seen of a build.

    Args:
        text: the build, as YAML.
        seen: what is seen, by id or in words of the book.
        not_seen: what is looked for and not seen.
        nothing_else: whether nothing else is seen of what can be seen as things stand.
        cover: whether covers are off already.
        cords: whether the machine is stopped, its cords out and its covers off.
        volts: voltage of the feeds with its unit.
    """

    text: str
    seen: list[str] = field(default_factory=list)
    not_seen: list[str] = field(default_factory=list)
    nothing_else: bool = False
    cover: Literal["on", "off"] = "on"
    cords: Literal["in", "out"] = "in"
    volts: str = ""


@router.post("/{book}/faults")
def find_fault(request: Request, book: str, body: Seen) -> Json:
    """Say what can be behind what is seen, and how to find out."""
    reader(request)
    opened, build, site = at_site(request, book, body.text, body.volts)
    asked = FaultRequest(
        tuple(body.seen), tuple(body.not_seen), body.nothing_else, body.cover, body.cords
    )
    return diagnosis_json(diagnose(opened, build, asked, site))
