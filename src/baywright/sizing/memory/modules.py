"""Memory modules: bandwidth of a channel, width with error correction, names by rate."""

from __future__ import annotations

import numpy as np

from baywright.sizing.equation import Floats, equation, within

DATA_BITS = 64
"""Data bits that one transfer of a memory channel moves, in DDR1 to DDR5 modules."""

_NAMED = ("DDR2", "DDR3", "DDR4", "DDR5")


@equation(
    "M1",
    "B = R w / 8",
    source="JEDEC JESD79-4 and JESD79-5: each transfer moves the data bits once; check bits "
    "move beside them and carry no data",
    valid="rates of 0 and above",
    outside="not decided",
)
def channel_bandwidth(rate: Floats, width: float = DATA_BITS) -> Floats:
    """Return the peak bandwidth of one memory channel.

    Args:
        rate: data rate [transfers/s], 0 or more.
        width: data bits of the channel, check bits not counted.

    Returns:
        Bandwidth [B/s].

    >>> channel_bandwidth(5600e6) / 1e9
    44.8
    """
    return within(np.multiply(rate, width / 8), np.greater_equal(rate, 0))


@equation(
    "M2",
    "w = 64 + c",
    source="SMBIOS type 17 (DMTF DSP0134): total width is data width and error-correction bits; "
    "8 such bits on DDR4 modules, 4 or 8 on each half of DDR5 modules (JESD79-5)",
)
def total_width(check_bits: Floats) -> Floats:
    """Return the bits of a module, those for error correction included.

    Args:
        check_bits: bits for error correction, 0 without.

    Returns:
        Total width [bit].

    Raises:
        ValueError: for a negative number of bits.

    >>> total_width(16)
    80.0
    """
    if np.any(np.less(check_bits, 0)):
        raise ValueError("a module cannot have a negative number of check bits")
    width = np.add(check_bits, float(DATA_BITS))
    return float(width) if np.ndim(width) == 0 else width


@equation(
    "M3",
    "name = 100 floor(R w / (8 x 100e6))",
    source="JEDEC module names: the peak MB/s, rounded down to hundreds",
    valid="DDR2 to DDR5; the first generation rounded to the nearest hundred",
    outside="not decided",
)
def name_number(rate: Floats) -> Floats:
    """Return the number in the name of a module, such as 25600 in PC4-25600.

    Args:
        rate: data rate of the module [transfers/s].

    Returns:
        Number, in MB/s.

    >>> name_number(3200e6)
    25600.0
    """
    hundreds = np.floor(np.divide(channel_bandwidth(rate), 100e6))
    number = np.multiply(hundreds, 100.0)
    return float(number) if np.ndim(number) == 0 else number


def module_name(generation: str, rate: float) -> str:
    """Return the name of a module by its rate.

    Args:
        generation: such as ``DDR5``.
        rate: data rate of the module [transfers/s].

    Returns:
        Its name, or an empty text where the generation has no such names or the rate is not
        a number.

    >>> module_name("DDR5", 4800e6)
    'PC5-38400'
    """
    if generation not in _NAMED or not np.isfinite(rate):
        return ""
    return f"PC{generation.removeprefix('DDR')}-{name_number(rate):.0f}"
