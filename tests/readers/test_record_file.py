from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.errors import Fault, NotFound, Unreadable
from hearthbook.readers.record_file import home_from_text, read_home
from hearthbook.readers.yaml_tree import DEEPEST, read_tree

SMALL = (Path(__file__).parent / "small.yaml").read_text(encoding="utf-8")
LINES = SMALL.splitlines()


def _faults(text: str) -> tuple[Fault, ...]:
    try:
        home_from_text(text)
    except Unreadable as refused:
        return refused.faults
    return ()


def test_a_missing_file_is_named(tmp_path: Path) -> None:
    with pytest.raises(NotFound, match=r"There is no file .*nowhere\.yaml; check its name"):
        read_home(tmp_path / "nowhere.yaml")


def test_a_folder_is_no_record(tmp_path: Path) -> None:
    with pytest.raises(Unreadable, match="the file: is a folder; name the record file in it"):
        read_home(tmp_path)


def test_a_byte_order_mark_is_no_fault(tmp_path: Path) -> None:
    path = tmp_path / "home.yaml"
    path.write_text(SMALL, encoding="utf-8-sig")
    assert read_home(path) == home_from_text(SMALL)


def test_other_encodings_are_refused_with_the_line(tmp_path: Path) -> None:
    path = tmp_path / "home.yaml"
    path.write_bytes(SMALL.encode("latin-1"))
    first = next(at for at, line in enumerate(LINES, start=1) if not line.isascii())
    with pytest.raises(Unreadable, match=f"line {first}, the file: is not UTF-8 text from here"):
        read_home(path)
    path.write_text(SMALL, encoding="utf-16")
    with pytest.raises(Unreadable, match="the file: is UTF-16 text; save it as UTF-8"):
        read_home(path)


def test_an_endless_file_is_not_read_to_its_end() -> None:
    with pytest.raises(Unreadable, match="has more than 1,000,000 bytes; a record is far smaller"):
        read_home("/dev/zero")


def test_text_that_looks_like_a_number_is_kept_as_written() -> None:
    unquoted = SMALL.replace('panel_type: "22"', "panel_type: 22")
    unquoted = unquoted.replace("description: monobloc", "description: 007.50")
    home = home_from_text(unquoted)
    assert home.plant.heat_pump.description == "007.50"
    assert home.emitters == home_from_text(SMALL).emitters


def test_windows_line_ends_change_nothing() -> None:
    assert home_from_text(SMALL.replace("\n", "\r\n")) == home_from_text(SMALL)


@given(st.text(max_size=200))
def test_no_text_whatever_breaks_the_reader(text: str) -> None:
    with pytest.raises(Unreadable, match=r"has \d+ fault"):
        home_from_text(text)


@given(
    st.integers(0, len(LINES) - 1),
    st.sampled_from(["", "  ", "- ", "x: ", "[", "}", '"', "&a ", "!!binary ", "? ", "\t", "<<: "]),
    st.booleans(),
)
def test_no_damaged_line_breaks_the_reader(at: int, damage: str, keep: bool) -> None:
    line = f"{damage}{LINES[at].lstrip() if keep else ''}"
    damaged = [*LINES[:at], line, *LINES[at + 1 :]]
    assert all(fault.message.endswith((".", "?")) for fault in _faults("\n".join(damaged)))


@given(st.data())
def test_no_wrong_value_breaks_the_reader(data: st.DataObject) -> None:
    keyed = [at for at, line in enumerate(LINES) if ": " in line and not line.endswith("}")]
    at = data.draw(st.sampled_from(keyed))
    value = data.draw(
        st.sampled_from(["", "[]", "{}", "~", "-1", "1e99", ".nan", "true", "x", "{a: {b: 1}}"])
    )
    changed = [*LINES[:at], f"{LINES[at].split(': ')[0]}: {value}", *LINES[at + 1 :]]
    for fault in _faults("\n".join(changed)):
        assert not any(word in fault.message for word in ("None", "input", "pydantic"))
        assert fault.message.endswith((".", "?"))


def test_a_number_of_many_digits_is_no_trap() -> None:
    with pytest.raises(Unreadable, match="it must be a whole number"):
        home_from_text(SMALL.replace("people: 2", f"people: {'9' * 10_000}"))


def test_nesting_stops_where_it_is_said() -> None:
    depth = DEEPEST - 1
    assert read_tree("a: " + "[" * depth + "]" * depth, "x").value
    with pytest.raises(Unreadable, match=f"is nested deeper than {DEEPEST} levels"):
        read_tree("a: " + "[" * (depth + 2) + "]" * (depth + 2), "x")


def test_lines_are_those_of_the_keys() -> None:
    tree = read_tree("a: 1\n\n# words\nb:\n  - c: 2\n    d: 3\n", "x")
    assert tree.lines["b", 0, "d"] == 6
    assert tree.line(("b", 0, "missing")) == 5
