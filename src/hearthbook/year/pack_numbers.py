"""The plain numbers of a home's simulated years that its handover pack is made from.

They can be kept in a file and read back: nothing here but numbers, names and tuples of them. Energy
is in J, time in s, temperatures in °C, money in the tariff's unit.
"""

from __future__ import annotations

from dataclasses import dataclass

__all__ = [
    "NightNumbers",
    "Outage",
    "OutdoorNumbers",
    "Return",
    "RoomNumbers",
    "Span",
    "YearNumbers",
    "YearTotals",
]


@dataclass(frozen=True)
class Span:
    """A number with its range: eight in ten lie between low and high.

    Attributes:
        low: one in ten lies below (P10).
        middle: as many lie above as below (P50).
        high: one in ten lies above (P90).
    """

    low: float
    middle: float
    high: float


@dataclass(frozen=True)
class YearTotals:
    """What a year comes to.

    Attributes:
        electricity: of heating and hot water, all counted.
        hot_water: of it for hot water.
        standby: of it for standing by.
        heat: for rooms and hot water, less what defrosts took back.
        efficiency: heat over electricity.
        hot_water_efficiency: of making hot water; 0 without a cylinder.
        cost: without the standing charge; None without a tariff.
        degree: electricity for all rooms 1 K warmer.
        degree_cost: its cost; None without a tariff.
        degree_share: of the electricity for the rooms.
        backup_share: of the heat that the backup heater gave.
        starts: of the compressor in a day of the heating season.
        defrosts: in the year.
    """

    electricity: Span
    hot_water: Span
    standby: Span
    heat: Span
    efficiency: Span
    hot_water_efficiency: Span
    cost: Span | None
    degree: Span
    degree_cost: Span | None
    degree_share: float
    backup_share: float
    starts: Span
    defrosts: Span


@dataclass(frozen=True)
class OutdoorNumbers:
    """Days of one mean outdoor temperature.

    Attributes:
        outdoor: to the nearest degree.
        electricity: of a day.
        cost: of a day; None without a tariff.
        flow: mean flow temperature while the rooms are heated; None where they hardly are.
        run_share: of the time the unit runs.
        defrosts: in a day.
        defrost_seconds: how long one lasts; None where there are none.
        water: kg that run off the outdoor unit in a day.
    """

    outdoor: float
    electricity: Span
    cost: Span | None
    flow: float | None
    run_share: float
    defrosts: Span
    defrost_seconds: Span | None
    water: Span


@dataclass(frozen=True)
class NightNumbers:
    """What a colder night of one depth and length does.

    Attributes:
        depth: K colder; 0 for a steady night.
        hours: how long the night is, in h.
        electricity: change in a year; negative is less.
        cost: its change; None without a tariff.
        share: change over the electricity for the rooms, or over its cost where there is a tariff.
        coldest: °C of the room farthest below its wanted temperature when the night ends, one
            winter morning in ten being colder still.
        coldest_room: its id in the record; empty where rooms are not told apart.
        recovery: s from the end of the night until every room is as warm as without it, or within
            half a kelvin of what is wanted.
    """

    depth: float
    hours: float
    electricity: Span
    cost: Span | None
    share: Span
    coldest: float
    coldest_room: str
    recovery: Span


@dataclass(frozen=True)
class Return:
    """How long the home takes to come back from days of being kept colder.

    Attributes:
        outdoor: outdoor temperature.
        rise: K it was kept colder.
        seconds: until every room is within half a kelvin of what is wanted.
    """

    outdoor: float
    rise: float
    seconds: float


@dataclass(frozen=True)
class Outage:
    """Eight hours without heat.

    Attributes:
        outdoor: outdoor temperature.
        lost_in_two_hours: K, mean of the rooms.
        lost_in_four_hours: K.
        lost_in_eight_hours: K.
        warm_after: s from its end until every room is within half a kelvin of what is wanted.
    """

    outdoor: float
    lost_in_two_hours: float
    lost_in_four_hours: float
    lost_in_eight_hours: float
    warm_after: float


@dataclass(frozen=True)
class RoomNumbers:
    """One room over the coldest six weeks, valves left as recorded.

    Attributes:
        id: of the record.
        wanted: agreed temperature.
        mean: of the air.
    """

    id: str
    wanted: float
    mean: float


@dataclass(frozen=True)
class YearNumbers:
    """All of it.

    Attributes:
        is_simulated: minute by minute; otherwise estimated from the hours at each outdoor degree.
        draws: how many years were simulated for the ranges.
        seed: of what is drawn.
        weather: the weather's source, in words.
        is_generated: whether the weather was made from monthly values.
        balance: worst of all runs' balances, as a share of what went through.
        totals: of a year.
        months: electricity, January first.
        days: by outdoor temperature, the coldest first.
        nights: every depth and length tried; the first of each length is steady.
        returns: from being kept colder.
        outages: without heat.
        steady_below: °C outdoors below which the unit runs without rest; None where it never does.
        rooms: over the coldest six weeks; none where they are not told apart.
    """

    is_simulated: bool
    draws: int
    seed: int
    weather: str
    is_generated: bool
    balance: float
    totals: YearTotals
    months: tuple[Span, ...]
    days: tuple[OutdoorNumbers, ...]
    nights: tuple[NightNumbers, ...]
    returns: tuple[Return, ...]
    outages: tuple[Outage, ...]
    steady_below: float | None
    rooms: tuple[RoomNumbers, ...]

    def day_near(self, outdoor: float) -> OutdoorNumbers:
        """The day nearest to an outdoor temperature."""
        return min(self.days, key=lambda day: abs(day.outdoor - outdoor))

    def night(self, depth: float, hours: float) -> NightNumbers:
        """The night of a depth, and of the length nearest to the one asked for."""
        found = [night for night in self.nights if night.depth == depth]
        return min(found, key=lambda night: abs(night.hours - hours))

    def coming_back(self, rise: float, outdoor: float) -> Return:
        """The return from so many K colder, at the outdoor temperature nearest to one."""
        found = [one for one in self.returns if one.rise == rise]
        return min(found, key=lambda one: abs(one.outdoor - outdoor))

    def outage(self, outdoor: float) -> Outage:
        """Hours without heat, at the outdoor temperature nearest to one."""
        return min(self.outages, key=lambda one: abs(one.outdoor - outdoor))
