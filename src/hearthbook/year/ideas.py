"""What somebody may ask of a home: "what if", as plain wishes with names as in the record."""

from __future__ import annotations

import difflib
from collections.abc import Mapping
from dataclasses import dataclass

from hearthbook.design.results import Design
from hearthbook.errors import Conflict, NotFound, OutOfRange, check_between
from hearthbook.record.controls import Window
from hearthbook.record.home import Home
from hearthbook.record.plant import HeatPump
from hearthbook.record.tariff import Tariff
from hearthbook.year.changes import ColderStretch

__all__ = ["Idea", "checked", "constructions_of", "emitters_of", "named", "rooms_of"]

_UNIT_MAKES = 75.0  # °C; where the record does not say how hot, none makes more


@dataclass(frozen=True)
class Idea:
    """Wishes that are tried together; nothing as it stands.

    Attributes:
        warmer: K by which all rooms are wanted warmer; the curve follows.
        setback: a colder stretch of each day in place of the recorded one.
        curve: K by which the curve is raised.
        is_curve_as_advised: whether the design's fit takes the place of the curve as set.
        flow_temperature: °C at the design outdoor temperature; the curve goes through it.
        close: rooms let go cold.
        larger: emitters exchanged for the next larger one; the curve falls as far as that allows.
        insulate: constructions with the U-value they get; the curve falls likewise.
        volumiser: m³ of the added volume; 0 for none.
        heat_pump: in place of the recorded one.
        hot_water_windows: hours in which hot water may be made.
        thermostat_limit: K above the wanted temperature at which the thermostat stops heating.
        tariff: in place of the recorded one.
    """

    warmer: float = 0.0
    setback: ColderStretch | None = None
    curve: float = 0.0
    is_curve_as_advised: bool = False
    flow_temperature: float | None = None
    close: tuple[str, ...] = ()
    larger: tuple[str, ...] = ()
    insulate: tuple[tuple[str, float], ...] = ()
    volumiser: float | None = None
    heat_pump: HeatPump | None = None
    hot_water_windows: tuple[Window, ...] | None = None
    thermostat_limit: float | None = None
    tariff: Tariff | None = None


def rooms_of(home: Home) -> dict[str, str]:
    """Names of the rooms by id."""
    return {room.id: room.name for room in home.building.rooms}


def emitters_of(home: Home) -> dict[str, str]:
    """Names of the emitters by id."""
    return {emitter.id: emitter.name for emitter in home.emitters}


def constructions_of(home: Home) -> dict[str, str]:
    """Names of the constructions by id."""
    return {each.id: each.name for each in home.building.constructions}


def named(kind: str, asked: str, known: Mapping[str, str]) -> str:
    """The id of a part asked for by its id or its name.

    Args:
        kind: what it is, such as `room`.
        asked: as typed.
        known: names by id.

    Raises:
        NotFound: no part is called so; with the nearest right name.
    """
    wanted = asked.strip().casefold()
    by_word = {word.casefold(): key for key, name in known.items() for word in (name, key)}
    if wanted in by_word:
        return by_word[wanted]
    near = difflib.get_close_matches(wanted.replace(" ", "_"), by_word, n=1, cutoff=0.5)
    near = near or difflib.get_close_matches(wanted, by_word, n=1, cutoff=0.4)
    hint = f" Did you mean {by_word[near[0]]}?" if near else ""
    raise NotFound(f"No {kind} is called '{asked}'.{hint} The home has {', '.join(known)}.")


def checked(design: Design, idea: Idea) -> Idea:
    """An idea with ids in place of names.

    Raises:
        NotFound: it names a part the home does not have.
        OutOfRange: it asks for what no home has, or this one cannot.
        Conflict: another tariff is in another currency.
    """
    home = design.home
    _check_numbers(home, idea)
    _check_parts(home, idea)
    constructions = constructions_of(home)
    changed = {
        "close": tuple(named("room", one, rooms_of(home)) for one in idea.close),
        "larger": tuple(named("emitter", one, emitters_of(home)) for one in idea.larger),
        "insulate": tuple((named("construction", one, constructions), u) for one, u in
                          idea.insulate),
    }  # fmt: skip
    if len(changed["close"]) >= len(home.building.rooms):
        raise OutOfRange("All rooms are to be closed; leave at least one of them heated.")
    return Idea(**{**vars(idea), **changed})


def _check_numbers(home: Home, idea: Idea) -> None:
    check_between("change of the wanted temperature", idea.warmer, -5.0, 5.0, "K")
    check_between("change of the curve", idea.curve, -20.0, 20.0, "K")
    if idea.setback is not None:
        check_between("colder stretch", idea.setback.by, 0.0, 10.0, "K")
    if idea.flow_temperature is not None:
        hottest = home.plant.heat_pump.maximum_flow_temperature or _UNIT_MAKES
        check_between("flow temperature", idea.flow_temperature, 25.0, hottest, "°C")
    if idea.thermostat_limit is not None:
        check_between("thermostat above the wanted temperature", idea.thermostat_limit, 0.0, 10.0,
                      "K")  # fmt: skip
    for construction, u_value in idea.insulate:
        check_between(f"U-value of {construction}", u_value, 0.05, 6.0, "W/(m²·K)")
    if idea.volumiser is not None:
        check_between("added volume", idea.volumiser * 1e3, 0.0, 1000.0, "L")


def _check_parts(home: Home, idea: Idea) -> None:
    if idea.hot_water_windows and home.plant.cylinder is None:
        raise NotFound("This home has no cylinder, so hours for hot water change nothing.")
    if idea.thermostat_limit is not None and home.controls.thermostat is None:
        raise NotFound("This home has no room thermostat recorded.")
    if idea.tariff is not None and home.tariff is not None:
        mine, other = home.tariff.currency, idea.tariff.currency
        if mine != other:
            raise Conflict(f"The other tariff is in {other}, the record's in {mine}; give both in "
                           "one currency.")  # fmt: skip
    ways = (idea.flow_temperature is not None) + idea.is_curve_as_advised + (idea.curve != 0.0)
    if ways > 1:
        raise OutOfRange("A flow temperature and a change of the curve are both asked; give one.")
