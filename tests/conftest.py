"""What every test may ask for: the two demo homes, and one way of making random ones."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, settings

from hearthbook.actions.kept_years import PackYears, name_of, read_kept
from hearthbook.readers.record_file import read_home
from hearthbook.record.home import Home

EXAMPLES = Path(__file__).parents[1] / "examples"
KEPT_YEARS = Path(__file__).parent / "kept_years"
"""The demo homes' simulated years as they once were, so that no test waits for two hundred years.

They are made anew by `HEARTHBOOK_RENEW_YEARS=1 ./run test -k kept_years`.
"""

# A landing need not wait minutes for the smallest failing home.
_PHASES = tuple(phase for phase in Phase if phase is not Phase.shrink or "CI" not in os.environ)
settings.register_profile(
    "here",
    deadline=None,
    derandomize="CI" in os.environ,  # a landing is judged on the same examples each time
    max_examples=50,
    phases=_PHASES,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.register_profile("long", settings.get_profile("here"), max_examples=1000)
settings.load_profile(os.environ.get("HEARTHBOOK_PROPERTIES", "here"))


@pytest.fixture(scope="session")
def well_done_home() -> Home:
    return read_home(EXAMPLES / "well_done" / "home.yaml")


@pytest.fixture(scope="session")
def faulty_home() -> Home:
    return read_home(EXAMPLES / "with_faults" / "home.yaml")


@pytest.fixture(scope="session")
def demo_years() -> dict[str, PackYears]:
    """The simulated years of both demo homes, as kept with the tests."""
    years = {name: read_kept(KEPT_YEARS / f"{name}.json") for name in ("well_done", "with_faults")}
    assert None not in years.values()
    return {name: PackYears(numbers) for name, numbers in years.items()}


@pytest.fixture(scope="session")
def kept_cache(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A user's cache that holds the years of both demo homes; for XDG_CACHE_HOME."""
    cache = tmp_path_factory.mktemp("cache")
    folder = cache / "hearthbook" / "years"
    folder.mkdir(parents=True)
    for name in ("well_done", "with_faults"):
        home = read_home(EXAMPLES / name / "home.yaml")
        content = (KEPT_YEARS / f"{name}.json").read_bytes()
        (folder / name_of(home)).write_bytes(content)
    return cache


@pytest.fixture(scope="session")
def made_packs(
    tmp_path_factory: pytest.TempPathFactory, demo_years: dict[str, PackYears]
) -> dict[str, Path]:
    """The folders of both demo homes' packs, made as the command makes them."""
    from hearthbook.actions.judging import commission
    from hearthbook.actions.packs import make_pack

    folder = tmp_path_factory.mktemp("packs")
    for name in ("well_done", "with_faults"):
        record = EXAMPLES / name / "home.yaml"
        make_pack(record, folder / name, commission(record), years=demo_years[name])
    return {name: folder / name for name in ("well_done", "with_faults")}
