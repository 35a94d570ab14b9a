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
    verdicts = {one["verdict"] for one in json.loads(capsys.readouterr().out)}
    assert verdicts <= {"within", "look_again", "outside", "cannot_tell"}
