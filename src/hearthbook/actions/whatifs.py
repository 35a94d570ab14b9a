"""Try changes of a home, flow temperatures and ranges in its simulated year."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from hearthbook.actions.judging import design as designed
from hearthbook.design.heated_floor_checks import HOTTEST_AT_MANIFOLD
from hearthbook.design.results import Design
from hearthbook.errors import Conflict, OutOfRange, check_between
from hearthbook.readers.record_section import read_heat_pump, read_tariff
from hearthbook.readers.weather_files import read_weather, read_weather_beside
from hearthbook.record.controls import Window
from hearthbook.record.emitters import Underfloor
from hearthbook.record.home import Home
from hearthbook.simulate.weather import Weather
from hearthbook.units import shown
from hearthbook.year.changes import ColderStretch
from hearthbook.year.flow_temperature_choice import FlowChoices, flow_temperature_choice
from hearthbook.year.ideas import Idea
from hearthbook.year.ranges import YearRanges, year_ranges
from hearthbook.year.usual_ideas import DAMP, usual_variants
from hearthbook.year.variants import variant
from hearthbook.year.weather_of_home import weather_of_home
from hearthbook.year.weather_years import YEARS, generated_years, single_years
from hearthbook.year.whatif import Sampling, WhatIfs, whatif

__all__ = [
    "RANGE_DRAWS",
    "Given",
    "Wishes",
    "asked_whatif",
    "flow_choices",
    "ranges_of_year",
    "usual_whatifs",
]

RANGE_DRAWS = 200
_MORE_YEARS = 2  # of weather that pairs meet beside the usual one
_WINDOW = re.compile(r"^((?:[01]\d|2[0-3]):[0-5]\d)\s*[-–]\s*((?:[01]\d|2[0-3]):[0-5]\d)$")
_CLOCK = re.compile(r"^([01]\d|2[0-3]):[0-5]\d$")

_Advance = Callable[[str], None]


@dataclass(frozen=True)
class Given:
    """What a run is given besides the record.

    Attributes:
        weather: file in place of the record's weather; None leaves that.
        draws: how many homes, or pairs of them, the ranges rest on; None for the usual number.
        seed: of weather and draws.
    """

    weather: Path | None = None
    draws: int | None = None
    seed: int = 1


@dataclass(frozen=True)
class Wishes:
    """Changes as a person types them, all tried together; nothing asked as it stands.

    Attributes:
        warmer: K.
        setback: K.
        setback_from: by the clock.
        setback_to: by the clock.
        curve: K.
        flow_temperature: °C.
        close: rooms by id or name.
        larger: emitters by id or name.
        insulate: each `construction=U`.
        volumiser: L.
        heat_pump: record file with another heat pump.
        hot_water_window: such as 13:00-15:00.
        tariff: record file with another tariff.
    """

    warmer: float | None = None
    setback: float | None = None
    setback_from: str | None = None
    setback_to: str | None = None
    curve: float | None = None
    flow_temperature: float | None = None
    close: tuple[str, ...] = ()
    larger: tuple[str, ...] = ()
    insulate: tuple[str, ...] = ()
    volumiser: float | None = None
    heat_pump: Path | None = None
    hot_water_window: str | None = None
    tariff: Path | None = None

    @property
    def is_nothing(self) -> bool:
        """Whether no change is asked for."""
        return self == Wishes()


def usual_whatifs(
    record: Path, given: Given, advance: _Advance = lambda _: None
) -> tuple[Design, WhatIfs]:
    """The usual ideas that apply to the home in a record file, ranked.

    Raises:
        HearthbookError: record or weather cannot be used.
    """
    sampling = _sampling(given)
    design = designed(record)
    weathers = _pair_weathers(record, design.home, given)
    variants = usual_variants(design)
    return design, whatif(design, weathers, variants, sampling=sampling, advance=advance)


def asked_whatif(
    record: Path, wishes: Wishes, given: Given, advance: _Advance = lambda _: None
) -> tuple[Design, WhatIfs]:
    """The changes asked for, together, in the home of a record file.

    Raises:
        HearthbookError: record, weather or a wish cannot be used.
    """
    sampling, idea = _sampling(given), _idea(wishes)
    design = designed(record)
    tried = variant(design, idea, "asked", _label(wishes), note="; ".join(_cautions(design, idea)))
    weathers = _pair_weathers(record, design.home, given)
    return design, whatif(design, weathers, (tried,), sampling=sampling, advance=advance)


def flow_choices(
    record: Path, given: Given, advance: _Advance = lambda _: None
) -> tuple[Design, FlowChoices]:
    """The design flow temperatures that may be chosen for the home in a record file.

    Raises:
        HearthbookError: record or weather cannot be used.
    """
    design = designed(record)
    weather = _weathers(record, design.home, given)[0]
    return design, flow_temperature_choice(design, weather, advance=advance)


def ranges_of_year(
    record: Path, given: Given, advance: Callable[[int, int], None] = lambda _, __: None
) -> tuple[Design, YearRanges]:
    """The ranges of the year of the home in a record file.

    Raises:
        HearthbookError: record or weather cannot be used.
    """
    design = designed(record)
    file = _weather_file(record, design.home, given)
    weathers = _some(single_years(file)) if file else generated_years(design.home, given.seed)
    draws = RANGE_DRAWS if given.draws is None else given.draws
    return design, year_ranges(design, weathers, draws=draws, seed=given.seed, advance=advance)


def _sampling(given: Given) -> Sampling:
    check_between("seed", given.seed, 0, 999_999, "")
    return Sampling(seed=given.seed) if given.draws is None else Sampling(given.draws, given.seed)


def _weather_file(record: Path, home: Home, given: Given) -> Weather | None:
    """The weather of a file, where one is given or the record names one."""
    check_between("seed", given.seed, 0, 999_999, "")
    named = home.building.climate.weather_file
    if given.weather is not None:
        return read_weather(given.weather)
    return None if named is None else read_weather_beside(record.parent, named)


def _weathers(record: Path, home: Home, given: Given) -> tuple[Weather, ...]:
    file = _weather_file(record, home, given)
    if file is not None:
        return _some(single_years(file))
    return (weather_of_home(home, seed=given.seed),)


def _pair_weathers(record: Path, home: Home, given: Given) -> tuple[Weather, ...]:
    """The usual year first, then years that differ as years do."""
    weathers = _weathers(record, home, given)
    if not weathers[0].is_generated:
        return weathers[: _MORE_YEARS + 1]
    return (*weathers, *generated_years(home, given.seed, YEARS)[:_MORE_YEARS])


def _some(weathers: Sequence[Weather]) -> tuple[Weather, ...]:
    """No more years than are worth their memory, spread over all of them."""
    every = max(1, len(weathers) // YEARS)
    return tuple(weathers[::every][:YEARS])


def _cautions(design: Design, idea: Idea) -> Iterator[str]:
    """What must be known before any of it is done."""
    if idea.close:
        yield DAMP
    hottest = idea.flow_temperature or design.emitters.flow_temperature.value + idea.curve
    floors = [one for one in design.home.emitters if isinstance(one, Underfloor)]
    is_hotter = idea.flow_temperature is not None or idea.curve > 0.0
    if floors and is_hotter and hottest > HOTTEST_AT_MANIFOLD:
        yield (
            f"water of {shown(hottest, '°C')} is hotter than heated floors are made for: without a "
            "mixing valve it can harm feet, floor and covering"
        )


def _idea(wishes: Wishes) -> Idea:
    """The wishes with their numbers and times read.

    Raises:
        OutOfRange: one of them cannot be read, or names hours for a colder stretch that is not
            asked for.
    """
    return Idea(
        warmer=wishes.warmer or 0.0,
        setback=_setback(wishes),
        curve=wishes.curve or 0.0,
        flow_temperature=wishes.flow_temperature,
        close=wishes.close,
        larger=wishes.larger,
        insulate=tuple(_insulated(one) for one in wishes.insulate),
        volumiser=None if wishes.volumiser is None else wishes.volumiser / 1e3,
        heat_pump=None if wishes.heat_pump is None else read_heat_pump(wishes.heat_pump),
        hot_water_windows=None if wishes.hot_water_window is None else
        (_window(wishes.hot_water_window),),
        tariff=None if wishes.tariff is None else read_tariff(wishes.tariff),
    )  # fmt: skip


def _setback(wishes: Wishes) -> ColderStretch | None:
    start, end = wishes.setback_from, wishes.setback_to
    if wishes.setback is None:
        if start is not None or end is not None:
            raise Conflict(
                "Hours are given for a colder stretch, but not by how much; add --setback with the "
                "K."
            )
        return None
    usual = ColderStretch(wishes.setback)
    for name, clock in (("--from", start), ("--to", end)):
        if clock is not None and not _CLOCK.match(clock):
            raise OutOfRange(
                f"{name} is '{clock}'; it must be a time from 00:00 to 23:59, such as 05:30."
            )
    return ColderStretch(wishes.setback, start or usual.start, end or usual.end)


def _number(text: str) -> float | None:
    """A number as typed; None for anything else, what is no number by name included."""
    try:
        value = float(text)
    except ValueError:
        return None
    return value if math.isfinite(value) else None


def _insulated(asked: str) -> tuple[str, float]:
    name, _, u_value = asked.rpartition("=")
    value = _number(u_value)
    if not name.strip() or value is None:
        raise OutOfRange(
            f"--insulate is '{asked}'; it must be a construction and its new U-value in W/(m²·K), "
            "such as loft_ceiling=0.12."
        )
    return name.strip(), value


def _window(asked: str) -> Window:
    found = _WINDOW.match(asked.strip())
    if found is None or found[1] == found[2]:
        raise OutOfRange(
            f"--hot-water-window is '{asked}'; it must be two times, such as 13:00-15:00."
        )
    return Window(start=found[1], end=found[2])


def _label(wishes: Wishes) -> str:
    """The wishes in words."""
    stretch = _setback(wishes)
    said = [
        *([f"all rooms {_more(wishes.warmer, 'warmer', 'cooler')}"] if wishes.warmer else []),
        *([f"{stretch.by:g} K colder {_hours(stretch)}"] if stretch else []),
        *([f"the curve {_more(wishes.curve, 'higher', 'lower')}"] if wishes.curve else []),
        *([f"a design flow of {wishes.flow_temperature:g} °C"] if wishes.flow_temperature else []),
        *(f"closed: {room}" for room in wishes.close),
        *(f"larger: {emitter}" for emitter in wishes.larger),
        *(f"insulated: {one.replace('=', ', U ')}" for one in wishes.insulate),
        *([f"{wishes.volumiser:g} L of added volume"] if wishes.volumiser is not None else []),
        *([f"the heat pump of {wishes.heat_pump.name}"] if wishes.heat_pump else []),
        *([f"hot water from {wishes.hot_water_window}"] if wishes.hot_water_window else []),
        *([f"the tariff of {wishes.tariff.name}"] if wishes.tariff else []),
    ]
    return ", ".join(said) or "nothing changed"


def _hours(stretch: ColderStretch) -> str:
    if stretch.start == stretch.end:
        return "all day"
    return f"from {stretch.start} to {stretch.end}"


def _more(kelvin: float, up: str, down: str) -> str:
    return f"{abs(kelvin):g} K {up if kelvin > 0 else down}"
