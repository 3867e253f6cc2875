"""What a book states in sentences of its own, and the cautions every book shares."""

from __future__ import annotations

import re
from collections.abc import Iterator

from baywright.facts.book import Book
from baywright.facts.cautions import CAUTIONS, PLANNING_AID, Caution
from baywright.language.told.telling import Told
from baywright.laws.wording import capitalised, listed


def of_must_say(book: Book) -> Iterator[Told]:
    """Yield the sentences that no draft may leave out."""
    for needed in book.must_say.values():
        if needed.says.value is not None:
            yield Told("must-say", needed.says.known, book.cite(needed.says))


def of_rules(book: Book) -> Iterator[Told]:
    """Yield the reasons of the rules, where they are whole sentences."""
    for rule in book.rules.values():
        if rule.says.value is not None:
            yield Told("rules", f"{capitalised(rule.says.known)}.", book.cite(rule.says))


def of_models(book: Book) -> Iterator[Told]:
    """Yield which models are ready-made."""
    names = [str(model.name) for model in book.models.values()]
    if names:
        noun, verb = ("model", "is") if len(names) == 1 else ("models", "are")
        says = f"The {noun} {listed(names)} {verb} ready-made."
        yield Told("models", says, book.cite(*(each.name for each in book.models.values())))


def of_firmware(book: Book) -> Iterator[Told]:
    """Yield the order of updates and the lowest versions."""
    firmware = book.firmware
    if firmware.update_order:
        order = listed(each.text for each in firmware.update_order)
        says = f"Firmware is updated in this order: {order}."
        yield Told("firmware", says, book.cite(*firmware.update_order))
    for each in firmware.minimum:
        system = book.settings.get("system")
        systems = [system.values[name] for name in each.systems] if system else []
        lowest, held = each.at_least.text, listed((value.text for value in systems), "or")
        says = f"With {held}, {each.part} needs firmware {lowest} or later."
        yield Told("firmware", says, book.cite(each.part, each.at_least, *systems))


def of_cautions(book: Book) -> Iterator[Told]:
    """Yield each sentence of the usual cautions, and the line of every service output."""
    for name, caution in CAUTIONS.items():
        for says in caution_sentences(caution):
            yield Told(f"caution {name}", says)
    for says in re.split(r"(?<=\.) ", PLANNING_AID):
        yield Told("planning-aid", says)


def caution_sentences(caution: Caution) -> tuple[str, ...]:
    """Return a caution as it is spoken: its word with the hazard, consequence, avoidance."""
    hazard = f"{caution.hazard[0].lower()}{caution.hazard[1:]}"
    return f"{caution.word.capitalize()}: {hazard}", caution.consequence, caution.avoidance
