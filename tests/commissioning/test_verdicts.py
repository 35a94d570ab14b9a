"""The rule that turns a reading into a verdict."""

from hypothesis import given
from hypothesis import strategies as st

from hearthbook.commissioning.verdicts import Band, Verdict, verdict_of

_ORDER = {Verdict.WITHIN: 0, Verdict.LOOK_AGAIN: 1, Verdict.OUTSIDE: 2}
_SOURCE = "common practice, no source"
_value = st.floats(-1e6, 1e6)
_error = st.floats(0, 1e5)


@given(low=_value, width=st.floats(0, 1e5), error=_error, first=_value, further=st.floats(0, 1e5))
def test_the_verdict_never_improves_as_a_reading_moves_away_above(
    low: float, width: float, error: float, first: float, further: float
) -> None:
    band = Band(low, low + width, "W", _SOURCE)
    near = max(first, low)
    worse = _ORDER[verdict_of(near + further, error, band)]
    assert worse >= _ORDER[verdict_of(near, error, band)]


@given(low=_value, width=st.floats(0, 1e5), error=_error, first=_value, further=st.floats(0, 1e5))
def test_the_verdict_never_improves_as_a_reading_moves_away_below(
    low: float, width: float, error: float, first: float, further: float
) -> None:
    band = Band(low, low + width, "W", _SOURCE)
    near = min(first, low + width)
    worse = _ORDER[verdict_of(near - further, error, band)]
    assert worse >= _ORDER[verdict_of(near, error, band)]


@given(value=_value, error=_error, low=_value, width=st.floats(0, 1e5), better=st.floats(0, 1))
def test_a_better_instrument_never_turns_outside_into_look_again(
    value: float, error: float, low: float, width: float, better: float
) -> None:
    band = Band(low, low + width, "W", _SOURCE)
    if verdict_of(value, error, band) is Verdict.OUTSIDE:
        assert verdict_of(value, error * better, band) is Verdict.OUTSIDE


def test_the_edges_of_the_band_are_within_it() -> None:
    band = Band(1.0e5, 1.4e5, "bar", _SOURCE)
    assert verdict_of(1.0e5, 0.0, band) is Verdict.WITHIN
    assert verdict_of(1.4e5, 0.0, band) is Verdict.WITHIN


def test_an_open_band_has_only_one_edge() -> None:
    assert verdict_of(1e9, 0.0, Band(1.0, None, "W", _SOURCE)) is Verdict.WITHIN
    assert verdict_of(0.5, 0.0, Band(1.0, None, "W", _SOURCE)) is Verdict.OUTSIDE


def test_a_band_is_shown_in_trade_units() -> None:
    assert Band(1.0e5, 1.4e5, "bar", _SOURCE, 1).shown() == "1.0\xa0bar to 1.4\xa0bar"
    assert Band(None, 3.0, "K", _SOURCE).shown() == "3.0\xa0K or less"
    assert Band(3.0, None, "K", _SOURCE).shown() == "3.0\xa0K or more"
