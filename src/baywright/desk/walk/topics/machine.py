"""The machine as a whole: size, mass, dates, price."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from baywright.desk.walk.lines import Candidate, Subject
from baywright.laws.wording import capitalised

MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September",
    "October", "November", "December",
)  # fmt: skip


def day_said(day: date) -> str:
    """Return a day as it is read aloud, such as ``17 March 2031``."""
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"


def machine(subject: Subject) -> Iterator[Candidate]:
    """Yield what may be said of the machine as a whole."""
    book = subject.book
    chassis, about = book.chassis, book.book
    size = f"It is {chassis.height.text} tall and {chassis.depth.text} deep."
    yield Candidate("machine", "size", (size, f"It is {chassis.depth.text} deep."))
    yield Candidate("machine", "width", (f"It is {chassis.width.text} wide.",))
    empty, most = chassis.mass_empty.text, chassis.mass_most.text
    both = f"Empty it weighs {empty}; fully loaded it weighs {most}."
    yield Candidate("machine", "mass", (both, f"Fully loaded it weighs {most}."))
    if about.announced is not None and about.announced.value is not None:
        says = f"It was announced on {day_said(about.announced.known)}."
        yield Candidate("machine", "announced", (says,))
    if about.ships is not None and about.ships.value is not None:
        day = day_said(about.ships.known)
        since = (f"It has been available since {day}.", f"It ships from {day}.")
        yield Candidate("machine", "dates", since)
    if about.last_order is not None and about.last_order.value is not None:
        last = f"It can be ordered until {day_said(about.last_order.known)}."
        yield Candidate("machine", "dates", (last,))
    for stance in book.chassis.orientations.values():
        kit = book.parts.get(str(stance.needs or ""))
        if kit is not None and str(stance.name) not in kit.name:
            says = f"{capitalised(str(stance.name))} it needs the {kit.name}."
            yield Candidate("machine", "stance", (says,))
    price = subject.least_text("price")
    yield Candidate("machine", "price", (f"It costs at least {price}.",) if price else ())
