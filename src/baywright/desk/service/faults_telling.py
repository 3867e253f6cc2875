"""A diagnosis in words: suspects, the next check, the decision tree, what a part is worth."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from baywright.answers.wording import Rows
from baywright.desk.service.faults import Diagnosis, Findings, Tree, Worth
from baywright.desk.service.faults_minutes import Effort, says_of
from baywright.desk.service.faults_words import doing, effort_of, outcomes, those
from baywright.facts.book import Book
from baywright.facts.cautions import CAUTIONS, PLANNING_AID, Caution
from baywright.facts.citation import Citation
from baywright.facts.status import standing_line
from baywright.laws.wording import capitalised, counted, listed
from baywright.service.faults.checks import Check
from baywright.service.faults.found import Fault
from baywright.service.faults.signs import Sign, Way
from baywright.service.faults.suspects import Suspect
from baywright.service.faults.tree import Node, nodes_of

OF_NUMBERS = ("estimate",)
"""Cautions about odds and minutes."""

FEW = 4
"""Up to so many steps without a stated time are named."""

MOST_OTHERS = 6
"""More checks than this beside the best are not shown; JSON has all of them."""

OTHER_HEADS = ("check", "minutes", "bits", "bits a minute")

HOW = (
    "Odds are those of independent failures at the yearly rates stated: rate over the sum of "
    "rates. A sign that a fault can show and need not counts one half, seen or not. Minutes count "
    "until the machine is repaired, the swap included."
)


@dataclass(frozen=True, slots=True)
class Part:
    """A title with what stands below it; cautions come before all else of it.

    Args:
        title: the title.
        cautions: cautions in full.
        again: names of cautions that were told in full before on this page.
        sentences: sentences.
        table: a table, or ``None``.
        after: sentences below the table.
    """

    title: str
    cautions: tuple[Caution, ...] = ()
    again: tuple[str, ...] = ()
    sentences: tuple[str, ...] = ()
    table: Rows | None = None
    after: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class FaultSheet:
    """A diagnosis in words.

    Args:
        title: which build.
        seen: what is seen, one sentence.
        word: how many can be behind it, one sentence.
        cautions: what has to be said before its numbers are used.
        parts: suspects, checks, tree, worth.
        standing: book, day and status.
        aid: who decides.
    """

    title: str
    seen: str
    word: str
    cautions: tuple[Caution, ...]
    parts: tuple[Part, ...]
    standing: str
    aid: str = PLANNING_AID


def fault_sheet(found: Diagnosis) -> FaultSheet:
    """Return a diagnosis in words."""
    said: set[str] = set(OF_NUMBERS)
    parts = [part for given, each in found.worlds for part in _world(found, given, each, said)]
    about, opened = found.opened.book.book, found.opened
    first = found.worlds[0][1]
    return FaultSheet(
        f"{found.build.name.known}: what is at fault",
        _seen(found, first),
        " / ".join(dict.fromkeys(_word(each) for _, each in found.worlds)),
        tuple(CAUTIONS[key] for key in OF_NUMBERS),
        tuple(parts),
        standing_line(about.name, about.id, opened.as_of.isoformat(), opened.status),
    )


def sign_rows(findings: Findings, book: Book) -> Rows:
    """Return everything that can be seen of a build, as a table; lights of one kind as one."""
    held: dict[tuple[str, str], list[Sign]] = {}
    for sign in findings.there:
        one = "" if sign.key == f"{sign.group}.{next(iter(sign.always), '')}" else sign.key
        held.setdefault((sign.group, one), []).append(sign)
    rows = tuple(_sign_row(findings, signs, book) for signs in held.values())
    return Rows(("sign", "how it is seen", "what shows it", "id"), rows)


def _sign_row(findings: Findings, signs: Sequence[Sign], book: Book) -> tuple[str, ...]:
    first = signs[0]
    several = len(signs) > 1
    sure = _those_in(findings, {fault for sign in signs for fault in sign.always}, book)
    perhaps = _those_in(findings, {fault for sign in signs for fault in sign.perhaps}, book)
    each = f"each of {sure}" if several and sure else sure
    shown = (each, f"perhaps {perhaps}" if perhaps else "")
    return (
        f"{first.called}, such as {first.name}" if several else first.name,
        says_of(first.way).rstrip("."),
        "; ".join(filter(None, shown)) or "nothing here",
        f"{first.group}, {first.key}" if several else first.key,
    )


def _those_in(findings: Findings, ids: Collection[str], book: Book) -> str:
    return those(book, [fault for fault in findings.faults if fault.id in ids])


def _seen(found: Diagnosis, first: Findings) -> str:
    if not first.observations:
        return "Nothing is said of what is seen: every single fault is a suspect."
    asked = found.asked
    seen = listed(each.text for each in first.observations if each.seen)
    dark = listed(asked.not_seen, "or")
    more = " Nothing else is seen as things stand." if asked.nothing_else else ""
    return " ".join(filter(None, (
        f"Seen: {seen}." if seen else "", f"Not seen: {dark}." if dark else "",
    ))) + more  # fmt: skip


def _word(findings: Findings) -> str:
    suspects = findings.explained.suspects
    match findings.explained.faults_at_once:
        case 1:
            return f"{capitalised(counted(len(suspects), 'single fault'))} can be behind it."
        case 2:
            pairs = counted(len(suspects), "pair")
            return f"No single fault shows that. {capitalised(pairs)} of faults at once can."
        case _:
            return "Neither one fault nor two at once show that."


def _world(
    found: Diagnosis, given: Mapping[str, str], findings: Findings, said: set[str]
) -> Iterator[Part]:
    book = found.opened.book
    if given:
        yield Part(f"If {listed(f'{path} is {value}' for path, value in given.items())}")
    yield from _suspects(findings, book)
    yield from _next(findings, book, said)
    yield from _tree(findings, book, said)
    yield from (_worth(each, findings, book) for each in findings.worth)
    yield from _notes(findings, book)


def _suspects(findings: Findings, book: Book) -> Iterator[Part]:
    explained = findings.explained
    if not explained.suspects:
        rows = tuple(
            (each.name, listed(missed.text for missed in left)) for each, left in explained.closest
        )
        yield Part("Closest, and what they leave unexplained", table=Rows(("fault", "left"), rows))
        return
    groups: dict[tuple[object, ...], list[Suspect]] = {}
    for each in explained.suspects:
        kinds = tuple((f.part or f.id, findings.efforts.minutes(f.id)) for f in each.faults)
        groups.setdefault((kinds, each.odds, each.match), []).append(each)
    two = explained.faults_at_once == 2
    heads = ("suspects", "odds of each", "in a year", "match", "minutes to swap", "hidden then")
    yield Part(
        "Pairs of suspects" if two else "Suspects",
        table=Rows(heads, tuple(_row(findings, group, book) for group in groups.values())),
    )


def _row(findings: Findings, group: Sequence[Suspect], book: Book) -> tuple[str, ...]:
    first = group[0]
    sides = [dict.fromkeys(each.faults[i] for each in group) for i in range(len(first.faults))]
    minutes = [_spent(findings.efforts.swaps[fault.id]) for fault in first.faults]
    return (
        " and ".join(those(book, list(side)) for side in sides),
        percent(first.odds),
        " and ".join(percent(fault.rate) for fault in first.faults),
        f"{float(first.match):g}",
        " and ".join(minutes),
        _hidden(first.masked),
    )


def _spent(effort: Effort) -> str:
    if effort.minutes is None:
        return "–"
    if effort.untimed:
        return f"{number(effort.minutes)} or more" if effort.minutes else "not stated"
    return number(effort.minutes)


def _hidden(masked: Sequence[Sign]) -> str:
    return listed(dict.fromkeys(sign.called for sign in masked)) if masked else "–"


def _next(findings: Findings, book: Book, said: set[str]) -> Iterator[Part]:
    """Yield the best next check behind its cautions, and the others."""
    if not findings.checks:
        yield from _nothing_left(findings, book, said)
        return
    best, *others = findings.checks
    whole, again = _cautions(effort_of(findings, best).cautions, said)
    says = f"{_check(findings, best, book)} {_tells(best)}"
    yield Part("Next check", whole, again, (says,))
    shown = others[:MOST_OTHERS]
    if shown:
        keys = [key for each in shown for key in effort_of(findings, each).cautions]
        whole, again = _cautions(keys, said)
        rows = tuple(_other(findings, each, book) for each in shown)
        yield Part("Other checks", whole, again, table=Rows(OTHER_HEADS, rows))


def _nothing_left(findings: Findings, book: Book, said: set[str]) -> Iterator[Part]:
    """Yield what is done where it takes two faults and no check tells pairs apart."""
    if findings.explained.faults_at_once != 2:
        return
    pair = findings.explained.suspects[0].faults
    efforts = [findings.efforts.swaps[fault.id] for fault in pair]
    whole, again = _cautions([key for each in efforts for key in each.cautions], said)
    acts = tuple(" ".join((each.says, *each.why_not)) for each in efforts)
    yield Part("What to do", whole, again, acts)


def _check(findings: Findings, check: Check, book: Book) -> str:
    if check.fault is not None and check.alike:
        return f"Swap one of these: {those(book, [check.fault, *check.alike])}."
    return effort_of(findings, check).says


def _tells(check: Check) -> str:
    if not check.minutes:
        return f"It takes no time and tells {check.bits:.2f} bit."
    return (
        f"It takes {number(check.minutes)} min and tells {check.bits:.2f} bit: "
        f"{check.bits_a_minute:.3f} bit a minute."
    )


def _other(findings: Findings, check: Check, book: Book) -> tuple[str, ...]:
    rate = f"{check.bits_a_minute:.3f}" if check.minutes else "without end"
    return _check(findings, check, book), number(check.minutes), f"{check.bits:.2f}", rate


def _cautions(keys: Iterable[str], said: set[str]) -> tuple[tuple[Caution, ...], tuple[str, ...]]:
    """Return the cautions to say in full, and the names of those that were."""
    wanted = list(dict.fromkeys(keys))
    again = tuple(key.replace("-", " ") for key in wanted if key in said)
    new = tuple(CAUTIONS[key] for key in wanted if key not in said)
    said.update(wanted)
    return new, again


def tree_cautions(findings: Findings, tree: Tree) -> tuple[str, ...]:
    """Return the keys of the cautions of every act in a tree."""
    used = dict.fromkeys(node.look for node in nodes_of(tree.root) if node.look is not None)
    looks = [findings.efforts.looks[tree.ways[look]] for look in used]
    swaps = [findings.efforts.swaps[fault.id] for fault in tree.faults]
    return tuple(dict.fromkeys(key for each in (*looks, *swaps) for key in each.cautions))


def _tree(findings: Findings, book: Book, said: set[str]) -> Iterator[Part]:
    tree = findings.tree
    if tree is None:
        return
    whole, again = _cautions(tree_cautions(findings, tree), said)
    heads = ("no.", "after", "what to do", "comes up", "minutes from here")
    yield Part(
        "Decision tree",
        whole,
        again,
        (how_good(findings, tree, book),),
        Rows(heads, tuple(_rows(findings, tree, tree.root, "", book))),
    )


def how_good(findings: Findings, tree: Tree, book: Book) -> str:
    """Return how good a tree is and what it leaves out, a few sentences."""
    efforts = [findings.efforts.swaps[fault.id] for fault in tree.faults]
    timed = all(each.minutes is not None and not each.untimed for each in efforts)
    least, stated = ("", "") if timed else ("at least ", ", as far as minutes are stated")
    spent = f"It takes {least}{number(tree.solution.minutes)} min to expect until it is repaired"
    if tree.solution.exact:
        said = f"{spent}, and no other order of these checks takes less{stated}."
    else:
        said = (
            f"{spent}. There were too many orders to go through them all; none takes less than "
            f"{number(tree.solution.bound)} min{stated}."
        )
    if tree.left_out:
        said += f" It leaves out what has no yearly rate: {those(book, tree.left_out)}."
    return said


def _rows(
    findings: Findings, tree: Tree, node: Node, leads: str, book: Book
) -> Iterator[tuple[str, ...]]:
    yield (
        str(node.number),
        leads or "–",
        doing(findings, tree, node, book),
        percent(node.weight),
        number(node.minutes),
    )
    for branch, words in outcomes(findings.there, tree, node, book):
        yield from _rows(findings, tree, branch.then, f"{node.number}: {words}", book)


def _worth(worth: Worth, findings: Findings, book: Book) -> Part:
    named = book.parts[worth.part].name if worth.part in book.parts else worth.part
    heads = ("after", f"with the {named}", "without it", "every fault alike: with", "without")
    rows = tuple(
        (
            _ways(each.ways),
            number(each.fitted.expected),
            number(each.bare.expected),
            number(each.fitted.expected_unweighted),
            number(each.bare.expected_unweighted),
        )
        for each in worth.stages
    )
    has = "The build has it." if worth.there else "The build does not have it."
    return Part(
        f"What the {named} is worth: suspects to expect after one fault",
        sentences=(has,),
        table=Rows(heads, rows),
        after=tuple(_saved(worth)),
    )


def _ways(ways: Sequence[Way]) -> str:
    return "from outside" if len(ways) == 1 else f"and then: {says_of(ways[-1]).rstrip('.')}"


def _saved(worth: Worth) -> Iterator[str]:
    if worth.fitted is None or worth.bare is None:
        return
    with_it, bare = worth.fitted.solution.minutes, worth.bare.solution.minutes
    yield (
        f"Until repaired {number(with_it)} min are to be expected with it and {number(bare)} min "
        f"without it: {number(bare - with_it)} min less. Whether it fits is another question."
    )


def _notes(findings: Findings, book: Book) -> Iterator[Part]:
    yield Part("How it is computed", sentences=(HOW, *_lacks(findings, book)))
    seen = [sign.facts for each in findings.observations if each.seen for sign in each.signs]
    rates = [fault.facts for each in findings.explained.suspects for fault in each.faults]
    facts = dict.fromkeys(cited for held in (*seen, *rates) for cited in held if cited.text)
    if facts:
        yield Part("What stands behind it", sentences=tuple(map(_fact, facts)))


def _fact(cited: Citation) -> str:
    day = f", {cited.date.isoformat()}" if cited.date else ""
    status = "" if cited.status == "stated" else f" ({cited.status})"
    return f"{cited.text}{status}: {cited.path}; {cited.source}{day}"


def _lacks(findings: Findings, book: Book) -> Iterator[str]:
    suspected = {fault for each in findings.explained.suspects for fault in each.faults}
    unrated = [fault for fault in findings.faults if fault.rate is None and fault in suspected]
    if unrated:
        yield f"No yearly rate is stated of {those(book, unrated)}: odds are among the others."
    blocked: dict[tuple[str, ...], list[Fault]] = {}
    for fault in findings.faults:
        why = findings.efforts.swaps[fault.id].why_not
        if why and fault in suspected:
            blocked.setdefault(why, []).append(fault)
    for why, faults in blocked.items():
        yield f"Not swapped here: {those(book, faults)}. {' '.join(why)}"
    for way, effort in findings.efforts.looks.items():
        if effort.why_not:
            yield f"Not counted on: {says_of(way)} {' '.join(effort.why_not)}"
    ids = {fault.id for fault in suspected}
    swaps = [effort for fault, effort in findings.efforts.swaps.items() if fault in ids]
    untimed = list(dict.fromkeys(name for effort in swaps for name in effort.untimed))
    if untimed:
        more = [f"{len(untimed) - FEW} more"] if len(untimed) > FEW else []
        named = listed([*untimed[:FEW], *more])
        yield f"No time is stated for {named}, so minutes are a least."


def percent(share: Fraction | float | None) -> str:
    """Return a share as people read it.

    >>> percent(Fraction(1, 8)), percent(None)
    ('12.5 %', 'not stated')
    """
    return "not stated" if share is None else f"{float(share) * 100:.3g} %"


def number(value: Fraction | float) -> str:
    """Return a number with three digits or all before its point.

    >>> number(85.0), number(4.567), number(133.58)
    ('85', '4.57', '134')
    """
    amount = float(value)
    return f"{amount:,.0f}" if amount >= 100 else f"{amount:.3g}"
