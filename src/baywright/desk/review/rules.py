"""Rules that forbid nothing: laws and the other rules already see to what they say."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.desk.review.finding import Finding, found
from baywright.desk.review.subject import Reviewed
from baywright.laws.formula import NotEncodable
from baywright.laws.wishes import read_wishes, with_wishes
from baywright.laws.wording import listed
from baywright.problems import Problems


def idle_rules(book: Reviewed) -> Iterator[Finding]:
    """Find rules that no build breaks which keeps everything else, with what implies them."""
    for name, rule in book.book.rules.items():
        key = f"rule.{name}"
        opened = book.opened
        try:
            broken = read_wishes(opened.machine, f"not ({rule.holds})")
        except (Problems, NotEncodable):
            continue  # Its opposite is nothing an engine takes; the rule itself is.
        space = with_wishes(opened.machine.space.without([key]), broken)
        if opened.inquiry().possible(space) is not None:
            continue
        wishes = {wish.key for wish in broken}
        because = [each for each in book.needed(space) if each.key not in wishes]
        others = [each.key.removeprefix("rule.") for each in because if each.kind == "rule"]
        if others:
            says = f"The rule {name} follows from {listed(others)}, with the laws."
            yield found("implied-rule", says, because, rule.holds)
        else:
            yield found("idle-rule", f"The rule {name} forbids nothing.", because, rule.holds)
