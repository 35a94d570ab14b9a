"""The loop of a year in C, compiled here and run on the same arrays: how fast it could be."""

from __future__ import annotations

import ctypes
import shutil
import subprocess
import time
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from hearthbook.kernel.packing import EMITTER, LINK, ROOM, maps, records
from hearthbook.kernel.parameters import DRIVER, PLANT
from hearthbook.kernel.state import BIN_COUNT, PLANT_STATE, ROOM_FIGURES, TOTALS
from hearthbook.simulate.drivers import Drivers
from hearthbook.simulate.home_model import HomeModel
from hearthbook.simulate.run import State

__all__ = ["build", "run_in_c"]

_SOURCE = Path(__file__).with_name("year.c")
_STRUCTURES = {
    "Room": ROOM, "Link": LINK, "Emitter": EMITTER, "Plant": PLANT, "Driver": DRIVER,
    "State": PLANT_STATE, "Totals": TOTALS, "RoomFigures": ROOM_FIGURES,
}  # fmt: skip
# What the compiled loop of Python may do with sums, C may too
_FREEDOMS = ("-fno-math-errno", "-fno-signed-zeros", "-fno-trapping-math", "-fassociative-math",
             "-freciprocal-math", "-ffp-contract=fast")  # fmt: skip


def build(folder: Path) -> tuple[Any, float] | None:
    """The loop as a library, and the seconds its compiler took; None without a compiler.

    Args:
        folder: to work in.
    """
    compiler = shutil.which("gcc")
    if compiler is None:
        return None
    lines = ["#include <stdint.h>"]
    for name, layout in _STRUCTURES.items():
        fields = "".join(
            f" {'int64_t' if layout[field].kind == 'i' else 'double'} {field};"
            for field in layout.names or ()
        )
        lines.append(f"typedef struct {{{fields} }} {name};")
    (folder / "fields.h").write_text("\n".join(lines) + "\n", encoding="utf-8")
    library = folder / "year.so"
    start = time.perf_counter()
    subprocess.run(
        [compiler, "-O3", "-march=native", *_FREEDOMS, "-shared", "-fPIC", f"-I{folder}",
         str(_SOURCE), "-lm", "-o", str(library)],
        check=True,
    )  # fmt: skip
    return ctypes.CDLL(str(library)), time.perf_counter() - start


def run_in_c(
    library: Any, model: HomeModel, drivers: Drivers, start: State, step: float = 60.0
) -> tuple[NDArray[Any], float]:
    """Sums by day, as `Run.days`, and the seconds the loop alone took."""
    rooms, emitters, links = records(model.rooms), records(model.emitters), records(model.links)
    state = start.copy()
    days = np.zeros(int(drivers.slots["day"].max()) + 1, TOTALS)
    figures = np.zeros(rooms.size, ROOM_FIGURES)
    figures["coldest"], figures["warmest"] = np.inf, -np.inf
    told = np.ascontiguousarray(np.stack([drivers.solar, drivers.gains, drivers.wanted]))
    arrays = (
        rooms, links, emitters, maps(model.performance), model.plant,
        np.ascontiguousarray(drivers.slots), told, np.ascontiguousarray(drivers.draws),
        state.rooms, state.emitters, state.plant, state.layers, days, np.zeros(BIN_COUNT, TOTALS),
        figures,
    )  # fmt: skip
    counts = (rooms.size, emitters.size, links.size, drivers.slots.size - 1)
    arguments = (
        *(ctypes.c_int64(count) for count in counts),
        *(ctypes.c_void_p(array.ctypes.data) for array in arrays),
        ctypes.c_double(step),
    )
    begun = time.perf_counter()
    library.run_home(*arguments)
    return days, time.perf_counter() - begun
