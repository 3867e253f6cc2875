"""What the line gives for what the supplies deliver: watts, volt-amperes, amperes and heat."""

from __future__ import annotations

import numpy as np

from baywright.sizing.equation import Floats, equation, within

BTU = 1055.055_852_62
"""One British thermal unit (international table), J: ISO 80000-5."""


@equation(
    "P5",
    "P_in = P_out / eta",
    source="definition of efficiency",
    valid="efficiencies above 0 and up to 1",
    outside="not decided",
)
def input_power(output: Floats, efficiency: Floats) -> Floats:
    """Return the power that a supply takes in.

    Args:
        output: power it delivers [W].
        efficiency: its efficiency at that load [1].

    Returns:
        Power at its inlet [W].

    >>> input_power(500.0, 0.8)
    625.0
    """
    usable = np.logical_and(np.greater(efficiency, 0), np.less_equal(efficiency, 1))
    return within(np.divide(output, np.where(usable, efficiency, 1.0)), usable)


@equation("P6", "P_loss = P_in - P_out", source="conservation of energy")
def loss(power_in: Floats, output: Floats) -> Floats:
    """Return the power that supplies turn into heat themselves.

    Args:
        power_in: power taken in [W].
        output: power delivered [W].

    Returns:
        Loss [W].
    """
    return np.subtract(power_in, output)


@equation(
    "P7",
    "S = P_in / pf",
    source="definition of the power factor",
    valid="power factors above 0 and up to 1; 1 on direct current",
    outside="not decided",
)
def apparent_power(power_in: Floats, factor: Floats) -> Floats:
    """Return the apparent power.

    Args:
        power_in: power taken in [W].
        factor: power factor [1].

    Returns:
        Apparent power [VA].

    >>> apparent_power(980.0, 0.98)
    1000.0
    """
    usable = np.logical_and(np.greater(factor, 0), np.less_equal(factor, 1))
    return within(np.divide(power_in, np.where(usable, factor, 1.0)), usable)


@equation(
    "P8",
    "I = S / U",
    source="definition of apparent power, one phase",
    valid="voltages above 0",
    outside="not decided",
)
def current(apparent: Floats, volts: Floats) -> Floats:
    """Return the current of one phase.

    Args:
        apparent: apparent power [VA].
        volts: voltage of that phase [V].

    Returns:
        Current [A].

    >>> current(2300.0, 230.0)
    10.0
    """
    usable = np.greater(volts, 0)
    return within(np.divide(apparent, np.where(usable, volts, 1.0)), usable)


@equation(
    "P9",
    "Q = P_in",
    source="conservation of energy: all that a computer takes in leaves it as heat",
)
def heat(power_in: Floats) -> Floats:
    """Return the heat that a machine gives off.

    Args:
        power_in: power taken in [W].

    Returns:
        Heat [W].
    """
    return power_in


@equation("P10", "Q [BTU/h] = Q [W] x 3600 / 1055.05585262", source="ISO 80000-5")
def heat_by_hour(watts: Floats) -> Floats:
    """Return heat in the unit of air conditioners.

    Args:
        watts: heat [W].

    Returns:
        Heat [BTU/h].

    >>> round(float(heat_by_hour(1.0)), 6)
    3.412142
    """
    return np.multiply(watts, 3600 / BTU)
