"""Words for what builds have and take, as data, in addition to the general words of the trade."""

from __future__ import annotations

from collections.abc import Mapping

from baywright.language.trade import Table

WORDS: Mapping[str, Table] = {
    "verb": {
        "take": (
            "build, gets to, get to, comes up to, climbs to, arrives at, gives access to, gives "
            "you access to, opens up, unlocks, allows for, lets you use, put, place, insert, "
            "plug, add, choose, pick, select, upgraded with, extended by, expanded by, "
            "supplemented with, house, gets by with, get by with, makes do with, make do with, "
            "can live with, tolerates, tolerate, withstands, withstand, copes with, cope with, "
            "endures, stores, store, be expanded with, be upgraded to, expands to, expand to, "
            "expanded to, upgraded to, build it, order it, buy it, configure it, run it, have it, "
            "get it, use it, order one, build one, buy one, swallows, admits, host, hosts, lets "
            "you fit, lets you install, lets you have, caters for, cater for, mount, sustains, "
            "sustain"
        ),
        "have": (
            "ship with, comes standard with, come standard with, comes fitted with, comes "
            "equipped with, find, finds, gives you, give you, gets you, get you, offers you, "
            "arrives with, is supplied with, is delivered with, delivered with, is sold with, "
            "totals, total, add up to, adds up to, sums up to, comprises, boasts, is home to, has "
            "inside"
        ),
        "need": (
            "occupies, occupy, uses up, hinges on, presuppose, assumes, goes only in, needs to have"
        ),
        "exclude": (
            "leave no slot for, leaves no slot for, leave no space for, leaves no space for, "
            "costs you, cost you, takes away, take away, displaces, displace, forbids, forbid, "
            "prevents, prevent, kills, comes at the expense of, come at the expense of, bars, "
            "leaves no room for, leave no room for, is incompatible with, are incompatible with, "
            "conflicts with, conflict with, does away with, makes impossible, make impossible, "
            "cannot be combined with, can't be combined with, cannot be had with, cannot go with, "
            "collides with, rule each other out with, do not go with, does not go with, does not "
            "tolerate, replaces, replace, clashes with, clash with"
        ),
        "fit": (
            "comes, come, enough, sufficient, exist, exists, accommodated, hang, hangs, stand, "
            "stands, will do, fitted at will, reachable, obtainable, achievable, attainable, "
            "workable, doable, reached, achieved, hosted, run together, live together, coexist, "
            "served, sold"
        ),
        "vacant": (
            "stays empty, stay empty, remains empty, remain empty, be left empty, left empty, be "
            "left blank, left blank, be empty, is empty, are empty, be blank, is blank, stays "
            "blank, stay blank, be left free, left free, stays free, remains free, stays unused, "
            "remains unused, be left unused, is unused, be unused, go unused, goes unused, sits "
            "empty, sit empty, be left unpopulated, stay unpopulated, stays unpopulated, "
            "unpopulated, be kept empty, be left open"
        ),
    },
    "link": {
        "per": (
            "beside each, next to each, beside every, behind each, behind every, for each of the, "
            "on every, with each, for either, to every"
        ),
        "and": "combined with, paired with, joined by, accompanied by, together with, mixed with",
        "with": "made of, consisting of, equipped with",
    },
    "array": {
        "": "array, arrays",
    },
    "pronoun": {
        "": "ones",
    },
    "quant": {
        "every": "apiece, each one, each and every",
    },
    "op": {
        "<": "falls below, fall below, drops below, drop below, goes below, go below, sinks below",
        "between": "between, anything between, anywhere between",
        "<=": "max, max., limited to, a limit of, and not more, and nothing more",
        "most": "the limit, the ceiling, upper limit, biggest, top, the maximum",
        "least": "the floor, lower limit, fewest, the minimum, littlest",
    },
    "machine": {
        "": (
            "build, a build, configuration, setup, set up, version, a machine, customer, people, "
            "a customer, buyer, buyers"
        ),
    },
    "stop": {
        "": (
            "ready made, into one machine, in one machine, into a machine, into the machine, in a "
            "build, in one build, in every build, in all builds, in every configuration, into one "
            "box, to be, at the inlet, at the air inlet, at the intake, at your disposal, in the "
            "first place, for you"
        ),
    },
}
"""Words that have no plural."""
