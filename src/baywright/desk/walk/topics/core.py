"""Processors and memory."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.desk.walk.lines import Candidate, Subject
from baywright.desk.walk.topics.machine import day_said
from baywright.facts.parts import MemoryModule, Processor
from baywright.facts.places import Bank
from baywright.language.told.telling import few
from baywright.laws.wording import listed, plain


def processors(subject: Subject) -> Iterator[Candidate]:
    """Yield what may be said of processors."""
    counts = sorted(each.known for each in subject.book.processors.counts)
    number = listed((few(each) for each in counts), "or")
    noun = "processor" if counts == [1] else "processors"
    machine = subject.book.book.name
    says = (f"The {machine} takes {number} {noun}.", f"There are always {number} {noun}.",
            f"There is always {number} {noun}.")  # fmt: skip
    yield Candidate("processors", "counts", says)
    if counts[-1] > 1:
        yield Candidate("processors", "identical", ("Both processors must be identical.",))
    most, least = subject.most("cores"), subject.least("cores")
    total = f"The {machine} takes up to {few(most)} cores."
    yield Candidate("processors", "totals", (total,) if most > least else ())
    yield Candidate("processors", "totals", (f"There are always {few(most)} cores.",))
    parts = [part for part in subject.book.parts.values() if isinstance(part, Processor)]
    choice = listed((part.cores.text for part in parts), "or")
    several = (f"You can have {choice} cores in one socket.",) if len(parts) > 1 else ()
    yield Candidate("processors", "choices", several)
    for part in parts:
        watts = f"The {part.name} has a TDP of {part.tdp.text}."
        yield Candidate("processors", "watts", (watts,))
    for part in parts[:1]:
        if part.lanes is not None:
            lanes = f"{part.lanes.text} {part.lane_generation or 'PCIe'} lanes"
            yield Candidate("processors", "lanes", (f"Each processor brings {lanes}.",))


def memory(subject: Subject) -> Iterator[Candidate]:
    """Yield what may be said of memory."""
    banks = list(subject.book.places_of(Bank).values())
    if not banks:
        return
    machine = subject.book.book.name
    sockets = sum(bank.channels.known * bank.per_channel.known for bank in banks)
    most = subject.most_text("memory")
    yield Candidate("memory", "counts", (f"There are {few(sockets)} memory sockets.",))
    each = few(banks[0].channels.known)
    says = f"Each processor has {each} memory channels."
    if len(banks) == 1:
        says = f"There are {each} memory channels."
    yield Candidate("memory", "channels", (says,))
    parts = [part for part in subject.book.parts.values() if isinstance(part, MemoryModule)]
    for generation in dict.fromkeys(str(part.generation) for part in parts):
        yield Candidate("memory", "generation", (f"Memory is {generation}.",))
    sizes = listed(dict.fromkeys(part.size.text.removesuffix(" GB") for part in parts))
    yield Candidate("memory", "choices", (f"{sizes} GB modules fit.",))
    yield Candidate("memory", "identical", ("Modules of different sizes must not be mixed.",))
    for part in parts:
        if part.ships is not None and part.ships.value is not None:
            says = f"The {part.name} has been available since {day_said(part.ships.known)}."
            yield Candidate(
                "memory",
                "later parts",
                (says, says.replace("has been available since", "ships from")),
            )
    total = (f"The {machine} takes up to {most} of memory.", f"Memory goes up to {most}.")
    yield Candidate("memory", "totals", total, "most")
    yield from _at_most(subject, most)
    yield from _behind_one(subject, most)
    yield from _speeds(subject, most)


def _behind_one(subject: Subject, most: str) -> Iterator[Candidate]:
    alone = subject.most_text("memory", "processors == 1")
    if alone and alone != most:
        yield Candidate("memory", "conditions", (f"{alone} fits behind one processor.",), "most")


def _speeds(subject: Subject, most: str) -> Iterator[Candidate]:
    section = subject.book.memory
    stated = sorted({each.speed.known for each in section.speeds}) if section else []
    reached = [speed for speed in stated if subject.possible(f"memory_speed == {speed}")]
    if not reached:
        return
    slow, fast = plain(reached[0]), plain(reached[-1])
    if slow == fast:
        yield Candidate("memory", "speeds", (f"Memory always runs at {fast}.",))
        return
    yield Candidate("memory", "speeds", (f"Memory runs at up to {fast}.",))
    yield Candidate("memory", "speeds", (f"Memory never runs slower than {slow}.",))
    says = f"Memory runs at {fast} with one module per channel."
    yield Candidate("memory", "conditions", (says,))
    top = subject.most_text("memory", f"memory_speed == {reached[-1]}")
    yield Candidate("memory", "conditions", (f"Memory at {fast} goes up to {top}.",))


def _at_most(subject: Subject, most: str) -> Iterator[Candidate]:
    """Yield how fast the most memory runs, which belongs to how much it is."""
    section = subject.book.memory
    speeds = sorted({each.speed.known for each in section.speeds}) if section else []
    for speed in speeds if len(speeds) > 1 else ():
        if subject.possible(f"memory == {most}", f"memory_speed == {speed}"):
            says = f"{most} of memory runs at {plain(speed)}."
            yield Candidate("memory", "conditions", (says,), "most")
