"""Units: the aliases that stand in signatures, and the trade units known at the edge.

Inside Hearthbook every number is SI, with °C for temperatures and K for differences. A trade unit
exists only where a person reads or writes; `TRADE_UNITS` is the one place that knows its size.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

import numpy as np
from numpy.typing import NDArray
from typing_extensions import TypeAliasType

__all__ = [
    "TRADE_UNITS",
    "Array",
    "Celsius",
    "CelsiusOfLayers",
    "CubicMetres",
    "CubicMetresPerSecond",
    "Decibels",
    "DegreeDaysKelvin",
    "Degrees",
    "FlowCoefficient",
    "HeatTransferCoefficient",
    "Hours",
    "Joules",
    "JoulesPerCubicMetreKelvin",
    "JoulesPerKelvin",
    "JoulesPerKilogram",
    "JoulesPerKilogramKelvin",
    "JoulesPerSquareMetreKelvin",
    "Kelvin",
    "KelvinDays",
    "KelvinPerWatt",
    "Kilograms",
    "KilogramsPerCubicMetre",
    "KilogramsPerJoule",
    "KilogramsPerKilogram",
    "KilogramsPerSecond",
    "MetreKelvinPerWatt",
    "Metres",
    "MetresPerSecond",
    "MolesPerCubicMetre",
    "Number",
    "PascalSeconds",
    "Pascals",
    "PascalsPerMetre",
    "PerHour",
    "PerKelvin",
    "PerSquareSpeed",
    "Ratio",
    "Seconds",
    "SquareMetreKelvinPerWatt",
    "SquareMetres",
    "TradeUnit",
    "Unit",
    "Watts",
    "WattsPerKelvin",
    "WattsPerMetreKelvin",
    "WattsPerSquareMetre",
    "WattsPerSquareMetreKelvin",
    "from_trade",
    "shown",
    "shown_distance",
    "to_trade",
]


@dataclass(frozen=True)
class Unit:
    """The symbol of the unit a signature's alias stands for."""

    symbol: str


Array = NDArray[np.float64]
"""Many numbers, where one would make no sense."""

Number = TypeAliasType("Number", float | NDArray[np.float64])

Celsius = TypeAliasType("Celsius", Annotated[Number, Unit("°C")])
CelsiusOfLayers = TypeAliasType("CelsiusOfLayers", Annotated[Array, Unit("°C")])
Kelvin = TypeAliasType("Kelvin", Annotated[Number, Unit("K")])
KelvinPerWatt = TypeAliasType("KelvinPerWatt", Annotated[Number, Unit("K/W")])
Watts = TypeAliasType("Watts", Annotated[Number, Unit("W")])
WattsPerKelvin = TypeAliasType("WattsPerKelvin", Annotated[Number, Unit("W/K")])
WattsPerMetreKelvin = TypeAliasType("WattsPerMetreKelvin", Annotated[Number, Unit("W/(m·K)")])
WattsPerSquareMetre = TypeAliasType("WattsPerSquareMetre", Annotated[Number, Unit("W/m²")])
WattsPerSquareMetreKelvin = TypeAliasType(
    "WattsPerSquareMetreKelvin", Annotated[Number, Unit("W/(m²·K)")]
)
HeatTransferCoefficient = WattsPerSquareMetreKelvin
SquareMetreKelvinPerWatt = TypeAliasType(
    "SquareMetreKelvinPerWatt", Annotated[Number, Unit("m²·K/W")]
)
MetreKelvinPerWatt = TypeAliasType("MetreKelvinPerWatt", Annotated[Number, Unit("m·K/W")])
Joules = TypeAliasType("Joules", Annotated[Number, Unit("J")])
JoulesPerCubicMetreKelvin = TypeAliasType(
    "JoulesPerCubicMetreKelvin", Annotated[Number, Unit("J/(m³·K)")]
)
JoulesPerKelvin = TypeAliasType("JoulesPerKelvin", Annotated[Number, Unit("J/K")])
JoulesPerKilogram = TypeAliasType("JoulesPerKilogram", Annotated[Number, Unit("J/kg")])
JoulesPerKilogramKelvin = TypeAliasType(
    "JoulesPerKilogramKelvin", Annotated[Number, Unit("J/(kg·K)")]
)
JoulesPerSquareMetreKelvin = TypeAliasType(
    "JoulesPerSquareMetreKelvin", Annotated[Number, Unit("J/(m²·K)")]
)
FlowCoefficient = TypeAliasType("FlowCoefficient", Annotated[Number, Unit("m³/h at 1 bar")])
Kilograms = TypeAliasType("Kilograms", Annotated[Number, Unit("kg")])
KilogramsPerSecond = TypeAliasType("KilogramsPerSecond", Annotated[Number, Unit("kg/s")])
KilogramsPerCubicMetre = TypeAliasType("KilogramsPerCubicMetre", Annotated[Number, Unit("kg/m³")])
MolesPerCubicMetre = TypeAliasType("MolesPerCubicMetre", Annotated[Number, Unit("mol/m³")])
Metres = TypeAliasType("Metres", Annotated[Number, Unit("m")])
SquareMetres = TypeAliasType("SquareMetres", Annotated[Number, Unit("m²")])
CubicMetres = TypeAliasType("CubicMetres", Annotated[Number, Unit("m³")])
CubicMetresPerSecond = TypeAliasType("CubicMetresPerSecond", Annotated[Number, Unit("m³/s")])
MetresPerSecond = TypeAliasType("MetresPerSecond", Annotated[Number, Unit("m/s")])
Pascals = TypeAliasType("Pascals", Annotated[Number, Unit("Pa")])
PascalsPerMetre = TypeAliasType("PascalsPerMetre", Annotated[Number, Unit("Pa/m")])
PascalSeconds = TypeAliasType("PascalSeconds", Annotated[Number, Unit("Pa·s")])
Seconds = TypeAliasType("Seconds", Annotated[Number, Unit("s")])
Hours = TypeAliasType("Hours", Annotated[Number, Unit("h")])  # of a bin method, as standards say
KelvinDays = TypeAliasType("KelvinDays", Annotated[Number, Unit("K·d")])
KilogramsPerJoule = TypeAliasType("KilogramsPerJoule", Annotated[Number, Unit("kg/J")])
KilogramsPerKilogram = TypeAliasType("KilogramsPerKilogram", Annotated[Number, Unit("kg/kg")])
PerHour = TypeAliasType("PerHour", Annotated[Number, Unit("1/h")])
PerKelvin = TypeAliasType("PerKelvin", Annotated[Number, Unit("1/K")])
PerSquareSpeed = TypeAliasType("PerSquareSpeed", Annotated[Number, Unit("s²/m²")])
Decibels = TypeAliasType("Decibels", Annotated[Number, Unit("dB")])
DegreeDaysKelvin = TypeAliasType("DegreeDaysKelvin", Annotated[Number, Unit("K·d")])
Degrees = TypeAliasType("Degrees", Annotated[Number, Unit("°")])
Ratio = TypeAliasType("Ratio", Annotated[Number, Unit("")])


@dataclass(frozen=True)
class TradeUnit:
    """A unit people read and write.

    Attributes:
        symbol: as printed.
        size: how many SI units one of it is.
        decimals: digits after the point that suit a reader.
    """

    symbol: str
    size: float
    decimals: int


_LITRE = 1e-3  # m³, by definition
_KILOWATT_HOUR = 3.6e6  # J, by definition

TRADE_UNITS: dict[str, TradeUnit] = {
    unit.symbol: unit
    for unit in (
        TradeUnit("", 1.0, 2),
        TradeUnit("%", 0.01, 0),
        TradeUnit("°C", 1.0, 1),
        TradeUnit("K", 1.0, 1),
        TradeUnit("W", 1.0, 0),
        TradeUnit("kW", 1e3, 2),
        TradeUnit("W/K", 1.0, 1),
        TradeUnit("W/(m·K)", 1.0, 3),
        TradeUnit("W/m²", 1.0, 0),
        TradeUnit("W/(m²·K)", 1.0, 2),
        TradeUnit("m²·K/W", 1.0, 3),
        TradeUnit("mm", 1e-3, 0),
        TradeUnit("cm", 1e-2, 1),
        TradeUnit("m", 1.0, 2),
        TradeUnit("m²", 1.0, 2),
        TradeUnit("m³", 1.0, 2),
        TradeUnit("L", _LITRE, 1),
        TradeUnit("L/m", _LITRE, 3),
        TradeUnit("L/min", _LITRE / 60, 1),
        TradeUnit("L/s", _LITRE, 3),
        TradeUnit("L/day", _LITRE / 86400, 0),
        TradeUnit("L/h", _LITRE / 3600, 1),
        TradeUnit("m³/h", 1 / 3600, 2),
        TradeUnit("m/s", 1.0, 2),
        TradeUnit("bar", 1e5, 2),
        TradeUnit("kPa", 1e3, 1),
        TradeUnit("Pa", 1.0, 0),
        TradeUnit("Pa/m", 1.0, 0),
        TradeUnit("mPa·s", 1e-3, 2),
        TradeUnit("kWh", _KILOWATT_HOUR, 0),
        TradeUnit("MWh", _KILOWATT_HOUR * 1e3, 3),
        TradeUnit("GJ", 1e9, 3),
        TradeUnit("kWh/day", _KILOWATT_HOUR / 86400, 1),
        TradeUnit("kWh/K", _KILOWATT_HOUR, 1),
        TradeUnit("J/K", 1.0, 0),
        TradeUnit("s", 1.0, 0),
        TradeUnit("min", 60.0, 0),
        TradeUnit("h", 3600.0, 1),
        TradeUnit("days", 86400.0, 0),
        TradeUnit("1/h", 1.0, 2),
        TradeUnit("1/day", 1 / 24, 1),
        TradeUnit("K·d", 1.0, 0),
        TradeUnit("dB(A)", 1.0, 0),
        TradeUnit("dB", 1.0, 1),
        TradeUnit("kg", 1.0, 2),
        TradeUnit("kg/m³", 1.0, 1),
        TradeUnit("kg/s", 1.0, 3),
        TradeUnit("J/(kg·K)", 1.0, 0),
        TradeUnit("A", 1.0, 0),
        TradeUnit("°", 1.0, 0),
        TradeUnit("ppm", 1.0, 0),
        TradeUnit("µS/cm", 1.0, 0),
        TradeUnit("p/kWh", 0.01 / _KILOWATT_HOUR, 1),  # money is in pounds inside
        TradeUnit("c/kWh", 0.01 / _KILOWATT_HOUR, 1),
        TradeUnit("p/day", 0.01 / 86400, 1),
        TradeUnit("c/day", 0.01 / 86400, 1),
        TradeUnit("£", 1.0, 0),
        TradeUnit("€", 1.0, 0),
    )
}


def from_trade(value: float, symbol: str) -> float:
    """A value written in a trade unit, in SI.

    Raises:
        KeyError: the symbol is not a known unit.

    Example:
        >>> round(from_trade(12.0, "L/min"), 6)
        0.0002
    """
    return value * TRADE_UNITS[symbol].size


def to_trade(value: float, symbol: str) -> float:
    """An SI value in a trade unit.

    Example:
        >>> round(to_trade(150_000.0, "bar"), 3)
        1.5
    """
    return value / TRADE_UNITS[symbol].size


def shown(value: float, symbol: str, decimals: int | None = None) -> str:
    r"""An SI value as a reader sees it: trade unit, sensible digits, held together by a hard space.

    Example:
        >>> shown(2535.4, "W"), shown(1.62e5, "bar"), shown(-0.2, "°C", 0)
        ('2,535\xa0W', '1.62\xa0bar', '0\xa0°C')
    """
    digits = TRADE_UNITS[symbol].decimals if decimals is None else decimals
    number = f"{round(to_trade(value, symbol), digits) + 0.0:,.{digits}f}".replace("-", "−")
    if symbol in {"£", "€"}:
        return f"−{symbol}{number[1:]}" if number.startswith("−") else f"{symbol}{number}"
    joint = "" if symbol in {"", "%", "°"} else "\N{NO-BREAK SPACE}"
    return f"{number}{joint}{symbol}"


def shown_distance(metres: float) -> str:
    r"""A distance as people pace it: centimetres below a metre, else metres.

    Example:
        >>> shown_distance(0.34), shown_distance(1.9)
        ('34\xa0cm', '1.9\xa0m')
    """
    return shown(metres, "cm", 0) if metres < 0.995 else shown(metres, "m", 1)
