"""The physics made callable from compiled loops: the same functions, not copies of them.

Inputs are checked once, before a loop; inside it `check_between` does nothing.
"""

from __future__ import annotations

import hashlib
import os
from pathlib import Path
from typing import Any

import numba
from numba import njit
from numba.extending import overload, register_jitable

from hearthbook import errors
from hearthbook.physics import (
    cylinder_layers,
    emitter_step,
    frost_growth,
    heat_pump,
    room_nodes,
    water_loop,
)

__all__ = ["FORMULAS", "compiled"]


def _keep_compiled_code() -> bool:
    """Keep machine code between runs, in a folder named by the text it was made from.

    Numba's own check looks at one file only, and would run yesterday's physics from today's loop.

    Returns:
        Whether there is a folder to keep it in; without one it is made anew in every run.
    """
    if os.environ.get("NUMBA_CACHE_DIR"):
        return True
    package = Path(errors.__file__).parent
    digest = hashlib.sha256()
    for folder in ("kernel", "physics"):
        for file in sorted((package / folder).glob("*.py")):
            digest.update(file.read_bytes())
    base = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache")
    folder_of_text = base / "hearthbook" / digest.hexdigest()[:16]
    try:
        folder_of_text.mkdir(parents=True, exist_ok=True)
    except OSError:
        return False
    setattr(numba.config, "CACHE_DIR", str(folder_of_text))  # noqa: B010 -- made at run time there
    return os.access(folder_of_text, os.W_OK)


_make: Any = njit  # the option that leaves out the counting of references is not in its types
compiled = _make(
    cache=_keep_compiled_code(),
    _nrt=False,  # no memory is taken inside, so there is nothing to count: half the time
    nogil=True,
    fastmath={"nsz", "arcp", "contract", "afn", "reassoc"},
    error_model="numpy",
)
"""Compiles a loop; nan and infinity keep their meaning, so that a check after it can see them."""

FORMULAS = (
    *(
        getattr(module, name)
        for module in (cylinder_layers, emitter_step, frost_growth, room_nodes, water_loop)
        for name in module.__all__
        if name not in {"EmitterFit", "emitter_fit"}
    ),
    heat_pump.carnot_efficiency,
    heat_pump.working_efficiency,
)
"""Every function of physics that a loop may call."""

for _formula in FORMULAS:
    register_jitable(_formula)


@overload(errors.check_between)
def _unchecked(name, value, low, high, unit):  # type: ignore[no-untyped-def]  # noqa: ARG001
    return lambda name, value, low, high, unit: None  # noqa: ARG005
