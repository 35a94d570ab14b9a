"""The cylinder of a home in the year: layers, coil, sensor, hygiene run."""

from __future__ import annotations

import math

import numpy as np

from hearthbook.design.hot_water import HotWater
from hearthbook.design.results import Design
from hearthbook.documents.figures import KeyFigure, given
from hearthbook.kernel.parameters import CYLINDER_LAYERS
from hearthbook.physics import hot_water as physics
from hearthbook.physics import water
from hearthbook.record.plant import Cylinder
from hearthbook.year.circulating_water import water_density, water_heat
from hearthbook.year.plant_fields import Fields, reckoned, stands_in

__all__ = ["hot_water_fields", "hot_water_numbers"]

_TEST_DIFFERENCE = 45.0  # K; EN 12897, store at 65 °C in a room of 20 °C
_SLENDERNESS = 3.0  # height over diameter, common practice, no source: 2.5 to 3.5
_CONDUCTIVITY = 1.0  # W/(m·K); water 0.63 and the wall's share of 2 mm of steel, derived
_COIL_REACH = 0.6  # of the height, for coils of heat pumps; common practice, no source
_USUAL_FLOW = 16e-3 / 60  # m³/s; common practice, no source
_SENSOR = 1.0 / 3.0  # of the height; the lower third, common practice, no source
_HYSTERESIS = 6.0  # K, common practice, no source
_LONGEST, _REST = 5400.0, 1800.0  # s; 60 to 120 and 20 to 60 min, common practice, no source
_TAP = 40.0  # °C; EU 814/2013 counts showers and baths at it
_BY_UNIT = 55.0  # °C the unit makes where it shares a hygiene run; common practice, no source
_MIDDLE = 40.0  # °C; for the heat capacity of stored water, between cold and set, derived
_STORED_HEAT = 4186.0  # J/(kg·K); as the kernel counts stored water


def hot_water_fields(design: Design, highest_flow: KeyFigure) -> Fields:
    """The plant's fields about hot water; neutral numbers where the home has no cylinder.

    Args:
        design: of the home.
        highest_flow: hottest water the unit makes.
    """
    cylinder, found = design.home.plant.cylinder, design.hot_water
    draws = {
        "draw_temperature": stands_in("draw_temperature", "mixed water at the taps", _TAP, "°C",
                                      source="EU 814/2013, showers and baths"),
        "hot_water_longest": stands_in("hot_water_longest", "longest turn of hot water", _LONGEST,
                                       "min", note="60 to 120 min"),
        "hot_water_rest": stands_in("hot_water_rest", "heating's turn between", _REST, "min",
                                    note="20 to 60 min"),
    }  # fmt: skip
    if cylinder is None or found is None:
        return draws
    excess = _excess(found)
    return draws | _store(found) | _coil(design, cylinder, excess) | {
        "hot_water_set": found.set_temperature,
        "hot_water_hysteresis": _or_usual(cylinder.hysteresis, "hysteresis", "fall that starts a "
                                          "reheat", "K", _HYSTERESIS),
        "hot_water_flow_excess": excess,
        **_hygiene(cylinder, found, highest_flow, excess),
    }  # fmt: skip


def hot_water_numbers(design: Design) -> dict[str, float]:
    """The plain numbers and indices about hot water, the cylinder's room apart."""
    cylinder = design.home.plant.cylinder
    if cylinder is None:
        return _NO_CYLINDER
    share = _sensor_share(cylinder).value
    return {
        "has_cylinder": 1.0,
        "coil_layers": float(max(1, round(_COIL_REACH * CYLINDER_LAYERS))),
        "sensor_layer": float(min(int(share * CYLINDER_LAYERS), CYLINDER_LAYERS - 1)),
    }


_NO_CYLINDER = {
    "has_cylinder": 0.0,
    "layer_capacity": 1.0,
    "layer_mass": 1.0,
    "layer_loss": 0.0,
    "layer_conduction": 0.0,
    "coil_layers": 1.0,
    "coil_effectiveness": 0.0,
    "coil_flow": 1.0,
    "sensor_layer": 0.0,
    "hot_water_set": 0.0,
    "hot_water_hysteresis": 0.0,
    "hot_water_flow_excess": 0.0,
    "hygiene_temperature": 0.0,
    "hygiene_hold": 0.0,
    "hygiene_by_unit_up_to": 0.0,
    "immersion_power": 0.0,
}
"""What the fields hold where nothing reads them."""


def _store(found: HotWater) -> Fields:
    """The layers of the store."""
    volume = found.volume
    mass = reckoned(
        "layer_mass", "water in one layer of the cylinder",
        volume.value * float(np.sum(water.density(_MIDDLE))) / CYLINDER_LAYERS, "kg",
        formula="V · ρ(40 °C) / 8", inputs=(volume,), source="Kell (1975)",
    )  # fmt: skip
    slender = stands_in("cylinder_slenderness", "height of the cylinder over its diameter",
                        _SLENDERNESS, "", note="2.5 to 3.5")  # fmt: skip
    along = stands_in("cylinder_conductivity", "conductivity along the cylinder", _CONDUCTIVITY,
                      "W/(m·K)", source="derived",
                      note="water 0.63 and the wall's share of 2 mm of steel")  # fmt: skip
    diameter = (4.0 * volume.value / (math.pi * slender.value)) ** (1.0 / 3.0)
    between = (
        along.value * math.pi / 4.0 * diameter**2 / (slender.value * diameter / CYLINDER_LAYERS)
    )
    return {
        "layer_mass": mass,
        "layer_capacity": reckoned(
            "layer_capacity", "heat capacity of one layer", mass.value * _STORED_HEAT, "J/K",
            formula="m · 4186 J/(kg·K)", inputs=(mass,), source="water at 40 °C",
        ),
        "layer_loss": reckoned(
            "layer_loss", "one layer's loss to its surroundings",
            found.standing_loss.value / _TEST_DIFFERENCE / CYLINDER_LAYERS, "W/K",
            formula="Φ / 45 K / 8", inputs=(found.standing_loss,),
            source="EN 12897, store at 65 °C in a room of 20 °C",
        ),
        "layer_conduction": reckoned(
            "layer_conduction", "conductance between neighbouring layers", between, "W/K",
            formula="λ · π/4·D² / (H/8)", inputs=(along, slender, volume), source="geometry",
        ),
    }  # fmt: skip


def _coil(design: Design, cylinder: Cylinder, excess: KeyFigure) -> Fields:
    """The coil: UA from its surface, or from the approach counted with where none is recorded."""
    flow = design.hydraulics.nominal_flow or stands_in(
        "coil_flow", "flow through the coil", _USUAL_FLOW, "L/min",
        note="not answered: plant.heat_pump.nominal_flow",
    )  # fmt: skip
    heat, density = water_heat(design), water_density(design)
    carried = max(flow.value, 1e-6) * density.value * heat.value
    inputs: tuple[KeyFigure, ...] = (flow, density, heat)
    place = "plant.cylinder.coil_area"
    if cylinder.coil_area is None:
        output = design.hot_water.reheat_output if design.hot_water else excess
        effectiveness = min(output.value / (carried * excess.value), 0.95)
        formula, inputs = "Φ / (m·c·approach), at most 0.95", (output, excess, *inputs)
    else:
        area = given(place, "surface of the coil", cylinder.coil_area, "m²", place=place)
        transfer = stands_in("coil_transfer", "heat the coil passes for each m² and K",
                             float(np.mean(physics.COIL_TRANSFER)), "W/(m²·K)",
                             note="400 to 700")  # fmt: skip
        effectiveness = -math.expm1(-transfer.value * area.value / carried)
        formula, inputs = "1 - exp(-U·A/(m·c))", (transfer, area, *inputs)
    return {
        "coil_flow": reckoned("coil_flow", "flow through the coil", carried / heat.value, "kg/s",
                              formula="q · ρ", inputs=(flow, density), source="definition"),
        "coil_effectiveness": reckoned(
            "coil_effectiveness", "share of the difference between flow and store that is given",
            effectiveness, "%", formula=formula, inputs=inputs,
            source="exchanger with a store of one temperature",
        ),
    }  # fmt: skip


def _excess(found: HotWater) -> KeyFigure:
    flow, set_to = found.demand.reheat_flow, found.set_temperature
    return reckoned(
        "hot_water_flow_excess", "flow above the store while it is heated",
        flow.value - set_to.value, "K", formula="flow at the end of a reheat - set temperature",
        inputs=(flow, set_to), source="the design's hot water",
    )  # fmt: skip


def _sensor_share(cylinder: Cylinder) -> KeyFigure:
    return _or_usual(cylinder.sensor_height_share, "sensor_height_share",
                     "height of its sensor, of the whole", "%", _SENSOR)  # fmt: skip


def _hygiene(
    cylinder: Cylinder, found: HotWater, highest_flow: KeyFigure, excess: KeyFigure
) -> Fields:
    place, label = "plant.cylinder.hygiene", "hygiene run"
    immersion = given(
        "year.plant.immersion_power", "power of the immersion heater",
        cylinder.immersion_power or 0.0, "kW", place="plant.cylinder.immersion_power",
    )  # fmt: skip
    regime = cylinder.hygiene
    if regime is None:
        return {
            "hygiene_temperature": found.set_temperature,
            "hygiene_hold": given(f"{place}.hold", f"hold of the {label}", 0.0, "min",
                                  place=f"{place}: none is decided"),
            "hygiene_by_unit_up_to": found.set_temperature,
            "immersion_power": immersion,
        }  # fmt: skip
    to = given(f"{place}.temperature", f"temperature of the {label}", regime.temperature, "°C",
               place=f"{place}.temperature")  # fmt: skip
    reach = {
        "immersion_heater": found.set_temperature.value,
        "both": _BY_UNIT,
        "heat_pump": regime.temperature,
    }[regime.heat_source]
    return {
        "hygiene_temperature": to,
        "hygiene_hold": given(f"{place}.hold", f"hold of the {label}", regime.hold, "min",
                              place=f"{place}.hold"),
        "hygiene_by_unit_up_to": reckoned(
            "hygiene_by_unit_up_to", f"what the unit itself makes in a {label}",
            max(min(reach, to.value, highest_flow.value - excess.value),
                found.set_temperature.value), "°C",
            formula="least of what it shares, the run's temperature, and hottest flow - approach",
            inputs=(to, highest_flow, excess, found.set_temperature),
            source="common practice, no source: 55 °C where the immersion heater makes the rest",
        ),
        "immersion_power": immersion,
    }  # fmt: skip


def _or_usual(value: float | None, field: str, label: str, unit: str, usual: float) -> KeyFigure:
    place = f"plant.cylinder.{field}"
    if value is not None:
        return given(place, label, value, unit, place=place)
    return stands_in(f"cylinder_{field}", label, usual, unit, note=f"not answered: {place}")
