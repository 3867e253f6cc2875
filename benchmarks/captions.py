"""An hour of captions: a walk through the F2, with statements true and false, and ordinary talk."""

from __future__ import annotations

import random
from collections.abc import Iterator

from baywright.exchange.drafts.timed_text import time_code

WORDS, CUES, SECONDS = 9000, 900, 3600

STATEMENTS = (
    "The F2 takes up to {fast} fast drives.",
    "The F2 takes up to {fast} SAS drives.",
    "You can fit {some} SAS drives with one processor.",
    "You can fit {some} fast drives with two processors.",
    "With one processor there is room for {some} fast drives.",
    "Up to {some} SAS drives and {few} fast drives fit in one machine.",
    "It has {sockets} memory sockets.",
    "It takes up to {sockets} memory modules.",
    "{few} modules per processor are supported.",
    "Memory runs at {speed} MT/s with {some} modules.",
    "The machine supports {few} TB of memory.",
    "The F2 has {few} fans.",
    "With one processor it has {few} fans.",
    "At least {few} fans are fitted.",
    "Each processor brings {lanes} PCIe 5.0 lanes.",
    "You get up to {cores} cores with two processors.",
    "The {part}-core processor has a TDP of {tdp} W.",
    "Two {part}-core processors make {cores} cores.",
    "There are {few} USB ports at the rear.",
    "There are {few} USB ports at the front with the fault display.",
    "The F2 has {few} power supplies.",
    "With {watts} W supplies the F2 can draw {peak} W and stay redundant.",
    "Peak draw goes up to {peak} W.",
    "At 120 V a {watts} W supply gives {peak} W.",
    "Up to {few} C16 controllers fit.",
    "Up to {few} double-wide accelerators fit.",
    "{few} single-wide accelerators can be fitted with two processors.",
    "At {metres} m a build can still have a fan to spare.",
    "{part}-core processors run at {inlet} °C inlet.",
    "The machine may run at {inlet} °C.",
    "The chassis is {depth} mm deep.",
    "Inrush is {some} A per supply.",
    "The {watts} W supply has a C{inletplug} inlet.",
    "Zone {zone} can hold {few} fast drives.",
    "Zone {zone} can hold {few} SAS drives.",
    "Zone {zone} can hold the fault display.",
    "SAS drives in zone {zone} need two processors.",
    "The {watts} W supplies stay redundant with two {part}-core processors.",
    "Each fan moves {some} CFM.",
    "{size} GB modules are supported.",
    "The {size} GB module ships in {month} 2031.",
)

VALUES: dict[str, tuple[object, ...]] = {
    "fast": (12, 16, 20, 24, 26, 32),
    "some": (2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 24, 28, 32, 35),
    "few": (1, 2, 3, 4, 5, 6, 8, 12),
    "sockets": (16, 24, 28, 30, 32, 36, 48),
    "speed": (3200, 4400, 4800, 5600, 6400),
    "lanes": (40, 64, 80, 96, 128),
    "cores": (24, 32, 48, 64, 96, 128),
    "part": (16, 24, 32, 48),
    "tdp": (150, 185, 225, 300, 350),
    "watts": (800, 1300, 2000),
    "peak": (600, 700, 800, 900, 1000, 1100, 1300, 1500, 1800),
    "metres": (900, "1,200", "1,500", "1,800", "2,300", "2,700"),
    "inlet": (25, 27, 30, 32, 35, 36),
    "depth": (700, 740, 760, 880),
    "inletplug": (14, 20),
    "zone": ("A", "B", "C"),
    "size": (16, 32, 48, 64, 96, 128, 256),
    "month": ("March", "June", "August"),
}

_STARTS = (
    "So", "Now", "All right,", "As you can see,", "Before we go on,", "By the way,", "Well,",
    "Let me say", "If you remember,", "While we wait,", "I have to admit", "You may have noticed",
)  # fmt: skip
_MIDDLES = (
    "the light in this room is better than last time",
    "my colleague has prepared the bench for us",
    "we have all the time we need today",
    "this is what everybody wants to hear about",
    "I like how quiet it is in here this morning",
    "some of you have seen the older machine last year",
    "it took us a while to get the camera up here",
    "a good lamp makes the whole thing much easier",
    "nobody has to write any of this down",
    "the questions are what makes these hours worth it",
    "a calm hand helps more than any tool",
)
_ENDS = (
    "and I am glad you are here.", "so let us go on.", "as I said at the start.",
    "and that is all there is to it.", "which is nice to see.", "and we take it slowly.",
    "if you ask me.", "and thank you for waiting.", "just like the week before.",
)  # fmt: skip


def spoken_sentences(chance: random.Random, share: float = 0.5) -> Iterator[str]:
    """Yield sentences without end.

    Args:
        chance: where chance comes from.
        share: how many of them state something, from 0 to 1.
    """
    while True:
        if chance.random() < share:
            values = {name: chance.choice(held) for name, held in VALUES.items()}
            yield chance.choice(STATEMENTS).format_map(values)
        else:
            yield " ".join(map(chance.choice, (_STARTS, _MIDDLES, _ENDS)))


def hour_of_captions(seed: int = 1) -> str:
    """Return an hour of captions as WebVTT, the same for the same seed.

    Args:
        seed: other seeds give other sentences.
    """
    said: list[str] = []
    for sentence in spoken_sentences(random.Random(seed)):  # noqa: S311 - a draft, no secret
        said += sentence.split()
        if len(said) >= WORDS:
            break
    each, length = len(said) / CUES, SECONDS / CUES
    cues = (said[round(n * each) : round((n + 1) * each)] for n in range(CUES))
    return "WEBVTT\n\n" + "\n".join(
        f"{time_code(n * length)} --> {time_code((n + 1) * length)}\n{' '.join(words)}\n"
        for n, words in enumerate(cues)
    )
