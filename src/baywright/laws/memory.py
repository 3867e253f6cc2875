"""Memory: how many modules, of what size and kind, and the speed of a population."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterable, Iterator, Mapping
from fractions import Fraction
from functools import cache, partial

from baywright.facts.book import Book
from baywright.facts.fact import Fact
from baywright.facts.parts import MemoryModule, Part, Processor
from baywright.facts.places import Bank
from baywright.facts.sections import MemorySection, MemorySpeed
from baywright.laws.formula import AnyOf, Formula, Rows
from baywright.laws.frame import Fitting, Frame, Option, numbered, same_or_empty, structure
from baywright.laws.subsystem import Lookup, Lowest, Named, Subsystem
from baywright.laws.wording import counted, listed
from baywright.space import Law
from baywright.units import Quantity


def _choices(book: Book) -> Iterator[Fitting]:
    modules = book.parts_of("memory")
    for name, bank in book.places_of(Bank).items():
        sockets = bank.channels.known * bank.per_channel.known
        room = counted(sockets, "socket")
        sentence = f"{bank.name} has {room} for modules of one kind{_largest(modules)}."
        why = structure(book, name, sentence, bank.channels, bank.per_channel)
        yield Fitting(name, name, numbered(modules, sockets), why)


def _largest(modules: Mapping[str, Part]) -> str:
    sizes = [part.size.known for part in modules.values() if isinstance(part, MemoryModule)]
    return f", the largest {max(sizes)}" if sizes else ""


def _laws(frame: Frame) -> Iterable[Law]:
    banks = frame.book.places_of(Bank)
    yield from _owners(frame, banks)
    for name, bank in banks.items():
        yield from _counts(frame, name, bank)
        yield from _ranks(frame, name, bank)
    yield from _together(frame, banks)


def _owners(frame: Frame, banks: Mapping[str, Bank]) -> Iterator[Law]:
    """Memory works only with its processor, which has some in at least one of its banks."""
    sentence = "A fitted processor has memory, and memory works only with its processor."
    for owner in dict.fromkeys(bank.owner for bank in banks.values()):
        own = [name for name, bank in banks.items() if bank.owner == owner]
        origin = frame.law("memory.owner", sentence, owner)
        filled = (_is(frame, name, filled=True) for name in own)
        yield from frame.formula(origin, AnyOf((_is(frame, owner, filled=False), *filled)))
        for name in own:
            yield from frame.table(
                origin,
                (owner, name),
                lambda processor, modules: bool(processor.parts) or not modules.parts,
            )


def _counts(frame: Frame, name: str, bank: Bank) -> Iterator[Law]:
    allowed = sorted(count.known for count in bank.counts)
    sentence = f"{bank.name} takes {listed(map(str, allowed), 'or')} modules."
    yield from frame.table(
        frame.law(f"memory.count/{name}", sentence, *bank.counts),
        (name,),
        lambda modules: takes(bank, modules),
    )


def takes(bank: Bank, modules: Option) -> bool:
    """Say whether a bank may hold that number of modules; empty it may always be."""
    return not modules.parts or modules.count in {count.known for count in bank.counts}


def _ranks(frame: Frame, name: str, bank: Bank) -> Iterator[Law]:
    section = frame.book.memory
    if section is None or section.ranks_per_channel is None:
        return
    most = section.ranks_per_channel.known
    sentence = f"A channel of {bank.name} carries at most {most} ranks."
    origin = frame.law(f"memory.ranks/{name}", sentence, section.ranks_per_channel)
    yield from frame.table(origin, (name,), lambda modules: carries(frame, bank, modules))


def carries(frame: Frame, bank: Bank, modules: Option) -> bool:
    """Say whether the fullest channel of a bank carries the ranks of its modules."""
    section, part = frame.book.memory, module_of(frame, modules)
    if section is None or section.ranks_per_channel is None or part is None or part.ranks is None:
        return True
    ranks = part.ranks.known * fullest_channel(bank, modules.count)
    return ranks <= section.ranks_per_channel.known


def _together(frame: Frame, banks: Mapping[str, Bank]) -> Iterator[Law]:
    section = frame.book.memory or MemorySection(speeds=[])
    owners = {bank.owner for bank in banks.values()}
    if _yes(section.same_everywhere):
        sentence = "Every fitted processor has the same modules."
        origin = frame.law("memory.same", sentence, section.same_everywhere)
        for pair in _alike(banks):
            yield from frame.table(origin, pair, same_or_empty)
            for one, other in itertools.permutations(pair) if len(banks) > len(owners) else ():
                yield from frame.formula(origin, _fills_too(frame, one, other, banks[other].owner))
    pairs = list(itertools.combinations(banks, 2))
    if _yes(section.one_size):
        origin = frame.law("memory.size", "All modules are of one size.", section.one_size)
        agreeing = _agreeing(frame, "size")
        for pair in pairs:
            yield from frame.table(origin, pair, agreeing)
    for attribute in ("type", "generation"):
        origin = frame.law(f"memory.{attribute}", f"All modules are of one {attribute}.")
        agreeing = _agreeing(frame, attribute)
        for pair in pairs:
            yield from frame.table(origin, pair, agreeing)


def _alike(banks: Mapping[str, Bank]) -> Iterator[tuple[str, str]]:
    """Yield pairs of banks that stand at the same position beside different processors."""
    beside: dict[str, list[str]] = {}
    for name, bank in banks.items():
        beside.setdefault(bank.owner, []).append(name)
    for first, second in itertools.combinations(beside.values(), 2):
        yield from zip(first, second, strict=False)


def _fills_too(frame: Frame, bank: str, other: str, owner: str) -> Formula:
    """Return the formula that modules in a bank, and a processor beside the other, fill that."""
    return AnyOf(
        (
            _is(frame, bank, filled=False),
            _is(frame, owner, filled=False),
            _is(frame, other, filled=True),
        )
    )


def _is(frame: Frame, name: str, *, filled: bool) -> Rows:
    return Rows((name,), frame.rows((name,), lambda option: bool(option.parts) == filled))


def _agreeing(frame: Frame, attribute: str) -> Callable[[Option, Option], bool]:
    """Return ``agree`` for one attribute, with two modules compared once for all banks."""

    @cache
    def parts_agree(first: str | None, second: str | None) -> bool:
        return _same(_module(frame, first), _module(frame, second), attribute)

    return lambda first, second: parts_agree(first.part, second.part)


def agree(frame: Frame, first: Option, second: Option, attribute: str) -> bool:
    """Say whether the modules of two banks have the same of something, or one has none."""
    return _same(module_of(frame, first), module_of(frame, second), attribute)


def _same(one: MemoryModule | None, other: MemoryModule | None, attribute: str) -> bool:
    if one is None or other is None:
        return True
    mine, theirs = getattr(one, attribute), getattr(other, attribute)
    if isinstance(mine, Fact) and isinstance(theirs, Fact):
        return bool(mine.known == theirs.known)
    return bool(mine == theirs)


def module_of(frame: Frame, option: Option) -> MemoryModule | None:
    """Return the module that an option of a bank puts into it, or ``None``."""
    return _module(frame, option.part)


def _module(frame: Frame, name: str | None) -> MemoryModule | None:
    part = frame.book.parts.get(name or "")
    return part if isinstance(part, MemoryModule) else None


def _yes(fact: Fact[bool] | None) -> bool:
    return fact is not None and fact.known


def fullest_channel(bank: Bank, modules: int) -> int:
    """Return the modules on the fullest channel; they are spread over channels before doubling."""
    return math.ceil(modules / bank.channels.known)


def bank_speed(frame: Frame, name: str, option: Option) -> Quantity | None:
    """Return the speed of a bank's population, or of its modules where that is less."""
    module, bank = module_of(frame, option), frame.book.places[name]
    if module is None or frame.book.memory is None or not isinstance(bank, Bank):
        return None
    fullest = fullest_channel(bank, option.count)
    entries = (e for e in frame.book.memory.speeds if _applies(e, module, fullest))
    speeds = [entry.speed.known for entry in itertools.islice(entries, 1)]
    if module.speed is not None:
        speeds.append(module.speed.known)
    return min(speeds, default=None)


def processor_speed(frame: Frame, option: Option) -> Quantity | None:
    """Return the fastest memory that the processor in a socket drives, where it says so."""
    part = frame.book.parts.get(option.part or "")
    if not isinstance(part, Processor) or part.memory_speed is None:
        return None
    return part.memory_speed.known


def _applies(entry: MemorySpeed, module: MemoryModule, fullest: int) -> bool:
    conditions = (
        (entry.per_channel, fullest),
        (entry.size, module.size.known),
        (entry.ranks, module.ranks.known if module.ranks else None),
    )
    return all(fact is None or fact.known == value for fact, value in conditions)


def _capacity(name: str, part: Part) -> Fraction | int:
    return part.size.known.canonical if isinstance(part, MemoryModule) else 0


def _names(frame: Frame) -> Mapping[str, Named]:
    memory = Named(frame.linear(_capacity, "memory"), "memory in all", "the memory")
    banks = frame.book.places_of(Bank)
    if not banks:
        return {"memory": memory}
    of_banks = [
        Lookup((name,), partial(bank_speed, frame, name), "transfer_rate") for name in banks
    ]
    of_processors = [
        Lookup((owner,), partial(processor_speed, frame), "transfer_rate")
        for owner in dict.fromkeys(str(bank.owner) for bank in banks.values())
    ]
    speed = Lowest((*of_banks, *of_processors), "transfer_rate")
    return {
        "memory": memory,
        "memory_speed": Named(speed, "data rate of the memory", "the memory speed"),
    }


SUBSYSTEM = Subsystem("memory", _choices, _laws, _names)
