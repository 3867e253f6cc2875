"""Words in which facts are told, as data: what a phrase is, and what it stands for.

Verbs stand in their base form; a phrase of several words is inflected in its first.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

Table = Mapping[str, str]

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
            "transfer, let, appear, measure in at, turn out to be"
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
            "cover, lock, secure, protect, block, shut, guard, close, lock away, close off, bar, "
            "prevent, stop, keep from, hold, safeguard, seal, keep shut"
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
}
"""Verbs, by the sort of term they are."""

WORDS: Mapping[str, Table] = {
    "stop": {
        "": (
            "the, a, an, of, to, in, on, at, for, with, from, by, into, onto, its, their, your, "
            "our, this, that, these, those, there, also, too, please, simply, of course, as "
            "standard, always, which, will, would, then, itself, themselves, such, well, here, "
            "so, as well, note that, remember that, in fact, indeed, currently, now, per machine, "
            "it's, in general, by design, officially, certainly, of its own, you, we, they, he, "
            "she, i, them, us, anyone, somebody, someone, people, customers, his, her, "
            "technicians, a technician, technician, to be, what, how, yes, again, if you like, "
            "easily, comfortably, in each case, per unit, in total, in all, today, when, where, "
            "who, please note, incidentally, by the way, in the machine, of these, thing, things, "
            "as, basically, actually, overall, exactly, precisely, kindly, remember, since, "
            "respectively, each way, rather, with it, on it, in it, under it, via, through, "
            "along, out, up, down, away, round, around, s, value, figure, size, sort, type, kind, "
            "class, about it, straight, time, after all, quite, merely, part, form, ones, 's, "
            "somewhere, behind it, among, order to, in order, still, till now, just as, is there, "
            "of all, so far, ever since, every time, each time, off the shelf, let, ll, re"
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
        "every": "every, each, all, any, whichever, whatever, both, either, all of, throughout",
    },
    "one": {
        "": "single, one",
    },
    "state": {
        "idle": (
            "idle, at idle, idling, when idle, at rest, in idle, doing nothing, without load, "
            "without a load, unloaded, quiet"
        ),
        "full": (
            "at full speed, full speed, at full load, flat out, at full tilt, top speed, maximum "
            "speed, at maximum, at full throttle, at most, full blast, at top speed, under full "
            "load, with fans flat out, at maximum speed, running flat out, at full power, under "
            "load, at peak, busy, at its loudest, loudest, with all fans at full speed, maximum"
        ),
        "empty": (
            "empty, bare, without parts, when empty, unloaded, unfitted, unpopulated, stripped, "
            "with nothing in it, nothing fitted, with nothing fitted, naked, unequipped, bare "
            "chassis, without any parts, as a bare chassis"
        ),
        "loaded": (
            "fully loaded, full, loaded, fully fitted, fully populated, fully built, filled to "
            "the brim, fully equipped, at most, fully configured, maximum, filled, packed, "
            "populated, at its heaviest, heaviest, completely filled, maximally, max, greatest, "
            "with everything fitted, at the most, crammed, kitted out, fully kitted out, "
            "complete, full configuration, maxed out, in full, most, top, highest"
        ),
    },
    "field": {
        "depth": "depth, deep, from front to back, front to back, long, length, in depth",
        "height": "height, tall, high, in height, rack height, rack space, flat",
        "width": "width, wide, across, in width, side to side, from side to side, broad",
        "width_over_ears": "over the ears, over the rack ears, with ears, with the rack ears",
        "rails": (
            "rail, rails, rail kit, rail reach, slides, rack posts, posts, mounting depth, rail "
            "depth, rails of, adjustment range, posts apart, rack rails, rail range"
        ),
        "slide_travel": "slide travel, travel of the slides, travel",
        "mass": "weight, mass, on the scales, heavy, net weight",
        "noise": (
            "noise, noise level, sound level, sound pressure, sound pressure level, loud, "
            "acoustic noise, loudness, acoustic level, sound"
        ),
        "rise": (
            "temperature rise, air temperature rise, allowed rise, air rise, rise, warmer, "
            "allowed temperature rise, difference, heating of the air, air to warm up, air warm "
            "up, air may warm up"
        ),
        "cover_off": "uncovered",
        "grille": (
            "grille, intake grille, intake area, air intake, front grille, grille area, intake, "
            "area"
        ),
        "grille_open": (
            "open fraction, open share, open area share, open part, open portion, fraction open, "
            "share open"
        ),
        "hold_up": (
            "hold up time, holdup, holdup time, ride through, ride through time, bridging time, "
            "dip, gap, power dip, brief dip, interruption, brownout, brief interruption, short "
            "dip, mains gap, buffering time, dropout, short interruption, outage, power cut, "
            "mains dip"
        ),
        "inrush": (
            "inrush, inrush current, switch on current, switching on current, on switching on, at "
            "switch on, when switched on, switch on surge, on power up, surge current, starting "
            "current, when switching on, at power up, when first plugged in, at the moment of "
            "switching on, on switch on, peak inrush"
        ),
        "leakage": (
            "leakage, leakage current, earth leakage, to earth, earth leakage current, to ground, "
            "current to earth, earth current"
        ),
        "power_factor": "power factor",
        "inlet": (
            "inlet, socket, plug, connector, inlets, power inlet, appliance inlet, cord, mains "
            "inlet, coupler"
        ),
        "inlet_current": "inlet current, input current, current, draws a current, current draw",
        "efficiency": "efficiency, efficient, efficiently, conversion efficiency",
        "rating": (
            "rating, output, rated, rated output, full rating, output power, capable of, good "
            "for, power rating, nominal power, nominal output, nameplate rating"
        ),
        "tdp": "TDP, thermal design power, heat output, thermal rating",
        "flow": "flow, air flow, airflow, air, of air, cubic feet, throughput of air, air delivery",
        "life": (
            "life, rated life, service life, lifetime, life span, working life, expected life, "
            "useful life, life expectancy"
        ),
        "capacitance": "capacitance, charge",
        "usable": (
            "usable, usable energy, of the energy is usable, energy usable, usable share, of its "
            "energy, usable part of the energy"
        ),
        "voltages": "volts, voltage, charged, discharged, charge voltage",
        "flush_size": "cache, write cache, cache size, cache contents, cache content",
        "flush_rate": "flush rate, flush, flushing rate, flushing",
        "endurance": (
            "endurance, write endurance, rated endurance, writes over its life, can be written"
        ),
        "capacity": "capacity, storage, storage capacity, data capacity",
        "price": "price, list price, cost, costs, list, tag, price tag, apiece, listed",
        "failure_rate": (
            "failure rate, yearly failure rate, annual failure rate, failure rate per year, "
            "failures, yearly rate of failure, failure probability, rate of failure, chance of "
            "failing, chance of failure, annual failures"
        ),
        "speed": (
            "speed, rate, data rate, link speed, line rate, signalling rate, link rate, transfer "
            "rate, bandwidth, link, clock, clock rate, rotational speed, quick, fast"
        ),
        "power": "power draw, draw, consumption, power consumption, peak draw, peak power, power",
        "read_rate": "read rate, reading rate, read speed, reads, read, reading, sequential read",
        "write_rate": (
            "write rate, writing rate, write speed, writes, write, writing, sequential write"
        ),
        "side_by_side": (
            "side by side, next to each other, beside each other, share a tray, share one tray, "
            "abreast, two abreast"
        ),
        "lanes": "lane, lanes, PCIe lane, PCIe lanes",
        "lanes_per_bay": "lane, lanes, PCIe lane, PCIe lanes",
        "drives_most": "drives",
        "chips": "chip, chips, network chip, network chips, on one chip, on a chip of its own",
        "media": "cards, small cards, small drives, card drives",
        "mirrored": (
            "mirrored, redundant, mirrored pair, mirrors, mirror, as a mirror, in a mirror, each "
            "other's mirror"
        ),
        "base": "base draw, base load, base power, board draw",
        "surge": "surge, momentary peak, peak for a moment",
    },
    "ratio": {
        "": "per cent, percent, in a hundred, out of a hundred, in one hundred",
    },
    "year": {
        "": (
            "a year, per year, each year, every year, yearly, annually, annual, in a year, per "
            "annum, within a year, in one year, over a year, of a year, one year"
        ),
    },
    "load": {
        "10": "ten per cent load",
        "20": "light load, low load",
        "50": (
            "half load, half its load, at half load, half the load, half of its load, half of its "
            "rating, half its rating, medium load"
        ),
        "100": "full load, at full load, its full load, maximum load, its full rating, full rating",
        "any": (
            "any load, every load, whatever the load, at any load, all loads, whatever load, "
            "independent of load, regardless of load, regardless of the load, irrespective of "
            "load, over the whole load range, no matter what load, at every load, across the "
            "whole range of load, no matter the load, across the load range"
        ),
        "": (
            "load, of its rating, of the load, loading, of the rating, of load, utilisation, of "
            "rated load, of its load, of full load"
        ),
    },
    "volts": {
        "any": (
            "any voltage, every voltage, at any voltage, both voltages, whatever the voltage, all "
            "voltages, low and high line, both lines, any line, every line, either line, either "
            "voltage, regardless of voltage, on any line, at all voltages, regardless of the "
            "voltage, wherever it is plugged in"
        ),
        "low": "low line, low voltage, low mains, low input voltage, low line voltage",
        "high": "high line, high voltage, high mains, high input voltage, high line voltage",
        "": (
            "input, mains, input voltage, line voltage, mains voltage, power, volts, voltage, "
            "supply voltage"
        ),
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
            "the machine, during running, in running operation, online, is up"
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
        "summary": "summary, summary light, overall, common, general, group, any fault, collective",
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
            "its own, own, a light of its own, each with its own, one each, on itself, "
            "individual, separate, of their own, of its own"
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
        "from": (
            "from, since, as of, starting, starting from, beginning, on, from on, onwards, first"
        ),
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
    "compare": {
        "deeper": "deeper, longer",
        "shallower": "shallower, shorter, less deep",
        "heavier": "heavier",
        "lighter": "lighter",
        "louder": "louder, noisier",
        "quieter": "quieter, less noisy, less loud",
        "taller": "taller, higher",
        "lower": "lower, flatter",
        "wider": "wider, broader",
        "narrower": "narrower",
        "faster": "faster, quicker, speedier",
        "slower": "slower",
        "same": (
            "the same, same, as, equal, identical, equally, just as, no different, as much, the "
            "same as, like, as many, no more, no less, neither more nor less, unchanged"
        ),
        "more": (
            "more, additional, extra, further, greater, larger, bigger, exceeds, another, above"
        ),
        "less": "fewer, less, smaller, below",
        "twice": (
            "twice, double, two times, twofold, doubles, twice as, twice as many, twice the, "
            "doubled, double the"
        ),
        "half_of": "half, half as, half as many, half the",
        "three": "three times, triple",
    },
    "than": {
        "": (
            "than, compared with, compared to, as, in comparison with, as against, unlike, "
            "versus, over, relative to, against, in contrast to, in comparison to, than in, than "
            "on, like, as does, as did, does, did, as its, comparison, contrast"
        ),
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
            "charged, uncharged, without charge, out of charge, at the end of its life, spent"
        ),
    },
    "charged": {
        "": "charged, full, healthy, working, present, fitted, good, in place, charged pack",
    },
    "others": {
        "": (
            "other, others, the other, the other one, other one, the others, remaining, the rest, "
            "remaining one, the remaining ones, second one, rest, partner, the remaining, "
            "another, the second"
        ),
    },
    "practice": {
        "": (
            "in practice, real, really, in reality, in real life, effectively, effective, "
            "actually, net, achieved, usable, in everyday use, practically"
        ),
    },
    "array_word": {
        "": "array, arrays, RAID array, set, volume, RAID set, drive group",
    },
    "generation_word": {
        "PCIe 3.0": (
            "third generation PCIe, PCIe of the third generation, Gen3, PCIe Gen3, PCIe3, third "
            "generation of PCIe, PCI Express 3.0, PCIe generation 3, PCI Express 3"
        ),
        "PCIe 4.0": (
            "fourth generation PCIe, PCIe of the fourth generation, Gen4, PCIe Gen4, PCIe4, "
            "fourth generation of PCIe, PCI Express 4.0, PCIe generation 4, PCI Express 4"
        ),
        "PCIe 5.0": (
            "fifth generation PCIe, PCIe of the fifth generation, Gen5, PCIe Gen5, PCIe5, fifth "
            "generation of PCIe, PCI Express 5.0, PCIe generation 5, PCI Express 5"
        ),
        "PCIe 6.0": (
            "sixth generation PCIe, PCIe of the sixth generation, Gen6, PCIe Gen6, PCIe6, PCI "
            "Express 6.0, PCI Express 6"
        ),
    },
    "gen_filler": {
        "": (
            "generation, technology, standard, standards, type, memory, RAM, protocol, modules, "
            "signalling, speed, bus, interface, lanes, connectors"
        ),
    },
    "shape": {
        "length=full": "full length",
        "length=half": "half length, short",
        "height=full": "full height",
        "height=low": "low profile, half height",
        "slots=2": (
            "double wide, dual width, double width, dual wide, two slots wide, take two slots, "
            "two slot, two slots"
        ),
        "slots=1": "single wide, single width, one slot wide",
        "lanes=16": "x16, sixteen lane, 16 lane, sixteen lanes, x 16",
        "lanes=8": "x8, eight lane, 8 lane, eight lanes, x 8",
        "lanes=4": "x4, four lane",
        "type=registered": "registered, registered modules",
        "type=unbuffered": "unbuffered, unregistered",
    },
    "shape_noun": {
        "": (
            "card, cards, connector, slot, slots, electrically, module, modules, PCIe, board, "
            "boards, wide"
        ),
    },
    "pole": {
        "": "feed",
    },
    "rack_unit": {
        "": (
            "rack unit, rack units, units high, unit high, height unit, height units, units of "
            "rack space, rack unit high, rack units high, units of height, U high, rack unit of "
            "space, units tall"
        ),
    },
    "tray": {
        "": "tray, trays, rack tray",
    },
    "current": {
        "AC": "AC",
        "DC": "DC",
    },
    "enclosure": {
        "": "enclosure, enclosures, drive enclosure, drive enclosures",
    },
    "refuse": {
        "": "refuses, refuse, rejects, reject, turns down, drops, no longer works with",
    },
    "between": {
        "": "between, from, ranges from, anything from",
    },
    "to": {
        "": "to, down to, up to, through, till",
    },
    "nothing": {
        "": "nothing",
    },
}
"""Words that are not inflected, by the sort of term they are."""

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
