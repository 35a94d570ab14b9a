"""Random but possible homes, shared by every property test.

Numbers are drawn in the documented units with few digits, as people write them. A home drawn here
agrees with itself, so the reader accepts it and the design can compute it.
"""

from __future__ import annotations

import datetime as dt
from typing import Any

from hypothesis import strategies as st

from hearthbook.record.home import Home

__all__ = ["decimals", "homes", "written_homes"]

_ISSUED = dt.datetime(2026, 10, 20)  # noqa: DTZ001 - the strategy adds the offset
_USES = ("living", "dining", "kitchen", "bedroom", "bathroom", "hall", "landing", "study")
_SIDES = ("north", "east", "south", "west")
_CONSTRUCTIONS: list[dict[str, Any]] = [
    {"id": "wall", "name": "outside wall", "kind": "wall", "u_value": 0.6, "evidence": "seen"},
    {"id": "window", "name": "window", "kind": "window", "u_value": 1.8, "evidence": "documented"},
    {
        "id": "floor",
        "name": "floor on the ground",
        "kind": "ground_floor",
        "layers": [{"material": "boards", "thickness": 22, "conductivity": 0.14}],
        "ground": {"exposed_perimeter": 20, "wall_thickness": 300, "soil_conductivity": 1.5},
        "evidence": "assumed",
    },
    {
        "id": "ceiling",
        "name": "ceiling under the loft",
        "kind": "ceiling",
        "layers": [
            {"material": "plasterboard", "thickness": 12.5, "conductivity": 0.21},
            {
                "material": "mineral wool",
                "thickness": 200,
                "conductivity": 0.04,
                "bridge": {"material": "joists", "conductivity": 0.13, "fraction": 0.08},
            },
        ],
        "evidence": "seen",
    },
]
_METER = {
    "id": "heat_meter",
    "name": "heat meter",
    "measures": "heat",
    "unit": "MWh",
    "digits_before_point": 3,
    "digits_after_point": 3,
    "place": "in the hall",
}


def printable(*, min_size: int = 0, max_size: int = 40) -> st.SearchStrategy[str]:
    """Any text a person could have typed: no control characters, nothing that reorders it."""
    characters = st.characters(exclude_categories=("Cc", "Cf", "Cs", "Zl", "Zp"))
    return st.text(alphabet=characters, min_size=min_size, max_size=max_size)


def decimals(low: float, high: float, places: int = 1) -> st.SearchStrategy[float]:
    """Numbers with few digits after the point, both ends included."""
    scale = 10**places
    whole = st.integers(round(low * scale), round(high * scale))
    return whole.map(lambda number: number / scale)


def _some(**fields: st.SearchStrategy[Any]) -> st.SearchStrategy[dict[str, Any]]:
    """Any of these fields, each there or not."""
    return st.fixed_dictionaries({}, optional=fields)


@st.composite
def _rooms(draw: st.DrawFn, position: int, storey: str) -> dict[str, Any]:
    length, width = draw(decimals(1.8, 6)), draw(decimals(1.6, 5))
    wall: dict[str, Any] = {
        "construction": "wall",
        "beyond": "outside",
        "width": length,
        "orientation": draw(st.sampled_from(_SIDES)),
    }
    if draw(st.booleans()):
        wall["openings"] = [{"construction": "window", "width": 1.2, "height": 1.1}]
    area = round(length * width, 2)
    end = ("ceiling", "loft") if storey == "upper" else ("floor", "ground")
    room = {
        "id": f"room_{position}",
        "name": f"room number {position}",
        "use": draw(st.sampled_from(_USES)),
        "storey": storey,
        "length": length,
        "width": width,
        "elements": [wall, {"construction": end[0], "beyond": end[1], "area": area}],
    }
    extra = _some(wanted_temperature=decimals(16, 23), air_changes=decimals(0.3, 2))
    return room | draw(extra)


@st.composite
def _emitter(draw: st.DrawFn, number: int, room: dict[str, Any]) -> dict[str, Any]:
    kind = draw(st.sampled_from(("panel_radiator", "fan_assisted", "towel_rail", "underfloor")))
    emitter: dict[str, Any] = {
        "id": f"emitter_{number}",
        "name": f"emitter number {number}",
        "number": number,
        "room": room["id"],
        "kind": kind,
        "rated_output": draw(st.integers(300, 3000)),
        "valve": draw(st.sampled_from(("thermostatic", "manual", "lockshield_only"))),
        "tail": {"outside_diameter": 15, "length": draw(decimals(1, 8))},
    }
    if kind == "panel_radiator":
        emitter["panel_type"] = draw(st.sampled_from(("11", "21", "22", "33")))
        emitter["height"] = draw(st.sampled_from((300, 450, 600, 700)))
        emitter["length"] = draw(st.integers(4, 20)) * 100
    if kind == "underfloor":
        emitter["area"] = round(room["length"] * room["width"] * 0.8, 2)
        emitter["spacing"] = draw(st.sampled_from((100, 150, 200, 300)))
        emitter |= {"pipe_diameter": 16, "covering_resistance": 0.1}
        emitter |= {"screed_thickness": 50, "screed_conductivity": 1.2, "loops": 1}
        del emitter["rated_output"]
    extra = _some(
        exponent=decimals(1.2, 1.4, 2),
        water_content=decimals(0.5, 12),
        is_kept_open=st.booleans(),
        covered=decimals(0.85, 1, 2),
    )
    return emitter | draw(extra)


@st.composite
def _unit(draw: st.DrawFn) -> dict[str, Any]:
    """A heat pump at 42 to 48 per cent of the Carnot limit, larger in milder air."""
    size, share = draw(decimals(4, 14)), draw(decimals(0.42, 0.48, 2))
    points = [
        {
            "outdoor_temperature": outdoor,
            "flow_temperature": flow,
            "output": f"{round(size * part * (1 + 0.02 * outdoor) * (60 - flow / 3) / 45, 2)} kW",
            "efficiency": round(share * (flow + 273.15) / (flow - outdoor), 2),
            "load": load,
        }
        for load, part in (("maximum", 1.0), ("minimum", 0.35))
        for flow in (35, 45, 55)
        for outdoor in (-7, 2, 7, 12)
    ]
    extra = _some(
        minimum_volume=decimals(20, 80, 0), sound_power=decimals(45, 65), standby_power=st.just(15)
    )
    fixed = {
        "description": "air-to-water monobloc",
        "points": points,
        "minimum_flow": 8,
        "nominal_flow": 20,
        "maximum_flow_temperature": 70,
        "refrigerant": "R290",
        "refrigerant_safety_class": "A3",
    }
    return fixed | draw(extra)


@st.composite
def _plant(draw: st.DrawFn) -> dict[str, Any]:
    cylinder = st.fixed_dictionaries(
        {"volume": st.integers(120, 400), "set_temperature": st.integers(45, 60)},
        optional={"coil_area": decimals(1, 4), "standing_loss": decimals(0.8, 2.5)},
    ).map(lambda fields: fields | {"is_unvented": True})
    added = st.fixed_dictionaries(
        {"kind": st.sampled_from(("volumiser", "buffer")), "volume": st.integers(10, 100)}
    )
    vessel = {"id": "heating_vessel", "volume": 18, "precharge": draw(decimals(0.5, 1.2))}
    fixed = {
        "heat_pump": draw(_unit()),
        "expansion_vessels": [vessel],
        "safety_valves": [{"setting": 3}],
        "design_flow_temperature": draw(st.integers(35, 55)),
        "design_drop": draw(st.integers(4, 8)),
    }
    return fixed | draw(_some(cylinder=cylinder, added_volume=added))


_CURVES = st.one_of(
    st.tuples(st.integers(36, 55), st.integers(22, 34)).map(
        lambda flows: {
            "curve": {
                "kind": "points",
                "points": [{"outdoor": -5, "flow": flows[0]}, {"outdoor": 15, "flow": flows[1]}],
            }
        }
    ),
    st.tuples(decimals(0.3, 2, 2), decimals(-5, 5)).map(
        lambda line: {
            "curve": {"kind": "slope_level", "slope": line[0], "level": line[1]},
            "curve_accepts": "slope_level",
        }
    ),
)


@st.composite
def _controls(draw: st.DrawFn, emitters: list[dict[str, Any]]) -> dict[str, Any]:
    settings = [
        {
            "emitter": emitter["id"],
            "number": draw(st.sampled_from(("*", "2.5", "4", "max", "open")))
            if emitter["valve"] == "thermostatic"
            else "open",
        }
        for emitter in emitters
    ]
    extra = _some(
        minimum_flow_temperature=st.integers(20, 30),
        maximum_flow_temperature=st.integers(55, 65),
        heating_limit=decimals(13, 19),
        emitter_settings=st.just(settings),
        quiet_window=st.just({"start": "22:30", "end": "06:30"}),
    )
    return {"description": "a panel"} | draw(_CURVES) | draw(extra)


@st.composite
def _commissioning(draw: st.DrawFn, rooms: list[dict[str, Any]]) -> dict[str, Any]:
    readings: list[dict[str, Any]] = [
        {"kind": "flow_rate", "value": draw(decimals(8, 30)), "instrument": "clamp"},
        {"kind": "cold_pressure", "value": draw(decimals(0.5, 2.5)), "state": "standstill"},
        {"kind": "meter", "of": "heat_meter", "value": f"{draw(decimals(0, 999, 3))} MWh"},
    ]
    readings += [
        {
            "kind": "room_temperature",
            "of": room["id"],
            "value": draw(decimals(15, 24)),
            "at": draw(st.datetimes(max_value=_ISSUED).map(lambda at: f"{at.isoformat()}+00:00")),
        }
        for room in rooms
    ]
    return {
        "date": "2026-10-14",
        "instruments": [{"id": "clamp", "name": "clamp thermometer", "accuracy": 0.5}],
        "readings": readings,
        "checks": [{"kind": "filter_clean", "result": draw(st.sampled_from(("yes", "no")))}],
    }


@st.composite
def written_homes(draw: st.DrawFn) -> dict[str, Any]:
    """A home as it stands in a record, in documented units."""
    count = draw(st.integers(1, 8))
    rooms = [draw(_rooms(at, "lower" if at < (count + 1) // 2 else "upper")) for at in range(count)]
    emitters = [draw(_emitter(at + 1, room)) for at, room in enumerate(rooms)]
    building = {
        "address": ["1 Nowhere Lane"],
        "climate": {"design_outdoor_temperature": draw(decimals(-12, 2))},
        "storeys": [
            {"id": "lower", "name": "downstairs", "height": draw(decimals(2.3, 3))},
            {"id": "upper", "name": "upstairs", "height": 2.3},
        ],
        "constructions": _CONSTRUCTIONS,
        "unheated_spaces": [{"id": "loft", "name": "the loft", "temperature_factor": 0.9}],
        "rooms": rooms,
        "ventilation": {"system": "natural", "air_changes": draw(decimals(0.3, 1, 2))},
    }
    extra = _some(commissioning=_commissioning(rooms), controls=_controls(emitters))
    run = {"id": "primary", "name": "primary", "outside_diameter": 28}
    home = {
        "hearthbook": 1,
        "reference": "T-1",
        "name": draw(printable(min_size=1, max_size=30).filter(lambda text: text.strip())),
        "issued": "2026-10-20",
        "household": {"name": "nobody", "people": draw(st.integers(1, 8))},
        "building": building,
        "emitters": emitters,
        "pipework": {"runs": [run | {"length": draw(decimals(2, 40))}]},
        "plant": draw(_plant()),
        "controls": {"description": "a panel"},
        "siting": {"place": "in the garden"},
        "meters": [_METER],
        "firm": {"name": "Nobody's Heating", "phone": "01632 960000", "hours": "never"},
    }
    return home | draw(extra)


def homes() -> st.SearchStrategy[Home]:
    """A home, valid and in agreement with itself."""
    return written_homes().map(Home.model_validate)
