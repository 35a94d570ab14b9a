"""Whether the year's loop has been compiled on this machine before."""

from __future__ import annotations

from pathlib import Path

__all__ = ["is_prepared"]


def is_prepared() -> bool:
    """Whether machine code for the loop over one home is kept from an earlier run.

    Assumes:
        The compiler names what it keeps after module and function.
    """
    import numba

    from hearthbook.kernel import home_year  # noqa: F401 - its import says where code is kept

    folder = str(numba.config.CACHE_DIR)  # type: ignore[attr-defined] # made at run time there
    return bool(folder) and any(Path(folder).rglob("home_year.run_home-*.nbc"))
