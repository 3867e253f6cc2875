"""The general words of the trade, as data: what a phrase is, and what it stands for.

A phrase stands here in the singular; plurals of nouns are formed. What a book adds or names
otherwise stands in its own section ``words``.
"""

from __future__ import annotations

from collections.abc import Mapping

Table = Mapping[str, str]
"""Phrases, separated by commas, by what they stand for."""

NOUNS: Mapping[str, Table] = {
    "kind": {
        "processor": "processor, CPU, processor part, part",
        "memory": "memory module, module, DIMM, memory stick",
        "drive": "drive, disk, disc, disk drive",
        "cage": "cage, drive cage",
        "supply": "supply, power supply, power supply unit, PSU, supply unit, power unit",
        "fan": "fan, cooling fan, fan module",
        "network": "network module, NIC, network card, network adapter",
        "controller": (
            "controller, storage controller, RAID controller, drive controller, RAID card, "
            "SAS controller"
        ),
        "accelerator": "accelerator, accelerator card, GPU",
        "pack": "energy pack, pack, cache pack",
        "boot": "boot medium, boot device, boot media",
        "display": "fault display, front display, display",
        "media": "media unit, cartridge unit, removable disk unit",
        "card": "slot card, expansion card, card",
    },
    "feature": {
        "memory_sockets": (
            "memory socket, DIMM socket, DIMM slot, memory slot, memory module socket, module "
            "socket, DIMM position"
        ),
        "processor_sockets": "processor socket, CPU socket, socket",
        "channels": "memory channel, channel",
        "slots": "slot, PCIe slot, expansion slot, card slot, riser slot",
        "risers": "riser",
        "zones": "zone, front zone, drive zone, front drive zone",
        "lanes": "lane, PCIe lane",
        "mounts": "pack mount, mount",
        "network_positions": "network position, network module position",
        "supply_bays": "supply bay, power supply bay, PSU bay",
        "places": "accelerator place, accelerator position, card place",
        "boards": "switch board",
        "chains": "chain",
        "drive_ports": "drive port, drive link, drive connection, drive lane",
    },
    "port": {
        "usb": "USB port, USB, USB socket, USB connector",
        "video": "video port, video connector, video output, video",
        "network": "network port",
        "management": "management port, management connector",
    },
    "figure": {
        "memory": "memory, RAM, memory capacity, main memory, total memory",
        "memory_speed": "memory speed, memory rate, data rate of the memory, memory data rate",
        "load": "peak draw, peak load, peak power, power draw, greatest draw",
        "cores": "core, processor core, CPU core",
        "bays": "bay, drive bay, front bay, front drive bay",
        "raw_capacity": (
            "raw capacity, raw data capacity, data capacity, storage capacity, raw storage, "
            "drive capacity, storage"
        ),
        "price": "list price, price",
    },
    "field": {
        "depth": "depth",
        "height": "height, rack height",
        "width": "width",
        "rails": "rail, rail reach, rail depth, rail range",
        "rails_from": "shortest rail reach",
        "rails_to": "longest rail reach",
        "mass_empty": "empty weight, empty mass, weight empty",
        "mass_most": (
            "full weight, greatest weight, maximum weight, most weight, maximum mass, fully "
            "loaded weight"
        ),
        "noise_idle": "idle noise, noise at idle, noise idle",
        "noise_full": "full speed noise, noise at full speed",
        "noise": "noise, noise level, sound level, sound pressure",
        "hold_up": "hold up, hold up time",
        "inrush": "inrush, inrush current",
        "leakage": "leakage, leakage current, earth leakage",
        "power_factor": "power factor",
        "inlet_current": "inlet current",
        "inlet": "inlet",
        "rise": "temperature rise, air temperature rise, allowed rise, air rise",
        "inlet_limit": (
            "inlet limit, inlet temperature limit, maximum inlet temperature, inlet "
            "temperature, highest inlet temperature, inlet air"
        ),
        "grille": "intake grille, grille, intake area",
        "flow": "flow, air flow, airflow",
        "mass": "weight, mass",
        "tdp": "TDP, thermal design power",
        "rating": "rating, output",
        "life": "life, rated life, service life, lifetime, life span",
        "endurance": "endurance, write endurance",
        "capacity": "capacity",
        "speed": "speed, rate, link speed, data rate",
        "cover_off": "time with the cover off",
        "base": "base draw, base load",
        "failure_rate": "failure rate, yearly failure rate, annual failure rate",
        "flush_rate": "flush rate",
    },
    "core": {
        "": "core",
    },
}
"""Nouns: they have plurals."""

WORDS: Mapping[str, Table] = {
    "filter": {
        "drive.interface=fast": "fast, NVMe",
        "drive.interface=sas": "SAS",
        "drive.interface=sata": "SATA",
        "accelerator.slots=2": "double wide, dual width, double width, dual wide",
        "accelerator.slots=1": "single wide, single width",
        "slots.length=full": "full length",
        "slots.length=half": "half length",
        "slots.height=full": "full height",
        "slots.lanes=16": "x16, sixteen lane",
        "slots.lanes=8": "x8, eight lane",
        "controller.external=yes": "external",
        "memory.type=registered": "registered",
        "drive.state=hot": "hot swap, hot pluggable, hot plug, hot swappable",
        "drive.state=fixed": "fixed",
        "drive.state=data": "data",
        "any": "PCIe",
    },
    "modal": {
        "can": "can, could, may, might, able to, can be, possible to, up for",
        "must": "must, has to, have to",
    },
    "not": {
        "": "not, never, n't, cannot be, can't, cannot, doesn't, don't, isn't, aren't, won't",
    },
    "verb": {
        "take": (
            "take, takes, taking, support, supports, accept, accepts, hold, holds, fit, fits, "
            "has room for, have room for, there is room for, room for, handle, handles, "
            "accommodate, accommodates, allow, allows, goes up to, can grow to, grow to, "
            "scales to, scale to, is expandable to, expandable to, offers room for, be "
            "equipped with, be fitted with, be configured with, be ordered with, be built "
            "with, be populated with, run with, houses up to, reach, reaches, tops out at, "
            "top out at, go up to, install, order, could hold, is able to hold, extended "
            "with, fitted with, equipped with, configured with, ordered with, built with, "
            "populated with, filled with, loaded with, had with, stretches to, extends to, "
            "extend to, rises to, rise to, peaks at, start with, be extended with, is open "
            "to, is good for, leaves room for, has space for, have space for, space for"
        ),
        "have": (
            "has, have, having, comes with, come with, ships with, includes, include, "
            "contains, contain, there is, there are, provides, provide, offers, offer, uses, "
            "use, is equipped with, carries, carry, features, feature, houses, gives, give, "
            "is fitted with, are fitted with, is built with, has got, sports, brings, bring, "
            "delivers, deliver, moves, move, runs with, presents, exposes, gets, get, keeps, "
            "keep, makes, make, adds, add, come in, comes in, yields, means, leaves you with, "
            "supplies"
        ),
        "be": (
            "is, are, be, was, were, equals, amounts to, comes to, stands at, measures, "
            "measure, stays at, remains, runs at, run at, is rated at, are rated at, is "
            "limited to, are limited to, operates at, running at, stay, stays, remain, work "
            "at, works at, operate at, drops to, drop to, slows down to, slow down to, falls "
            "to, fall to, rated at, has been, have been, is clocked at, carries on at, be run "
            "at, be used at"
        ),
        "need": (
            "needs, need, requires, require, depends on, depend on, calls for, asks for, "
            "demands, only works with, works only with, presupposes, relies on, takes at "
            "least, goes only with, is tied to, must have"
        ),
        "drive": (
            "drive, drives, serve, serves, control, controls, run, runs, feed, feeds, "
            "connect, connects, connect to, connects to, reaches, manage, manages, carries, "
            "cover, power, start, starts"
        ),
        "exclude": "excludes, exclude, rules out, rule out, blocks, precludes",
        "fit": (
            "fitted, installed, supported, available, possible, allowed, present, used, "
            "populated, in place, in use, accepted, offered, mounted, included, plugged in, "
            "ordered, fit, fits, go, goes, sit, sits, work, works, equipped, provided, built "
            "in, added, had, fine, valid, legal, ok, okay, permitted, feasible, no problem, "
            "an option, option, a supported number, supported number, a valid memory "
            "configuration, a valid configuration, valid configuration, valid memory "
            "configuration, connected, filled, put in, be put, plugged, housed, choose, "
            "chosen, fitting, run, runs, no trouble, alright, put, placed, attached, usable, "
            "standard equipment, standard, possible too, part of it, on board, on the board, "
            "go together, do go together, run together, fit together, work together, be used, "
            "held, get along, combined, taken, built, bought, a must, mandatory, kept"
        ),
        "weigh": "weighs, weigh",
        "draw": "draws, draw, pulls, consumes, uses up to",
        "cost": "costs, cost",
        "deep": "deep",
        "tall": "tall, high, in height",
        "wide": "wide",
        "keep_running": (
            "the others carry the load, others carry the load, the rest carry the load, the "
            "other carries the load, the other one carries the load, other carries the load, "
            "the remaining ones carry the load, survives, survives it, the load is still "
            "carried, keeps working, keep working, the other keeps it running, goes on "
            "running, keeps running, keep running, stays up, continues to run, carries on, "
            "stays running, runs on, still runs, continues running, keeps going, will keep "
            "running"
        ),
        "lose": "lose, loses, lack, lacks, give up, gives up",
        "leave_out": (
            "left out, omitted, removed, dispensed with, left off, skipped, done without"
        ),
        "survive": (
            "survives the loss of, survive the loss of, can lose, tolerates the loss of, can "
            "spare, stands the loss of, withstands the loss of"
        ),
        "ship": (
            "on the market, on sale, in production, bought, ordered, had, available, "
            "available to order, orderable, obtainable, deliverable, released, launched, "
            "ships, ship, shipped, shipping, delivered"
        ),
        "announce": "announced",
        "mix": "mixed, mix, combined, combine, paired, pair, mixing",
        "fail": (
            "fails, fail, may fail, can fail, could fail, is allowed to fail, is lost, dies, "
            "drops out, is pulled, breaks down"
        ),
    },
    "optional": {
        "": "optional, an extra, not always there, not always fitted",
    },
    "cheapest": {
        "price": "cheapest",
        "load": "minimal, smallest build, smallest configuration, most frugal, leanest",
    },
    "site": {
        "0 m": "sea level",
    },
    "ordinal": {
        "2": "second, another, 2nd",
        "3": "third, 3rd",
        "4": "fourth",
    },
    "count": {
        "1": "single",
        "2": "pair of, couple of, dual",
        "12": "dozen",
    },
    "op": {
        "up": "up to, as many as, as much as",
        "<=": (
            "at most, tops, no more than, and no more, max of, or below, not more than, a "
            "maximum of, maximum of, a maximum, at maximum, or fewer, or less, or slower, at "
            "the most, no faster than, never more than"
        ),
        ">=": (
            "as little as, as few as, as low as, at least, no fewer than, not fewer than, no "
            "less than, not less than, a minimum of, minimum of, or more, or faster, or "
            "higher, or better, and more, upwards"
        ),
        "==": "exactly, precisely, all of, a total of, total of, always",
        ">": (
            "exceeds, is above, is over, lies above, more than, over, greater than, above, "
            "faster than, beyond"
        ),
        "<": (
            "never exceeds, does not exceed, will not exceed, never exceed, stays below, "
            "stays under, stays within, remains below, remains under, remains within, keeps "
            "below, keeps under, fewer than, less than, under, below, within, slower than"
        ),
        "most": "maximum, max, highest, largest, greatest, most",
        "least": "minimum, lowest, smallest, least",
        "~": "about, around, roughly, approximately, nearly, almost, some, circa",
    },
    "quant": {
        "every": "every, each, all, any",
        "both": "both, either",
        "no": "no, none, zero, neither, not a single, not one, no such, not any",
        "only": "only, just, solely",
    },
    "side": {
        "front": (
            "at the front, on the front, in front, in the front, front, front panel, up "
            "front, on the front panel"
        ),
        "rear": (
            "at the rear, on the rear, rear, at the back, on the back, back, in the rear, on "
            "the rear panel, in the back, round the back"
        ),
        "inside": "inside, internally, internal, on the inside, inside the machine",
        "": "in total, altogether, overall, in all, all told, total",
    },
    "link": {
        "and": (
            "and, plus, as well as, along with, together with, &, +, next to, alongside, "
            "beside, in addition to, on top of, combined with, and still"
        ),
        "or": "or",
        "but": "but, while, whereas, although",
        "comma": "comma",
        "of": "of, for",
        "since": "since, as of, starting, starting from, beginning, from",
        "until": "until, till, up to and including, through",
        "if": ("if, when, whenever, once, as long as, provided that, provided, where, as soon as"),
        "unless": "unless",
        "with": (
            "with, using, having, given, behind, under, on, for, by means of, even with, alone with"
        ),
        "without": "without",
        "at": "at, from, on, to",
        "in": "in, into, within, behind, across",
        "above": "above, over, beyond, higher than",
        "below": "below, under",
        "per": "per, for each, for every, on each, in each, to each",
        "than": "than",
        "only_if": "only if, only with, only when, only in combination with, only where",
        "then": "then",
    },
    "condition": {
        "processors == 1": (
            "single processor, one processor only, just one processor, only one processor, "
            "single processor machine, one CPU only, single socket configuration, only one "
            "CPU, single CPU, single processor build, one processor machine, one socket "
            "machine, one socket, single socket, one processor build, one processor "
            "configuration, one CPU machine"
        ),
        "processors == 2": (
            "second processor, processor 2, both processors, dual processors, dual processor, "
            "two socket configuration, both CPUs, second CPU, CPU 2, 2nd processor, both "
            "sockets populated, both sockets filled, two processor machine, two socket "
            "machine, two processor build, second socket"
        ),
        "supplies_redundant": (
            "redundant supplies, supply redundancy, redundant power, power redundancy, "
            "redundant power supplies, redundant PSUs, redundant, redundantly, supplies "
            "redundant"
        ),
        "air_redundant": (
            "fan redundancy, redundant fans, redundant air, redundant cooling, N+1, a fan to "
            "spare, fan to spare, a spare fan, spare fan, their spare fan, a fan in reserve, "
            "fan in reserve, one fan in reserve, one fan to spare, one spare fan, cooling "
            "redundancy, their fan redundancy, air redundancy"
        ),
    },
    "generation": {
        "DDR3": "DDR3",
        "DDR4": "DDR4",
        "DDR5": "DDR5",
        "DDR6": "DDR6",
        "PCIe 3.0": "PCIe 3.0, PCIe 3, PCIe Gen 3, gen 3",
        "PCIe 4.0": "PCIe 4.0, PCIe 4, PCIe Gen 4, gen 4",
        "PCIe 5.0": "PCIe 5.0, PCIe 5, PCIe Gen 5, gen 5",
        "PCIe 6.0": "PCIe 6.0, PCIe 6, PCIe Gen 6",
    },
    "builds": {
        "always": ("every build, each build, all builds, every configuration, all configurations"),
        "can": "some builds, some configurations, some build",
        "never": "no build, no configuration, no builds",
    },
    "mixed": {
        "": (
            "mixed, different, of different sizes, of different kinds, of different models, "
            "of different types, of different capacities, of mixed sizes, of unequal size, "
            "dissimilar, of different ratings, different kinds of, different sizes of, of "
            "different size"
        ),
    },
    "alike": {
        "": (
            "identical, the same, of one kind, of one size, of one model, of one type, alike, "
            "of the same kind, of the same size, of the same model, of the same type, equal, "
            "the same size, the same model, of equal size"
        ),
    },
    "state": {
        "idle": "idle, at idle",
        "full": "at full speed, full speed, at full load, flat out",
        "empty": "empty, without parts, when empty, unloaded",
        "loaded": (
            "fully loaded, full, loaded, fully fitted, at most, fully populated, fully built"
        ),
    },
    "machine": {
        "": (
            "it, machine, box, server, host, system, unit, chassis, platform, you, we, this "
            "machine, they, one, customers, I, me, anyone, somebody, someone, this server, "
            "this system, this box, the product, model"
        ),
    },
    "stop": {
        "": (
            "the, a, an, its, their, your, our, this, that, these, those, there, which, also, "
            "too, of course, please, as standard, always, in the machine, in it, to it, in "
            "the box, then, by, per machine, in one machine, it has, at the same time, at "
            "once, simultaneously, will, would, does, do, did, been, each of, now, today, "
            "basically, in short, as a reminder, by the way, simply, directly, comfortably, "
            "safely, officially, freely, indeed, certainly, of these, of those, in all cases, "
            "in any case, throughout, in every machine, in each machine, in the rack, in a "
            "rack, no doubt, by design, at any time, respectively, from now on, that way, at "
            "its rear panel, in the factory, at the factory, per unit, in there, all the "
            "time, on its own, for that, to do so, on this machine, on it, with it, onto it, "
            "on offer, currently, well, still, ever, in a machine, thus, therefore, hence, "
            "peak, at peak, as well, just as well, just as, in a single machine, side by "
            "side, at all, whatsoever, from the factory, ex works, note that, remember that, "
            "in this machine, so far, already, again, actually, right now, all at once, "
            "easily, happily, at present, of its own, if you like, in principle, without "
            "problems, all in one machine, inside one machine, in one and the same machine, "
            "counting, fully, together, out of the box, by default, per box, here, in one "
            "box, per server, them, as delivered, any more, of them, so, yes, even, such, "
            "number of, amount of"
        ),
    },
    "absent": {
        "": (
            "fibre channel, tape drive, optical drive, wireless, bluetooth, serial port, "
            "liquid cooling, water cooling, warranty, graphics card, sound card, touch "
            "screen, parallel port, thunderbolt, infiniband, floppy drive, on site service, "
            "support contract"
        ),
    },
}
"""Words that have no plural."""
