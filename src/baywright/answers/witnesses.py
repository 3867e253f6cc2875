"""From the value indices of an engine to a build that people can read."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from baywright.answers.verdicts import Figure, Witness
from baywright.laws.builds import lines_of, parts_list
from baywright.laws.linear import Linear
from baywright.laws.machine import Machine
from baywright.laws.subsystem import Lookup, Lowest


def witness(machine: Machine, values: Mapping[str, int]) -> Witness:
    """Return a build with its lines, parts and figures."""
    own = {choice.name: values[choice.name] for choice in machine.space.choices}
    return Witness(
        own,
        tuple(lines_of(machine, own)),
        parts_list(machine, own),
        tuple(figures(machine, own)),
    )


def figures(machine: Machine, values: Mapping[str, int]) -> Iterator[Figure]:
    """Yield the named numbers of a build; names without a value in it are left out."""
    for name, named in machine.names.items():
        match named.meaning:
            case Linear() as linear:
                yield Figure(name, named.words, linear.value(values), linear.dimension)
            case Lookup() | Lowest() as looked_up:
                names = looked_up.scope
                number = looked_up.number(*(machine.frame.options(n)[values[n]] for n in names))
                if number is not None:
                    yield Figure(name, named.words, number, looked_up.dimension)
            case _:
                continue
