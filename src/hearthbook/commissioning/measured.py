"""Readings taken out of the record, as figures with their instrument's error."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from hearthbook.documents.figures import Basis, KeyFigure, Working
from hearthbook.record.commissioning import Commissioning, Instrument, Reading, ReadingKind
from hearthbook.units import from_trade

__all__ = ["USUAL_ERROR", "Measured", "measured", "measured_all"]

# Error taken where the record names no instrument, in the reading's own unit.
# common practice, no source: what a careful tradesman's instrument of each kind does.
USUAL_ERROR: dict[ReadingKind, float] = {
    ReadingKind.FLOW_RATE: 1.0,
    ReadingKind.HEAT_OUTPUT: 0.5,
    ReadingKind.REHEAT_TIME: 2.0,
    ReadingKind.HARDNESS: 20.0,
    ReadingKind.CONDUCTIVITY: 20.0,
    ReadingKind.ACIDITY: 0.2,
    ReadingKind.GLYCOL_SHARE: 2.0,
    ReadingKind.METER: 0.0,
    ReadingKind.FILL_VOLUME: 5.0,
    ReadingKind.SOUND_PRESSURE: 1.5,
    ReadingKind.COLD_PRESSURE: 0.1,
    ReadingKind.HOT_PRESSURE: 0.1,
    ReadingKind.VESSEL_PRECHARGE: 0.1,
    ReadingKind.PRESSURE_TEST: 0.1,
    ReadingKind.PRESSURE_TEST_END: 0.1,
    ReadingKind.ZERO_OFFSET: 0.2,
}
_USUAL_TEMPERATURE_ERROR = 1.0  # K; common practice, no source


@dataclass(frozen=True)
class Measured:
    """A reading as a figure.

    Attributes:
        figure: the value in SI with the instrument's error as its uncertainty.
        reading: the reading as recorded.
        is_calibrated: False where the instrument's calibration had run out.
    """

    figure: KeyFigure
    reading: Reading
    is_calibrated: bool

    @property
    def value(self) -> float:
        """The value in SI."""
        return self.figure.value

    @property
    def error(self) -> float:
        """The instrument's largest error, in SI."""
        return self.figure.uncertainty or 0.0


def _instrument(commissioning: Commissioning, reading: Reading) -> Instrument | None:
    return next((i for i in commissioning.instruments if i.id == reading.instrument), None)


def _error(reading: Reading, instrument: Instrument | None) -> float:
    if instrument is None:
        return USUAL_ERROR.get(reading.kind, _USUAL_TEMPERATURE_ERROR)
    if instrument.accuracy_is_percent:
        return abs(reading.value) * instrument.accuracy / 100
    return instrument.accuracy


def _day(commissioning: Commissioning, reading: Reading) -> dt.date:
    return reading.at.date() if reading.at is not None else commissioning.date


def _source(reading: Reading, instrument: Instrument | None) -> str:
    if instrument is None:
        return "reading; instrument not recorded, usual error assumed (common practice, no source)"
    unit = "%" if instrument.accuracy_is_percent else reading.unit
    return f"reading with {instrument.name} (± {instrument.accuracy:g} {unit})".replace(" )", ")")


def _as_measured(commissioning: Commissioning, reading: Reading) -> Measured:
    instrument = _instrument(commissioning, reading)
    name = ".".join(part for part in ("readings", str(reading.kind), reading.of or "") if part)
    figure = KeyFigure(
        name=name,
        label=str(reading.kind).replace("_", " "),
        value=reading.in_si,
        unit=reading.unit,
        basis=Basis.MEASURED,
        working=Working(source=_source(reading, instrument), note=reading.note),
        uncertainty=from_trade(_error(reading, instrument), reading.unit),
    )
    until = instrument.calibrated_until if instrument is not None else None
    is_calibrated = until is None or until >= _day(commissioning, reading)
    return Measured(figure, reading, is_calibrated)


def measured_all(
    commissioning: Commissioning | None, kind: ReadingKind, of: str | None = None
) -> tuple[Measured, ...]:
    """Every reading of a kind, of one part where it is named, in the record's order."""
    if commissioning is None:
        return ()
    return tuple(
        _as_measured(commissioning, reading)
        for reading in commissioning.readings
        if reading.kind == kind and (of is None or reading.of == of)
    )


def measured(
    commissioning: Commissioning | None, kind: ReadingKind, of: str | None = None
) -> Measured | None:
    """The last reading of a kind; None where there is none."""
    found = measured_all(commissioning, kind, of)
    return found[-1] if found else None
