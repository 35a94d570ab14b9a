from __future__ import annotations

import pytest

from hearthbook.design.results import Design, design_home
from hearthbook.record.home import Home


@pytest.fixture(scope="session")
def well_done(well_done_home: Home) -> Design:
    return design_home(well_done_home)


@pytest.fixture(scope="session")
def faulty(faulty_home: Home) -> Design:
    return design_home(faulty_home)
