"""Words for fields, for what their amounts are conditional on, and for comparing them, as data."""

from __future__ import annotations

from collections.abc import Mapping

from baywright.language.telling.verbs import Table

FIELD_WORDS: Mapping[str, Table] = {
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
            "rating, output, rated output, full rating, output power, capable of, good for, power "
            "rating, nominal power, nominal output, nameplate rating"
        ),
        "tdp": "TDP, thermal design power, heat output, thermal rating",
        "flow": "flow, air flow, airflow, cubic feet, throughput of air, air delivery",
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
        "100": "full load, at full load, its full load, maximum load",
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
            "input, mains, input voltage, line voltage, mains voltage, volts, voltage, supply "
            "voltage"
        ),
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
            "more, additional, extra, further, greater, larger, bigger, exceeds, another, above, "
            "more than, larger than, bigger than, greater than"
        ),
        "less": "fewer, less, smaller, below, fewer than, less than, smaller than",
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
            "on, like, as does, as did, does, did, as its, comparison, contrast, fewer than, less "
            "than, more than, smaller than, larger than, bigger than, greater than"
        ),
    },
    "practice": {
        "": (
            "in practice, real, really, in reality, in real life, effectively, effective, "
            "actually, net, achieved, usable, in everyday use, practically"
        ),
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
    "rack_unit": {
        "": (
            "rack unit, rack units, units high, unit high, height unit, height units, units of "
            "rack space, rack unit high, rack units high, units of height, U high, rack unit of "
            "space, units tall"
        ),
    },
    "current": {
        "AC": "AC",
        "DC": "DC",
    },
    "between": {
        "": "between, from, ranges from, anything from",
    },
    "to": {
        "": "to, down to, up to, through, till",
    },
    "full_rating": {
        "": (
            "full rating, full output, full power, rated output, full rated output, nominal "
            "output, rated power, all of its rating, whole rating, full wattage, whole output, "
            "nameplate power"
        ),
    },
    "largest": {
        "": "largest, biggest, largest possible, biggest possible",
    },
    "best": {
        "": "best, peak, highest, top, maximum",
    },
    "distance": {
        "": "in front, distance, away",
    },
}
"""Words that are not inflected, by the sort of term they are."""
