"""A checked order in words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from baywright.answers.figures import amount
from baywright.answers.verdicts import Yes
from baywright.answers.wording import AID, Group, Names, Near, Row, Sheet, Turn, Voice, told
from baywright.answers.wording.builds import fitted, summary
from baywright.desk.order.asked import Asked
from baywright.desk.order.checking import Checked
from baywright.desk.order.findings import Arrangements, Follow, Path
from baywright.desk.order.reading import Line
from baywright.desk.order.repair import Repair, Step
from baywright.facts.status import standing_line
from baywright.laws.wording import counted, listed

WHY = {
    "fitted": "fitted with the machine",
    "brought": "comes with another part",
    "closes": "closes what is empty",
    "always": "always there",
}
"""Why a part follows from the rest."""


def order_sheet(checked: Checked) -> Sheet:
    """Return a checked order in words."""
    machine = checked.asked.machine
    voice = Voice("It can be built as listed.", "It cannot be built as listed.")
    sheet = told(checked.verdict, machine, voice)
    if isinstance(checked.verdict, Yes):
        sheet = replace(sheet, sentence=_yes(checked))
    elif checked.order.foreign:
        where = listed(line.where for line in checked.order.foreign)
        sentence = f"{voice.no} Parts of other machines are listed: line {where}."
        sheet = replace(sheet, sentence=sentence)
    return replace(
        sheet,
        reading=_reading(checked),
        nearest=tuple(_near(checked, each) for each in checked.repairs),
        notes=tuple(_notes(checked)),
        standing=_standing(checked),
        aid=AID,
    )


def _yes(checked: Checked) -> str:
    missing = [each for each in checked.follow if each.needed > each.listed]
    over = [each for each in checked.follow if each.needed < each.listed]
    said = "It can be built as listed."
    if missing:
        number = sum(each.needed - each.listed for each in missing)
        said = f"It can be built once {counted(number, 'part')} that follow are added."
        said = said.replace("1 part that follow are", "1 part that follows is")
    if over:
        number = sum(each.listed - each.needed for each in over)
        left = counted(number, "part")
        said += f" {left} {'is' if number == 1 else 'are'} left over."
    if any(each.counts for each in checked.order.not_read):
        said += " Lines that were not read are left out of this."
    return said


def _reading(checked: Checked) -> str:
    order = checked.order
    number = len(order.lines) + len(order.models)
    said = f"{checked.name}: {counted(number, 'line')} read"
    if order.not_read:
        said += f", {len(order.not_read)} not read"
    each = " Numbers are those of one." if order.machines > 1 else ""
    return f"{said}, for {counted(order.machines, 'machine')}.{each}"


def _near(checked: Checked, repair: Repair) -> Near:
    machine = checked.asked.machine
    turns = [_turn(checked.asked, step) for step in repair.steps]
    turns += [
        Turn(f"line {where}", "asked", f"read as {Names(machine.book).part(part)}")
        for where, part in repair.readings.items()
    ]
    if not repair.steps:
        turns.append(Turn("the parts stay as they are", "asked", "bought built to order"))
    return Near(
        counted(repair.changes, "change"),
        tuple(turns),
        fitted(repair.witness, Names(machine.book), "The build"),
        None,
        summary(repair.witness, None),
    )


def _turn(asked: Asked, step: Step) -> Turn:
    book = asked.machine.book
    part, gone = Names(book).part(step.part), ""
    if step.book:
        other = asked.order.others[step.book]
        gone = f"{Names(other).part(step.instead_of or step.part)} of {other.book.name}"
    elif step.instead_of:
        gone = Names(book).part(step.instead_of)
    if step.kind == "swap":
        return Turn(f"swap {step.count} ×", gone, f"{step.count} × {part}")
    verb = "add" if step.kind == "add" else "take off"
    return Turn(verb, "asked", f"{step.count} × {gone or part}")


def _notes(checked: Checked) -> Iterator[Group]:
    names = Names(checked.asked.machine.book)
    groups = (
        ("Not read", tuple(_not_read(checked))),
        ("Could be one or the other", tuple(_unclear(checked, names))),
        ("Of another machine", tuple(_foreign(checked))),
        ("More than there is room for", tuple(_excess(checked, names))),
        ("Without a home", tuple(_orphans(checked, names))),
        ("Missing, and follows from the rest", tuple(_follow(checked, names, missing=True))),
        ("Left over", tuple(_follow(checked, names, missing=False))),
        ("Arrangements", tuple(_arranged(checked, names))),
        ("Ways to buy it", tuple(_paths(checked))),
        ("Not stated yet, and taken as", tuple(Row(*each) for each in checked.supposed.items())),
        ("Not found in time", tuple(Row("", sentence) for sentence in checked.stopped)),
        ("Read", tuple(_read(checked, names))),
    )
    yield from (Group(title, rows) for title, rows in groups if rows)


def _not_read(checked: Checked) -> Iterator[Row]:
    for each in checked.order.not_read:
        yield Row(each.where, f"{each.text}: {each.why}")


def _unclear(checked: Checked, names: Names) -> Iterator[Row]:
    for line in checked.order.unclear:
        could = listed((names.part(part) for part in line.parts), "or")
        yield Row(line.where, f"{line.count} × {could}{_remarks(line)}")


def _foreign(checked: Checked) -> Iterator[Row]:
    for line in checked.order.foreign:
        other = checked.order.others[line.book]
        said = f"{line.count} × {Names(other).part(line.foreign)} is a part of {other.book.name}"
        yield Row(line.where, f"{said} (book {line.book}){_remarks(line)}")


def _excess(checked: Checked, names: Names) -> Iterator[Row]:
    for each in checked.excess:
        said = f"{each.listed} listed, and no build has more than {each.most}"
        yield Row(names.part(each.part), said)


def _orphans(checked: Checked, names: Names) -> Iterator[Row]:
    for part in checked.orphans:
        yield Row(names.part(part), "nothing listed holds it")


def _follow(checked: Checked, names: Names, *, missing: bool) -> Iterator[Row]:
    for each in checked.follow:
        if (each.needed > each.listed) == missing:
            yield Row(f"{abs(each.needed - each.listed)} ×", _followed(each, names))


def _followed(each: Follow, names: Names) -> str:
    return f"{names.part(each.part)}: {WHY[each.why]}; {each.needed} needed, {each.listed} listed"


def _arranged(checked: Checked, names: Names) -> Iterator[Row]:
    found = checked.arrangements
    if found is None:
        return
    yield Row("Number", _number(found))
    for choice, labels in found.open.items():
        yield Row(_choice(checked, choice, names), listed(labels, "or"))


def _number(found: Arrangements) -> str:
    if found.number is None:
        return "more than are listed here; the build shown is one of them"
    by, judge = found.proof
    said = counted(found.number, "way", "ways")
    return f"{said} to place the parts; {by} listed them, and {judge} found no other"


def _choice(checked: Checked, choice: str, names: Names) -> str:
    line = next((r.line.where for r in checked.asked.readings if r.choice.name == choice), "")
    return f"line {line}" if line else names.choice(choice)


def _paths(checked: Checked) -> Iterator[Row]:
    book = checked.asked.machine.book
    for each in checked.paths:
        yield Row(_title(checked, each), _path(checked, each, f"money:{book.book.currency}"))


def _title(checked: Checked, path: Path) -> str:
    made = checked.asked.machine.book.models.get(path.model)
    return f"{made.name} and options" if made else "Built to order"


def _path(checked: Checked, path: Path, currency: str) -> str:
    names = Names(checked.asked.machine.book)
    price = amount(path.price, currency) if path.price is not None else "price not stated"
    if not path.model:
        return price
    options = ", ".join(f"{n} × {names.part(part)}" for part, n in path.options.items())
    return f"{price}, with {options}" if options else f"{price}, without options"


def _read(checked: Checked, names: Names) -> Iterator[Row]:
    order = checked.order
    for model, where in order.models:
        yield Row(where, f"ready-made model {order.book.models[model].name}")
    for line in order.lines:
        if len(line.parts) == 1:
            place = f" in {names.place(line.place)}" if line.place else ""
            yield Row(
                line.where, f"{line.count} × {names.part(line.parts[0])}{place}{_remarks(line)}"
            )
    for name, value in order.settings:
        yield Row("", f"{names.choice(name)}: {names.label(name, value)}")


def _remarks(line: Line) -> str:
    return f" ({'; '.join(line.notes)})" if line.notes else ""


def _standing(checked: Checked) -> str:
    about = checked.asked.machine.book.book
    return standing_line(about.name, about.id, checked.as_of, checked.status)
