"""A need as wishes: what each of some equal machines has to have."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from fractions import Fraction

from baywright.answers.figures import amount
from baywright.facts.fact import mark_of
from baywright.facts.need import Accelerators as AskedCards
from baywright.facts.need import Need
from baywright.facts.parts import Accelerator, Network
from baywright.facts.parts import Part as AnyPart
from baywright.laws.formula import Formula, compared, encode
from baywright.laws.linear import Linear
from baywright.laws.machine import Machine
from baywright.laws.usable import arrays_keep
from baywright.laws.wishes import Level, Wish, wishes_of
from baywright.problems import Mark
from baywright.sizing.demand import Demand, Resource, data_of, demands
from baywright.space import Kind, Origin
from baywright.terms import parse
from baywright.terms.syntax import Comparison, Expression, Not

NAMES: dict[Resource, tuple[str, str]] = {
    "cores": ("cores", "cores"),
    "memory": ("memory", "memory"),
    "raw": ("raw_capacity", "capacity of drives"),
    "usable": ("raw_capacity", "capacity of drives"),
}
"""Resources that a name of every book stands for, and their words."""


def wishes_for(machine: Machine, need: Need, hosts: int) -> list[Wish]:
    """Return what each of some equal machines has to have.

    The voltage of the site is hard: nothing near gives it up.

    Args:
        machine: the compiled book.
        need: the need; ``check_need`` has nothing against it.
        hosts: machines that carry it together, more than may fail.

    Raises:
        Problems: for an expression that makes no sense in the book.
    """
    writing = _Writing(machine, hosts)
    _site(writing, need)
    for demand in demands(need):
        _demand(writing, need, demand)
    _arrays(writing, need, data_of(need) / hosts)
    _failures(writing, need)
    _budget(writing, need)
    _conditions(writing, need)
    return writing.wishes


def lasting(machine: Machine, need: Need) -> list[Wish]:
    """Return what a machine has to have however many there are.

    Of what is shared that is more than each keeps for itself; of data, arrays that survive.
    """
    writing = _Writing(machine, 1)
    _site(writing, need)
    for demand in demands(need):
        op: Comparison = ">" if demand.total and not demand.guests else ">="
        linear, words = linear_of(machine, demand.resource), words_of(demand.resource)
        writing.bound(linear, op, demand.of_any, words, f"some {words}")
    _arrays(writing, need, Fraction(0))
    _failures(writing, need)
    _conditions(writing, need)
    return writing.wishes


def welcome(machine: Machine, need: Need) -> list[tuple[str, list[Wish]]]:
    """Return what is welcome but not needed, each as written and as wishes."""
    found = []
    for text in need.may:
        expression = parse(text, mark_of(text))
        found.append((str(text), wishes_of(machine, expression, mark_of(text))))
    return found


@dataclass
class _Writing:
    """Wishes as they are written down, numbered as they come.

    Args:
        machine: the compiled book.
        hosts: how many machines there are.
    """

    machine: Machine
    hosts: int
    wishes: list[Wish] = field(default_factory=list)

    @property
    def each(self) -> str:
        """How a sentence says that something holds for every machine."""
        return f" in each of {self.hosts} machines" if self.hosts > 1 else ""

    def condition(self, expression: Expression, mark: Mark | None, *, hard: bool = False) -> None:
        """Add an expression of the book's language."""
        read = wishes_of(self.machine, expression, mark, len(self.wishes) + 1)
        self.wishes += [replace(wish, hard=hard) for wish in read]

    def formula(self, said: str, formula: Formula, level: Level | None = None) -> None:
        """Add a formula with its sentence."""
        key = f"wish:{len(self.wishes) + 1}"
        self.wishes.append(wish_of_formula(self.machine, key, f"Asked: {said}.", formula, level))

    def bound(self, linear: Linear, op: Comparison, bound: Fraction, words: str, said: str) -> None:
        """Add a bound on a total."""
        level = Level(linear, op, bound, words)
        self.formula(said, compared(linear.minus(Linear(constant=bound)), op), level)


def wish_of_formula(
    machine: Machine,
    key: str,
    sentence: str,
    formula: Formula,
    level: Level | None = None,
    kind: Kind = "wish",
) -> Wish:
    """Return a formula as a wish of its own sentence."""
    origin = Origin(key, kind, sentence)
    encoded = encode(formula, origin, machine.sizes)
    text = sentence.removeprefix("Asked: ").rstrip(".")
    return Wish(origin, text, tuple(encoded.choices), tuple(encoded.laws), level=level)


def _site(writing: _Writing, need: Need) -> None:
    voltage = need.site.voltage
    if voltage is not None and voltage.value is not None:
        expression = parse(f"voltage == {voltage.text}", voltage.mark)
        writing.condition(expression, voltage.mark, hard=True)


def _demand(writing: _Writing, need: Need, demand: Demand) -> None:
    share = demand.of_host(writing.hosts)
    if demand.resource == "accelerators" and need.demand.accelerators:
        _cards(writing, need.demand.accelerators, share, demand)
        return
    linear = linear_of(writing.machine, demand.resource)
    words = words_of(demand.resource)
    said = _at_least(share, demand, words) + writing.each + _origin(demand, writing.hosts)
    writing.bound(linear, ">=", share, words, said)


def _at_least(share: Fraction, demand: Demand, words: str) -> str:
    shown = amount(share, demand.dimension)
    return f"at least {shown} {words}" if not demand.dimension else f"at least {shown} of {words}"


def _origin(demand: Demand, hosts: int) -> str:
    """Return how an amount came about, in brackets."""
    left = hosts - demand.lost
    said = f"({demand.said})" if " + " in demand.said and left > 1 else demand.said
    said += f" over {left}" if left > 1 else ""
    if demand.kept:
        said += f", and {amount(demand.kept, demand.dimension)} kept back"
    plain = hosts == 1 and not demand.kept and " " not in demand.said.replace(" GB", "")
    return "" if plain else f" ({said})"


def _cards(writing: _Writing, asked: AskedCards, share: Fraction, demand: Demand) -> None:
    """Ask for cards by number, and for their power apart, so that either can be given up."""
    frame = writing.machine.frame
    cards = frame.linear(lambda _, part: int(isinstance(part, Accelerator)))
    said = f"at least {amount(share, '')} accelerators{writing.each}"
    writing.bound(cards, ">=", share, "accelerators", said + _origin(demand, writing.hosts))
    if asked.power is None:
        return
    least = asked.power.known.canonical

    def weak(_: str, part: AnyPart) -> int:
        return int(isinstance(part, Accelerator) and _power(part) < least)

    words = f"accelerators of less than {amount(least, 'power')}"
    none = compared(frame.linear(weak), "<=")
    # A near miss is told by the power of all cards: eight weaker ones come near, none do not.
    power = frame.linear(
        lambda _, part: _power(part) if isinstance(part, Accelerator) else Fraction(0), "power"
    )
    level = Level(power, ">=", share * least, "power of the accelerators")
    writing.formula(f"no {words}{writing.each}", none, level)


def _power(card: Accelerator) -> Fraction:
    return card.power.known.canonical if card.power is not None else Fraction(0)


def words_of(resource: Resource) -> str:
    """Return what a resource is called."""
    if resource == "accelerators":
        return "accelerators"
    return NAMES[resource][1] if resource in NAMES else "rate of the network ports"


def linear_of(machine: Machine, resource: Resource) -> Linear:
    """Return the total of a resource that one machine has."""
    if resource in NAMES:
        meaning = machine.names[NAMES[resource][0]].meaning
        return meaning if isinstance(meaning, Linear) else Linear()
    if resource == "accelerators":
        return machine.frame.linear(lambda _, part: int(isinstance(part, Accelerator)))
    return machine.frame.linear(lambda _, part: _rate(part), "data_rate")


def _rate(part: AnyPart) -> Fraction:
    """Return the rate of all network ports of a part."""
    if not isinstance(part, Network) or part.speed is None:
        return Fraction(0)
    ports = sum(port.count.known for port in part.ports if str(port.type) == "network")
    return ports * part.speed.known.canonical


def _conditions(writing: _Writing, need: Need) -> None:
    for text in need.must:
        writing.condition(parse(text, mark_of(text)), mark_of(text))
    for text in need.must_not:
        writing.condition(Not(parse(text, mark_of(text))), mark_of(text))


def _arrays(writing: _Writing, need: Need, data: Fraction) -> None:
    failures = need.demand.drive_failures
    if failures is None or not failures.known:
        return
    formula = arrays_keep(writing.machine.frame, data, failures.known)
    lost = f"{failures.known} drive failure{'s' if failures.known > 1 else ''}"
    kept = f"{amount(data, 'capacity')} kept through" if data else "arrays that survive"
    writing.formula(f"{kept} {lost}{writing.each}, one model of drive", formula)


def _failures(writing: _Writing, need: Need) -> None:
    asked = ((need.survive.supplies, "supplies_redundant"), (need.survive.fans, "air_redundant"))
    for fact, condition in asked:
        if fact is not None and fact.known:
            writing.condition(parse(condition, fact.mark), fact.mark)


def _budget(writing: _Writing, need: Need) -> None:
    if need.budget is None:
        return
    price = writing.machine.names["price"].meaning
    if isinstance(price, Linear):
        times = writing.hosts * (need.repeat.known if need.repeat else 1)
        most = need.budget.known.canonical / times
        said = f"a price of at most {amount(most, price.dimension)}"
        whole = f" (budget {need.budget.text} for {times})" if times > 1 else ""
        writing.bound(price, "<=", most, "price", f"{said}{writing.each}{whole}")
