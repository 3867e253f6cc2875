"""Words in which facts are told, as data: what a phrase is, and what it stands for."""

from __future__ import annotations

from collections.abc import Mapping

from baywright.language.telling.verbs import Table

WORDS: Mapping[str, Table] = {
    "stop": {
        "": (
            "the, a, an, of, to, in, on, at, for, with, from, by, into, onto, its, their, your, "
            "our, this, that, these, those, there, also, too, please, simply, of course, as "
            "standard, always, which, will, would, then, itself, themselves, such, well, here, "
            "so, as well, note that, remember that, in fact, indeed, currently, now, per machine, "
            "it's, in general, by design, officially, certainly, you, we, they, he, she, i, them, "
            "us, anyone, somebody, someone, people, customers, his, her, technicians, a "
            "technician, technician, to be, what, how, yes, again, if you like, easily, "
            "comfortably, in each case, per unit, in total, in all, today, when, where, who, "
            "please note, incidentally, by the way, in the machine, of these, thing, things, as, "
            "basically, actually, overall, exactly, precisely, kindly, remember, since, "
            "respectively, each way, rather, with it, on it, in it, under it, via, through, "
            "along, out, up, down, away, round, around, s, value, figure, size, sort, type, kind, "
            "class, about it, straight, time, after all, quite, merely, part, form, ones, 's, "
            "somewhere, behind it, among, order to, in order, still, till now, just as, is there, "
            "of all, so far, ever since, every time, each time, off the shelf, let, ll, re, way, "
            "on its way, air, all its, adjustable, anyway, number of, amount of, number"
        ),
    },
    "machine": {
        "": (
            "it, machine, machines, boxes, servers, units, models, box, server, host, system, "
            "unit, chassis, platform, this machine, device, housing, enclosure, appliance, case, "
            "product, node, hardware, equipment, the machine itself, body, model, computer"
        ),
    },
    "join": {
        "and": "and, as well as, plus, along with, together with, &",
        "but": "but, while, whereas, although, though, yet, whilst",
        "or": "or",
        "comma": ",",
    },
    "neg": {
        "": (
            "not, never, n't, cannot, can't, doesn't, don't, isn't, aren't, won't, neither, nor, "
            "nothing, none, hardly, wasn't, weren't, didn't, mustn't, no longer, not any more"
        ),
        "without": "without, lacking, absent, missing, minus",
        "no": "no, not a, not a single",
    },
    "only": {
        "": "only, solely, exclusively, alone, nothing but, nowhere else, just",
    },
    "modal": {
        "can": "can, could, may, might, able to, possible to, possible, can be, allowed to",
        "must": "must, has to, have to, needs to, need to, should, had to, to be, shall, required",
    },
    "quant": {
        "every": "every, each, all, any, whichever, whatever, both, either, all of",
    },
    "one": {
        "": "single, one",
    },
    "running": {
        "": (
            "running, runs, in operation, during operation, under power, live, on the fly, power "
            "on, with power on, powered on, without downtime, without switching off, without "
            "stopping, without shutting down, without powering down, without powering off, stays "
            "on, is on, switched on, in service, up and running, hot, operating, without a "
            "shutdown, without interruption, without any downtime, while on, without turning it "
            "off, without a stop, without taking it down, in use, without powering it down, in "
            "full operation, keeps running, keep running, works, without switching it off, "
            "without turning the machine off, without switching the machine off, without stopping "
            "the machine, during running, in running operation, online, is up, machine on, server "
            "on, box on, system on, with everything on"
        ),
        "off": (
            "off, power off, switched off, powered down, powered off, with power off, shut down, "
            "stopped, turned off, at a standstill, switch off, turn off, power down, shut, "
            "shutting down, switching off, powering down, standstill, turning off, de energised, "
            "disconnected, unplugged, a shutdown, shutdown, without power, out of operation, "
            "downtime, an outage, to stop, off first, powering off, dead, to be off"
        ),
    },
    "hot": {
        "hot": (
            "hot swap, hot pluggable, hot plug, hot swappable, hot plugging, hot swapping, hot "
            "replaceable, hot exchangeable"
        ),
        "cold": "cold swap, not hot swap, cold swappable",
    },
    "conj": {
        "": (
            "while, when, if, as long as, whenever, once, as soon as, even if, even when, even "
            "with, during, so that, unless, until, in case, provided, should, because, or else, "
            "otherwise, where, even"
        ),
    },
    "unless": {
        "": "unless, until",
    },
    "before": {
        "before": (
            "before, ahead of, prior to, in front of, earlier than, precedes, precede, comes "
            "before, preceding"
        ),
        "after": (
            "after, following, behind, later than, follows, follow, once, comes after, only "
            "after, as soon as, until after"
        ),
        "first": (
            "first, to begin with, at the start, begins with, starts with, begin with, start "
            "with, comes first, is first, goes first, the first step, first step, at the "
            "beginning, first of all, outermost, starting with"
        ),
        "last": (
            "last, at the end, finally, lastly, in the end, comes last, the last step, last step, "
            "ends with, innermost, as the last thing, at the very end, end with"
        ),
        "then": (
            "then, next, and then, followed by, afterwards, after that, subsequently, thereafter"
        ),
    },
    "mark_word": {
        "": (
            "mark, marked, label, labelled, handle, handles, reads, says, words, inscription, "
            "word, marking, marked with, labelled with, bears, bear, wording, says so, tag, "
            "tagged"
        ),
    },
    "tool": {
        "no": (
            "no tool, no tools, without tools, tool free, toolless, tool less, without a tool, "
            "without any tools, by hand, bare hands, with bare hands, needs no tools, without any "
            "tool"
        ),
        "any": "tool, tools",
    },
    "people": {
        "": "person, people, pair of hands, technicians needed",
    },
    "hot_surface": {
        "": "hot, burning, because hot, very hot, gets hot, too hot, heat",
    },
    "lock": {
        "": (
            "lock, front lock, lock closed, locked, key, cover key, cover lock, locking the "
            "front, locking, locked front, closed lock, closed front, when locked, lock shut, "
            "lock on, lock engaged, locking the cover, key lock"
        ),
    },
    "open_lock": {
        "": "unlocked, unlock, open lock, unlocking, lock open",
    },
    "behind": {
        "": "behind, under, beneath, under lock",
    },
    "safe": {
        "": (
            "accessible, reachable, free, outside, usable, open, within reach, exempt, available, "
            "uncovered, unaffected, unlocked, unprotected"
        ),
    },
    "shut_in": {
        "": (
            "inaccessible, out of reach, unreachable, locked away, locked in, shut away, locked "
            "up, secured, protected, safe"
        ),
    },
    "after": {
        "": "after, within, in, following",
    },
    "at_once": {
        "": (
            "at once, immediately, instantly, straight away, right away, on the spot, without "
            "delay, abruptly, hard, instant, suddenly, without warning, there and then"
        ),
    },
    "orderly": {
        "": (
            "orderly, in order, in an orderly way, in good order, cleanly, gracefully, properly, "
            "clean, controlled, in a controlled way, in an orderly fashion, in an orderly manner, "
            "graceful, tidy, regular"
        ),
    },
    "unseated": {
        "": (
            "not seated, unseated, not in place, out of place, not properly seated, loose, badly "
            "seated, not fitted, left out, not installed, absent, is missing, missing, not "
            "inserted, not sitting properly, not seated properly, not back in place"
        ),
    },
    "power_word": {
        "": "power, current",
    },
    "switch_word": {
        "": "switch, contact, sensor, interlock, an interlock, reports it",
    },
    "light": {
        "": (
            "light, lights, lamp, lamps, indicator, indicators, fault light, fault lights, fault "
            "lamp, indicator light, status light, LED, LEDs, fault indicator, indicator lights, "
            "error light, warning light, fault"
        ),
    },
    "light_of": {
        "summary": (
            "summary, summary light, overall, common, general, group, any fault, collective, "
            "something is wrong, something wrong, trouble, any trouble"
        ),
        "code": "code, fault code, error code, a code, codes, fault codes",
    },
    "light_where": {
        "display": "with the help of the display",
        "inside": "inside, opened, opening, open, off, within, opening up, opening it",
        "front": (
            "front, at the front, on the front, from the front, front panel, up front, in front, "
            "from outside"
        ),
        "rear": "rear, back, at the rear, at the back, on the back, on the rear, from behind",
        "own": (
            "its own, own, each with its own, one each, on itself, individual, separate, of their "
            "own, of its own"
        ),
    },
    "cords_out": {
        "": (
            "without power, power is gone, power is removed, power is cut, after the power is "
            "gone, plug, even without power, power has gone, unplugged, unplugging, mains is gone"
        ),
    },
    "firmware": {
        "": (
            "firmware, firmware level, firmware version, version, update, updates, updating, "
            "release, level, firmware update"
        ),
    },
    "later": {
        "": (
            "or later, or newer, or higher, or above, and later, upwards, and up, or better, and "
            "newer, and above, at least, onwards, or up, minimum"
        ),
    },
    "enough": {
        "": (
            "enough, is enough, are enough, sufficient, suffices, will do, fine, ok, is all it "
            "needs, good enough, accepted"
        ),
    },
    "good": {
        "": (
            "supported, compatible, available, fine, certified, approved, possible, ok, on the "
            "list, qualified, released, list, listed, supported systems, usable, operating "
            "system, system, hypervisor, operating systems, release, releases, version, versions"
        ),
    },
    "day": {
        "announced": (
            "announcement, announced, public, presented, introduced, unveiled, announcement date, "
            "day of announcement"
        ),
        "ships": (
            "deliveries, delivery, shipping, shipments, shipment, sales, sale, availability, "
            "general availability, ship date, first shipment, market launch, launch, customer "
            "deliveries, on sale, on the market, available, obtainable, orderable, in stores, "
            "delivery start, first deliveries, shipped, released"
        ),
        "last_order": (
            "orders, last order, last orders, last order date, order deadline, final orders, last "
            "day to order, last day for orders, last chance to order, last ordering day, ordering "
            "deadline, final order date, last date for orders, deadline for orders"
        ),
    },
    "day_word": {
        "until": "until, till, up to and including, no later than",
        "from": "from, since, as of, starting, starting from, beginning, from on, onwards, first",
        "in": "in, during, by",
    },
    "role": {
        "predecessor": "predecessor, forerunner, precursor",
        "successor": "successor, follow up, replacement, heir",
    },
    "port_word": {
        "": "port, ports, network port, network ports, sockets, jacks",
    },
    "period": {
        "mid": "mid, middle of, in the middle of, in mid, the middle of",
        "early": (
            "beginning, start, early, at the beginning of, at the start of, early in, in early, "
            "beginning of, start of, first days of, the first week of"
        ),
        "late": "end, late, at the end of, late in, in late, end of, last days of, the end of",
    },
    "date_noun": {
        "": "date, day, start, month, the day",
    },
    "side": {
        "front": (
            "front, at the front, on the front, front panel, up front, to the front, in front, on "
            "the front panel"
        ),
        "rear": (
            "rear, at the rear, on the rear, at the back, on the back, back, round the back, rear "
            "panel, in the back"
        ),
        "inside": "inside, internal, internally, inside the machine, on the inside",
    },
    "dead": {
        "": (
            "dead, empty, discharged, failed, worn out, missing, flat, exhausted, used up, not "
            "charged, uncharged, without charge, out of charge, at the end of its life, spent, "
            "failure, loss"
        ),
    },
    "others": {
        "": (
            "other, others, the other, the other one, other one, the others, remaining, the rest, "
            "remaining one, the remaining ones, second one, rest, partner, the remaining, "
            "another, the second"
        ),
    },
    "array_word": {
        "": "array, arrays, RAID array, set, volume, RAID set, drive group",
    },
    "tray": {
        "": "tray, trays, rack tray",
    },
    "enclosure": {
        "": "enclosure, enclosures, drive enclosure, drive enclosures",
    },
    "refuse": {
        "": "refuses, refuse, rejects, reject, turns down, drops, no longer works with",
    },
    "outside": {
        "": "outside, external, outside the machine, outside the box, externally",
    },
    "op": {
        "<=": (
            "no longer than, not longer than, for no longer than, for no more than, at the longest"
        ),
    },
}
"""Words that are not inflected, by the sort of term they are."""
