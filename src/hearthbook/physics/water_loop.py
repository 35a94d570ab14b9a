"""The heating water going round once: unit, flow pipes, emitters side by side, return pipes.

Written so that the same text runs on floats, on arrays and compiled. All temperatures are those at
the end of the step, so that water may go round many times in a step without a tremor, and heat
balances exactly.
"""

from __future__ import annotations

from hearthbook.units import (
    Celsius,
    JoulesPerKelvin,
    KelvinPerWatt,
    Ratio,
    Seconds,
    Watts,
    WattsPerKelvin,
)

__all__ = ["branch_after", "kept_share", "return_after", "vessel_after"]


def vessel_after(
    temperature: Celsius,
    capacity: JoulesPerKelvin,
    flow_rate: WattsPerKelvin,
    inlet: Celsius,
    heat: Watts,
    step: Seconds,
) -> Celsius:
    """Temperature of mixed water at the end of a step.

    Args:
        temperature: at its start.
        capacity: of the water and its vessel, above 0.
        flow_rate: heat-capacity rate of what enters and leaves.
        inlet: temperature of what enters, at the end of the step.
        heat: put in besides.
        step: length.

    Source:
        Heat balance of a mixed vessel, backward difference. Derived.

    Example:
        >>> vessel_after(20.0, 60e3, 1000.0, 40.0, 0.0, 60.0)
        30.0
    """
    rate = capacity / step
    return (rate * temperature + flow_rate * inlet + heat) / (rate + flow_rate)


def kept_share(capacity: JoulesPerKelvin, flow_rate: WattsPerKelvin, step: Seconds) -> Ratio:
    """Share of an emitter's own warmth that is left in its water after a step of flow.

    Args:
        capacity: of its water and metal, above 0.
        flow_rate: heat-capacity rate through it, at least 0.
        step: length.

    Source:
        `vessel_after` written as a mean of what was there and what enters. Derived.

    Example:
        >>> kept_share(60e3, 1000.0, 60.0)
        0.5
    """
    return capacity / (capacity + step * flow_rate)


def branch_after(
    temperature: Celsius, kept: Ratio, warming: KelvinPerWatt, given: Watts, inlet: Celsius
) -> Celsius:
    """Temperature of an emitter's water at the end of a step.

    Args:
        temperature: at its start.
        kept: `kept_share`.
        warming: K for each watt put in over the step, `kept_share` times step over capacity.
        given: heat it gives in the step.
        inlet: temperature of what enters, at the end of the step; with 0 the result is the part
            that is not due to the inlet.

    Source:
        `vessel_after` for water that gives heat and takes none. Derived.

    Example:
        >>> branch_after(40.0, 0.5, 0.0005, 2000.0, 50.0)
        44.0
    """
    return kept * temperature - warming * given + (1.0 - kept) * inlet


def return_after(
    unit: Celsius,
    flow: Celsius,
    back: Celsius,
    unit_capacity: JoulesPerKelvin,
    flow_capacity: JoulesPerKelvin,
    back_capacity: JoulesPerKelvin,
    unit_heat: Watts,
    flow_heat: Watts,
    back_heat: Watts,
    flow_rate: WattsPerKelvin,
    branch_constant: Watts,
    branch_slope: WattsPerKelvin,
    step: Seconds,
) -> Celsius:
    """Temperature of the return pipes at the end of a step, for the whole loop at once.

    Args:
        unit: water in the unit at the start of the step.
        flow: flow pipes.
        back: return pipes.
        unit_capacity: of the unit's water.
        flow_capacity: of the flow pipes.
        back_capacity: of the return pipes.
        unit_heat: into the unit's water.
        flow_heat: into the flow pipes.
        back_heat: into the return pipes.
        flow_rate: heat-capacity rate round the loop.
        branch_constant: sum over branches of flow rate times `branch_after` with an inlet of 0.
        branch_slope: sum over branches of flow rate times 1 - `kept_share`; what passes
            by the emitters counts with its full flow rate.
        step: length.

    Source:
        Three mixed vessels in a ring, backward differences, solved by substitution. Derived.

    Example:
        >>> round(return_after(35.0, 35.0, 30.0, 1e4, 1e4, 1e4, 5000.0, 0.0, 0.0, 1000.0,
        ...     0.0, 0.0, 1e12), 6)
        0.0
    """
    unit_rate, flow_part = unit_capacity / step, flow_capacity / step
    unit_constant = (unit_rate * unit + unit_heat) / (unit_rate + flow_rate)
    unit_slope = flow_rate / (unit_rate + flow_rate)
    below = flow_part + flow_rate
    flow_constant = (flow_part * flow + flow_rate * unit_constant + flow_heat) / below
    flow_slope = flow_rate * unit_slope / below
    back_rate = back_capacity / step
    top = back_rate * back + branch_constant + branch_slope * flow_constant + back_heat
    return top / (back_rate + flow_rate - branch_slope * flow_slope)
