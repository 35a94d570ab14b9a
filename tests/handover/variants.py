"""The well-done home with parts taken away, exchanged or added: each is another's home."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from hearthbook.record.emitters import EmitterValve
from hearthbook.record.home import Home
from hearthbook.record.household import Tenure, Vulnerability
from hearthbook.record.plant import AddedVolume, BackupHeater, FreezeProtection

__all__ = ["VARIANTS"]


def _plant(home: Home, **changes: Any) -> Home:
    return home.model_copy(update={"plant": home.plant.model_copy(update=changes)})


def _controls(home: Home, **changes: Any) -> Home:
    return home.model_copy(update={"controls": home.controls.model_copy(update=changes)})


def _cylinder(home: Home, **changes: Any) -> Home:
    assert home.plant.cylinder is not None
    return _plant(home, cylinder=home.plant.cylinder.model_copy(update=changes))


def _filling(home: Home, kind: str, *, may: bool = True) -> Home:
    assert home.plant.filling is not None
    changes = {"kind": kind, "householder_may_use": may}
    return _plant(home, filling=home.plant.filling.model_copy(update=changes))


def _without_cylinder(home: Home) -> Home:
    runs = tuple(run for run in home.pipework.runs if not run.serves_cylinder)
    pipework = home.pipework.model_copy(update={"runs": runs})
    home = _plant(home, cylinder=None, diverter_valve=None)
    return home.model_copy(update={"pipework": pipework})


def _with_antifreeze(home: Home) -> Home:
    protection = FreezeProtection(kind="glycol", glycol_share=0.25)
    return _filling(_plant(home, freeze_protection=protection), "fixed_loop_two_valves")


def _split(home: Home) -> Home:
    """Nothing burns, and no water is outdoors."""
    unit = home.plant.heat_pump.model_copy(
        update={
            "arrangement": "split",
            "refrigerant": "R410A",
            "refrigerant_safety_class": "A1",
            "defrost_length": None,
        }
    )
    protection = FreezeProtection(kind="none_needed")
    siting = home.siting.model_copy(update={"neighbours": (), "protective_zone": None})
    home = _plant(home, heat_pump=unit, freeze_protection=protection, filter=None, air_vents=())
    return home.model_copy(update={"siting": siting})


def _bare(home: Home) -> Home:
    """Only what every record holds: no meters, tariff, commissioning, places, switches."""
    electrical = home.electrical.model_copy(update={"isolators": ()})
    siting = home.siting.model_copy(update={"drain": None, "clearances": (), "neighbours": ()})
    firm = home.firm.model_copy(update={"emergency_phone": "", "website": "", "email": ""})
    home = _plant(home, added_volume=None, freeze_protection=None, filter=None, water=None)
    return home.model_copy(
        update={
            "meters": (),
            "tariff": None,
            "commissioning": None,
            "places": {},
            "electrical": electrical,
            "siting": siting,
            "firm": firm,
        }
    )


def _underfloor_only(home: Home) -> Home:
    floor = home.emitter("floor_garden_room")
    emitters = tuple(
        emitter
        if emitter.kind == "underfloor"
        else floor.model_copy(
            update={
                "id": emitter.id,
                "number": emitter.number,
                "name": f"warm floor number {emitter.number}",
                "room": emitter.room,
                "valve": EmitterValve.MOTORISED,
                "is_kept_open": False,
                "area": 5.0,
                "own_drop": None,
                "water_content": None,
            }
        )
        for emitter in home.emitters
    )
    home = _controls(home, emitter_settings=(), head_scale={})
    return home.model_copy(update={"emitters": emitters})


def _let(home: Home) -> Home:
    """Let to a family with an infant; the heater in the flow is free, hygiene undecided."""
    household = home.household.model_copy(
        update={"tenure": Tenure.TENANT, "vulnerabilities": (Vulnerability.INFANT,), "people": 4}
    )
    home = _cylinder(home, hygiene=None, mixing_valve_temperature=None, is_unvented=False)
    home = _plant(home, backup_heater=BackupHeater(power=3000, is_enabled=True))
    return _filling(home.model_copy(update={"household": household}), "none")


def _uncontrolled(home: Home) -> Home:
    """No thermostat, no curve, no quiet hours; a keyed link; a buffer that mixes."""
    home = _controls(
        home,
        thermostat=None,
        curve=None,
        quiet_window=None,
        hot_water_windows=(),
        has_remote_access=False,
    )
    home = _plant(home, added_volume=AddedVolume(kind="buffer", volume=0.05))
    return _filling(_cylinder(home, immersion_power=None), "keyed_link")


VARIANTS: dict[str, Callable[[Home], Home]] = {
    "as it is": lambda home: home,
    "without a cylinder": _without_cylinder,
    "with antifreeze": _with_antifreeze,
    "split, nothing that burns": _split,
    "bare": _bare,
    "underfloor only": _underfloor_only,
    "let": _let,
    "uncontrolled": _uncontrolled,
    "fixed loop": lambda home: _filling(home, "fixed_loop_two_valves"),
    "not to be filled": lambda home: _filling(home, "removable_hose", may=False),
}
