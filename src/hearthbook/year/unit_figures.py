"""What the year must know of the unit beside its map: starts, rests, idle power, limits."""

from __future__ import annotations

from hearthbook.documents.figures import KeyFigure, given
from hearthbook.physics.heat_pump import DEFAULT_CYCLING_COEFFICIENT, cycling_factor
from hearthbook.record.home import Home
from hearthbook.record.plant import HeatPump
from hearthbook.year.plant_fields import Fields, reckoned, stands_in

__all__ = ["unit_fields"]

_TEST_RUN = 600.0  # s of a run in the cycle the coefficient is taken to stand for; common practice
_HALF = 0.5  # of the least output, where the cycling coefficient is applied
_LEAST_RUN, _LEAST_REST = 480.0, 360.0  # s; 6 to 10 and 5 to 10 min, common practice, no source
_STANDBY = 12.0  # W, common practice, no source
_CRANKCASE, _CRANKCASE_BELOW = 20.0, 10.0  # W, °C; 0 to 40 W, from memory
_FAN = 60.0  # W, common practice, no source
_QUIET_DECIBELS = 50.0  # dB for each tenfold of a fan's speed, fan laws, from memory
_QUIET = 0.7  # of the output; 0.6 to 0.8 is usual, common practice, no source
_LOWEST, _HIGHEST = -20.0, 55.0  # °C, common practice, no source


def unit_fields(home: Home, least_output: KeyFigure) -> Fields:
    """The plant's fields about the unit, frost apart.

    Args:
        home: of the record.
        least_output: throttled as far as it goes on a mild day.
    """
    unit = home.plant.heat_pump
    return {
        "start_loss": _start_loss(least_output),
        "least_run": stands_in("least_run", "shortest run", _LEAST_RUN, "min", note="6 to 10 min"),
        "least_rest": stands_in(
            "least_rest", "shortest rest between runs", _LEAST_REST, "min", note="5 to 10 min"
        ),
        "standby_power": _recorded(
            unit, "standby_power", "drawn when it does nothing", "W", _STANDBY
        ),
        "crankcase_power": stands_in(
            "crankcase_power", "heat that keeps the compressor's oil warm", _CRANKCASE, "W",
            source="from memory", note="0 to 40 W",
        ),
        "crankcase_below": stands_in(
            "crankcase_below", "outdoor temperature below which the compressor's oil is kept warm",
            _CRANKCASE_BELOW, "°C",
        ),
        "fan_power": _fan(unit),
        "quiet_share": _quiet(unit),
        "lowest_outdoor": _recorded(
            unit, "lowest_outdoor_temperature", "coldest air it runs in", "°C", _LOWEST
        ),
        "highest_flow": _recorded(
            unit, "maximum_flow_temperature", "hottest water it makes", "°C", _HIGHEST
        ),
    }  # fmt: skip


def _start_loss(least: KeyFigure) -> KeyFigure:
    """Heat missing at a start, so that cycling at half the least output costs what EN 14825 says.

    In a run of the test the unit takes the electricity of `least · run`, and gives less by the
    loss: factor = 1 - loss / (least · run).
    """
    run = stands_in("test_run", "run that the cycling coefficient stands for", _TEST_RUN, "min")
    factor = stands_in(
        "cycling_factor", "efficiency left by cycling at half the least output",
        float(cycling_factor(_HALF, DEFAULT_CYCLING_COEFFICIENT)), "",
        source="EN 14825 with a coefficient of 0.9, EU 813/2013 Annex II",
    )  # fmt: skip
    return reckoned(
        "start_loss", "heat missing at each start", (1.0 - factor.value) * least.value * run.value,
        "kWh", formula="(1 - factor) · Φmin · t", inputs=(factor, least, run), source="derived",
        note="standby and crankcase heat are counted apart", decimals=3,
    )  # fmt: skip


def _recorded(unit: HeatPump, field: str, label: str, symbol: str, usual: float) -> KeyFigure:
    place = f"plant.heat_pump.{field}"
    value: float | None = getattr(unit, field)
    if value is not None:
        return given(place, label, value, symbol, place=place)
    return stands_in(field, label, usual, symbol, note=f"not answered: {place}")


def _fan(unit: HeatPump) -> KeyFigure:
    label = "fan and controls beside the efficiencies"
    place = "plant.heat_pump.fan_and_control_included"
    if unit.fan_and_control_included:
        return given("year.plant.fan_power", label, 0.0, "W", place=place)
    return stands_in(
        "fan_power", label, _FAN, "W", note=f"the efficiencies leave them out: {place}"
    )


def _quiet(unit: HeatPump) -> KeyFigure:
    label = "share of the most output left in quiet hours"
    if unit.sound_power is None or unit.sound_power_quiet is None:
        return stands_in("quiet_share", label, _QUIET, "%",
                         note="not answered: plant.heat_pump.sound_power_quiet")  # fmt: skip
    loud, quiet = (
        given(f"plant.heat_pump.{field}", name, value, "dB(A)", place=f"plant.heat_pump.{field}")
        for field, name, value in (
            ("sound_power", "sound power at heating load", unit.sound_power),
            ("sound_power_quiet", "sound power in quiet operation", unit.sound_power_quiet),
        )
    )
    share = min(1.0, 10.0 ** ((quiet.value - loud.value) / _QUIET_DECIBELS))
    return reckoned(
        "quiet_share", label, share, "%", formula="10^((Lquiet - L)/50)", inputs=(loud, quiet),
        source="fan laws: 50 dB for each tenfold of speed, output with speed; from memory",
    )  # fmt: skip
