"""Weather files written for tests, of an invented place, in each of the formats that are read."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta

from hearthbook.simulate.monthly_normals import Normals
from hearthbook.simulate.weather import Weather
from hearthbook.simulate.weather_generator import generate

__all__ = ["YEAR", "as_epw", "as_plain", "as_pvgis_hourly", "as_pvgis_typical"]

MONTHS = (4.0, 4.2, 5.9, 8.1, 11.2, 13.9, 15.8, 15.6, 13.3, 10.0, 6.7, 4.4)
YEAR: Weather = generate(Normals(MONTHS), 52.0, 1.0, 60.0, seed=1)


def _hours(weather: Weather) -> Iterator[tuple[datetime, tuple[float, ...]]]:
    """Each hour's local beginning, and its values with relative humidity in percent."""
    for hour in range(weather.hours):
        yield (
            datetime(2001, 1, 1) + timedelta(hours=hour),  # noqa: DTZ001 - local standard time
            (
                weather.outdoor_temperature[hour],
                100.0 * weather.relative_humidity[hour],
                weather.wind_speed[hour],
                weather.global_horizontal[hour],
                weather.diffuse_horizontal[hour],
                weather.direct_normal[hour],
            ),
        )


def as_plain(weather: Weather = YEAR) -> list[str]:
    """Lines of our own CSV; the hours begin on line 6."""
    return [
        f"# latitude: {weather.latitude}",
        f"# longitude: {weather.longitude}",
        f"# altitude: {weather.altitude}",
        f"# utc_offset: {weather.utc_offset}",
        "time,outdoor_temperature,relative_humidity,wind_speed,"
        "global_horizontal,diffuse_horizontal,direct_normal",
        *(
            f"{time:%Y-%m-%d %H:%M}," + ",".join(f"{value:.2f}" for value in values)
            for time, values in _hours(weather)
        ),
    ]


def as_epw(weather: Weather = YEAR) -> list[str]:
    """Lines of an .epw file; the hours begin on line 9."""
    lines = [
        f"LOCATION,Mosswick,-,-,invented,0,{weather.latitude},{weather.longitude},"
        f"{weather.utc_offset},{weather.altitude}",
        "DESIGN CONDITIONS,0",
        "TYPICAL/EXTREME PERIODS,0",
        "GROUND TEMPERATURES,0",
        "HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0",
        "COMMENTS 1,invented",
        "COMMENTS 2,invented",
        "DATA PERIODS,1,1,Data,Monday,1/1,12/31",
    ]
    for time, values in _hours(weather):
        cells = ["0"] * 35
        cells[:5] = [str(time.year), str(time.month), str(time.day), str(time.hour + 1), "60"]
        for index, value in zip((6, 8, 21, 13, 15, 14), values, strict=True):
            cells[index] = f"{value:.2f}"
        lines.append(",".join(cells))
    return lines


def _pvgis_head(weather: Weather) -> list[str]:
    return [
        f"Latitude (decimal degrees): {weather.latitude:.3f}",
        f"Longitude (decimal degrees): {weather.longitude:.3f}",
        f"Elevation (m): {weather.altitude:.1f}",
    ]


def as_pvgis_typical(weather: Weather = YEAR) -> list[str]:
    """Lines of a PVGIS typical year, its months from several years; hours begin on line 19."""
    years = [2005 + month % 9 for month in range(12)]
    lines = [
        *_pvgis_head(weather),
        "Irradiance Time Offset (h): 0.1761",
        "month,year",
        *(f"{month + 1},{year}" for month, year in enumerate(years)),
        "time(UTC),T2m,RH,G(h),Gb(n),Gd(h),IR(h),WS10m,WD10m,SP",
    ]
    for time, (air, damp, wind, level, diffuse, direct) in _hours(weather):
        stamp = f"{years[time.month - 1]}{time:%m%d:%H%M}"
        lines.append(
            f"{stamp},{air:.2f},{damp:.2f},{level:.2f},{direct:.2f},{diffuse:.2f},"
            f"300.0,{wind:.2f},200,100000"
        )
    return [*lines, "", "T2m: 2-m air temperature (degree Celsius)", "RH: relative humidity (%)"]


def as_pvgis_hourly(weather: Weather = YEAR) -> list[str]:
    """Lines of a PVGIS hourly series on the level, in parts; hours begin on line 10."""
    lines = [
        *_pvgis_head(weather),
        "Radiation database: invented",
        "",
        "",
        "Slope: 0 deg. ",
        "Azimuth: 0 deg. ",
        "time,Gb(i),Gd(i),Gr(i),H_sun,T2m,WS10m,Int",
    ]
    for time, (air, _, wind, level, diffuse, _) in _hours(weather):
        lines.append(
            f"{time:%Y%m%d:%H}10,{level - diffuse:.2f},{diffuse:.2f},0.0,0.0,"
            f"{air:.2f},{wind:.2f},0.0"
        )
    return [*lines, "", "Gb(i): Beam (direct) irradiance on the inclined plane (W/m2)"]
