"""Every thing judged has its words, and every word is of a thing judged."""

from __future__ import annotations

import ast
import re
import tomllib
from pathlib import Path
from typing import Any

import pytest

import hearthbook.commissioning
from hearthbook.commissioning.wording import has_words, is_safety, words
from hearthbook.design.results import Design
from hearthbook.errors import NotFound
from hearthbook.record.commissioning import CheckKind, ReadingKind
from tests.commissioning.changing import judged

_FOLDER = Path(hearthbook.commissioning.__path__[0])
_TABLE: dict[str, dict[str, Any]] = tomllib.loads(
    (_FOLDER / "words" / "en-GB.toml").read_text(encoding="utf-8")
)
_KEYS = sorted(set(_TABLE) - {"general"})
_LOOKED_AT = {str(kind) for kind in CheckKind}
# Decided or looked at, without being one of the record's checks.
_YES_OR_NO = _LOOKED_AT | {
    "backup_heater",
    "cylinder_record",
    "drain_in_zone",
    "drinking_water_expansion",
    "drinking_water_valve",
    "electrical_certificate_number",
    "hygiene_decision",
    "hygiene_fits_household",
    "meter_baseline",
    "network_notice",
    "open_item",
    "openings_in_zone",
    "safety_valve",
    "scald_protection",
    "thermostat_room",
}
# Readings that serve another judgement, or are kept for later years, with what they serve.
NOT_JUDGED_BY_THEMSELVES = {
    ReadingKind.FLOW_TEMPERATURE: "flow_return_difference",
    ReadingKind.RETURN_TEMPERATURE: "flow_return_difference",
    ReadingKind.HEAT_OUTPUT: "heat_balance",
    ReadingKind.REHEAT_START_TEMPERATURE: "reheat_time",
    ReadingKind.REHEAT_END_FLOW_TEMPERATURE: "end_approach",
    ReadingKind.EMITTER_FLOW_TEMPERATURE: "emitter_drop",
    ReadingKind.EMITTER_RETURN_TEMPERATURE: "emitter_drop",
    ReadingKind.PRESSURE_TEST_END: "pressure_test",
    ReadingKind.ZERO_OFFSET: "sensor_zero",
    ReadingKind.METER: "meter_baseline",
    ReadingKind.SOUND_PRESSURE: "sound_measured",
}


def _subjects_in_code() -> set[str]:
    """The keys given as text to a Subject anywhere in the chapter."""
    found = set()
    for path in _FOLDER.glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            match node:
                case ast.Call(func=ast.Name(id="Subject"), args=[ast.Constant(value=key), *_]):
                    found.add(str(key))
    return found


def test_every_table_of_words_is_of_a_thing_judged_and_every_thing_judged_has_one() -> None:
    by_kind = {"hardness", "conductivity", "acidity"}
    assert _subjects_in_code() | _LOOKED_AT | by_kind == set(_KEYS)


@pytest.mark.parametrize("key", _KEYS)
def test_a_thing_judged_has_the_words_of_its_sort_and_no_others(key: str) -> None:
    wanted = {"yes", "no", "next_no"} if key in _YES_OR_NO else {"next_low", "next_high"}
    if key == "open_item":  # it is open or it is not there
        wanted -= {"yes"}
    own_versions = set(_TABLE["general"])  # of texts that hold for everything else
    assert set(_TABLE[key]) - own_versions - {"safety"} == wanted | {"label"}


@pytest.mark.parametrize("key", _KEYS)
def test_the_words_are_sentences_and_name_only_known_figures(key: str) -> None:
    known = {"name"} if key not in _YES_OR_NO else {"name", "note", "who", "decision"}
    known |= {"hottest", "limit", "setting", "reading"} if key in _YES_OR_NO else set()
    for name, text in _TABLE[key].items():
        if name == "safety":
            continue
        assert set(re.findall(r"{(\w+)}", text)) <= known
        ends = text.endswith((".", "{note}")) if name != "label" else text[-1:] not in ".:"
        assert ends or text == "", (name, text)


def test_a_step_is_given_on_every_side_that_can_be_missed(well_done: Design) -> None:
    """An empty step stands only where the band has no such side."""
    for key, found in judged(well_done).items():
        bare = key.partition(".")[0]
        if found.band is None:
            continue
        assert bool(words(bare, "next_low")) or found.band.low is None, key
        assert bool(words(bare, "next_high")) or found.band.high is None, key


def test_the_words_in_general_are_all_used() -> None:
    code = "".join(path.read_text(encoding="utf-8") for path in _FOLDER.glob("*.py"))
    composed = {f"next_{why}" for why in ("missing", "unsteady", "no_target")}
    named = set(re.findall(r'"(\w+)"', code)) | composed | {"within", "look_again", "outside"}
    assert set(_TABLE["general"]) <= named


@pytest.mark.parametrize("kind", ReadingKind)
def test_every_kind_of_reading_is_judged_or_known_to_serve_another(kind: ReadingKind) -> None:
    served = NOT_JUDGED_BY_THEMSELVES.get(kind)
    assert has_words(kind, "label") == (served is None or kind is ReadingKind.PRESSURE_TEST)
    assert served is None or has_words(served, "label")


def test_a_missing_language_or_text_is_named() -> None:
    with pytest.raises(NotFound, match="language 'xx'"):
        words("flow_rate", "label", language="xx")
    with pytest.raises(NotFound, match="no text 'nonsense' for 'flow_rate'"):
        words("flow_rate", "nonsense")
    assert not is_safety("flow_rate")
