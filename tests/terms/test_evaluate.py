"""Values of expressions."""

from dataclasses import dataclass, field
from fractions import Fraction

import pytest

from baywright.terms.calls import arrange
from baywright.terms.checking import check
from baywright.terms.evaluate import Fields, Value, evaluate, holds
from baywright.terms.parse import parse
from baywright.terms.standard import COUNT
from baywright.terms.syntax import Call
from baywright.terms.vocabulary import TRUTH, Type
from baywright.units import parse as amount

from .ferryman import VOCABULARY


@dataclass
class Machine:
    """A machine with twelve SAS drives, for calls of ``count`` alone."""

    asked: list[str] = field(default_factory=list)

    def name(self, name: str) -> Value:
        self.asked.append(name)
        values: dict[str, Value] = {
            "load": amount("1159 W"),
            "memory": amount("1 TB", "memory"),
            "inlet": amount("35 °C"),
            "fans": 6,
            "supplies_redundant": True,
            "variant": "hot-swap",
            "R1a": "C16",
            "O2": None,
            "empty": None,
        }
        return values[name]

    def call(self, call: Call) -> Value:
        condition = arrange(call, COUNT).condition
        drive = Fields({"interface": "sas", "capacity": amount("2.4 TB")})
        return 12 if condition is None or holds(condition, drive) else 0


def value(written: str, wanted: Type | None = TRUTH) -> Value:
    return evaluate(check(parse(written), VOCABULARY, wanted=wanted).expression, Machine())


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        ("load <= 1.3 kW", True),
        ("load > 1300 W", False),
        ("memory >= 1024 GB", True),
        ("memory == 16 * 64 GB", True),
        ("inlet - 5 K == 30 °C", True),
        ("fans - 1 == 5 and not fans == 5", True),
        ("-fans < 0 - 5", True),
        ("R1a == 'C16' and O2 == empty", True),
        ("R1a in ('X8', 'C16')", True),
        ("O2 != empty or R1a == empty", False),
        ("implies(O2 != empty, fans == 1)", True),
        ("implies(supplies_redundant, fans == 1)", False),
        ("count(drive) == 12", True),
        ("count(drive, interface='sas', capacity > 2 TB) == 12", True),
        ("count(drive, interface='pcie') == 0", True),
        ("count(drive, lanes < 4) + count(drive, lanes >= 4) == 0", True),
        ("count(drive, mirrored) == 0", True),
        ("false or 0.1 + 0.2 == 0.3", True),
    ],
)
def test_truths(written: str, expected: bool) -> None:
    assert value(written) is expected


def test_values_are_exact() -> None:
    assert value("fans * 0.1", None) == Fraction(3, 5)
    assert value("2 * load", None) == amount("2318 W")
    assert value("variant", None) == "hot-swap"


def test_evaluation_stops_at_the_first_term_that_decides() -> None:
    machine = Machine()
    condition = check(parse("load > 2 kW and fans == 6"), VOCABULARY).expression
    assert evaluate(condition, machine) is False
    assert machine.asked == ["load"]


def test_a_value_of_the_wrong_type_is_a_fault_of_the_caller() -> None:
    fields = Fields({"lanes": "many", "mirrored": 3})
    with pytest.raises(TypeError):
        evaluate(parse("lanes < 3"), fields)
    with pytest.raises(TypeError):
        holds(parse("mirrored"), fields)
    with pytest.raises(TypeError):
        evaluate(parse("-mirrored + lanes"), fields)
    with pytest.raises(LookupError):
        evaluate(parse("count(drive)"), fields)
