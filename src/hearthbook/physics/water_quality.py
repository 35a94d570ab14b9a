"""How hard the filling water of a heating system may be."""

from __future__ import annotations

import numpy as np

from hearthbook.units import CubicMetres, MolesPerCubicMetre, Watts

__all__ = ["CARBONATE_PER_MOLE", "SMALL_CONTENT", "hardness_limit"]

CARBONATE_PER_MOLE = 100.0  # ppm (mg/L) of calcium carbonate per mol/m³; molar mass 100.09 g/mol
SMALL_CONTENT = 0.3e-6  # m³/W (0.3 L/kW); below it a heater counts as small in water, VDI 2035-1
_SOFT_FROM, _SOFTEST_FROM = 20e-6, 50e-6  # m³/W (20 and 50 L/kW), VDI 2035-1


def hardness_limit(
    heating_power: Watts, system_volume: CubicMetres, unit_content: CubicMetres
) -> MolesPerCubicMetre:
    """The most alkaline earths the filling water may hold, for heaters of up to 50 kW.

    Args:
        heating_power: of the heat generator.
        system_volume: water in the whole system.
        unit_content: water in the heat generator.

    Returns:
        Infinite where there is no limit: little water in all, and not little in the generator.

    Assumes:
        One generator, filled once and hardly topped up.

    Source:
        VDI 2035 part 1, table for up to 50 kW, as printed alike in three makers' manuals.

    Example:
        >>> float(hardness_limit(6000.0, 0.150, 0.002))
        2.0
    """
    specific = np.asarray(system_volume / heating_power, dtype=float)
    is_small = np.asarray(unit_content / heating_power) < SMALL_CONTENT
    little = np.where(is_small, 3.0, np.inf)
    limit: MolesPerCubicMetre = np.select(
        [specific <= _SOFT_FROM, specific < _SOFTEST_FROM], [little, 2.0], default=0.02
    )
    return limit
