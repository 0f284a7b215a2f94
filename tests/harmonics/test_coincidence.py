"""Coincidence against a plain loop over cells, hand-made hit lists and another engine."""

import math
from itertools import combinations, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.harmonics.coincidence import Coincidence, coincidence, coincidence_chart
from calc.harmonics.coincidence_grid import grid_counts
from calc.harmonics.coincidence_map import meeting_counts
from calc.harmonics.meetings import MODES, SOURCES, Mode, Source, meetings
from calc.units import RPM

Grid = list[list[int]]

rpm = RPM.size


def _looped(
    sources: list[Source], modes: list[Mode], rotor: list[float], second: list[float], margin: float
) -> Grid:
    """Return the counts by asking every pair in every cell, from the definition of the margin."""

    def near(first: float, other: float, spread: float) -> bool:
        nearest = min(max(first, other * (1.0 - spread)), other * (1.0 + spread))
        return 2.0 * abs(first - nearest) / (first + nearest) <= margin

    rows = []
    for n in second:
        row = []
        for omega in rotor:
            speeds = {"rotor": omega, "second": n, "none": 0.0}
            heard = [s.frequency or s.multiple * speeds[s.follows] / (2 * math.pi) for s in sources]
            with_modes = sum(near(f, m.frequency, m.uncertainty) for f in heard for m in modes)
            row.append(with_modes + sum(near(a, b, 0.0) for a, b in combinations(heard, 2)))
        rows.append(row)
    return rows


some_source = st.one_of(
    st.builds(Source, st.just("r"), st.just("rotor"), st.integers(1, 12).map(float)),
    st.builds(Source, st.just("p"), st.just("second"), st.integers(1, 6).map(float)),
    st.builds(Source, st.just("e"), st.just("none"), st.just(0.0), st.floats(5.0, 90.0)),
)
some_mode = st.builds(Mode, st.just("m"), st.floats(2.0, 60.0), st.floats(0.0, 0.1))


@settings(max_examples=40, deadline=None)
@given(
    st.lists(some_source, min_size=1, max_size=8),
    st.lists(some_mode, max_size=5),
    st.floats(0.001, 0.3),
)
def test_counts_of_three_ways_agree(
    sources: list[Source], modes: list[Mode], margin: float
) -> None:
    """Ranges by row, numpy by cell and a plain loop over the definition count the same."""
    rotor = [20.0 + 1.037 * i for i in range(20)]
    second = [70.0 + 7.13 * i for i in range(15)]
    met = meetings(sources, modes, margin)
    counts = meeting_counts(met, rotor, second)

    assert counts == grid_counts(met, rotor, second)
    assert counts == _looped(sources, modes, rotor, second, margin)


def test_known_hits() -> None:
    """By hand: 4/rev at 300 rpm is 20 Hz, and a 3-bladed propeller makes 20 Hz at 400 rpm."""
    sources = [Source("4/rev", "rotor", 4.0), Source("passage", "second", 3.0)]
    met = meetings(sources, [Mode("mode", 25.0)], 0.02)
    rotor = [270.0 * rpm, 300.0 * rpm, 330.0 * rpm, 375.0 * rpm]
    second = [360.0 * rpm, 400.0 * rpm, 500.0 * rpm]

    assert meeting_counts(met, rotor, second) == [
        [1, 0, 0, 1],
        [0, 1, 0, 1],
        [1, 1, 1, 3],
    ]


def _one(margin: float, uncertainty: float) -> Coincidence:
    return coincidence(
        (Source("2/rev", "rotor", 2.0),),
        (Mode("the first lateral mode", 12.0, uncertainty),),
        200.0 * rpm,
        500.0 * rpm,
        100.0 * rpm,
        200.0 * rpm,
        300.0 * rpm,
        150.0 * rpm,
        margin,
    )


def test_edges_by_hand() -> None:
    """2/rev meets 12 Hz at 360 rpm; a margin of 5 per cent and 2 per cent of doubt widen it."""
    (band,) = _one(0.05, 0.02).avoid
    ratio = 1.025 / 0.975

    assert RPM.reading(band.inner_low) == pytest.approx(360.0 / ratio)
    assert RPM.reading(band.inner_high) == pytest.approx(360.0 * ratio)
    assert RPM.reading(band.low) == pytest.approx(0.98 * 360.0 / ratio)
    assert RPM.reading(band.high) == pytest.approx(1.02 * 360.0 * ratio)


def test_advice_is_rounded_outward() -> None:
    """Whole rpm in the sentence take in the whole band."""
    (advice,) = _one(0.05, 0.02).advice

    assert advice.sentence == (
        "Rotor speed: avoid 335 to 387 rpm: 2/rev meets the first lateral mode"
    )


def test_bands_and_gaps_fill_the_range() -> None:
    """What is to avoid and what is free follow one another without a hole."""
    found = _example()
    for speed, low, high in (("rotor", 200.0, 400.0), ("second", 800.0, 1800.0)):
        taken = [(band.low, band.high) for band in found.avoid if band.speed == speed]
        gaps = [(gap.low, gap.high) for gap in found.free if gap.speed == speed]
        pieces = sorted(taken + gaps)
        assert pieces[0][0] == pytest.approx(low * rpm)
        assert pieces[-1][1] == pytest.approx(high * rpm)
        assert all(a[1] == b[0] for a, b in pairwise(pieces))


def test_a_free_speed_has_no_hit() -> None:
    """In the middle of a gap nothing meets; in the middle of a band something does."""
    met = meetings(SOURCES.example, MODES.example, 0.05)
    found = _example()

    def hits(speed: str, value: float) -> int:
        rotor, second = (value, 1300.0 * rpm) if speed == "rotor" else (300.0 * rpm, value)
        kind = {"rotor": "rotor", "second": "second"}[speed]
        own = [m for m in met if not m.always and kind in (m.first.follows, m.second.follows)]
        return meeting_counts(own, [rotor], [second])[0][0]

    for free in found.free:
        assert hits(free.speed, (free.low + free.high) / 2.0) == 0
    for avoid in found.avoid:
        assert hits(avoid.speed, (avoid.low + avoid.high) / 2.0) > 0


@given(st.floats(0.0, 0.2), st.floats(0.0, 0.1))
def test_bands_grow_with_margin_and_doubt(margin: float, uncertainty: float) -> None:
    """A wider margin or a less certain mode never frees a speed."""
    (base,) = _one(margin, uncertainty).avoid
    for wider in (_one(margin + 0.05, uncertainty), _one(margin, uncertainty + 0.05)):
        (band,) = wider.avoid
        assert band.low <= base.low
        assert band.high >= base.high


def test_sources_of_one_shaft_are_told_for_every_speed() -> None:
    """Two lines of one speed within the margin cannot be parted by changing it."""
    found = coincidence(
        (Source("tail rotor 1/rev", "rotor", 4.98), Source("main rotor 5/rev", "rotor", 5.0)),
        (),
        200.0 * rpm,
        400.0 * rpm,
        100.0 * rpm,
        200.0 * rpm,
        300.0 * rpm,
        150.0 * rpm,
        0.01,
    )

    assert [advice.sentence for advice in found.advice] == [
        "At every speed: tail rotor 1/rev meets main rotor 5/rev"
    ]
    assert found.avoid == ()


def test_names_change_nothing() -> None:
    """Another name of a source changes the words alone."""
    renamed = tuple(
        Source(f"source {i}", s.follows, s.multiple, s.frequency)
        for i, s in enumerate(SOURCES.example)
    )
    edges = [(band.low, band.high) for band in _example().avoid]

    assert [(band.low, band.high) for band in _example(renamed).avoid] == edges


def _example(sources: tuple[Source, ...] = SOURCES.example) -> Coincidence:
    return coincidence(
        sources,
        MODES.example,
        200.0 * rpm,
        400.0 * rpm,
        800.0 * rpm,
        1800.0 * rpm,
        300.0 * rpm,
        1300.0 * rpm,
    )


def test_chart_names_the_nearest_meetings() -> None:
    """The map says which lines meet near the speeds at work."""
    chart = coincidence_chart(
        SOURCES.example,
        MODES.example,
        200.0 * rpm,
        400.0 * rpm,
        800.0 * rpm,
        1800.0 * rpm,
        300.0 * rpm,
        1300.0 * rpm,
    )

    assert "rotor 4/rev meets first vertical mode" in chart.csv()
    assert "at work" in chart.svg("map")


@pytest.mark.parametrize(
    ("source", "message"),
    [
        (Source("fan", "rotor"), "fan: its multiple, or its own frequency, must be above 0"),
        (Source("fan", "tail", 1.0), "Follows must be one of rotor, second, none"),
        (Source("fan", "rotor", math.nan), "Cycles per revolution must be a finite number"),
    ],
)
def test_impossible_sources_are_named(source: Source, message: str) -> None:
    """A source that stands still is refused by its name."""
    with pytest.raises(ValueError, match=message):
        _example((source,))


def test_range_must_rise() -> None:
    """The highest speed must be above the lowest."""
    with pytest.raises(ValueError, match="Highest less lowest rotor speed must be above 0 rpm"):
        coincidence(SOURCES.example, (), 40.0, 30.0, 1.0, 2.0, 30.0, 1.0)
