"""Facts about rooms, emitters, valves and how warm they feel."""

from __future__ import annotations

from hearthbook.design.results import Design
from hearthbook.handover.facts.speech import Speech
from hearthbook.handover.facts.tables import listed, table
from hearthbook.handover.facts.told_curve import told_flow_temperature
from hearthbook.handover.wording import Facts, Ready, sentence
from hearthbook.record.emitters import Emitter, EmitterValve
from hearthbook.units import shown

__all__ = ["FEEL_OUTDOORS", "head_scale", "room_facts", "setting"]

FEEL_OUTDOORS = (-5.0, 0.0, 5.0, 10.0, 15.0)  # °C, the outdoor temperatures people remember
_TIGHT, _ROOMY = 1.05, 1.15  # of the load; below it nothing is spare, above it something is

# Common scale of thermostatic heads; from memory of trade guidance, others are 1 to 2 K off.
_USUAL_SCALE = {"1": 12.0, "2": 16.0, "3": 20.0, "4": 24.0, "5": 28.0}


def head_scale(design: Design) -> tuple[dict[str, float], bool]:
    """What the heads' numbers mean, and whether that is only the usual scale."""
    recorded = dict(design.home.controls.head_scale)
    return (recorded, False) if recorded else (_USUAL_SCALE, True)


def room_facts(design: Design, speech: Speech) -> Facts:
    """Facts about rooms and emitters."""
    home = design.home
    kinds = {emitter.kind for emitter in home.emitters}
    radiators = [e for e in home.emitters if e.kind != "underfloor"]
    tight, roomy = _by_coverage(design)
    conjunction = speech.words("words", "and")
    five = shown(5.0, "°C", 0)
    return {
        "rooms": [
            {
                "name": room.room.name,
                "wanted": speech.figure(room.temperature, 0),
            }
            for room in design.heat_loss.rooms
        ],
        "radiators": len(radiators),
        "heads": any(e.valve is EmitterValve.THERMOSTATIC for e in home.emitters),
        "towel_rail": _towel_rail(design) if "towel_rail" in kinds else None,
        "floor": _floor(design, speech) if "underfloor" in kinds else None,
        "limiting": _limiting(design, speech),
        "tight_rooms": listed(tight, conjunction) or None,
        "roomy_rooms": listed(roomy, conjunction) or None,
        "feel_line": _feel_line(design, speech),
        "feel_five": shown(told_flow_temperature(design, 5.0), "°C", 0),
        "feel_five_words": next(row[2] for row in _feel_rows(design, speech) if row[0] == five),
        "feel_seven": shown(told_flow_temperature(design, 7.0), "°C", 0),
        "table_feel": _feel_table(design, speech),
        "table_heads": _heads_table(design, speech),
        "table_room_numbers": _numbers_table(design, speech),
        "table_rooms": _rooms_table(design, speech),
    }


def _by_coverage(design: Design) -> tuple[list[str], list[str]]:
    known = [room for room in design.emitters.rooms if room.coverage is not None]
    tight = [r.room.name for r in known if r.coverage is not None and r.coverage.value < _TIGHT]
    roomy = [r.room.name for r in known if r.coverage is not None and r.coverage.value > _ROOMY]
    return tight, roomy


def _towel_rail(design: Design) -> Facts:
    rail = next(e for e in design.emitters.emitters if e.emitter.kind == "towel_rail")
    return {"share": shown(rail.output.value / rail.rated_output.value, "%", 0)}


def _floor(design: Design, speech: Speech) -> Facts:
    floor = next(e for e in design.emitters.emitters if e.emitter.kind == "underfloor")
    return {"surface": speech.figure(floor.surface_temperature, 0)}


def _limiting(design: Design, speech: Speech) -> Facts | None:
    known = [r for r in design.emitters.rooms if r.required_flow_temperature is not None]
    if not known:
        return None
    hottest = max(
        known,
        key=lambda r: r.required_flow_temperature.value if r.required_flow_temperature else 0.0,
    )
    return {
        "name": hottest.room.name,
        "flow": speech.figure(hottest.required_flow_temperature, 0),
    }


def _feel_rows(design: Design, speech: Speech) -> list[list[str]]:
    rows = []
    for outdoor in FEEL_OUTDOORS:
        flow = told_flow_temperature(design, outdoor)
        drop = design.curve.flow_temperature_at(outdoor) - design.curve.return_temperature_at(
            outdoor
        )
        rows.append([shown(outdoor, "°C", 0), shown(flow, "°C", 0), speech.feel(flow - drop / 2)])
    return rows


def _feel_line(design: Design, speech: Speech) -> str:
    said = [
        speech.words("words", "water_at", outdoor=outdoor, flow=flow)
        for outdoor, flow, _ in _feel_rows(design, speech)[:4]
    ]
    return listed(said, speech.words("words", "and"))


def _feel_table(design: Design, speech: Speech) -> Ready:
    heads = [speech.words("tables", f"feel_{name}") for name in ("outdoor", "flow", "words")]
    return table(
        speech.words("tables", "feel_caption"), heads, _feel_rows(design, speech), numeric=(0, 1)
    )


def _heads_table(design: Design, speech: Speech) -> Ready:
    scale, is_usual = head_scale(design)
    caption = speech.words("tables", "heads_caption")
    if is_usual:
        caption = f"{caption} ({speech.words('tables', 'heads_note_assumed')})"
    heads = [speech.words("tables", "heads_number"), speech.words("tables", "heads_temperature")]
    rows = [[number, shown(value, "°C", 0)] for number, value in scale.items()]
    return table(caption, heads, rows)


def _numbers_table(design: Design, speech: Speech) -> Ready:
    home = design.home
    names = ("number", "emitter", "room", "set")
    heads = [speech.words("tables", f"numbers_{name}") for name in names]
    rows = [
        [
            f"{emitter.number}",
            sentence(emitter.name),
            sentence(home.room(emitter.room).name),
            speech.words("tables", "numbers_keep")
            if emitter.is_kept_open
            else setting(design, emitter, speech),
        ]
        for emitter in home.emitters
    ]
    return table(speech.words("tables", "numbers_caption"), heads, rows)


def setting(design: Design, emitter: Emitter, speech: Speech) -> str:
    """The number an emitter is left at: as recorded, else the lowest that lets the room warm."""
    recorded = {s.emitter: s.number for s in design.home.controls.emitter_settings}
    number = recorded.get(emitter.id)
    if emitter.is_kept_open or number == "open" or emitter.valve is not EmitterValve.THERMOSTATIC:
        return speech.words("words", "open")
    if number is not None:
        return number
    wanted = design.heat_loss.room(emitter.room).temperature.value
    scale, _ = head_scale(design)
    fitting = [n for n, value in scale.items() if value >= wanted]
    return fitting[0] if fitting else list(scale)[-1]


def _rooms_table(design: Design, speech: Speech) -> Ready:
    heads = [speech.words("tables", "numbers_room"), speech.words("tables", "rooms_wanted")]
    rows = [
        [sentence(room.room.name), speech.figure(room.temperature, 0) or ""]
        for room in design.heat_loss.rooms
    ]
    return table(speech.words("tables", "rooms_caption"), heads, rows)
