"""Signs as people name them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from baywright.problems import Problems, problem, suggestion
from baywright.service.faults.signs import Sign, there
from baywright.service.faults.suspects import Observation


def observations_of(
    signs: Sequence[Sign], fitted: frozenset[str], seen: Iterable[str], not_seen: Iterable[str]
) -> tuple[Observation, ...]:
    """Return what people say that they see and do not see.

    Args:
        signs: the signs of the book, those of optional parts included.
        fitted: ids and kinds of the parts of the build.
        seen: what is seen, as typed.
        not_seen: what is looked for and not seen, as typed.

    Raises:
        Problems: for what is no sign, for a sign of a part that is not fitted, and for one that is
            said to be seen and not to be seen.
    """
    known = _by_words(signs)
    texts = [*((text, True) for text in seen), *((text, False) for text in not_seen)]
    found = tuple(
        Observation(text, is_seen, _signs(known, fitted, text)) for text, is_seen in texts
    )
    for each in found:
        opposite = [o for o in found if o.signs == each.signs and o.seen != each.seen]
        if opposite:
            message = f"{each.text!r} is said to be seen and not to be seen."
            raise problem("seen-and-not", message, None, "Leave one of the two out.")
    return found


def nothing_else(
    signs: Iterable[Sign], observations: Sequence[Observation]
) -> tuple[Observation, ...]:
    """Return that none of some signs is seen but those named.

    Args:
        signs: the signs that can be seen as things stand.
        observations: what is named.
    """
    named = {sign.key for each in observations for sign in each.signs}
    rest = [sign for sign in signs if sign.key not in named]
    return tuple(Observation(sign.name, signs=(sign,), seen=False) for sign in rest)


def _by_words(signs: Iterable[Sign]) -> Mapping[str, tuple[Sign, ...]]:
    """Return signs by everything they are called; all of one light by the name of that."""
    found: dict[str, tuple[Sign, ...]] = {}
    for sign in signs:
        own = (sign.key, sign.name, *sign.phrases)
        for word in dict.fromkeys(map(_folded, (*own, sign.called, sign.group))):
            found[word] = (*found.get(word, ()), sign)
    return found


def _folded(text: str) -> str:
    return " ".join(text.casefold().split())


def _signs(
    known: Mapping[str, tuple[Sign, ...]], fitted: frozenset[str], text: str
) -> tuple[Sign, ...]:
    found = known.get(_folded(text))
    if found is None:
        raise _unknown(known, text)
    left = there(found, fitted)
    if not left:
        message = f"{text!r} is a sign of a {found[0].needs}, which the build does not have."
        raise problem("no-sign", message, None, "Look at the build again, or leave it out.")
    return left


def _unknown(known: Mapping[str, tuple[Sign, ...]], text: str) -> Problems:
    names = {
        name.casefold()
        for signs in known.values()
        for each in signs
        for name in (each.name, each.called)
    }
    message = f"There is no sign {text!r}."
    hint = suggestion(_folded(text), names) or "The command with --list lists every sign."
    return problem("no-sign", message, None, hint)
