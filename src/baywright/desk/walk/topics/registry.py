"""All topics; a new one is a function in a file beside this one and a line here."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TypeAlias

from baywright.desk.walk.lines import Candidate, Line, Subject
from baywright.desk.walk.topics.core import memory, processors
from baywright.desk.walk.topics.drives import drives
from baywright.desk.walk.topics.inside import boot, fans, packs
from baywright.desk.walk.topics.machine import machine
from baywright.desk.walk.topics.power import supplies
from baywright.desk.walk.topics.rear import cards, network, ports, slots

Proposes: TypeAlias = Callable[[Subject], Iterable[Candidate]]

TOPICS: tuple[Proposes, ...] = (
    machine,
    drives,
    ports,
    network,
    supplies,
    slots,
    cards,
    fans,
    boot,
    processors,
    memory,
    packs,
)


def proven_lines(subject: Subject) -> tuple[Line, ...]:
    """Return every proposed sentence that is proven, each once."""
    found: dict[str, Line] = {}
    for propose in TOPICS:
        for candidate in propose(subject):
            line = subject.proven(candidate)
            if line is not None:
                found.setdefault(line.says, line)
    return tuple(found.values())
