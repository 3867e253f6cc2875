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
        "processor": "processor, CPU",
        "memory": "memory module, module, DIMM, memory stick",
        "drive": "drive, disk, disc, disk drive",
        "cage": "cage, drive cage",
        "supply": "supply, power supply, power supply unit, PSU, supply unit, power unit",
        "fan": "fan, cooling fan, fan module",
        "network": "network module, NIC, network card, network adapter",
        "controller": "controller, storage controller, RAID controller, drive controller, "
        "RAID card, SAS controller",
        "accelerator": "accelerator, accelerator card, GPU",
        "pack": "energy pack, pack, cache pack",
        "boot": "boot medium, boot device",
        "display": "fault display, front display, display",
        "media": "media unit, cartridge unit, removable disk unit",
        "card": "slot card, expansion card",
    },
    "feature": {
        "memory_sockets": "memory socket, DIMM socket, DIMM slot, memory slot, memory module "
        "socket, module socket, DIMM position",
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
        "load": "peak draw, peak load, peak power, power draw, draw",
        "cores": "core, processor core, CPU core",
        "bays": "bay, drive bay, front bay, front drive bay",
        "raw_capacity": "raw capacity, storage capacity, raw storage, drive capacity, storage",
        "price": "list price, price",
    },
    "field": {
        "depth": "depth",
        "height": "height, rack height",
        "width": "width",
        "rails_from": "shortest rail reach",
        "rails_to": "longest rail reach",
        "mass_empty": "empty weight, empty mass, weight empty",
        "mass_most": "full weight, greatest weight, maximum weight, most weight, maximum mass, "
        "fully loaded weight",
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
        "inlet_limit": "inlet limit, inlet temperature limit, maximum inlet temperature, "
        "inlet temperature, highest inlet temperature",
        "grille": "intake grille, grille, intake area",
        "flow": "flow, air flow, airflow",
        "mass": "weight, mass",
        "tdp": "TDP, thermal design power",
        "rating": "rating, output",
        "life": "life, rated life, service life",
        "endurance": "endurance, write endurance",
        "capacity": "capacity",
        "speed": "speed, rate, link speed, data rate",
        "cover_off": "time with the cover off",
        "base": "base draw, base load",
        "failure_rate": "failure rate, yearly failure rate, annual failure rate",
        "flush_rate": "flush rate",
    },
    "core": {"": "core"},
}  # fmt: skip
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
        "controller.external=yes": "external",
        "memory.type=registered": "registered",
        "drive.state=hot": "hot swap, hot pluggable, hot plug, hot swappable",
        "drive.state=fixed": "fixed",
        "any": "PCIe, memory sized",
    },
    "modal": {
        "can": "can, could, may, might, able to, can be, possible to, up for",
        "must": "must, has to, have to",
    },
    "not": {"": "not, never, n't, cannot be, can't, cannot, doesn't, don't, isn't, aren't, won't"},
    "verb": {
        "take": "take, takes, taking, support, supports, accept, accepts, hold, holds, fit, fits, "
        "has room for, have room for, there is room for, room for, handle, handles, accommodate, "
        "accommodates, allow, allows, goes up to, can grow to, grow to, scales to, scale to, "
        "is expandable to, expandable to, offers room for, be equipped with, be fitted with, "
        "be configured with, be ordered with, be built with, be populated with, run with, "
        "houses up to, reach, reaches, tops out at, top out at, go up to, install, order, "
        "is good for, leaves room for, has space for, have space for, space for",
        "have": "has, have, having, comes with, come with, ships with, includes, include, contains, "
        "contain, there is, there are, provides, provide, offers, offer, uses, use, "
        "is equipped with, carries, carry, features, feature, houses, gives, give, is fitted with, "
        "are fitted with, is built with, has got, sports, brings, bring, delivers, deliver, moves, "
        "move, runs with, presents, exposes, gets",
        "be": "is, are, be, was, were, equals, amounts to, comes to, stands at, measures, measure, "
        "stays at, remains, runs at, run at, is rated at, are rated at, is limited to, "
        "are limited to, operates at, running at",
        "need": "needs, need, requires, require, depends on, depend on, calls for, asks for, "
        "demands, only works with, works only with, works with",
        "drive": "drive, drives, serve, serves, control, controls, run, runs, feed, feeds, "
        "connect, connects, connect to, connects to, reaches, manage, manages, carries, cover",
        "exclude": "excludes, exclude, rules out, rule out, blocks, precludes",
        "fit": "fitted, installed, supported, available, possible, allowed, present, used, "
        "populated, in place, in use, accepted, offered, mounted, included, plugged in, ordered, "
        "fit, fits, go, goes, sit, sits, work, works, equipped, together, provided, built in",
        "weigh": "weighs, weigh",
        "draw": "draws, draw, pulls, consumes, uses up to",
        "cost": "costs, cost",
        "deep": "deep",
        "tall": "tall, high, in height",
        "wide": "wide",
        "keep_running": "keeps running, keep running, stays up, continues to run, carries on, "
        "stays running, runs on, still runs, continues running, keeps going, will keep running",
        "ship": "ships, ship, shipped, shipping, delivered",
        "announce": "announced",
        "mix": "mixed, mix, combined, combine, paired, pair, mixing",
        "fail": "fails, fail, is lost, dies, drops out, is pulled, breaks down",
    },
    "count": {"1": "single", "2": "pair of, couple of, dual", "12": "dozen"},
    "op": {
        "up": "up to, as many as, as much as",
        "<=": "at most, no more than, not more than, a maximum of, maximum of, a maximum, "
        "at maximum, or fewer, or less, at the most, no faster than, never more than",
        ">=": "at least, no fewer than, not fewer than, no less than, not less than, a minimum of, "
        "minimum of, or more",
        "==": "exactly, precisely, all of, a total of, total of, always",
        ">": "more than, over, greater than, above",
        "<": "fewer than, less than, under, below",
        "most": "maximum, max, highest, largest, greatest, most",
        "least": "minimum, lowest, smallest, least",
        "~": "about, around, roughly, approximately, nearly, almost, some, circa",
    },
    "quant": {
        "every": "every, each, all, any",
        "both": "both, either",
        "no": "no, none, zero, neither",
        "only": "only, just, solely",
    },
    "side": {
        "front": "at the front, on the front, in front, in the front, front, front panel, up front, "
        "on the front panel",
        "rear": "at the rear, on the rear, rear, at the back, on the back, back, in the rear, "
        "on the rear panel, in the back, round the back",
        "inside": "inside, internally, internal, on the inside, inside the machine",
        "": "in total, altogether, overall, in all, all told, total",
    },
    "link": {
        "and": "and, plus, as well as, along with, together with, &, +",
        "or": "or",
        "but": "but, while, whereas, although",
        "comma": "comma",
        "of": "of, for",
        "if": "if, when, whenever, once, as long as, provided that, provided, where, as soon as",
        "unless": "unless",
        "with": "with, using, having, given",
        "without": "without",
        "at": "at, from, on, to",
        "in": "in, into, within, behind, across",
        "above": "above, over, beyond, higher than",
        "below": "below, under",
        "per": "per, for each, for every, on each, in each, to each, each",
        "than": "than",
        "only_if": "only if, only with, only when, only in combination with, only where",
        "then": "then",
    },
    "condition": {
        "processors == 1": "single processor, one processor only, just one processor, only one "
        "processor, single processor machine, one CPU only, single socket configuration, "
        "only one CPU, single CPU, single processor build",
        "processors == 2": "second processor, processor 2, both processors, dual processors, "
        "dual processor, two socket configuration, both CPUs, second CPU, CPU 2, 2nd processor, "
        "both sockets populated, both sockets filled",
        "supplies_redundant": "redundant supplies, supply redundancy, redundant power, "
        "power redundancy, redundant power supplies, redundant PSUs",
        "air_redundant": "fan redundancy, redundant fans, redundant air, redundant cooling, N+1",
    },
    "generation": {
        "DDR3": "DDR3", "DDR4": "DDR4", "DDR5": "DDR5", "DDR6": "DDR6",
        "PCIe 3.0": "PCIe 3.0, PCIe 3, PCIe Gen 3, gen 3", 
        "PCIe 4.0": "PCIe 4.0, PCIe 4, PCIe Gen 4, gen 4",
        "PCIe 5.0": "PCIe 5.0, PCIe 5, PCIe Gen 5, gen 5",
        "PCIe 6.0": "PCIe 6.0, PCIe 6, PCIe Gen 6",
    },
    "place_prefix": {"zone": "zone", "slot": "slot", "riser": "riser", "position": "position"},
    "state": {
        "idle": "idle, at idle",
        "full": "at full speed, full speed, at full load, flat out",
        "empty": "empty, without parts, when empty, unloaded",
        "loaded": "fully loaded, full, loaded, fully fitted, at most, fully populated, fully built",
    },
    "machine": {
        "": "it, machine, box, server, host, system, unit, chassis, platform, you, we, this machine, "
        "they, one, customers, this server, this system, this box, the product, model",
    },
    "stop": {
        "": "the, a, an, its, their, your, our, this, that, these, those, there, which, also, too, "
        "so, of course, please, as standard, always, in the machine, in it, to it, in the box, "
        "then, yes, by, per machine, in one machine, it has, at the same time, at once, "
        "simultaneously, will, would, does, do, did, been, each of, same, now, today, "
        "currently, overall, well, even, still, ever, in a machine, thus, therefore, hence, "
        "note that, remember that, out of the box, by default, standard, such, per box, here, "
        "that is, namely, in one box, maximum configuration, per server, types of, them, "
        "as delivered, any more, of them, number of, amount of, size, capacity of",
    },
    "absent": {
        "": "fibre channel, tape drive, optical drive, wireless, bluetooth, serial port, "
        "liquid cooling, water cooling, warranty, graphics card, sound card, touch screen, "
        "parallel port, thunderbolt, infiniband, floppy drive, on site service, support contract",
    },
}  # fmt: skip
"""Words that have no plural."""
