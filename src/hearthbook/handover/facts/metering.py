"""Facts about meters, switches and the readings to have ready."""

from __future__ import annotations

from hearthbook.design.results import Design
from hearthbook.documents.inline import escaped
from hearthbook.handover.facts.speech import Speech
from hearthbook.handover.facts.tables import table
from hearthbook.handover.wording import Facts, Ready, sentence
from hearthbook.record.commissioning import ReadingKind
from hearthbook.record.metering import Meter
from hearthbook.units import from_trade, to_trade

__all__ = ["digits", "metering_facts"]

_SAMPLE = "0384172659"  # digits for a display nobody has read yet


def metering_facts(design: Design, speech: Speech) -> Facts:
    """Facts about what can be read, and where."""
    meters = [_meter(design, meter, speech) for meter in design.home.meters]
    isolators = [
        {
            "name": item.name,
            "feeds": item.feeds,
            "place": item.place,
            "left": speech.words("words", item.normally),
        }
        for item in design.home.electrical.isolators
    ]
    readings = _call_readings(design, meters, speech)
    return {
        "meters": meters,
        "meter_places": "; ".join(f"{m['name']} ({m['place']})" for m in meters),
        "table_meters": _meters_table(meters, speech),
        "isolators": isolators,
        "table_isolators": _isolators_table(isolators, speech),
        "call_readings": readings,
        "list_call_readings": Ready(
            "\n".join(f"- {escaped(r['name'])}: {escaped(r['place'])}" for r in readings)
        ),
        "electric": {
            "main_fuse": _amperes(design.home.electrical.main_fuse),
            "demand": _kilowatts(design.home.electrical.maximum_demand),
        },
    }


def _amperes(value: float | None) -> str | None:
    return None if value is None else f"{value:g}\N{NO-BREAK SPACE}A"


def _kilowatts(value: float | None) -> str | None:
    return None if value is None else f"{value / 1000:.1f}\N{NO-BREAK SPACE}kW"


def digits(design: Design, meter: Meter) -> tuple[str, str]:
    """Digits before and after the point: those of its first reading, else a sample."""
    commissioning = design.home.commissioning
    readings = commissioning.readings if commissioning else ()
    value = next(
        (r.value for r in readings if r.kind is ReadingKind.METER and r.of == meter.id), None
    )
    before, after = meter.digits_before_point, meter.digits_after_point
    if value is None or value < 0:
        return _SAMPLE[:before].rjust(before, "0"), _SAMPLE[before : before + after]
    if meter.unit in ("MWh", "GJ"):  # a record's readings of energy are in kWh
        value = to_trade(from_trade(value, "kWh"), meter.unit)
    whole, _, rest = f"{value:.{after}f}".partition(".")
    return whole[-before:].rjust(before, "0"), rest


def _meter(design: Design, meter: Meter, speech: Speech) -> dict[str, str]:
    before, after = digits(design, meter)
    writes = meter.write_down_decimals and bool(after)
    display = f"{before}.{after}" if after else before
    written = (display if writes else before).lstrip("0") or "0"
    name = "no_point" if not after else "with_decimals" if writes else "whole_only"
    how = [
        speech.words("digits", name, before=len(before), after=len(after)),
        speech.words(
            "digits",
            "example",
            display=display,
            written=written if not written.startswith(".") else f"0{written}",
            unit=meter.unit,
        ),
    ]
    if meter.unit in ("MWh", "GJ"):
        how.append(speech.words("digits", "megawatt" if meter.unit == "MWh" else "gigajoule"))
    if meter.second_rate:
        how.append(speech.words("digits", "night", second=meter.second_rate))
    return {
        "name": meter.name,
        "place": meter.place,
        "measures": speech.words("measures", meter.measures),
        "unit": meter.unit,
        "how": " ".join(how),
    }


def _meters_table(meters: list[dict[str, str]], speech: Speech) -> Ready:
    if not meters:
        return Ready(speech.words("words", "nobody_yet"))
    heads = [speech.words("tables", f"meters_{n}") for n in ("meter", "place", "counts", "how")]
    rows = [[sentence(m["name"]), m["place"], m["measures"], m["how"]] for m in meters]
    return table(speech.words("tables", "meters_caption"), heads, rows)


def _isolators_table(isolators: list[dict[str, str]], speech: Speech) -> Ready:
    if not isolators:
        return Ready(speech.words("words", "nobody_yet"))
    names = ("name", "feeds", "place", "left")
    heads = [speech.words("tables", f"isolators_{name}") for name in names]
    rows = [[item[name] for name in names] for item in isolators]
    return table(speech.words("tables", "isolators_caption"), heads, rows)


def _call_readings(
    design: Design, meters: list[dict[str, str]], speech: Speech
) -> list[dict[str, str]]:
    places, words = design.home.places, speech.words
    unknown = words("words", "unknown_place")
    controller = places.get("heat_pump_controller") or unknown

    def reading(name: str, place: str, unit: str) -> dict[str, str]:
        return {"name": words("readings", name), "place": place, "unit": unit}

    found = [
        reading("when", words("readings", "when_place"), ""),
        reading("outdoor", words("readings", "outdoor_place"), "°C"),
        reading("display", controller, ""),
        reading("pressure", places.get("pressure_gauge") or unknown, "bar"),
        reading("cold_room", words("readings", "cold_room_place"), "°C"),
    ]
    if design.home.plant.cylinder is not None:
        found.append(reading("hot_water", controller, "°C"))
    found += [{"name": sentence(m["name"]), "place": m["place"], "unit": m["unit"]} for m in meters]
    found.append(reading("seen", words("readings", "seen_place"), ""))
    return found
