"""Types, units and known words."""

import pytest

from baywright.problems import Mark, Problem, Problems
from baywright.terms.checking import Checked, check
from baywright.terms.parse import parse
from baywright.terms.printing import text
from baywright.terms.syntax import Amount, walk
from baywright.terms.vocabulary import TRUTH, Type, quantity

from .ferryman import VOCABULARY


def checked(written: str, wanted: Type | None = TRUTH) -> Checked:
    return check(parse(written), VOCABULARY, wanted=wanted)


def problems_of(written: str) -> tuple[Problem, ...]:
    with pytest.raises(Problems) as caught:
        check(parse(written), VOCABULARY, Mark("rules.yaml", 1, 1))
    return caught.value.problems


def dimensions(written: str) -> set[str]:
    tree = checked(written).expression
    return {node.quantity.dimension for node in walk(tree) if isinstance(node, Amount)}


@pytest.mark.parametrize(
    "written",
    [
        'count(drive, interface="sas", capacity > 1 TB, at="A") == 12',
        "count(drive, at=A) + count(drive, at=B) >= 2 * count(controller)",
        'count("C16") <= 2 and count(C16) <= 2',
        'count(drive, interface in ("sas", "pcie"), not mirrored) > 0',
        "count(drive, mirrored, lanes == 4) == 0",
        "total(capacity, drive, interface='sas') >= 20 TB",
        "total(lanes, drive) <= 80",
        'ports("usb", at=front) == 2',
        "arrays(8, 8, capacity >= 1 TB)",
        "implies(R1a == empty, O2 != empty)",
        "empty == R1a or 'C16' == R1a",
        'R1a in ("C16", empty)',
        "voltage == 120 V",
        "1000 W <= load <= 1.3 kW",
        "price <= 9,000 FLO",
        "inlet <= 35 °C - 5 K",
        "-(5 - fans) < 3",
        "supplies_redundant == true",
        'variant == "fixed"',
        "2 * load <= 2600 W",
    ],
)
def test_accepted(written: str) -> None:
    assert checked(written).type == TRUTH


def test_the_surroundings_decide_between_memory_and_capacity() -> None:
    assert dimensions("memory >= 64 GB") == {"memory"}
    assert dimensions("64 GB <= memory") == {"memory"}
    assert dimensions("1 TB - 64 GB < memory + 2 * 64 GB") == {"memory"}
    assert dimensions("memory in (64 GB, 1 TB)") == {"memory"}
    assert dimensions("total(capacity, drive) >= 1 TB") == {"capacity"}
    assert dimensions("count(module, capacity=64 GB) == 2") == {"memory"}
    assert dimensions("count(M64, capacity == 64 GB) == 2") == {"memory"}


def test_an_amount_in_quotes_becomes_one_where_it_is_wanted() -> None:
    found = checked('count(drive, size="2.5 in") == 12').expression
    assert text(found) == "count(drive, size=2.5 in) == 12"


def test_a_value_of_another_type_can_be_wanted() -> None:
    assert checked("load + 1 kW", quantity("power")).type == quantity("power")
    assert checked("64 GB", quantity("memory")).type == quantity("memory")
    assert checked("load", None).type == quantity("power")


@pytest.mark.parametrize(
    ("written", "kind", "column", "says"),
    [
        ("lod <= 1300 W", "unknown-name", 1, "Did you mean 'load'?"),
        ("load <= 1300", "no-unit", 9, "'1300' has no unit; a power such as '1300 W' is wanted."),
        ("load <= 760 mm", "wrong-dimension", 9, "'760 mm' is a length; a power is wanted"),
        ("load <= memory", "wrong-dimension", 9, "'memory' is an amount of memory"),
        ("load <= '1300'", "no-unit", 9, "has no unit"),
        ("fans == 3 W", "wrong-type", 9, "a plain number is wanted. Leave the unit out."),
        ("fans + 3 W == 3", "wrong-type", 1, "brings together"),
        ("load * load > 3 W", "wrong-type", 1, "multiply by a plain number"),
        ("inlet + 35 °C <= 40 °C", "wrong-type", 1, "brings together"),
        ("2 * inlet <= 40 °C", "wrong-type", 1, "brings together"),
        ("price <= 100 EUR", "wrong-dimension", 10, "an amount of FLO is wanted"),
        ('variant == "fixd"', "unknown-value", 12, "Did you mean 'fixed'?"),
        ("variant == fixed", "unknown-name", 12, 'Put it in quotes: "fixed".'),
        ('variant < "fixed"', "wrong-type", 1, "Use '==' or '!='"),
        ("R1a == C16", "unknown-name", 8, 'Put it in quotes: "C16".'),
        ('R1a == "C17"', "unknown-value", 8, "Did you mean 'C16'?"),
        ('R1a in ("C16", "Y8")', "unknown-value", 16, "one of the values"),
        ("R1a == 3", "wrong-type", 8, 'Put it in quotes: "3".'),
        ("fans and supplies_redundant", "wrong-type", 1, "a truth is wanted"),
        ("not load", "wrong-type", 5, "'load' is a power such as '1300 W'; a truth is wanted."),
        ("-supplies_redundant == 3", "wrong-type", 1, "turns the sign"),
        ("cont(drive) == 1", "unknown-function", 1, "Did you mean 'count'?"),
        ("count == 1", "unknown-name", 1, "write count(parts, filters ..., at=...)"),
        ("count(drives) == 1", "unknown-part", 7, "Did you mean 'drive'?"),
        ("count() == 1", "wrong-arguments", 1, "count() needs parts."),
        ("count(1) == 1", "wrong-arguments", 7, "not the name of a kind of part or part"),
        ("count(S-2400) == 1", "wrong-arguments", 7, 'is a subtraction. Write "S-2400".'),
        ('count(drive, intreface="sas") == 1', "unknown-field", 14, "'interface'"),
        ('count(drive, interface="sata") == 1', "unknown-value", 24, "Known here: pcie, sas."),
        ("count(drive, lanes) == 1", "wrong-type", 14, "a truth is wanted"),
        ("count(drive, load > 3 W) == 1", "unknown-field", 14, "no field 'load'"),
        ("count(drive, count(drive) > 1) == 1", "unknown-function", 14, "calls nothing"),
        ("count(drive, at=C) == 1", "unknown-place", 17, "Known here: A, B, front."),
        ("count(drive, at=A, at=B) == 1", "wrong-arguments", 20, "no place for at=B"),
        ("total(capacty, drive) > 1 TB", "unknown-field", 7, "'capacity'"),
        ('ports("usb", "video") == 1', "wrong-arguments", 14, "no use for '\"video\"'"),
        ('ports("usbs") == 1', "unknown-value", 7, "'usb'"),
        ("implies(load, true)", "wrong-type", 9, "a truth is wanted"),
        ("eval('1')", "unknown-function", 1, "Known here: arrays, count, implies"),
        ("__import__('os')", "unknown-function", 1, "Known here: arrays, count, implies"),
        ("load", "wrong-type", 1, "a truth is wanted"),
    ],
)
def test_refused(written: str, kind: str, column: int, says: str) -> None:
    found = problems_of(written)[0]
    assert (found.kind, found.mark) == (kind, Mark("rules.yaml", 1, column))
    assert says in f"{found.message} {found.hint}"


def test_every_problem_is_gathered() -> None:
    found = problems_of('lod <= 3 and count(drve, at=C) == 1 W and variant == "fixd"')
    assert [problem.kind for problem in found] == [
        "unknown-name", "unknown-part", "unknown-place", "wrong-type", "unknown-value",
    ]  # fmt: skip


def test_checking_twice_changes_nothing() -> None:
    once = checked("memory >= 64 GB and count(module, capacity=64 GB) == 2").expression
    assert check(once, VOCABULARY).expression == once
