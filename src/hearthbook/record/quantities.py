"""How a number with a unit is written in a record, and what it becomes inside.

Each field has one documented unit. A bare number is in that unit; a text may name another unit of
the same kind (`1500 mm`, `0.9 m³/h`). Inside the value is SI. Writing the record gives the
documented unit back, so that reading, writing and reading again is the identity.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import PydanticCustomError, core_schema

from hearthbook.units import TRADE_UNITS

__all__ = [
    "AirChanges",
    "Altitude",
    "Area",
    "BoreLength",
    "CurrentAmperes",
    "DailyEnergy",
    "Days",
    "DegreeDays",
    "Diameter",
    "Distance",
    "Duration",
    "Efficiency",
    "EnergyMeterReading",
    "ExponentRatio",
    "FlowRate",
    "HeatLossCoefficient",
    "Hours",
    "Irradiance",
    "Latitude",
    "Length",
    "LinearTransmittance",
    "Longitude",
    "Money",
    "OutdoorTemperature",
    "Power",
    "Pressure",
    "PressureDrop",
    "Quantity",
    "RatePerDay",
    "RatePerEnergy",
    "Ratio01",
    "RefrigerantMass",
    "RelativeHumidity",
    "Resistance",
    "RoomTemperature",
    "SmallLength",
    "SoundLevel",
    "TemperatureDifference",
    "ThermalConductivity",
    "Transmittance",
    "TransmittanceSupplement",
    "Volume",
    "VolumeOfHouse",
    "WaterTemperature",
    "WindSpeed",
]

_FAMILIES: tuple[tuple[str, ...], ...] = (
    ("mm", "cm", "m"),
    ("m²",),
    ("L", "m³"),
    ("L/min", "L/s", "m³/h", "L/h"),
    ("W", "kW"),
    ("Pa", "kPa", "bar"),
    ("kWh", "MWh", "GJ"),
    ("s", "min", "h", "days"),
    ("%", ""),
    ("p/kWh",),
    ("p/day",),
)

_SPELLINGS = {
    "m2": "m²",
    "m3": "m³",
    "l": "L",
    "litre": "L",
    "litres": "L",
    "l/min": "L/min",
    "l/s": "L/s",
    "l/h": "L/h",
    "m3/h": "m³/h",
    "kw": "kW",
    "kwh": "kWh",
    "mwh": "MWh",
    "degc": "°C",
    "c": "°C",
    "k": "K",
    "minutes": "min",
    "hours": "h",
    "hour": "h",
    "day": "days",
    "d": "days",
    "w/m2k": "W/(m²·K)",
    "w/m²k": "W/(m²·K)",
    "w/(m2k)": "W/(m²·K)",
    "w/(m2·k)": "W/(m²·K)",
    "w/mk": "W/(m·K)",
    "w/m2": "W/m²",
    "w/m²": "W/m²",
    "m2k/w": "m²·K/W",
    "m²k/w": "m²·K/W",
    "db": "dB(A)",
    "a": "A",
    "amps": "A",
    "deg": "°",
}

_WRITTEN = re.compile(r"^\s*([+\-−]?\d+(?:\.\d+)?(?:[eE][+\-]?\d+)?)\s*(.*?)\s*$")


def _rounded(value: float) -> float:
    """Ten significant digits: more than anyone types, fewer than binary noise."""
    return float(f"{value:.10g}")


def _family(symbol: str) -> tuple[str, ...]:
    return next((family for family in _FAMILIES if symbol in family), (symbol,))


@dataclass(frozen=True)
class Quantity:
    """The unit and range of one kind of number in the record.

    Attributes:
        symbol: the documented unit, a key of `units.TRADE_UNITS`.
        low: the smallest value allowed, in that unit.
        high: the largest value allowed, in that unit.
    """

    symbol: str
    low: float
    high: float

    def read(self, written: Any) -> float:
        """What was written, in SI.

        Raises:
            PydanticCustomError: not a number, an unknown unit, or out of range.
        """
        return self.number(written) * TRADE_UNITS[self.symbol].size

    def number(self, written: Any) -> float:
        """What was written, in the documented unit.

        Raises:
            PydanticCustomError: not a number, an unknown unit, or out of range.
        """
        number = self._in_documented_unit(written)
        if not self.low <= number <= self.high:
            raise PydanticCustomError(
                "quantity_range",
                "is {value}; it must lie between {low} and {high}",
                {
                    "value": self._spell(number),
                    "low": f"{self.low:.10g}",
                    "high": self._spell(self.high),
                },
            )
        return number

    def write(self, value: float) -> float:
        """An SI value as it stands in a record, in the documented unit."""
        return _rounded(value / TRADE_UNITS[self.symbol].size)

    def _spell(self, number: float) -> str:
        return f"{number:.10g} {self.symbol}".strip()

    def _in_documented_unit(self, written: Any) -> float:
        if isinstance(written, str):
            number, symbol = self._split(written)
            size = TRADE_UNITS[symbol].size / TRADE_UNITS[self.symbol].size
            return _rounded(number * size)
        if isinstance(written, bool) or not isinstance(written, int | float):
            raise PydanticCustomError(
                "quantity_type",
                "is {value}; it must be a number in {unit}",
                {"value": repr(written), "unit": self.symbol or "plain figures"},
            )
        if not math.isfinite(written):
            raise PydanticCustomError(
                "quantity_finite",
                "is {value}; it must be a finite number in {unit}",
                {"value": str(written), "unit": self.symbol or "plain figures"},
            )
        return _rounded(float(written))

    def _split(self, written: str) -> tuple[float, str]:
        allowed = _family(self.symbol)
        match = _WRITTEN.match(written)
        if match:
            unit = match.group(2)
            symbol = unit if unit in TRADE_UNITS else _SPELLINGS.get(unit.lower(), unit)
            symbol = symbol or self.symbol
            if symbol in allowed:
                return float(match.group(1).replace("−", "-")), symbol
        raise PydanticCustomError(
            "quantity_text",
            "is '{value}'; write a number in {units}, with a point for decimals",
            {
                "value": written,
                "units": " or ".join(unit for unit in allowed if unit) or "plain figures",
            },
        )

    def __get_pydantic_core_schema__(
        self, source: type, handler: GetCoreSchemaHandler
    ) -> core_schema.CoreSchema:
        """How pydantic reads and writes the quantity."""
        return core_schema.no_info_plain_validator_function(
            self.read,
            serialization=core_schema.plain_serializer_function_ser_schema(self.write),
        )

    def __get_pydantic_json_schema__(
        self, schema: core_schema.CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        """The quantity in the published schema: a number, or a text with a unit."""
        units = [unit for unit in _family(self.symbol) if unit]
        number: JsonSchemaValue = {"type": "number", "minimum": self.low, "maximum": self.high}
        text: JsonSchemaValue = {"type": "string", "pattern": r"^\s*[+\-−]?\d"}
        return {
            "anyOf": [number, text],
            "x-unit": self.symbol,
            "title": f"in {self.symbol}" if self.symbol else "plain number",
            "examples": [f"{max(self.low, min(self.high, 1.0)):g} {unit}" for unit in units],
        }


Length = Annotated[float, Quantity("m", 0.01, 200)]
SmallLength = Annotated[float, Quantity("mm", 0.1, 10_000)]
Diameter = Annotated[float, Quantity("mm", 4, 200)]
BoreLength = Annotated[float, Quantity("m", 0, 500)]
Distance = Annotated[float, Quantity("m", 0, 1000)]
Altitude = Annotated[float, Quantity("m", -450, 3000)]
Area = Annotated[float, Quantity("m²", 0.01, 2000)]
VolumeOfHouse = Annotated[float, Quantity("m³", 1, 10_000)]
Volume = Annotated[float, Quantity("L", 0, 5000)]
FlowRate = Annotated[float, Quantity("L/min", 0, 300)]
Power = Annotated[float, Quantity("W", 0, 100_000)]
Pressure = Annotated[float, Quantity("bar", 0, 12)]
PressureDrop = Annotated[float, Quantity("kPa", 0, 200)]
OutdoorTemperature = Annotated[float, Quantity("°C", -45, 45)]
RoomTemperature = Annotated[float, Quantity("°C", 5, 30)]
WaterTemperature = Annotated[float, Quantity("°C", 0, 95)]
TemperatureDifference = Annotated[float, Quantity("K", -60, 60)]
Transmittance = Annotated[float, Quantity("W/(m²·K)", 0.03, 7)]
TransmittanceSupplement = Annotated[float, Quantity("W/(m²·K)", 0, 0.5)]
ThermalConductivity = Annotated[float, Quantity("W/(m·K)", 0.003, 400)]
Resistance = Annotated[float, Quantity("m²·K/W", 0, 20)]
LinearTransmittance = Annotated[float, Quantity("W/(m·K)", -0.5, 5)]
HeatLossCoefficient = Annotated[float, Quantity("W/K", 0, 5000)]
AirChanges = Annotated[float, Quantity("1/h", 0, 30)]
Ratio01 = Annotated[float, Quantity("", 0, 1)]
Efficiency = Annotated[float, Quantity("", 0.3, 10)]
ExponentRatio = Annotated[float, Quantity("", 1, 1.8)]
Latitude = Annotated[float, Quantity("°", -90, 90)]
Longitude = Annotated[float, Quantity("°", -180, 180)]
Irradiance = Annotated[float, Quantity("W/m²", 0, 400)]
RelativeHumidity = Annotated[float, Quantity("%", 10, 98)]
WindSpeed = Annotated[float, Quantity("m/s", 0.3, 12)]
Duration = Annotated[float, Quantity("min", 0, 10_000)]
Hours = Annotated[float, Quantity("h", 0, 24)]
Days = Annotated[float, Quantity("days", 0, 400)]
DegreeDays = Annotated[float, Quantity("K·d", 0, 10_000)]
DailyEnergy = Annotated[float, Quantity("kWh/day", 0, 50)]
EnergyMeterReading = Annotated[float, Quantity("kWh", 0, 100_000_000)]
SoundLevel = Annotated[float, Quantity("dB(A)", 0, 120)]
RefrigerantMass = Annotated[float, Quantity("kg", 0, 50)]
CurrentAmperes = Annotated[float, Quantity("A", 0, 400)]
RatePerEnergy = Annotated[float, Quantity("p/kWh", -100, 500)]
RatePerDay = Annotated[float, Quantity("p/day", 0, 2000)]
Money = Annotated[float, Quantity("£", 0, 1_000_000)]
