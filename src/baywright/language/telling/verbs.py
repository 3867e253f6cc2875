"""Verbs in which facts are told, as data: what each can be, and how they are inflected.

Verbs stand in their base form; of a phrase the first word is inflected.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

Table = Mapping[str, str]
"""Phrases, separated by commas, by what they stand for."""

VERBS: Mapping[str, Table] = {
    "be": {
        "": (
            "be, have, get, sit, lie, stand, remain, stay, keep, come, appear, let, find, see, "
            "do, need to be"
        ),
    },
    "filler": {
        "": (
            "be, have, come, come in at, come to, come with, stand at, amount to, measure, get, "
            "find, offer, provide, use, feature, reach, sit, lie, work, work at, operate, operate "
            "at, run, run at, run from, rate, rate at, specify, specify at, list, state, remain, "
            "stay, stand, deliver, give, include, contain, carry, go, see, make, bring, take, "
            "show, do, allow, permit, hold, fit, keep, put, mean, ship with, equip with, fit "
            "with, manage, attach, range, extend, vary, achieve, take up, clock at, limit to, "
            "transfer, let, appear, measure in at, turn out to be, rate for, plug, plug into, "
            "adjust, accept, quote"
        ),
    },
    "need": {
        "": "need, require, call for, ask for, demand, want, call on",
    },
    "hint": {
        "mass": "weigh, tip the scales at, bring to the scalesscales, put on the scales",
        "power": "draw, consume, pull, use up, dissipate, eat",
        "price": "cost, pay, list at, sell for, sell at, charge for, be had for",
        "life": "last, live, endure, keep going for, be good for, serve for",
        "hold_up": (
            "bridge, ride through, buffer, ride out, tide over, hold up, hold the load, carry the "
            "load for, get over, span, cover a dip, sustain, absorb, keep the load up for, hold "
            "out"
        ),
        "leakage": "leak",
        "flow": "push, move, blow, shift, circulate",
        "noise": "emit, sound, hear",
        "capacity": "store",
        "failure_rate": "fail, break, break down, die, go wrong",
        "rating": (
            "put out, be good for, output, supply, deliver, yield, turn out, produce, rate for, "
            "offer"
        ),
        "height": "occupy, take up, fill, claim",
        "flush_rate": "flush, save, write out",
        "rise": "warm up, heat up, warm, get warmer, rise, gain",
        "rails": "extend, reach, stretch",
    },
    "act": {
        "swap": (
            "swap, replace, change, exchange, swap out, change out, renew, service, hot swap, hot "
            "plug, switch, plug, plug in, add"
        ),
        "remove": (
            "remove, pull, take out, lift out, draw out, pull out, take off, come off, come out, "
            "take away, extract, unplug, detach, disconnect, lift, lift off, withdrawwithdrew, "
            "go, slide out, get out, unseat, leave out, be off, be out, lift away, release, "
            "dismount, slide off, unscrew"
        ),
        "open": "open, lift, open up, raise, flip, take off, remove, pull off",
        "seat": (
            "seat, put in place, install, insert, fit, mount, sit properly, put back, refit, fix"
        ),
        "feed": (
            "feed, serve, drive, supply, belong to, hang off, hang on, hang from, wire to, attach "
            "to, connect to, own, tie to, work with, link to, come from, go to, connect, run "
            "from, attach, depend on, route to, run to, bind to, assign to, sit on, sit behind, "
            "live on, get from, lead to, dedicate to, reach"
        ),
        "cable": (
            "cable, cable to, connect, connect to, wire, wire to, serve, drive, plug into, attach "
            "to, hook up to, run to, reach, link to, hang on, hang off"
        ),
        "lock": (
            "cover, lock, secure, protect, shut, guard, close, lock away, close off, hold, "
            "safeguard, seal, keep shut"
        ),
        "reach": (
            "reach, access, get at, pull, use, open, touch, remain accessible, stay accessible, "
            "stay free, remain free, leave, leave out, leave open, leave free, stay reachable, "
            "work, pull out, take out, spare, swap, replace, change, remove"
        ),
        "start": (
            "start, start up, boot, power up, switch on, turn on, come up, power on, run, come "
            "on, work, operate"
        ),
        "show": (
            "show, indicate, light, light up, see, display, report, glow, signal, find, read, "
            "tell, mark, locate, point out, look at, visible, inspect, check"
        ),
        "update": "update, flash, upgrade, patch, refresh, bring up to date",
        "support": (
            "support, run, run on, run under, work with, work, accept, certify for, boot, "
            "install, approve, qualify, go with, release for, list, take, host, be compatible "
            "with, be supported, allow"
        ),
        "wait": "wait, cool, cool down, let cool, rest, need to cool, allow, give, leave, cool off",
        "announce": "announce, present, introduce, unveil, make public, reveal, publish, show",
        "ship": (
            "ship, deliver, sell, release, launch, begin, start, hit the market, come out, go on "
            "sale, come to marketto market, reach the market, arrive, buy, be available, roll "
            "out, come onto the market, become available, go out, appear, enter the market, reach "
            "customers, be in stores"
        ),
        "order": "order, buy, obtain, purchase, place, accept",
        "end": "end, close, stop, expire, run out, cease, finish, discontinue, withdraw, phase out",
        "replace": (
            "replace, succeed, follow, supersede, take over from, take the place of, inherit "
            "from, come after"
        ),
        "mirror": "mirror, duplicate, protect by mirroring",
        "share": "share, use in common, split, divide",
        "carry": (
            "carry the load, take over, take the load, keep it running, keep going, keep running, "
            "carry on, stay up, keep the machine running, run on, survive, continue, continue to "
            "run, go on, carry everything, feed the machine, power the machine, supply the "
            "machine, suffice, carry the machine, run the machine, take the full load, carry the "
            "full load, stay on, keep working, stay running, keep the machine going, keep the "
            "server running, step in, keep things running"
        ),
        "die": (
            "fail, die, break down, drop out, go down, lose, break, go dead, quit, trip, stop, "
            "pull, be dead, give up, blow, stop working, burn out, cut, black out"
        ),
        "write": (
            "write through, write straight through, bypass the cache, fall back to writing "
            "through, drop back to writing through, switch to writing through, fall back to write "
            "through, go into write through, write directly to the drives, write straight to the "
            "drives, work without write cache"
        ),
        "exceed": "exceed, go over, top, pass",
        "span": (
            "span, cross, stretch over, extend over, reach over, go across, share, run over, "
            "straddle"
        ),
        "prevent": "prevent, stop, keep from, block, bar, hinder, save from",
    },
    "effect": {
        "off": (
            "cut power, cut the power, switch off, power off, turn off, shut off, drop power, "
            "cut, lose power/lost power, lose its power, kill power, kill the power, go off, take "
            "power away, interrupt power, switch power off, go dead, drop dead, lose the power, "
            "shut power off, turn power off, black out"
        ),
        "stop": (
            "stop, shut down, bring down in order, halt, power down, bring down, come down, go "
            "down, wind down, close down, bring to a stopstop, come to a stop, bring to an "
            "orderly stop, be stopped, trigger a stop, lead to a stop"
        ),
        "no start": (
            "refuse to start, fail to start, block starting, keep from starting, prevent "
            "starting, prevent the start, block the start, stay off, remain off, stay dark, not "
            "start, decline to start, prevent from starting, keep it from starting"
        ),
        "start": "start, start up, power up, switch on, turn on, boot, come up, run, power on",
        "none": (
            "keep running, run on, stay on, carry on, continue, speed up, go on, keep going, stay "
            "up"
        ),
    },
    "reduced": {
        "": (
            "derate, cut back, lose output, lose power, give less, drop, reduce, deliver less, "
            "put out less, fall back"
        ),
    },
}
"""Verbs, by the sort of term they are."""

_IRREGULAR: Mapping[str, str] = {
    "be": "is are was were been being", "have": "has had having", "do": "does did done doing",
    "go": "goes went gone going", "take": "takes took taken taking",
    "come": "comes came coming", "keep": "keeps kept keeping", "put": "puts putting",
    "get": "gets got getting", "run": "runs ran running", "lead": "leads led leading",
    "hang": "hangs hung hanging", "find": "finds found finding",
    "draw": "draws drew drawn drawing", "feed": "feeds fed feeding", "sell": "sells sold selling",
    "hold": "holds held holding", "fall": "falls fell fallen falling",
    "bring": "brings brought bringing", "break": "breaks broke broken breaking",
    "lose": "loses lost losing", "write": "writes wrote written writing",
    "rise": "rises rose risen rising", "begin": "begins began begun beginning",
    "hear": "hears heard hearing", "drive": "drives drove driven driving",
    "give": "gives gave given giving", "sit": "sits sat sitting", "lie": "lies lay lying",
    "stand": "stands stood standing", "see": "sees saw seen seeing",
    "make": "makes made making", "show": "shows showed shown showing",
    "mean": "means meant meaning", "buy": "buys bought buying", "pay": "pays paid paying",
    "cost": "costs costing", "hit": "hits hitting", "cut": "cuts cutting",
    "shut": "shuts shutting", "let": "lets letting", "eat": "eats ate eaten eating",
    "blow": "blows blew blown blowing", "ride": "rides rode ridden riding",
    "light": "lights lit lighting lighted", "tell": "tells told telling",
    "leave": "leaves left leaving", "withdraw": "withdraws withdrew withdrawn withdrawing",
    "die": "dies died dying", "read": "reads reading", "spread": "spreads spreading",
    "tie": "ties tied tying", "dissipate": "dissipates dissipated dissipating",
}  # fmt: skip
_DOUBLED = frozenset(
    ["swap", "plug", "drop", "stop", "trip", "top", "fit", "bar", "unplug", "flip", "step"]
)


def inflected(entry: str) -> Iterator[str]:
    """Yield the forms of a verb; in a phrase its first word is the verb.

    >>> sorted(inflected("swap out"))
    ['swap out', 'swapped out', 'swapping out', 'swaps out']
    """
    word, _, rest = entry.partition(" ")
    tail = f" {rest}" if rest else ""
    forms = _IRREGULAR.get(word, "").split() or list(_regular(word))
    yield from (f"{form}{tail}" for form in (word, *forms))


def _regular(word: str) -> Iterator[str]:
    consonant = word.endswith("y") and word[-2:-1] not in "aeiou"
    stem = word[:-1] if word.endswith("e") and not word.endswith("ee") else word
    stem = f"{word}{word[-1]}" if word in _DOUBLED else stem
    yield f"{stem}ing"
    yield f"{word[:-1]}ied" if consonant else f"{stem}ed"
    if word.endswith(("s", "x", "ch", "sh", "o")):
        yield f"{word}es"
    else:
        yield f"{word[:-1]}ies" if consonant else f"{word}s"
