"""What machines read of a home with faults is JSON through and through."""

from __future__ import annotations

import json

import pytest

from hearthbook.cli import commands
from hearthbook.cli.exits import EXIT_FAULTS
from tests.conftest import EXAMPLES

FAULTY = EXAMPLES / "with_faults" / "home.yaml"


def test_a_design_that_falls_short_is_json(capsys: pytest.CaptureFixture[str]) -> None:
    assert commands.design(FAULTY, as_json=True) == EXIT_FAULTS
    told = json.loads(capsys.readouterr().out)
    assert {"subject", "finding", "advice", "figures"} == set(told["shortfalls"][0])
    named = {name for shortfall in told["shortfalls"] for name in shortfall["figures"]}
    assert named <= set(told["figures"])


def test_verdicts_are_json(capsys: pytest.CaptureFixture[str]) -> None:
    assert commands.commission(FAULTY, as_json=True) == EXIT_FAULTS
    told = json.loads(capsys.readouterr().out)
    assert {one["verdict"] for one in told} <= {"within", "look_again", "outside", "cannot_tell"}
    by_key = {one["key"]: one for one in told}
    precharge = by_key["vessel_precharge"]
    assert precharge["reading_si"] == pytest.approx(0.2e5)  # Pa; 0.2 bar stand in the record
    assert precharge["reading_shown"] == "0.20\N{NO-BREAK SPACE}bar"
    assert precharge["target_shown"].endswith("bar")
    assert precharge["target_si"] > precharge["reading_si"]
    looked_at = by_key["filter_clean"]
    assert looked_at["reading_si"] is looked_at["target_shown"] is None
