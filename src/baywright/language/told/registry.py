"""All that a book tells word for word; a new section is a function and a line here."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import TypeAlias

from baywright.facts.book import Book
from baywright.language.told.of_access import of_interlocks, of_lights, of_locks, of_service
from baywright.language.told.of_machine import of_air, of_machine, of_places
from baywright.language.told.of_rules import (
    of_cautions,
    of_firmware,
    of_models,
    of_must_say,
    of_rules,
)
from baywright.language.told.telling import Told

Tells: TypeAlias = Callable[[Book], Iterable[Told]]

SECTIONS: tuple[Tells, ...] = (
    of_machine,
    of_models,
    of_locks,
    of_lights,
    of_places,
    of_interlocks,
    of_service,
    of_air,
    of_firmware,
    of_rules,
    of_must_say,
    of_cautions,
)


def told_by(book: Book) -> tuple[Told, ...]:
    """Return every sentence that a book tells, each as firm as the facts it stands on."""
    return tuple(_as_firm(told) for section in SECTIONS for told in section(book))


def _as_firm(told: Told) -> Told:
    """Return a sentence that says so where a fact was measured on a sample or is assumed."""
    held = {fact.status for fact in told.facts}
    if "pre-release" in held:
        says = f"Measured on a sample: {told.says[0].lower()}{told.says[1:]}"
        return replace(told, says=says)
    if "assumed" in held:
        return replace(told, says=f"{told.says.rstrip('.')}, as far as is known.")
    return told
