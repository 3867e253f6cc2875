"""More words for what builds hold, reach and go without, as data, with the forms of verbs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from baywright.language.telling.verbs import inflected
from baywright.language.trade import Table

VERBS: Mapping[str, str] = {
    "take": (
        "accommodate, accept, house, host, store, bear, swallow, absorb, admit, welcome, "
        "receive, seat, manage, handle, address, support, serve, embrace, carry, incorporate, "
        "integrate, grow to, expand to, scale to, scale up to, extend to, rise to, reach, go "
        "to, go up to, climb to, stretch to, take care of, look after, cater for, cope with, "
        "deal with, sustain, tolerate, stand, allow, permit, enable, afford, offer, provide, "
        "leave room for, leave  space for, make room for, have room for, have space for, have "
        "place for, have slots for, have bays for, be able to take, hold, fit, feed, control, "
        "connect, attach, make use of, utilise, exploit, employ, deploy, top up to, bring to, "
        "get as far as, go as high as, mount, hook up, plug in, slot in, use, choose, select, "
        "pick, order, specify, install, build in, squeeze in, get in, put in, drop in, add, "
        "lodge, take up to"
    ),
    "have": (
        "contain, possess, feature, include, own, sport, come with, arrive with, ship with, leave "
        "the factory with, be delivered with, be shipped with, be supplied with, be sold with, "
        "be built around, be made with, be furnished with, consist of, comprise, encompass"
    ),
    "fit": (
        "find a home, find a place, find room, find space, find their place, find its place, "
        "reside, live, be housed, be located, be accommodated, be seated, be installed, be "
        "mounted, be placed, be inserted, be plugged in, be connected, be attached, be supported, "
        "be accepted, be permitted, be allowed, be handled, be managed, be used, be put in, be "
        "had, be ordered, be chosen, be selected, be built in, be taken, be carried, be run, be "
        "operated, slide in, plug in, drop in, squeeze in"
    ),
    "need": (
        "demand, call for, ask for, require, presuppose, necessitate, depend on, rely on, hinge "
        "on, be dependent on, be tied to, be bound to, be conditional on"
    ),
    "exclude": (
        "preclude, rule out, block, forbid, prohibit, prevent, disallow, exclude, sacrifice, "
        "oust, shut out, lock out, rob you of, deprive you of, cost, make impossible"
    ),
}
"""Verbs in their base form, of a phrase the first word."""

WORDS: Mapping[str, Table] = {
    "stop": {
        "": (
            "all told, as built, as shipped, as sold, as standard equipment, in any build, in any "
            "configuration, in any case, in any machine, in a given machine, in any combination, "
            "in combination, in the field, on request, if you wish, "
            "if you want, if desired, if required, if needed, if necessary, as needed, as "
            "required, optionally, alternatively, naturally, obviously, clearly, for sure, "
            "without trouble, without a problem, without any problem, without difficulty, with "
            "ease, no problem at all, for example, for instance, overall, taken together, "
            "as a whole, side by side, straight away, right away, from day one, at the moment, "
            "for now, whichever way, whatever you do, no matter what, in practice, in theory, "
            "in reality, in fact, in effect, effectively, essentially, strictly, properly, "
            "really, truly, indeed, for that matter, of the same machine, of the "
            "machine, of the box, of the server, on the machine, on this box, with this machine, "
            "on a machine, inside the box, in this box, in this server, in the server, on the "
            "server, within the machine, within the box"
        ),
    },
    "not": {
        "": "in no build, under no circumstances, in no case, in no configuration, by no means",
    },
    "machine": {
        "": (
            "a build, any build, any machine, any configuration, buyers, users, a user, the user, "
            "owners, an owner, administrators, the owner, the buyer, the customer, operators, "
            "specialists, the whole machine, the entire machine, partners, resellers, a reseller"
        ),
    },
    "op": {
        "<=": (
            "no greater than, not greater than, not above, not beyond, not over, at the very "
            "most, an upper limit of, upper limit of, a ceiling of, a top of, a cap of"
        ),
        ">=": (
            "no lower than, not below, not under, at the very least, a lower limit of, a floor of"
        ),
        "up": "as high as, all the way to, all the way up to, anything up to, up to and including",
        "==": "a grand total of",
    },
    "link": {
        "if": "assuming, assuming that, given that, supposing, in the event that, so long as",
        "with": (
            "via, through, thanks to, by way of, by use of, based on, along with just, with the "
            "help of, using just, equipped with, fitted with, populated with, loaded with, built "
            "with, filled with, configured with"
        ),
        "without": "in the absence of, lacking, minus, short of, barring",
        "and": "accompanied by, and also, and in addition, and furthermore, besides, and then",
        "unless": "except when, except if, except with, other than with",
        "only_if": (
            "only once, only after, only as long as, only provided, only given, not until, "
            "exclusively with, solely with, just with, not without, never without"
        ),
    },
}
"""Words that have no other forms."""


def phrases() -> Iterator[tuple[str, str, str]]:
    """Yield each phrase with its sort of sense and its value."""
    for value, listed in VERBS.items():
        for entry in listed.split(", "):
            yield from ((form, "verb", value) for form in _forms(entry))
    for sort, table in WORDS.items():
        for value, listed in table.items():
            yield from ((phrase, sort, value) for phrase in listed.split(", "))


def _forms(entry: str) -> Iterator[str]:
    """Yield the forms of a verb that say it of now: no past, which may tell of something else."""
    for form in inflected(entry):
        if not form.split()[0].endswith(("ed", "ing")) or form == entry:
            yield form
