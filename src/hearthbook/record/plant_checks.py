"""Figures of the plant and its controls that contradict each other, or nature."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from hearthbook.record.contradiction import Contradiction, Path, spelled
from hearthbook.record.controls import Controls, PointsCurve, Window
from hearthbook.record.home import Home
from hearthbook.record.plant import Cylinder, HeatPump, PerformancePoint, Plant

__all__ = ["control_contradictions", "plant_contradictions"]

_ABSOLUTE_ZERO = -273.15
"""°C, by definition of the kelvin."""


def plant_contradictions(home: Home) -> Iterator[Contradiction]:
    """What the plant's chapter says against itself."""
    plant = home.plant
    yield from _points(plant.heat_pump)
    yield from _flows(plant)
    yield from _pressures(plant)
    yield from _antifreeze(plant)
    if plant.cylinder is not None:
        yield from _cylinder(plant.cylinder, plant.heat_pump.maximum_flow_temperature)


def _points(unit: HeatPump) -> Iterator[Contradiction]:
    seen: set[tuple[float, float, str]] = set()
    most = {_at(point): point.output for point in unit.points if point.load == "maximum"}
    for position, point in enumerate(unit.points):
        path: Path = ("plant", "heat_pump", "points", position)
        name = (*_at(point), point.load)
        if name in seen:
            message = (
                f"says again what another point says of {point.outdoor_temperature:.6g} °C "
                f"outdoors and {point.flow_temperature:.6g} °C flow at {point.load} load; keep one."
            )
            yield Contradiction(path, message)
        seen.add(name)
        yield from _efficiency(path, point)
        largest = most.get(_at(point))
        if point.load != "maximum" and largest is not None and point.output > largest:
            message = (
                f"is {spelled(point.output, 'kW')} at {point.load} load, more than the "
                f"{spelled(largest, 'kW')} at maximum load; check both."
            )
            yield Contradiction((*path, "output"), message)
        hottest = unit.maximum_flow_temperature
        if hottest is not None and point.flow_temperature > hottest:
            message = (
                f"is {point.flow_temperature:.6g} °C, above the unit's own "
                f"maximum_flow_temperature of {hottest:.6g} °C; check both."
            )
            yield Contradiction((*path, "flow_temperature"), message)


def _at(point: PerformancePoint) -> tuple[float, float]:
    return point.outdoor_temperature, point.flow_temperature


def _efficiency(path: Path, point: PerformancePoint) -> Iterator[Contradiction]:
    """No machine beats the Carnot limit between the same two temperatures (second law)."""
    lift = point.flow_temperature - point.outdoor_temperature
    if lift <= 0:
        message = (
            f"is {point.flow_temperature:.6g} °C, no warmer than the air outdoors at "
            f"{point.outdoor_temperature:.6g} °C; check both."
        )
        yield Contradiction((*path, "flow_temperature"), message)
        return
    limit = (point.flow_temperature - _ABSOLUTE_ZERO) / lift
    if point.efficiency > limit:
        message = (
            f"is {point.efficiency:.6g}, but no heat pump can exceed {limit:.3g} between "
            f"{point.outdoor_temperature:.6g} °C and {point.flow_temperature:.6g} °C; "
            "copy it again from the maker's table."
        )
        yield Contradiction((*path, "efficiency"), message)


def _flows(plant: Plant) -> Iterator[Contradiction]:
    unit = plant.heat_pump
    least, nominal = unit.minimum_flow, unit.nominal_flow
    if least is not None and nominal is not None and least > nominal:
        message = (
            f"is {spelled(least, 'L/min')}, above the nominal flow of "
            f"{spelled(nominal, 'L/min')}; check both."
        )
        yield Contradiction(("plant", "heat_pump", "minimum_flow"), message)
    design, hottest = plant.design_flow_temperature, unit.maximum_flow_temperature
    if design is not None and hottest is not None and design > hottest:
        yield Contradiction(("plant", "design_flow_temperature"), _too_hot(design, hottest))
    if plant.design_drop is not None and plant.design_drop <= 0:
        message = (
            f"is {spelled(plant.design_drop, 'K')}; the return must be colder than the flow. "
            "Write the difference without a sign."
        )
        yield Contradiction(("plant", "design_drop"), message)


def _too_hot(temperature: float, hottest: float) -> str:
    return (
        f"is {temperature:.6g} °C; the heat pump makes at most {hottest:.6g} °C. "
        "Lower it, or check the unit's maximum_flow_temperature."
    )


def _pressures(plant: Plant) -> Iterator[Contradiction]:
    for position, vessel in enumerate(plant.expansion_vessels):
        settings = [item.setting for item in plant.safety_valves if item.circuit == vessel.circuit]
        if vessel.precharge is not None and settings and vessel.precharge >= min(settings):
            message = (
                f"is {spelled(vessel.precharge, 'bar')}, but the safety valve of the same water "
                f"opens at {spelled(min(settings), 'bar')}; the precharge must be lower."
            )
            yield Contradiction(("plant", "expansion_vessels", position, "precharge"), message)


def _antifreeze(plant: Plant) -> Iterator[Contradiction]:
    protection = plant.freeze_protection
    if protection is None:
        return
    has_glycol = plant.water is not None and plant.water.treatment == "glycol"
    path: Path = ("plant", "freeze_protection")
    if protection.kind == "freeze_valves" and (has_glycol or protection.glycol_share):
        message = (
            "is freeze_valves, but the water holds glycol; the valves would spill it. "
            "Keep one of the two and see the maker's instructions."
        )
        yield Contradiction((*path, "kind"), message)
    if protection.kind == "glycol" and plant.water is not None and not has_glycol:
        message = (
            f"is glycol, but the water's treatment is {plant.water.treatment}; make them agree."
        )
        yield Contradiction((*path, "kind"), message)


def _cylinder(cylinder: Cylinder, hottest: float | None) -> Iterator[Contradiction]:
    path: Path = ("plant", "cylinder")
    store = cylinder.set_temperature
    has_immersion = bool(cylinder.immersion_power)
    if hottest is not None and store > hottest and not has_immersion:
        yield Contradiction((*path, "set_temperature"), _too_hot(store, hottest))
    if cylinder.hysteresis is not None and not 0 < cylinder.hysteresis < store:
        message = (
            f"is {spelled(cylinder.hysteresis, 'K')}; it must be more than 0 K and less than "
            f"the set temperature of {store:.6g} °C."
        )
        yield Contradiction((*path, "hysteresis"), message)
    mixed, cold = cylinder.mixing_valve_temperature, cylinder.cold_supply_temperature
    if mixed is not None and mixed > store:
        message = f"is {mixed:.6g} °C, hotter than the {store:.6g} °C stored; check both."
        yield Contradiction((*path, "mixing_valve_temperature"), message)
    if cold is not None and cold >= store:
        message = f"is {cold:.6g} °C, no colder than the {store:.6g} °C stored; check both."
        yield Contradiction((*path, "cold_supply_temperature"), message)
    yield from _hygiene(path, cylinder, hottest)


def _hygiene(path: Path, cylinder: Cylinder, hottest: float | None) -> Iterator[Contradiction]:
    regime = cylinder.hygiene
    if regime is None:
        return
    has_immersion = bool(cylinder.immersion_power)
    if regime.heat_source != "heat_pump" and not has_immersion:
        message = (
            f"is {regime.heat_source}, but the cylinder has no immersion_power; "
            "give it, or let the heat pump do the run."
        )
        yield Contradiction((*path, "hygiene", "heat_source"), message)
    if regime.heat_source == "heat_pump" and hottest is not None and regime.temperature > hottest:
        message = _too_hot(regime.temperature, hottest)
        yield Contradiction((*path, "hygiene", "temperature"), message)
    if regime.temperature < cylinder.set_temperature:
        message = (
            f"is {regime.temperature:.6g} °C, below the {cylinder.set_temperature:.6g} °C "
            "of every day; a hygiene run is hotter."
        )
        yield Contradiction((*path, "hygiene", "temperature"), message)


def control_contradictions(home: Home) -> Iterator[Contradiction]:
    """What the controls say against themselves and the unit."""
    controls = home.controls
    hottest = home.plant.heat_pump.maximum_flow_temperature
    if isinstance(controls.curve, PointsCurve):
        yield from _curve(controls.curve, hottest)
    yield from _kind_of_curve(controls)
    low, high = controls.minimum_flow_temperature, controls.maximum_flow_temperature
    if low is not None and high is not None and low > high:
        message = (
            f"is {low:.6g} °C, above the maximum_flow_temperature of {high:.6g} °C; "
            "the two may stand in each other's place."
        )
        yield Contradiction(("controls", "minimum_flow_temperature"), message)
    if high is not None and hottest is not None and high > hottest:
        yield Contradiction(("controls", "maximum_flow_temperature"), _too_hot(high, hottest))
    if controls.setback is not None and controls.setback.by <= 0:
        message = (
            f"is {spelled(controls.setback.by, 'K')}; it must be more than 0 K. "
            "Write by how many kelvin the room may fall, without a sign."
        )
        yield Contradiction(("controls", "setback", "by"), message)
    yield from _windows(home)


def _curve(curve: PointsCurve, hottest: float | None) -> Iterator[Contradiction]:
    for position, point in enumerate(curve.points):
        if hottest is not None and point.flow > hottest:
            path: Path = ("controls", "curve", "points", position, "flow")
            yield Contradiction(path, _too_hot(point.flow, hottest))
    for position, (colder, milder) in enumerate(pairwise(curve.points), start=1):
        path = ("controls", "curve", "points", position)
        if milder.outdoor <= colder.outdoor:
            message = (
                f"is {milder.outdoor:.6g} °C after {colder.outdoor:.6g} °C; "
                "write the points from cold to mild, each outdoor temperature once."
            )
            yield Contradiction((*path, "outdoor"), message)
        elif milder.flow > colder.flow:
            message = (
                f"is {milder.flow:.6g} °C, hotter than the {colder.flow:.6g} °C of colder "
                "weather; check both points."
            )
            yield Contradiction((*path, "flow"), message)


def _kind_of_curve(controls: Controls) -> Iterator[Contradiction]:
    curve, accepts = controls.curve, controls.curve_accepts
    if curve is None:
        return
    by_points = isinstance(curve, PointsCurve)
    if by_points != (accepts != "slope_level"):
        message = f"is {accepts}, but the curve is given as {curve.kind}; make them agree."
        yield Contradiction(("controls", "curve_accepts"), message)
    elif isinstance(curve, PointsCurve) and accepts == "two_points" and len(curve.points) > 2:
        message = (
            f"has {len(curve.points)} points, but the controller accepts two; "
            "leave some out, or write curve_accepts: several_points."
        )
        yield Contradiction(("controls", "curve", "points"), message)


def _windows(home: Home) -> Iterator[Contradiction]:
    controls = home.controls
    windows: list[tuple[Path, Window]] = [
        (("controls", "hot_water_windows", at), window)
        for at, window in enumerate(controls.hot_water_windows)
    ]
    if controls.quiet_window is not None:
        windows.append((("controls", "quiet_window"), controls.quiet_window))
    if controls.setback is not None:
        windows.append((("controls", "setback", "window"), controls.setback.window))
    for path, window in windows:
        if window.start == window.end:
            yield Contradiction(path, f"begins and ends at {window.start}; give it a length.")
