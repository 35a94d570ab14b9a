"""Pipes and valves: what they hold, how fast the water runs and what pressure that costs.

The friction factor is explicit (Haaland), so that the same formula serves a single pipe, an array
of pipes and a compiled loop that solves a whole network. It lies within 1.5 % of Colebrook, far
inside what anyone knows of a pipe's roughness.
"""

from __future__ import annotations

import numpy as np

from hearthbook.physics.water import TRADE_HEAT_CAPACITY
from hearthbook.units import (
    CubicMetres,
    CubicMetresPerSecond,
    FlowCoefficient,
    JoulesPerCubicMetreKelvin,
    JoulesPerKilogramKelvin,
    Kelvin,
    KilogramsPerCubicMetre,
    KilogramsPerSecond,
    Metres,
    MetresPerSecond,
    Pascals,
    PascalSeconds,
    PascalsPerMetre,
    Ratio,
    SquareMetres,
    Watts,
)

__all__ = [
    "COPPER_ROUGHNESS",
    "LAMINAR_BELOW",
    "PLASTIC_ROUGHNESS",
    "STEEL_ROUGHNESS",
    "TURBULENT_FROM",
    "bore",
    "bore_area",
    "duty",
    "flow_for_duty",
    "friction_factor",
    "friction_factor_colebrook",
    "friction_factor_haaland",
    "mass_flow_for_duty",
    "pressure_gradient",
    "reynolds_number",
    "valve_coefficient",
    "valve_flow",
    "valve_pressure_drop",
    "velocity",
    "volume_of_pipe",
]

COPPER_ROUGHNESS = 1.5e-6  # m; drawn tube, Moody (1944)
PLASTIC_ROUGHNESS = 7e-6  # m; DIN 1988 takes 0.007 mm for plastic pipe, from memory
STEEL_ROUGHNESS = 45e-6  # m; commercial steel, Moody (1944)

LAMINAR_BELOW = 2300.0  # Reynolds number; any handbook of fluid mechanics
TURBULENT_FROM = 4000.0  # Reynolds number; any handbook of fluid mechanics

_HOUR = 3600.0  # s
_BAR = 1e5  # Pa


def bore(outside_diameter: Metres, wall_thickness: Metres) -> Metres:
    """The inside diameter of a tube.

    Args:
        outside_diameter: of the tube.
        wall_thickness: of its wall.

    Source:
        Geometry.

    Example:
        >>> round(bore(0.022, 0.0009) * 1000, 1)
        20.2
    """
    return outside_diameter - 2 * wall_thickness


def bore_area(inside_diameter: Metres) -> SquareMetres:
    """The area the water runs through.

    Args:
        inside_diameter: of the tube.

    Source:
        Geometry.

    Example:
        >>> round(bore_area(0.0202) * 1e6, 1)
        320.5
    """
    area: SquareMetres = np.pi / 4 * inside_diameter**2
    return area


def volume_of_pipe(inside_diameter: Metres, length: Metres) -> CubicMetres:
    """The water a length of pipe holds.

    Args:
        inside_diameter: of the tube.
        length: of the pipe; 1 m gives the content per metre.

    Source:
        Geometry.

    Example:
        >>> round(volume_of_pipe(0.0136, 1.0) * 1000, 3)
        0.145
    """
    return bore_area(inside_diameter) * length


def velocity(flow: CubicMetresPerSecond, inside_diameter: Metres) -> MetresPerSecond:
    """The mean velocity of the water in a pipe.

    Args:
        flow: through it.
        inside_diameter: of the tube.

    Source:
        Continuity.

    Example:
        >>> round(velocity(8.7 / 60e3, 0.0136), 2)
        1.0
    """
    return flow / bore_area(inside_diameter)


def reynolds_number(
    speed: MetresPerSecond,
    inside_diameter: Metres,
    density: KilogramsPerCubicMetre,
    viscosity: PascalSeconds,
) -> Ratio:
    """Inertia over friction of the water in a pipe; it decides whether the flow is turbulent.

    Args:
        speed: mean velocity.
        inside_diameter: of the tube.
        density: of the water.
        viscosity: of the water, dynamic.

    Source:
        Definition.

    Example:
        >>> round(reynolds_number(0.5, 0.02, 988.0, 0.547e-3), -2)
        18100.0
    """
    return density * speed * inside_diameter / viscosity


def friction_factor_haaland(reynolds: Ratio, relative_roughness: Ratio) -> Ratio:
    """The Darcy friction factor of turbulent flow, explicitly.

    Args:
        reynolds: above 4000.
        relative_roughness: roughness over bore, up to 0.05.

    Source:
        Haaland, J. Fluids Eng. 105 (1983) 89-90.

    Example:
        >>> round(float(friction_factor_haaland(1e5, 1e-4)), 6)
        0.018265
    """
    inverse_root = -1.8 * np.log10((relative_roughness / 3.7) ** 1.11 + 6.9 / reynolds)
    factor: Ratio = inverse_root**-2.0
    return factor


def friction_factor_colebrook(reynolds: Ratio, relative_roughness: Ratio) -> Ratio:
    """The Darcy friction factor of turbulent flow by the implicit equation, for comparison.

    Args:
        reynolds: above 4000.
        relative_roughness: roughness over bore, up to 0.05.

    Source:
        Colebrook, J. Inst. Civil Eng. 11 (1939) 133-156, iterated from Haaland's value; eight
        rounds leave less than 1e-9.

    Example:
        >>> round(float(friction_factor_colebrook(1e5, 1e-4)), 6)
        0.018514
    """
    inverse_root = friction_factor_haaland(reynolds, relative_roughness) ** -0.5
    for _ in range(8):
        inverse_root = -2.0 * np.log10(relative_roughness / 3.7 + 2.51 * inverse_root / reynolds)
    factor: Ratio = inverse_root**-2.0
    return factor


def friction_factor(reynolds: Ratio, relative_roughness: Ratio) -> Ratio:
    """The Darcy friction factor of a pipe at any flow.

    Args:
        reynolds: more than 0.
        relative_roughness: roughness over bore, up to 0.05.

    Assumes:
        Between Reynolds 2300 and 4000, where nature has no single answer, a straight line joins
        the laminar and the turbulent value, so that a network has no step to trip over.

    Source:
        Hagen-Poiseuille (64/Re) below 2300, Haaland (1983) above 4000.

    Example:
        >>> friction_factor(1600.0, 1e-4)
        0.04
    """
    number = np.maximum(np.asarray(reynolds, dtype=float), 1e-9)
    laminar = 64.0 / np.minimum(number, LAMINAR_BELOW)
    turbulent = friction_factor_haaland(np.maximum(number, TURBULENT_FROM), relative_roughness)
    share = np.clip((number - LAMINAR_BELOW) / (TURBULENT_FROM - LAMINAR_BELOW), 0.0, 1.0)
    factor = np.asarray((1 - share) * laminar + share * turbulent, dtype=float)
    return factor if factor.ndim else float(factor)


def pressure_gradient(
    flow: CubicMetresPerSecond,
    inside_diameter: Metres,
    roughness: Metres,
    density: KilogramsPerCubicMetre,
    viscosity: PascalSeconds,
) -> PascalsPerMetre:
    """The pressure a metre of straight pipe costs.

    Args:
        flow: through it, 0 or more.
        inside_diameter: of the tube.
        roughness: of its wall.
        density: of the water.
        viscosity: of the water, dynamic.

    Source:
        Darcy-Weisbach with `friction_factor`.

    Example:
        >>> round(pressure_gradient(0.2 / 988.05, 0.0202, 1.5e-6, 988.05, 0.5465e-3))
        244
    """
    speed = velocity(flow, inside_diameter)
    reynolds = reynolds_number(speed, inside_diameter, density, viscosity)
    factor = friction_factor(reynolds, roughness / inside_diameter)
    return factor * density * speed**2 / (2 * inside_diameter)


def valve_pressure_drop(flow: CubicMetresPerSecond, coefficient: FlowCoefficient) -> Pascals:
    """The pressure a valve costs.

    Args:
        flow: through it.
        coefficient: its Kv at this opening: m³/h of water at 1 bar.

    Source:
        Definition of Kv, EN 60534-2-1.

    Example:
        >>> round(valve_pressure_drop(0.5 / 3600, 0.8))
        39062
    """
    drop: Pascals = (flow * _HOUR / coefficient) ** 2 * _BAR
    return drop


def valve_flow(pressure_drop: Pascals, coefficient: FlowCoefficient) -> CubicMetresPerSecond:
    """The flow through a valve.

    Args:
        pressure_drop: across it, 0 or more.
        coefficient: its Kv at this opening: m³/h of water at 1 bar.

    Source:
        Definition of Kv, EN 60534-2-1.

    Example:
        >>> round(valve_flow(39062.5, 0.8) * 3600, 3)
        0.5
    """
    flow: CubicMetresPerSecond = coefficient / _HOUR * (pressure_drop / _BAR) ** 0.5
    return flow


def valve_coefficient(flow: CubicMetresPerSecond, pressure_drop: Pascals) -> FlowCoefficient:
    """The Kv a valve must be set to.

    Args:
        flow: wanted through it.
        pressure_drop: it is to take, more than 0.

    Source:
        Definition of Kv, EN 60534-2-1.

    Example:
        >>> round(valve_coefficient(0.5 / 3600, 39062.5), 3)
        0.8
    """
    coefficient: FlowCoefficient = flow * _HOUR / (pressure_drop / _BAR) ** 0.5
    return coefficient


def flow_for_duty(
    heat: Watts, drop: Kelvin, heat_capacity: JoulesPerCubicMetreKelvin = TRADE_HEAT_CAPACITY
) -> CubicMetresPerSecond:
    """The water that carries a heat flow with a given drop of temperature.

    Args:
        heat: to carry.
        drop: flow minus return, more than 0.
        heat_capacity: of a cubic metre of the water.

    Source:
        Energy balance of the water.

    Example:
        >>> round(flow_for_duty(6000.0, 5.0) * 60e3, 1)
        17.2
    """
    return heat / (heat_capacity * drop)


def mass_flow_for_duty(
    heat: Watts, drop: Kelvin, specific_heat: JoulesPerKilogramKelvin
) -> KilogramsPerSecond:
    """The mass of water per second that carries a heat flow with a given drop of temperature.

    Args:
        heat: to carry.
        drop: flow minus return, more than 0.
        specific_heat: of the water.

    Source:
        Energy balance of the water.

    Example:
        >>> round(mass_flow_for_duty(5000.0, 5.0, 4180.0), 4)
        0.2392
    """
    return heat / (specific_heat * drop)


def duty(
    flow: CubicMetresPerSecond,
    drop: Kelvin,
    heat_capacity: JoulesPerCubicMetreKelvin = TRADE_HEAT_CAPACITY,
) -> Watts:
    """The heat a flow of water carries with a given drop of temperature.

    Args:
        flow: of the water.
        drop: flow minus return.
        heat_capacity: of a cubic metre of the water.

    Source:
        Inverse of `flow_for_duty`.

    Example:
        >>> round(duty(17.2 / 60e3, 5.0))
        6000
    """
    return flow * heat_capacity * drop
