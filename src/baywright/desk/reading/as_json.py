"""A machine as read, as plain JSON values; ``docs/json.md`` describes them."""

from __future__ import annotations

from collections.abc import Mapping

from baywright.answers.as_json import Json
from baywright.desk.as_json import judgement_json
from baywright.desk.reading.onbook import Line, NotFitted
from baywright.desk.reading.reading import MachineRead
from baywright.facts.record import Entry, Finding, Reading


def machine_json(found: MachineRead, book: str, out: str | None) -> Json:
    """Return a machine as read.

    Args:
        found: the machine.
        book: id of the book.
        out: the file the draft was written to, if any.
    """
    record, fitted = found.record, found.on_book
    return {
        "book": book,
        "source": record.source,
        "standard": record.standard,
        "machine": record.machine,
        "findings": [_finding(each) for each in found.findings],
        "lines": [_line(each) for each in fitted.lines],
        "open": [{"place": each.place, "why": each.why} for each in fitted.left_open],
        "not_placed": [_not_fitted(each) for each in fitted.not_fitted],
        "draft": found.draft,
        "refused": [each.as_json() for each in found.refused],
        "judgement": None if found.judgement is None else judgement_json(found.judgement),
        "record": [_entry(each) for each in record.entries],
        "out": out,
    }


def _finding(finding: Finding) -> Json:
    return {"kind": finding.kind, "where": finding.where, "says": finding.says}


def _line(line: Line) -> Json:
    draft = line.draft
    return {
        "place": draft.place,
        "written": draft.written,
        "basis": line.basis,
        "grounds": list(draft.grounds),
        "where": list(line.where),
    }


def _not_fitted(each: NotFitted) -> Json:
    return {"where": each.entry.where, "why": each.why, "could_be": list(each.could_be)}


def _entry(entry: Entry) -> Json:
    return {
        "kind": entry.kind,
        "where": entry.where,
        "present": entry.present,
        "locators": list(entry.locators),
        "names": list(entry.names),
        "values": _values(entry.values),
        "rest": dict(entry.rest),
    }


def _values(values: Mapping[str, Reading]) -> Json:
    """Return readings; a value that is unknown is null, and its text is kept."""
    return {
        name: {"field": each.field, "text": each.text, "value": _value(each)}
        for name, each in values.items()
    }


def _value(reading: Reading) -> str | None:
    value = reading.value
    if isinstance(value, frozenset):
        return ", ".join(sorted(value))
    return None if value is None else str(value)
