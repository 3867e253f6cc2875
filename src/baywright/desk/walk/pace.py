"""How long it takes to say and to do things on camera."""

from __future__ import annotations

from dataclasses import dataclass

from baywright.language.spoken import spoken
from baywright.problems import problem

SLOWEST, FASTEST = 60.0, 220.0
"""Words a minute between which a presenter can speak."""


@dataclass(frozen=True, slots=True)
class Pace:
    """Speed of speech, and the time of what is done between sentences.

    The times of acts are common practice, no source; what is done off camera has none.

    Args:
        rate: words a minute while somebody speaks, numbers counted as they are spoken.
        breath: pause after a sentence [s].
        look: pause at a new station, for who looks at it [s].
        turn: a quarter turn [s].
        cover: a cover taken off [s].
    """

    rate: float = 140.0
    breath: float = 0.3
    look: float = 1.5
    turn: float = 4.0
    cover: float = 6.0

    def speech(self, text: str) -> float:
        """Return how long a sentence is spoken, without the pause after it [s]."""
        return 60.0 * len(spoken(text).split()) / self.rate

    def sentence(self, text: str) -> float:
        """Return how long a sentence takes with the pause after it [s]."""
        return self.speech(text) + self.breath


def pace_of(rate: float) -> Pace:
    """Return the pace of a rate.

    Raises:
        Problems: kind ``rate`` for one at which nobody speaks.
    """
    if not SLOWEST <= rate <= FASTEST:
        message = f"{rate:g} words a minute is no rate to speak at."
        hint = f"Give {SLOWEST:g} to {FASTEST:g}; 140 is usual on camera."
        raise problem("rate", message, None, hint)
    return Pace(rate)
