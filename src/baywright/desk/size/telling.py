"""A sized build in words: sections of rows, for a terminal, a page or paper."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from baywright.answers.verdicts import No, Yes
from baywright.answers.wording import Rows, quote
from baywright.desk.size.sized import Sized
from baywright.facts.cautions import CAUTIONS, PLANNING_AID, Caution
from baywright.facts.citation import Citation
from baywright.laws.wording import capitalised, listed
from baywright.problems import problem, suggestion
from baywright.sizing.figure import Figure, Limit
from baywright.sizing.limits import Crossing, Sweep
from baywright.sizing.registry import SUBJECTS
from baywright.sizing.subject import Subject


@dataclass(frozen=True, slots=True)
class Entry:
    """A number with what it is.

    Args:
        lead: the number, or what is left to a bound.
        says: what it is.
        beside: its condition, and where to look further.
    """

    lead: str
    says: str
    beside: str


@dataclass(frozen=True, slots=True)
class Section:
    """A title with what stands below it.

    Args:
        title: the title.
        cautions: what has to be said before an act.
        entries: numbers.
        table: a table.
        sentences: sentences.
    """

    title: str
    cautions: tuple[Caution, ...] = ()
    entries: tuple[Entry, ...] = ()
    table: Rows | None = None
    sentences: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class SizeSheet:
    """A sized build in words.

    Args:
        title: what was sized, and where.
        verdict: whether it is legal there, one sentence.
        cautions: what has to be said before the numbers are used.
        sections: limits, what breaks first, figures and tables.
        aid: who decides.
    """

    title: str
    verdict: str
    cautions: tuple[Caution, ...]
    sections: tuple[Section, ...]
    aid: str = PLANNING_AID


def size_sheet(sized: Sized, subjects: Iterable[str] = ()) -> SizeSheet:
    """Return a sized build in words: its limits, and figures of some subjects.

    Args:
        sized: the build.
        subjects: names of the subjects whose figures and tables are wanted.

    Raises:
        Problems: for a subject that there is not.
    """
    wanted = [subject for name in subjects for subject in _named(name)]
    keys = dict.fromkeys(key for sheet in sized.sheets.values() for key in sheet.cautions)
    return SizeSheet(
        f"{sized.build.name.known}: {site_in_words(sized)}",
        _verdict(sized),
        tuple(CAUTIONS[key] for key in keys if CAUTIONS[key].of_numbers),
        (*_on_limits(sized), *(part for each in wanted for part in _on_subject(sized, each))),
    )


def _named(name: str) -> tuple[Subject, ...]:
    known = {subject.name: (subject,) for subject in SUBJECTS} | {"all": SUBJECTS}
    if name not in known:
        hint = suggestion(name, known)
        raise problem("no-subject", f"Sizing has no subject {name!r}.", None, hint)
    return known[name]


def site_in_words(sized: Sized) -> str:
    """Return voltage, altitude and inlet of the site in words."""
    site = sized.case.site
    return ", ".join(
        (
            site.voltage.text if site.voltage else "voltage not given",
            f"{site.altitude.text} above sea level"
            if site.altitude
            else "altitude not given, so sea level",
            f"air taken in at {site.inlet.text}" if site.inlet else "inlet temperature not given",
        )
    )


def _verdict(sized: Sized) -> str:
    match sized.verdict:
        case Yes() if sized.unstated:
            return (
                "A legal build has all that is named. The numbers below hold with nothing in "
                f"{listed(sized.unstated)}, of which nothing is said."
            )
        case Yes():
            return "It is a legal build."
        case No(reasons=reasons):
            said = " ".join(reason.sentence for reason in reasons)
            return f"It is not a legal build. {said}"
        case _:
            return "Whether it is a legal build is not decided."


def _on_limits(sized: Sized) -> Iterator[Section]:
    decided = [limit for limit in sized.limits if not np.isnan(first(limit.room))]
    open_ = [limit for limit in sized.limits if np.isnan(first(limit.room))]
    entries = tuple(map(limit_entry, decided))
    yield Section("Limits, the least margin first", entries=entries)
    yield Section("What breaks first", sentences=tuple(_breaks(sized)))
    yield from _unknown(sized)
    if open_:
        yield Section("Limits that are not decided", entries=tuple(map(limit_entry, open_)))


def _on_subject(sized: Sized, subject: Subject) -> Iterator[Section]:
    sheet = sized.sheets[subject.name]
    cautions = tuple(CAUTIONS[key] for key in sheet.cautions if not CAUTIONS[key].of_numbers)
    yield Section(subject.title, cautions, tuple(figure_entry(figure) for figure in sheet.figures))
    for listing in sized.listings[subject.name]:
        notes = (listing.note,) if listing.note else ()
        rows = Rows(listing.header, listing.rows)
        yield Section(listing.title, table=rows, sentences=notes)


def limit_entry(limit: Limit) -> Entry:
    """Return a limit as what is left, what it is and where it comes from."""
    figure = limit.figure
    if np.isnan(first(limit.room)):
        return Entry("not decided", f"{_with_condition(figure)}: {undecided(figure)}", "")
    is_ = value_text(figure.value, figure.unit)
    bound = f"at {limit.side} {value_text(first(limit.bound), figure.unit)}"
    beside = "; ".join(filter(None, (figure.condition, figure.key)))
    return Entry(room_text(limit), f"{figure.name}: {is_}, {bound}", beside)


def room_text(limit: Limit) -> str:
    """Return what is left to a bound, or what is over it."""
    room, unit = first(limit.room), limit.figure.unit
    unit = "K" if unit == "°C" else unit
    if room >= 0:
        return f"{value_text(room, unit)} left"
    return f"{value_text(-room, unit)} {'over' if limit.side == 'most' else 'short'}"


def undecided(figure: Figure) -> str:
    """Return on what a figure that is not decided depends."""
    if figure.missing:
        return f"depends on {listed(figure.missing)}"
    return figure.outside or "outside the range of the formula"


def figure_entry(figure: Figure) -> Entry:
    """Return a figure as its value, what it is and where it comes from."""
    formula = f"formula {figure.equation.number}" if figure.equation else ""
    beside = "; ".join(filter(None, (figure.condition, figure.key, formula)))
    if np.isnan(figure.value):
        return Entry("not decided", figure.name, f"{undecided(figure)}; {beside}")
    return Entry(_value(figure), figure.name, beside)


def _value(figure: Figure) -> str:
    if np.isnan(figure.value):
        return f"not decided: {undecided(figure)}"
    estimate = " (estimate)" if figure.equation and figure.equation.estimate else ""
    return value_text(figure.value, figure.unit) + estimate


def _with_condition(figure: Figure) -> str:
    return f"{figure.name}, {figure.condition}" if figure.condition else figure.name


def _breaks(sized: Sized) -> Iterator[str]:
    passed = [limit for limit in sized.limits if first(limit.room) < 0]
    if passed:
        said = listed(f"{limit.figure.name} ({room_text(limit)})" for limit in passed)
        yield f"Passed already: {said}."
    for sweep, crossings in sized.breaks:
        yield _break(sweep, crossings)


def _break(sweep: Sweep, crossings: tuple[Crossing, ...]) -> str:
    known = [crossing for crossing in crossings if crossing.known]
    undecided_ = [crossing for crossing in crossings if not crossing.known]
    said = [
        f"{crossing.limit.figure.name} at {_at(crossing)}. {crossing.limit.breaks}"
        for crossing in known[:1]
    ]
    said += [f"Then {c.limit.figure.name} at {_at(c)}." for c in known[1:3]]
    if undecided_:
        said.append(f"From {_at(undecided_[0])} on it is not decided.")
    return f"{capitalised(sweep.name)}: {' '.join(said) or 'nothing that was holding breaks.'}"


def _at(crossing: Crossing) -> str:
    shown = value_text(crossing.at, crossing.sweep.unit)
    return f"{shown} more" if crossing.sweep.what == "extra" else shown


def _unknown(sized: Sized) -> Iterator[Section]:
    said = [
        f"{each.path} is not known. If {value}: {listed(changed)}."
        for each in sized.depends
        for value, changed in each.outcomes
        if changed
    ]
    if said:
        yield Section("What would change it", sentences=tuple(said))


def first(values: object) -> float:
    """Return the number of the first build."""
    return float(np.ravel(np.asarray(values, float))[0])


def value_text(value: float, unit: str) -> str:
    """Return a number with its unit, to four digits or to the whole number.

    >>> value_text(1159.0, "W"), value_text(0.94321, ""), value_text(12345.6, "h")
    ('1,159 W', '0.9432', '12,346 h')
    """
    if np.isnan(value):
        return "not decided"
    if np.isinf(value):
        return "without end" if value > 0 else "below every bound"
    digits = f"{value:,.0f}" if abs(value) >= 1000 else f"{value:.4g}"
    return f"{digits} {unit}".rstrip()


def why(sized: Sized, key: str) -> Section:
    """Return one figure with its formula, its inputs and its sources.

    Args:
        sized: the build.
        key: key of a figure or limit.

    Raises:
        Problems: when there is no such figure.
    """
    limits = {limit.figure.key: limit for limit in sized.limits}
    figures = {f.key: f for sheet in sized.sheets.values() for f in sheet.figures}
    figures |= {name: limit.figure for name, limit in limits.items()}
    if key not in figures:
        hint = suggestion(key, figures) or "The command without --why lists the keys."
        raise problem("no-figure", f"There is no figure {key!r}.", None, hint)
    figure = figures[key]
    rows = [*_about(figure), *(_of_limit(limits[key]) if key in limits else ())]
    rows += [(each.name, each.text + _sources(each.facts)) for each in figure.inputs]
    table = Rows(("", ""), tuple(rows))
    return Section(f"{capitalised(_with_condition(figure))}: {_value(figure)}", table=table)


def _about(figure: Figure) -> Iterator[tuple[str, str]]:
    behind = figure.equation
    if behind is not None:
        yield "formula", f"{behind.number}  {behind.text}"
        yield "source", behind.source
        yield "holds for", behind.valid
        if behind.outside:
            yield "outside", behind.outside
        if behind.estimate:
            yield "certainty", "an estimate"


def _of_limit(limit: Limit) -> Iterator[tuple[str, str]]:
    bound = value_text(first(limit.bound), limit.figure.unit)
    yield "bound", f"at {limit.side} {bound}{_sources(limit.facts)}"
    yield "past it", limit.breaks


def _sources(facts: tuple[Citation, ...]) -> str:
    quotes = [quote(fact) for fact in facts]
    stands = ["; ".join(filter(None, (q.path, q.source, q.where))) for q in quotes]
    return f" ({' | '.join(stands)})" if stands else ""
