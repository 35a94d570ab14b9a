"""The expansion vessel: its size, the pressures cold and hot, and the water behind a pressure.

Pressures are gauge pressures. Air obeys Boyle; the gas is taken to keep its temperature, since the
vessel hangs on the cool return behind unheated pipe.
"""

from __future__ import annotations

import numpy as np

from hearthbook.errors import check_between
from hearthbook.units import CubicMetres, Metres, Pascals, Ratio

__all__ = [
    "ATMOSPHERE",
    "MINIMUM_RESERVE",
    "PRECHARGE_MARGIN",
    "classic_vessel",
    "cold_pressure_from_hot",
    "expansion_from_pressures",
    "expansion_volume",
    "final_pressure",
    "gas_volume",
    "hot_pressure",
    "nominal_vessel",
    "precharge",
    "precharge_from_pressures",
    "static_pressure",
    "water_between",
    "water_per_pressure",
    "water_reserve",
]

ATMOSPHERE = 1e5  # Pa; the 1 bar by which EN 12828 turns gauge into absolute pressure
PRECHARGE_MARGIN = 0.3e5  # Pa over the static head; EN 12828, from memory
MINIMUM_RESERVE = 3e-3  # m³; EN 12828 annex, from memory
_RESERVE_SHARE = 0.005  # of the system's water; EN 12828 annex, from memory
_VALVE_BAND = 0.5e5  # Pa below a safety valve of up to 5 bar; EN 12828 annex, from memory
_VALVE_BAND_SHARE = 0.1  # of the setting above 5 bar; EN 12828 annex, from memory
_WEIGHT_OF_WATER = 9806.65  # Pa/m; 1000 kg/m³ at standard gravity, 1 bar per 10.2 m


def expansion_volume(system_volume: CubicMetres, expansion_fraction: Ratio) -> CubicMetres:
    """Water that has to find room when the system warms.

    Args:
        system_volume: water when cold.
        expansion_fraction: growth from cold to hot, from `water.expansion_fraction`.

    Source:
        EN 12828 annex D, expansion volume.

    Example:
        >>> round(expansion_volume(0.150, 0.0168) * 1000, 2)
        2.52
    """
    return system_volume * expansion_fraction


def water_reserve(system_volume: CubicMetres) -> CubicMetres:
    """Water the vessel keeps in hand for what is lost between services.

    Args:
        system_volume: water in the system.

    Source:
        EN 12828 annex D: half a per cent of the system, at least 3 L; from memory.

    Example:
        >>> round(float(water_reserve(0.150) * 1000), 1)
        3.0
    """
    return np.maximum(_RESERVE_SHARE * system_volume, MINIMUM_RESERVE)


def static_pressure(height: Metres) -> Pascals:
    """Pressure of the water column above a point.

    Args:
        height: highest point above it.

    Source:
        Hydrostatics: 1000 kg/m³ at standard gravity.

    Example:
        >>> round(static_pressure(10.2) / 1e5, 2)
        1.0
    """
    return height * _WEIGHT_OF_WATER


def precharge(static: Pascals, margin: Pascals = PRECHARGE_MARGIN) -> Pascals:
    """Gas pressure the vessel is set to with its water side empty.

    Args:
        static: pressure of the water above the vessel.
        margin: kept above it, so that the highest point never draws air.

    Source:
        EN 12828 annex D, initial pressure; margin 0.2 to 0.3 bar.

    Example:
        >>> round(precharge(70_000.0) / 1e5, 2)
        1.0
    """
    return static + margin


def final_pressure(safety_valve: Pascals) -> Pascals:
    """The highest pressure the hot system may reach.

    Args:
        safety_valve: pressure at which the valve opens.

    Source:
        EN 12828 annex D: 0.5 bar below a valve of up to 5 bar, a tenth below above; from memory.

    Example:
        >>> round(float(final_pressure(300_000.0) / 1e5), 2)
        2.5
    """
    return safety_valve - np.maximum(_VALVE_BAND, _VALVE_BAND_SHARE * safety_valve)


def nominal_vessel(
    expansion: CubicMetres, reserve: CubicMetres, initial: Pascals, final: Pascals
) -> CubicMetres:
    """The vessel a system needs.

    Args:
        expansion: water that has to find room.
        reserve: water kept in hand.
        initial: precharge of the gas.
        final: highest pressure allowed, above the precharge.

    Raises:
        OutOfRange: the precharge leaves no room below the highest pressure.

    Source:
        EN 12828 annex D, nominal volume.

    Example:
        >>> round(nominal_vessel(3.87e-3, 3e-3, 1.0e5, 2.5e5) * 1000, 2)
        16.03
    """
    _check_room(initial, final)
    return (expansion + reserve) * (final + ATMOSPHERE) / (final - initial)


def classic_vessel(
    system_volume: CubicMetres, expansion_fraction: Ratio, initial: Pascals, final: Pascals
) -> CubicMetres:
    """The vessel by the older British sum, in which the reserve is hidden in the growth.

    Args:
        system_volume: water in the system.
        expansion_fraction: growth taken from cold to hot; the British table holds 0.0491.
        initial: cold pressure, equal to the precharge.
        final: hot pressure; the British table takes 0.35 bar below the safety valve.

    Raises:
        OutOfRange: the cold pressure leaves no room below the hot one.

    Source:
        BS 7074-1, V = e·C / (1 − pi/pf) with absolute pressures.

    Example:
        >>> round(classic_vessel(0.100, 0.04, 0.0, 1e5) * 1000, 1)
        8.0
    """
    _check_room(initial, final)
    return system_volume * expansion_fraction / (1 - (initial + ATMOSPHERE) / (final + ATMOSPHERE))


def gas_volume(nominal: CubicMetres, precharge_pressure: Pascals, pressure: Pascals) -> CubicMetres:
    """Gas in the vessel at a pressure of the system.

    Args:
        nominal: the vessel's volume.
        precharge_pressure: gas pressure with the water side empty.
        pressure: of the system beside it.

    Returns:
        The whole vessel where the system's pressure does not reach the precharge.

    Source:
        Boyle's law with absolute pressures.

    Example:
        >>> round(float(gas_volume(18e-3, 1.0e5, 1.3e5) * 1000), 2)
        15.65
    """
    full = precharge_pressure + ATMOSPHERE
    return nominal * np.minimum(1.0, full / (pressure + ATMOSPHERE))


def hot_pressure(
    nominal: CubicMetres,
    precharge_pressure: Pascals,
    cold_pressure: Pascals,
    expansion: CubicMetres,
) -> Pascals:
    """Pressure after the water has grown.

    Args:
        nominal: the vessel's volume.
        precharge_pressure: gas pressure with the water side empty; 0 for a flat vessel.
        cold_pressure: at which the cold system stands.
        expansion: water that has to find room.

    Returns:
        Infinite where the gas has no room for it: the safety valve then opens.

    Assumes:
        The pipes do not stretch; a real flat system rises a little less.

    Source:
        Boyle's law with absolute pressures.

    Example:
        >>> round(hot_pressure(18e-3, 1.0e5, 1.3e5, 2.13e-3) / 1e5, 2)
        1.66
    """
    cold_gas = gas_volume(nominal, precharge_pressure, cold_pressure)
    hot_gas = np.asarray(cold_gas - expansion, dtype=float)
    filling = (precharge_pressure + ATMOSPHERE) * nominal
    room = np.where(hot_gas > 0, hot_gas, np.nan)
    pressure = np.where(hot_gas > 0, filling / room - ATMOSPHERE, np.inf)
    return pressure if pressure.ndim else float(pressure)


def cold_pressure_from_hot(
    nominal: CubicMetres,
    precharge_pressure: Pascals,
    hot: Pascals,
    expansion: CubicMetres,
) -> Pascals:
    """The cold pressure behind a hot reading, so that readings of any day can be compared.

    Args:
        nominal: the vessel's volume.
        precharge_pressure: gas pressure with the water side empty.
        hot: pressure read.
        expansion: growth of the water between cold and the reading.

    Assumes:
        The vessel still holds water when cold: the answer is not below the precharge.

    Source:
        Inverse of `hot_pressure`.

    Example:
        >>> round(float(cold_pressure_from_hot(18e-3, 1.0e5, 1.62e5, 1.9e-3) / 1e5), 2)
        1.3
    """
    hot_gas = gas_volume(nominal, precharge_pressure, hot)
    filling = (precharge_pressure + ATMOSPHERE) * nominal
    return filling / np.minimum(nominal, hot_gas + expansion) - ATMOSPHERE


def expansion_from_pressures(
    nominal: CubicMetres, precharge_pressure: Pascals, cold: Pascals, hot: Pascals
) -> CubicMetres:
    """The growth of the water that explains a rise of pressure.

    Args:
        nominal: the vessel's volume.
        precharge_pressure: gas pressure with the water side empty.
        cold: pressure before, not below the precharge.
        hot: pressure after.

    Source:
        Inverse of `hot_pressure`.

    Example:
        >>> round(float(expansion_from_pressures(18e-3, 1.0e5, 1.3e5, 1.62e5) * 1000), 1)
        1.9
    """
    return gas_volume(nominal, precharge_pressure, cold) - gas_volume(
        nominal, precharge_pressure, hot
    )


def precharge_from_pressures(
    nominal: CubicMetres, cold: Pascals, hot: Pascals, expansion: CubicMetres
) -> Pascals:
    """The precharge that explains a rise of pressure, without emptying the vessel.

    Args:
        nominal: the vessel's volume.
        cold: pressure before.
        hot: pressure after, above it.
        expansion: growth of the water between the two.

    Returns:
        Below zero gauge where the vessel holds less gas than an open one.

    Source:
        Inverse of `hot_pressure`.

    Example:
        >>> round(precharge_from_pressures(18e-3, 1.3e5, 1.62e5, 1.91e-3) / 1e5, 1)
        1.0
    """
    cold_gas = expansion * (hot + ATMOSPHERE) / (hot - cold)
    return cold_gas * (cold + ATMOSPHERE) / nominal - ATMOSPHERE


def water_between(
    nominal: CubicMetres, precharge_pressure: Pascals, higher: Pascals, lower: Pascals
) -> CubicMetres:
    """Water that leaves the system, or is filled in, between two cold pressures.

    Args:
        nominal: the vessel's volume.
        precharge_pressure: gas pressure with the water side empty.
        higher: the higher pressure.
        lower: the lower one; below the precharge the vessel has no more to give.

    Source:
        Boyle's law with absolute pressures.

    Example:
        >>> round(float(water_between(18e-3, 1.0e5, 1.3e5, 1.2e5) * 1000), 2)
        0.71
    """
    return gas_volume(nominal, precharge_pressure, lower) - gas_volume(
        nominal, precharge_pressure, higher
    )


def water_per_pressure(
    nominal: CubicMetres, precharge_pressure: Pascals, pressure: Pascals, drop: Pascals
) -> CubicMetres:
    """Water lost per small drop of pressure, by the slope at one pressure.

    Args:
        nominal: the vessel's volume.
        precharge_pressure: gas pressure with the water side empty.
        pressure: the cold pressure.
        drop: the small drop.

    Source:
        Derivative of Boyle's law, dV = Vg / p · dp.

    Example:
        >>> round(float(water_per_pressure(18e-3, 1.0e5, 1.3e5, 0.1e5) * 1000), 2)
        0.68
    """
    return gas_volume(nominal, precharge_pressure, pressure) / (pressure + ATMOSPHERE) * drop


def _check_room(initial: Pascals, final: Pascals) -> None:
    """Refuse a precharge that leaves the gas no room to be pressed."""
    room = (final - initial) / ATMOSPHERE
    check_between("highest pressure less precharge", room, 0.01, 20.0, "bar")
