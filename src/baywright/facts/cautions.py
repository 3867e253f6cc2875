"""Cautions: what has to be said before an action or beside a number that can mislead."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class Caution:
    """A hazard, what it does, and how to avoid it.

    Args:
        word: the signal word; a shape stands beside it, so that colour alone never says it.
        hazard: what is dangerous, one sentence.
        consequence: what it can do, one sentence.
        avoidance: what to do, one sentence.
        of_numbers: whether it is about reading a number; otherwise it is about an act.
    """

    word: str
    hazard: str
    consequence: str
    avoidance: str
    of_numbers: bool = False


PLANNING_AID = (
    "Planning aid. The maker's service documents, site rules, local codes and a licensed or "
    "qualified person decide."
)
"""Stands on every output about service, power, site, lifting and rebuilding."""

CAUTIONS: Mapping[str, Caution] = MappingProxyType(
    {
        "estimate": Caution(
            "NOTE",
            "Some of these numbers are estimates.",
            "A real machine can differ by more than the margin shown.",
            "Measure before you promise a number.",
            of_numbers=True,
        ),
        "redundancy": Caution(
            "CAUTION",
            "Redundancy holds only for the load, voltage and altitude stated beside it.",
            "With more load, less voltage or less dense air, one failure stops the machine.",
            "Size it again when one of them changes.",
            of_numbers=True,
        ),
        "overloaded-circuit": Caution(
            "WARNING",
            "When one feed fails, the other carries all machines on both.",
            "An overloaded circuit trips or overheats, and every machine on it stops.",
            "Let a licensed electrician check breakers, cords and local rules.",
            of_numbers=True,
        ),
        "several-cords": Caution(
            "WARNING",
            "The machine has more than one cord, and standby power remains while one is in.",
            "Touching live parts can injure or kill.",
            "Pull every cord before you open anything that is not marked as safe while running.",
        ),
        "stored-energy": Caution(
            "WARNING",
            "Packs, capacitors, batteries and cells hold energy after power is off.",
            "A short circuit burns, and a battery can catch fire.",
            "Wait as the maker's documents say, and never bridge contacts.",
        ),
        "no-airflow": Caution(
            "CAUTION",
            "Without its covers and guides air does not flow past the parts.",
            "Parts overheat within seconds to minutes, and the machine stops or is damaged.",
            "Keep to the time the book states, and put covers and guides back first.",
        ),
        "lifting": Caution(
            "WARNING",
            "The machine is heavy, and heavy parts high in a rack can tip it.",
            "Lifting alone or pulling out a high machine can injure people.",
            "Keep to your own lifting rule, fit from the bottom up, and extend one at a time.",
        ),
        "rebuild": Caution(
            "CAUTION",
            "While an array rebuilds, another failure or a wrong drive pulled can lose all data.",
            "What is lost can only be restored from a backup.",
            "Check the backup and the drive's light before you pull anything.",
        ),
        "write-cache": Caution(
            "CAUTION",
            "A write cache without a charged pack is not safe when power is lost.",
            "Writes that were confirmed are lost, or the controller slows to writing through.",
            "Fit and charge a pack, or plan with the speed of writing through.",
        ),
        "rails": Caution(
            "CAUTION",
            "Slides and rails pinch, and a machine that is pulled past its stop falls.",
            "Fingers are crushed, and a falling machine injures people.",
            "Keep hands off the slides, feel for the stop, and let the cables follow.",
        ),
        "interlock": Caution(
            "WARNING",
            "A switch acts as soon as this is opened or pulled, and a machine that runs stops.",
            "Work that was not written is lost, and so may be data.",
            "Stop the system in good order first, unless the machine is off already.",
        ),
        "keys-left": Caution(
            "CAUTION",
            "Keys left on a machine and passwords left as delivered open it to anybody.",
            "Whoever passes can take drives out, switch it off or take it over.",
            "Take the key with you, and change the passwords that came with a new part.",
        ),
        "hot-surface": Caution(
            "CAUTION",
            "Heat sinks and cards stay hot after power is off.",
            "Touching them burns.",
            "Wait as long as the book states before you touch them.",
        ),
        "moving-fan": Caution(
            "CAUTION",
            "Fans still turn, and metal inside has sharp edges.",
            "They cut fingers and catch whatever hangs loose.",
            "Let fans stop, and keep fingers, sleeves and cables out of them.",
        ),
        "static": Caution(
            "CAUTION",
            "Static electricity destroys parts without a spark that you notice.",
            "A part fails at once, or weeks later.",
            "Wear a grounded strap, and leave parts in their bags until you fit them.",
        ),
        "moving-array": Caution(
            "CAUTION",
            "The drives of an array come to a controller that does not know them yet.",
            "An array that is started anew there, not taken over, loses all data.",
            "Back up, check that the controller takes arrays over, and keep the drives in order.",
        ),
        "forced-off": Caution(
            "CAUTION",
            "A machine that is cut off instead of stopped has not written everything.",
            "Data is lost, and arrays may have to be checked or rebuilt.",
            "Stop the system in good order, and wait until power is off.",
        ),
        "removed-media": Caution(
            "CAUTION",
            "Removed drives and cartridges still hold data.",
            "Whoever finds them can read it.",
            "Encrypt, and account for each one until it is destroyed.",
        ),
    }
)
"""The usual cautions by key."""
