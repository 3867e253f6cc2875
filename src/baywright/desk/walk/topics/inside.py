"""What else is inside: fans, boot media, energy packs."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.desk.walk.lines import Candidate, Subject
from baywright.facts.parts import Fan
from baywright.facts.places import Position
from baywright.language.told.telling import few
from baywright.laws.wording import listed


def fans(subject: Subject) -> Iterator[Candidate]:
    """Yield what may be said of fans."""
    counts = [each.known for each in subject.book.processors.counts]
    for processors, words in ((1, "one processor"), (2, "two processors")):
        if len(counts) > 1 and processors in counts:
            number = subject.most("fans", f"processors == {processors}")
            says = f"With {words} there are {few(number)} fans."
            yield Candidate("fans", "conditions", (says,))
    most, least = subject.most("fans"), subject.least("fans")
    if most == least:
        yield Candidate("fans", "counts", (f"There are always {few(most)} fans.",))
    else:
        yield Candidate("fans", "counts", (f"There are never fewer than {few(least)} fans.",))
    for part in subject.book.parts.values():
        if isinstance(part, Fan):
            yield Candidate("fans", "flow", (f"Each fan moves {part.flow.text}.",))
    yield Candidate(
        "fans",
        "fan redundancy",
        ("At sea level every build keeps a fan in reserve.",
         "At sea level some builds lose fan redundancy."),
    )  # fmt: skip
    yield Candidate("fans", "altitude", ("At 2,000 m some builds lose fan redundancy.",))
    limits = [each.limit for each in subject.book.air.inlet_limits]
    highest = max(limits, key=lambda limit: limit.known)
    yield Candidate("fans", "inlet", (f"The machine may run at {highest.text}.",
                                       f"It may run at {highest.text}."))  # fmt: skip


def boot(subject: Subject) -> Iterator[Candidate]:
    """Yield what may be said of boot media."""
    for name, place in subject.book.places_of(Position).items():
        parts = [p for p in subject.book.taken(list(place.takes)).values() if p.kind == "boot"]
        if not parts:
            continue
        taken = listed((f"the {part.name}" for part in parts), "or")
        says = (f"The {place.name} takes {taken}.",) if not place.always else ()
        yield Candidate("boot", "choices", says)
        if place.always:
            there = subject.book.parts[place.always]
            yield Candidate("boot", "counts", (f"A {there.name} is always there.",))
        elif subject.possible(f"{name} == empty"):
            yield Candidate("boot", "optional", ("You can do without any boot medium.",))
    yield from _systems(subject)


def _systems(subject: Subject) -> Iterator[Candidate]:
    """Yield which systems accept a boot medium that some of them refuse."""
    held = subject.book.settings.get("system")
    systems = {key: each.text for key, each in held.values.items()} if held else {}
    for part_id, part in subject.book.parts_of("boot").items():
        accept = [
            text
            for key, text in systems.items()
            if subject.possible(f'count("{part_id}") >= 1', f'system == "{key}"')
        ]
        for text in accept if len(accept) < len(systems) else ():
            says = (f"{text} accepts the {part.name}.",) if text != "not stated" else ()
            yield Candidate("boot", "systems", says, part.name)


def packs(subject: Subject) -> Iterator[Candidate]:
    """Yield what may be said of energy packs."""
    for part_id, part in subject.book.parts_of("pack").items():
        number = subject.most(f'count("{part_id}")')
        noun = part.name if number == 1 else f"{part.name}s"
        yield Candidate("packs", "totals", (f"Up to {few(number)} {noun} can be installed.",))
        yield Candidate("packs", "conditions", (f"The {part.name} needs a controller.",))
