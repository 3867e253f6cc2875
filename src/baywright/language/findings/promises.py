"""Promises that are not kept: what a sentence says comes later has to come."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence

from baywright.language.findings.grounds import Grounds, Quoted
from baywright.language.passages import Passage, Remark
from baywright.language.word_forms import JOINING, naming, several, stems, words_of

_LATER = (
    r"(?:later(?: on)?|below|further (?:on|down)|shortly|soon|next|at the end|in due course"
    r"|in (?:a (?:moment|minute|second|bit|while)|the (?:next|last) (?:section|chapter|part|slide))"
    r"|after(?:wards| that))"
)
_WE = r"(?:we|i|you)(?:'ll| will| shall|'re going to| are going to|'m going to| am going to)"
_TURN = r"(?:come|get|go|turn|return|move)(?: back| on)? (?:to|onto|into)"
_SHOW = (
    r"(?:look at|see|cover|show(?: you)?|explain|discuss|describe|present|treat|deal with"
    r"|talk about|say more (?:on|about)|hear (?:more )?about)"
)
_TOLD = r"(?:covered|described|shown|explained|discussed|dealt with|treated|told|listed|given)"
_FORMS = tuple(
    re.compile(pattern)
    for pattern in (
        rf"{_WE} (?:{_TURN}|{_SHOW}) (?P<what>.+?),? {_LATER}\b",
        rf"{_LATER},? {_WE} (?:{_TURN}|{_SHOW}) (?P<what>[^,;.]+)",
        rf"(?P<what>[^,;.]+?) (?:is|are|will be|gets?) {_TOLD} {_LATER}\b",
        rf"more (?:on|about|of) (?P<what>.+?),? {_LATER}\b",
        rf"{_WE} {_TURN} (?P<what>[^,;.]+)",
    )
)
_NAMELESS = JOINING | several("all thing things topic point one ones")
MOST_SIGNS = 1000
"""Signs of a sentence that are looked at; nobody promises at such length."""

MOST_NAMES = 6
"""Words of what is promised; more than these say something about it."""

_AMOUNTS = several(
    "one two three four five six seven eight nine ten eleven twelve twenty thirty forty fifty "
    "sixty seventy eighty ninety hundred dozen all both each every no only"
)
_FILLING = several("more detail details part rest question few word words")


def promises(passages: Sequence[Passage], grounds: Grounds) -> Iterator[Remark]:
    """Yield a remark on each promise that nothing later keeps.

    A promise is kept by one later paragraph that holds every naming word of what was promised, in
    its text or its heading, in whatever order. Sentences that promise keep nothing.
    """
    made = [_promised(passage.text) for passage in passages]
    pairs = list(zip(passages, made, strict=True))
    held = _blocks_by_word(passage for passage, what in pairs if what is None)
    block, here = -1, set[str]()
    broken: list[Remark] = []
    # From the end, so that what a paragraph still says after a promise has been gathered.
    for passage, what in reversed(pairs):
        if passage.block != block:
            block, here = passage.block, set()
        if what is None:
            here.update(stems(passage.text))
        elif not what or not (here.issuperset(what) or _kept_later(what, passage, held)):
            broken.append(_remark(passage, what, grounds))
    yield from reversed(broken)


def _remark(passage: Passage, what: Sequence[str], grounds: Grounds) -> Remark:
    if not what:
        said = "It does not say what is to come, so nobody can tell whether it does."
        return Remark(passage, "promise", said=said)
    said = f"The draft ends without coming to it: {' '.join(what)}."
    now = grounds.tellings(what)
    if now is None:
        return Remark(passage, "promise", said=said)
    return Remark(passage, "promise", sentence=now.says, said=said, proof=Quoted(now.facts))


def is_only_promise(text: str) -> bool:
    """Say whether a sentence promises something and says nothing else."""
    folded = text[:MOST_SIGNS].casefold().replace("’", "'").rstrip(" .!…")
    found = next(filter(None, (form.fullmatch(folded) for form in _FORMS)), None)
    return found is not None and _only_names(found["what"])


def _only_names(what: str) -> bool:
    """Say whether what is promised is a few names, with no amount that would be a statement."""
    words = words_of(what)
    amounts = any(word in _AMOUNTS or any(map(str.isdigit, word)) for word in words)
    return len(words) <= MOST_NAMES and not amounts


def _promised(text: str) -> tuple[str, ...] | None:
    """Return the naming words of what a sentence promises; ``None`` when it promises nothing."""
    folded = text[:MOST_SIGNS].casefold().replace("’", "'")
    for form in _FORMS:
        found = form.search(folded)
        if found:
            words = (word for word in words_of(found["what"]) if word not in _NAMELESS)
            return tuple(word for word in naming(words) if word not in _FILLING)
    return None


def _blocks_by_word(passages: Iterable[Passage]) -> Mapping[str, set[int]]:
    held = defaultdict[str, set[int]](set)
    for passage in passages:
        for word in stems(f"{passage.heading} {passage.text}"):
            held[word].add(passage.block)
    return held


def _kept_later(what: Sequence[str], promise: Passage, held: Mapping[str, set[int]]) -> bool:
    blocks = set.intersection(*(held.get(word, set()) for word in what))
    return max(blocks, default=0) > promise.block
