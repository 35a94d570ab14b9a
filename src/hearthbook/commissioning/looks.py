"""Things looked at or decided rather than measured."""

from __future__ import annotations

from collections.abc import Iterator

from hearthbook.commissioning.judging import Subject, judge_figure, judge_yes_or_no
from hearthbook.commissioning.measured import measured
from hearthbook.commissioning.verdicts import Band, Judgement
from hearthbook.commissioning.wording import is_safety
from hearthbook.documents.figures import Basis, given
from hearthbook.record.commissioning import CheckKind, Reading, ReadingKind
from hearthbook.record.home import Home
from hearthbook.record.household import Tenure, Vulnerability
from hearthbook.record.metering import Meter
from hearthbook.record.plant import Cylinder
from hearthbook.units import TRADE_UNITS, shown, to_trade

__all__ = [
    "backup_heater",
    "checks",
    "clearances",
    "hygiene",
    "meter_baselines",
    "open_items",
    "safety_valve",
]

# Who needs the cautious hot-water regime; HSE HSG274 part 2 asks landlords to assess the risk,
# the list of frail people is common practice, no source.
_CAUTIOUS_FOR = frozenset(
    {
        Vulnerability.OLDER_PERSON,
        Vulnerability.INFANT,
        Vulnerability.LONG_ILLNESS,
        Vulnerability.REDUCED_IMMUNITY,
    }
)
_HYGIENE_TEMPERATURE = 60.0  # °C; HSE HSG274 part 2 (2014), storage temperature
_HYGIENE_INTERVAL = 7 * 86400.0  # s; weekly, common practice, no source
_HYGIENE_HOLD = 30 * 60.0  # s; the whole cylinder for 30 to 60 min, common practice, no source


def _applies(kind: CheckKind, home: Home) -> bool:
    plant = home.plant
    cylinder = plant.cylinder
    conditions = {
        CheckKind.AUTOMATIC_VENTS_CLOSED: any(v.kind == "automatic" for v in plant.air_vents),
        CheckKind.FILTER_CLEAN: plant.filter is not None,
        CheckKind.KEPT_OPEN_EMITTERS_OPEN: any(e.is_kept_open for e in home.emitters),
        CheckKind.RELIEF_DISCHARGE_SAFE: cylinder is not None and cylinder.is_unvented,
        CheckKind.CUT_OUT_INTACT: cylinder is not None,
        CheckKind.CYLINDER_SENSOR_SECURE: cylinder is not None,
        CheckKind.FREEZE_PROTECTION_FITTED: plant.freeze_protection is not None
        and plant.freeze_protection.kind != "none_needed",
        CheckKind.BACKUP_LIMITS_SET: plant.backup_heater is not None
        or (cylinder is not None and cylinder.immersion_power is not None),
        CheckKind.FILLING_DISCONNECTED: plant.filling is not None and plant.filling.kind != "none",
    }
    return conditions.get(kind, True)


def checks(home: Home) -> Iterator[Judgement]:
    """Every look that applies to this home, done or not.

    A look at a safety device that the record says is there cannot be waved away as not applicable.
    """
    done = {c.kind: c for c in home.commissioning.checks} if home.commissioning else {}
    answers = {"yes": True, "no": False, "not_done": None, "not_applicable": None}
    for kind in CheckKind:
        check = done.get(kind)
        is_owed = _applies(kind, home)
        if (
            check is not None
            and check.result == "not_applicable"
            and not (is_owed and is_safety(str(kind)))
        ):
            continue
        if check is None and not is_owed:
            continue
        is_yes = None if check is None else answers[check.result]
        note = "" if check is None else _as_sentence(check.note)
        yield judge_yes_or_no(Subject(str(kind), _place_of(kind, home)), is_yes, {"note": note})


def _as_sentence(note: str) -> str:
    """A note as it stands between sentences."""
    text = note.strip()
    if not text:
        return ""
    return f"{text[0].upper()}{text[1:]}{'' if text.endswith(('.', '!', '?')) else '.'}"


def _place_of(kind: CheckKind, home: Home) -> str:
    places = home.places
    by_kind = {
        CheckKind.CLEARANCES_FREE: home.siting.place,
        CheckKind.CONDENSATE_DRAINS: places.get("condensate_drain") or home.siting.place,
        CheckKind.FILTER_CLEAN: places.get("filter"),
        CheckKind.AUTOMATIC_VENTS_CLOSED: places.get("air_vents"),
        CheckKind.FILLING_DISCONNECTED: places.get("filling_connection"),
        CheckKind.SAFETY_VALVE_LIFTED: places.get("safety_valve"),
        CheckKind.RELIEF_DISCHARGE_SAFE: places.get("relief_discharge"),
        CheckKind.CUT_OUT_INTACT: places.get("cylinder"),
        CheckKind.CYLINDER_SENSOR_SECURE: places.get("cylinder"),
        CheckKind.FREEZE_PROTECTION_FITTED: places.get("freeze_valves"),
        CheckKind.ELECTRICAL_CERTIFICATE: places.get("consumer_unit"),
        CheckKind.RESTARTS_AFTER_POWER_CUT: places.get("heat_pump_controller"),
    }
    return by_kind.get(kind) or ""


def clearances(home: Home) -> Iterator[Judgement]:
    """Free space on each side of the outdoor unit."""
    for index, side in enumerate(home.siting.clearances):
        place = f"siting.clearances[{index}]"
        name = f"siting.clearance.{side.side}"
        found = given(
            f"{name}.found",
            f"Free space, {side.side}",
            side.found,
            "mm",
            place=f"{place}.found",
            basis=Basis.MEASURED,
        )
        required = given(
            f"{name}.required",
            f"Free space asked, {side.side}",
            side.required,
            "mm",
            place=f"{place}.required",
        )
        band = Band(side.required, None, "mm", "the unit's instructions")
        subject = Subject("clearance", home.siting.place, side.side, side.side)
        yield judge_figure(subject, found, required, band)


def safety_valve(home: Home) -> Iterator[Judgement]:
    """Whether the heating water has its safety valve."""
    valves = [v for v in home.plant.safety_valves if v.circuit == "heating"]
    setting = shown(valves[0].setting, "bar", 1) if valves else ""
    subject = Subject("safety_valve", home.places.get("safety_valve", ""))
    yield judge_yes_or_no(subject, bool(valves), {"setting": setting})


def backup_heater(home: Home) -> Iterator[Judgement]:
    """Whether an enabled backup heater has its outdoor limit."""
    heater = home.plant.backup_heater
    if heater is None or not heater.is_enabled:
        return
    limit = "" if heater.locked_above is None else shown(heater.locked_above, "°C", 0)
    subject = Subject("backup_heater", home.places.get("backup_heater", ""))
    yield judge_yes_or_no(subject, heater.locked_above is not None, {"limit": limit})


def hygiene(home: Home) -> Iterator[Judgement]:
    """Whether hot-water hygiene was decided, and whether the regime suits who lives here."""
    cylinder = home.plant.cylinder
    if cylinder is None:
        return
    place = home.places.get("cylinder", "")
    regime = cylinder.hygiene
    decision = (
        ""
        if regime is None
        else (
            f"{shown(regime.temperature, '°C', 0)} every {shown(regime.every, 'days')}, "
            f"held {shown(regime.hold, 'min')}: {regime.reason}"
        )
    )
    who = "" if regime is None else regime.decided_by
    yield judge_yes_or_no(
        Subject("hygiene_decision", place), regime is not None, {"who": who, "decision": decision}
    )
    people = _who_needs_caution(home)
    if people:
        yield judge_yes_or_no(
            Subject("hygiene_fits_household", place), _is_cautious(cylinder), {"who": people}
        )


def _who_needs_caution(home: Home) -> str:
    people = [
        str(v).replace("_", " ") for v in home.household.vulnerabilities if v in _CAUTIOUS_FOR
    ]
    if home.household.tenure is not Tenure.OWNER:
        people.append("a let home")
    return ", ".join(people)


def _is_cautious(cylinder: Cylinder) -> bool:
    if cylinder.set_temperature >= _HYGIENE_TEMPERATURE:
        return True
    regime = cylinder.hygiene
    return (
        regime is not None
        and regime.temperature >= _HYGIENE_TEMPERATURE
        and regime.every <= _HYGIENE_INTERVAL
        and regime.hold >= _HYGIENE_HOLD
    )


def meter_baselines(home: Home) -> Iterator[Judgement]:
    """Whether every meter has its first reading."""
    for meter in home.meters:
        found = measured(home.commissioning, ReadingKind.METER, meter.id)
        value = "" if found is None else _as_on_its_face(found.reading, meter)
        subject = Subject("meter_baseline", meter.place, meter.id, meter.name)
        yield judge_yes_or_no(subject, found is not None, {"reading": value})


def _as_on_its_face(reading: Reading, meter: Meter) -> str:
    """A first reading in the unit of its meter; a record keeps energy in kWh."""
    is_energy = meter.unit in TRADE_UNITS and meter.unit != "m³"
    value = to_trade(reading.in_si, meter.unit) if is_energy else reading.value
    return f"{value:.10g} {meter.unit}"


def open_items(home: Home) -> Iterator[Judgement]:
    """What is still to be done."""
    if home.commissioning is None:
        return
    for number, item in enumerate(home.commissioning.open_items, start=1):
        due = f"{item.owner}, by {item.due:%d %B %Y}" if item.due else item.owner
        judgement = judge_yes_or_no(
            Subject("open_item", "", str(number), item.what), False, {"who": due}
        )
        yield Judgement(**{**vars(judgement), "is_safety": item.is_safety})
