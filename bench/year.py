"""How fast a home's year is, beside the same sums done in other ways, as ratios within one run.

Times are the processor's, the fastest of several, so that a busy machine changes them little. A
stretch that was not run for a whole year is scaled up and marked so. Run by `./run bench`.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parent.parent
sys.path.insert(0, str(ROOT))

from bench.year_by_solver import by_solver, first_days  # noqa: E402 - after the path above
from bench.year_in_c import build, run_in_c  # noqa: E402 - likewise
from bench.year_in_numpy import by_numpy  # noqa: E402 - likewise
from hearthbook.design.results import Design, design_home  # noqa: E402 - likewise
from hearthbook.readers.record_file import read_home  # noqa: E402 - likewise
from hearthbook.simulate.batch import Variant, run_batch  # noqa: E402 - likewise
from hearthbook.simulate.drivers import Drivers  # noqa: E402 - likewise
from hearthbook.simulate.home_model import HomeModel  # noqa: E402 - likewise
from hearthbook.simulate.run import STEP, Run, run_year, start_state  # noqa: E402 - likewise
from hearthbook.year.model import year_model  # noqa: E402 - likewise
from hearthbook.year.ranges import year_ranges  # noqa: E402 - likewise
from hearthbook.year.schedules import build_drivers  # noqa: E402 - likewise
from hearthbook.year.weather_of_home import weather_of_home  # noqa: E402 - likewise

HOME = ROOT / "examples" / "well_done" / "home.yaml"
DRAWS = 200
SIDE_BY_SIDE = 64
NUMPY_DAYS = 4
SOLVER_HOURS = 6


@dataclass(frozen=True)
class Row:
    """One way of running a year: what it is, seconds for a home and year, what to know of it."""

    name: str
    seconds: float
    note: str = ""


@dataclass(frozen=True)
class Ready:
    """The home that all ways run."""

    design: Design
    model: HomeModel
    drivers: Drivers


def _ready() -> Ready:
    design = design_home(read_home(HOME))
    model = year_model(design).home
    return Ready(design, model, build_drivers(design, weather_of_home(design.home), model.glazing))


def _fastest(job: Callable[[], object], runs: int) -> float:
    """Seconds of the processor; the first run, not counted, brings code and memory in."""
    times = []
    for _ in range(runs + 1):
        begun = time.process_time()
        job()
        times.append(time.process_time() - begun)
    return min(times[1:])


def _loop(home: Ready) -> tuple[Row, Run]:
    start = start_state(home.model)
    run = run_year(home.model, home.drivers, start=start)
    seconds = _fastest(lambda: run_year(home.model, home.drivers, start=start), 5)
    steps = (home.drivers.slots.size - 1) * 15
    rooms = len(home.model.room_ids)
    note = f"{rooms} rooms; {seconds / steps * 1e9:.0f} ns a minute"
    return Row("this loop, one home", seconds, note), run


def _in_c(home: Ready, run: Run, scratch: Path) -> list[Row]:
    built = build(scratch)
    if built is None:
        sys.stdout.write("There is no gcc here: the row of C is left out.\n")
        return []
    library, compiling = built
    start = start_state(home.model)
    days, _ = run_in_c(library, home.model, home.drivers, start)
    differ = float(days["heat_emitted"].sum()) / run.total("heat_emitted") - 1.0
    if abs(differ) > 1e-3:
        raise SystemExit(f"C and the loop differ by {differ:.2%} of the year's heat")
    seconds = _fastest(lambda: run_in_c(library, home.model, home.drivers, start), 5)
    note = f"gcc -O3 -march=native, built in {compiling:.1f} s; heat differs by {differ:+.1e}"
    return [Row("the same loop in C", seconds, note)]


def _in_numpy(home: Ready) -> Row:
    start, drivers = start_state(home.model), first_days(home.drivers, NUMPY_DAYS)
    heat, seconds = by_numpy(home.model, drivers, start)
    differ = heat / run_year(home.model, drivers, start=start).total("heat_emitted") - 1.0
    note = f"{NUMPY_DAYS} days run, scaled up; heat differs by {differ:+.1e}"
    return Row("the same loop in plain NumPy", seconds * 365 / NUMPY_DAYS, note)


def _by_solver(home: Ready) -> Row:
    found = by_solver(home.model, home.drivers, SOLVER_HOURS)
    note = (
        f"{SOLVER_HOURS} hours run, scaled up; switches frozen; errs by {found.error * 1e3:.1f} mK "
        f"where the loop errs by {found.loop_error * 1e3:.1f} mK"
    )
    return Row("scipy's solve_ivp, LSODA", found.seconds * 8760 / SOLVER_HOURS, note)


def _side_by_side(home: Ready) -> Row:
    variants = [Variant(home.model, home.drivers)] * SIDE_BY_SIDE
    seconds = _fastest(lambda: run_batch(variants, threads=1), 1) / SIDE_BY_SIDE
    return Row("homes side by side", seconds, f"{SIDE_BY_SIDE} homes on one core, for each")


def _ranges(home: Ready) -> tuple[float, float]:
    """Seconds by the clock and of the processor for a home's ranges, its code being there."""
    weathers = [weather_of_home(home.design.home, seed=seed) for seed in (1, 2, 3)]
    year_ranges(home.design, weathers, draws=4)
    begun, used = time.perf_counter(), time.process_time()
    year_ranges(home.design, weathers, draws=DRAWS)
    return time.perf_counter() - begun, time.process_time() - used


def _first_run(what: str) -> tuple[float, float]:
    """Seconds by the clock and of the processor until a fresh process has run a day.

    It compiles, or reads what was kept.
    """
    home = _ready()
    drivers = first_days(home.drivers, 1)
    begun, used = time.perf_counter(), time.process_time()
    if what == "one":
        run_year(home.model, drivers)
    else:
        run_batch([Variant(home.model, drivers)])
    return time.perf_counter() - begun, time.process_time() - used


def _start(what: str, scratch: Path) -> tuple[float, float]:
    environment = {**os.environ, "XDG_CACHE_HOME": str(scratch)}
    environment.pop("NUMBA_CACHE_DIR", None)
    answer = subprocess.run(
        [sys.executable, __file__, what], env=environment, stdout=subprocess.PIPE, check=True,
        text=True,
    )  # fmt: skip
    clock, used = answer.stdout.split()
    return float(clock), float(used)


def main() -> None:
    """Measure and print."""
    home = _ready()
    with tempfile.TemporaryDirectory() as folder:
        scratch = Path(folder)
        starts = {
            f"{kept}, {words}": _start(what, scratch / "kept")
            for what, words in (("one", "one home"), ("many", "homes side by side"))
            for kept in ("compiled anew", "compiled code kept")
        }
        row, run = _loop(home)
        rows = [row, *_in_c(home, run, scratch), _side_by_side(home), _in_numpy(home),
                _by_solver(home)]  # fmt: skip
    clock, used = _ranges(home)
    lines = [f"\n{'a home and year in steps of ' + format(STEP, '.0f') + ' s':<34}"
             f"{'seconds':>11}{'ratio':>9}"]  # fmt: skip
    lines += [
        f"{one.name:<34}{one.seconds:>11.4g}{one.seconds / row.seconds:>9.3g}  {one.note}"
        for one in rows
    ]
    lines += ["", f"{'the first run in a fresh process':<42}{'by the clock':>13}{'processor':>11}"]
    lines += [f"{name:<42}{one[0]:>13.2f}{one[1]:>11.2f}" for name, one in starts.items()]
    lines += ["", f"{DRAWS} years of a home drawn at random: {clock:.1f} s by the clock, "
                  f"{used:.1f} s of the processor"]  # fmt: skip
    sys.stdout.write("\n".join(lines) + "\n")


if __name__ == "__main__":
    if len(sys.argv) > 1:
        sys.stdout.write("{} {}\n".format(*_first_run(sys.argv[1])))
    else:
        main()
