"""The management port: its own, or shared with a port of a network module."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from baywright.facts.fact import Fact
from baywright.service.losing.items import Effect, Function, Item, Open, Thing
from baywright.service.losing.nodes import Ground, Node, every, some
from baywright.service.losing.standing import Standing

STANDBY = Ground(
    "losing.standby",
    "Management runs on the standby power of any supply that is fed, also while the machine is "
    "off. Common practice, no source.",
)

_SHARED = re.compile(r"\bport (?P<port>\d+) of (?P<unit>[\w.]+)")


@dataclass(frozen=True, slots=True)
class _Shared:
    """A port of a network module, as the words of a setting name it."""

    unit: str
    port: str
    said: Fact[str]


def management(at: Standing, nodes: Mapping[str, Node]) -> Iterator[Item]:
    """Yield the management port and what it hangs on."""
    ports = [port for port in at.book.chassis.ports if port.type == "management"]
    if not ports:
        return
    shared = _shared(at)
    if shared is not None and f"{shared.unit}.port.{shared.port}" not in nodes:
        yield Open("management", (f"port {shared.port} of {shared.unit}, which is not there",))
        return
    if shared is None:
        yield Thing("management.port", "the management port", "port")
    node = every(nodes["board works"], _standby(nodes), _port(at, nodes, shared))
    gone = "The machine cannot be reached over its management port."
    yield Function("management", "management", node, Effect.OUT, gone, served=False)


def _shared(at: Standing) -> _Shared | None:
    """Return the port that management shares, where the value of a setting says so in words."""
    for name, setting in at.book.settings.items():
        value = str(at.build.settings.get(name, next(iter(setting.values))))
        said = setting.values.get(value)
        if said is None:
            continue
        found = _SHARED.search(said.known)
        if found and found["unit"] in at.book.places:
            return _Shared(found["unit"], found["port"], said)
    return None


def _port(at: Standing, nodes: Mapping[str, Node], shared: _Shared | None) -> Node:
    """The shared port needs its chip and its module; the processor behind them may be gone."""
    if shared is None:
        sentence = "The management port is one of its own."
        return every(nodes["management.port"], because=Ground("losing.management", sentence))
    sentence = f"Management is shared with port {shared.port} of {shared.unit}."
    module = [key for key in nodes if key == shared.unit or key.startswith(f"{shared.unit}.chip.")]
    port = nodes[f"{shared.unit}.port.{shared.port}"]
    because = Ground("losing.management", sentence, at.cite(shared.said))
    return every(port, *(nodes[key] for key in module), because=because)


def _standby(nodes: Mapping[str, Node]) -> Node:
    fed = [node for key, node in nodes.items() if key.startswith("fed ")]
    return some(*fed, because=STANDBY) if fed else every()
