"""Avoid bands and closest lines against hand-made lists, limits and properties."""

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.chart import Cells
from calc.form.calculation import calculate
from calc.harmonics.coincidence import Coincidence, coincidence, coincidence_chart
from calc.harmonics.coincidence_map import meeting_counts
from calc.harmonics.hub_filter import hub_harmonics
from calc.harmonics.meetings import Mode, Source, meetings
from calc.harmonics.operating_speeds import OperatingSpeeds
from calc.harmonics.speed_bands import inward, outward
from calc.units import RPM
from tests.form.scripts import entries_of_link

rpm = RPM.size


ONE_SPEED = OperatingSpeeds(200.0 * rpm, 500.0 * rpm, 300.0 * rpm)
TWO_SPEEDS = OperatingSpeeds(
    200.0 * rpm,
    400.0 * rpm,
    300.0 * rpm,
    second_low=800.0 * rpm,
    second_high=1800.0 * rpm,
    second_speed=1300.0 * rpm,
)
LINES = (
    Source("rotor 1/rev", "rotor", 1.0),
    Source("rotor 4/rev", "rotor", 4.0),
    Source("propeller 1/rev", "second", 1.0),
    Source("propeller 3/rev", "second", 3.0),
    Source("engine", "none", 0.0, 83.3),
)
STRUCTURE = (
    Mode("first lateral mode", 6.1, 0.02),
    Mode("first vertical mode", 18.4, 0.02),
    Mode("tail boom mode", 26.5, 0.03),
)
"""Lines and modes that show every kind of crossing."""


def in_rpm(speed: float | None) -> float:
    """Return an end that was found."""
    assert speed is not None
    return RPM.reading(speed)


def _one(margin: float, uncertainty: float, highest: float = 500.0) -> Coincidence:
    return coincidence(
        (Source("2/rev", "rotor", 2.0),),
        (Mode("the first lateral mode", 12.0, uncertainty),),
        replace(ONE_SPEED, rotor_high=highest * rpm),
        margin,
    )


def test_edges_by_hand() -> None:
    """2/rev meets 12 Hz at 360 rpm; a margin of 5 per cent and 2 per cent of doubt widen it."""
    (band,) = _one(0.05, 0.02).avoid
    ratio = 1.025 / 0.975

    assert in_rpm(band.inner_low) == pytest.approx(360.0 / ratio)
    assert in_rpm(band.inner_high) == pytest.approx(360.0 * ratio)
    assert in_rpm(band.low) == pytest.approx(0.98 * 360.0 / ratio)
    assert in_rpm(band.high) == pytest.approx(1.02 * 360.0 * ratio)


def test_words_never_overlap() -> None:
    """Whole rpm take in the whole band to avoid, and free ranges keep clear of it on both sides.

    By hand: 335.4 to 386.1 rpm are to avoid.
    """
    assert [advice.sentence for advice in _one(0.05, 0.02).advice] == [
        "Rotor speed: avoid 335 to 387 rpm: 2/rev crosses the first lateral mode",
        "Rotor speed: free 200 to 334 rpm",
        "Rotor speed: free 388 to 500 rpm",
    ]


@pytest.mark.parametrize(
    ("low", "high", "band", "beyond"),
    [
        (350.0, 500.0, "the start of the search to 387 rpm", "the start of the search"),
        (200.0, 380.0, "335 rpm to the end of the search", "the end of the search"),
        (
            *(350.0, 380.0, "the start of the search to the end of the search"),
            "the start of the search and the end of the search",
        ),
    ],
)
def test_end_of_the_search_is_no_end_of_a_band(
    low: float, high: float, band: str, beyond: str
) -> None:
    """Of the band from 335.4 to 386.1 rpm, by hand, a search shows what lies in it and no more."""
    mode = Mode("the first lateral mode", 12.0, 0.02)
    speeds = OperatingSpeeds(low * rpm, high * rpm, 360.0 * rpm)
    found = coincidence((Source("2/rev", "rotor", 2.0),), (mode,), speeds, 0.05)
    (row,) = found.avoid
    (sentence,) = (one.sentence for one in found.advice if "avoid" in one.sentence)

    assert sentence == f"Rotor speed: avoid {band}: 2/rev crosses the first lateral mode"
    assert row.beyond == beyond
    assert (row.low is None, row.high is None) == (low > 335.4, high < 386.1)


@given(st.floats(100.0, 300.0), st.floats(0.0, 50.0), st.floats(0.0, 50.0))
def test_rounding_is_on_the_safe_side(low: float, width: float, gap: float) -> None:
    """What is written to avoid contains the band, and no whole rpm stands in both lists."""
    high, free_to = low + width, low + width + gap
    avoid = outward(low * rpm, high * rpm)
    free = inward(high * rpm, free_to * rpm, (0.0, free_to * rpm))

    assert avoid[0] <= low + 1e-5
    assert avoid[1] >= high - 1e-5
    if free:
        assert free[0] > avoid[1]
        assert free[1] <= free_to + 1e-5


def test_bands_and_gaps_fill_the_range() -> None:
    """What is to avoid and what is free follow one another without a hole."""
    found = _example()
    for speed, low, high in (("rotor", 200.0, 400.0), ("second", 800.0, 1800.0)):
        taken = [
            (band.low or low * rpm, band.high or high * rpm)
            for band in found.avoid
            if band.speed == speed
        ]
        gaps = [(gap.low, gap.high) for gap in found.free if gap.speed == speed]
        pieces = sorted(taken + gaps)
        assert pieces[0][0] == pytest.approx(low * rpm)
        assert pieces[-1][1] == pytest.approx(high * rpm)
        assert all(a[1] == b[0] for a, b in pairwise(pieces))


def test_a_free_speed_has_no_hit() -> None:
    """In the middle of a gap nothing meets; in the middle of a band something does."""
    met = meetings(LINES, STRUCTURE, 0.05)
    found = _example()

    def hits(speed: str, value: float) -> int:
        rotor, second = (value, 1300.0 * rpm) if speed == "rotor" else (300.0 * rpm, value)
        own = [m for m in met if not m.always and speed in (m.first.follows, m.second.follows)]
        return meeting_counts(own, [rotor], [second])[0][0]

    for free in found.free:
        assert hits(free.speed, (free.low + free.high) / 2.0) == 0
    ends = {"rotor": (200.0 * rpm, 400.0 * rpm), "second": (800.0 * rpm, 1800.0 * rpm)}
    for avoid in found.avoid:
        start, end = ends[avoid.speed]
        assert hits(avoid.speed, ((avoid.low or start) + (avoid.high or end)) / 2.0) > 0


@given(st.floats(0.0, 0.2), st.floats(0.0, 0.1))
def test_bands_grow_with_margin_and_doubt(margin: float, uncertainty: float) -> None:
    """A wider margin or a less certain mode never frees a speed."""
    (base,) = _one(margin, uncertainty, 600.0).avoid
    for wider in (_one(margin + 0.05, uncertainty, 600.0), _one(margin, uncertainty + 0.05, 600.0)):
        (band,) = wider.avoid
        assert in_rpm(band.low) <= in_rpm(base.low)
        assert in_rpm(band.high) >= in_rpm(base.high)


def test_orders_of_one_shaft_are_reported_once() -> None:
    """Two orders of one shaft within the margin are reported for all speeds, with their distance.

    By hand: 0.02 over the mean of 4.98 and 5 is 0.40 per cent.
    """
    found = coincidence(
        (Source("tail rotor 1/rev", "rotor", 4.98), Source("main rotor 5/rev", "rotor", 5.0)),
        (),
        TWO_SPEEDS,
        0.01,
    )

    assert [advice.sentence for advice in found.advice] == [
        "Rotor speed: free 200 to 400 rpm",
        "At every speed: tail rotor 1/rev coincides with main rotor 5/rev, 0.4 % apart",
    ]
    assert found.avoid == ()
    assert found.closest_pairs == ()


def test_one_speed_needs_no_other() -> None:
    """Orders of the rotor alone leave the propeller out of words, rows and figure."""
    found = _one(0.05, 0.02)
    chart = coincidence_chart(
        (Source("2/rev", "rotor", 2.0),),
        (Mode("the first lateral mode", 12.0),),
        ONE_SPEED,
        meetings([Source("2/rev", "rotor", 2.0)], [Mode("the first lateral mode", 12.0)], 0.05),
    )

    assert {band.speed for band in found.avoid} == {"rotor"}
    assert {band.speed for band in found.free} == {"rotor"}
    assert not any("Propeller" in advice.sentence for advice in found.advice)
    assert "Propeller" not in chart.csv()
    assert "avoid" in chart.csv()


def test_how_far_by_hand() -> None:
    """Common practice, no source: 5/rev at 125 rpm, 10.42 Hz, is 2.1 per cent above 10.2 Hz."""
    found = coincidence(
        (Source("5/rev", "rotor", 5.0),),
        (Mode("first vertical mode", 10.2, 0.0, 0.03),),
        OperatingSpeeds(90.0 * rpm, 140.0 * rpm, 125.0 * rpm),
    )
    (row,) = found.closest_modes

    assert row.words == "5/rev, 10.42 Hz, is 2.1 % above first vertical mode, 10.20 Hz"
    assert row.amplification == pytest.approx(13.37, abs=0.005)
    assert row.fraction == pytest.approx(0.80, abs=0.005)
    assert found.verdict == (
        "at the operating speeds alone, without a range about them, there are coincidences: "
        "1 within the margin of a mode"
    )


def test_range_of_speed_is_evaluated() -> None:
    """At 300 rpm 2/rev is 10 Hz and 17 per cent below 12 Hz; from 270 to 360 rpm it crosses it."""
    sources, modes = (Source("2/rev", "rotor", 2.0),), (Mode("mode", 12.0),)
    point = coincidence(sources, modes, OperatingSpeeds(200.0 * rpm, 500.0 * rpm, 300.0 * rpm))
    ranged = coincidence(
        sources, modes, OperatingSpeeds(200.0 * rpm, 500.0 * rpm, 300.0 * rpm, 0.1, 0.2)
    )

    assert point.closest_modes[0].least_separation == pytest.approx(2.0 / 11.0)
    assert "nothing lies within the margin" in point.verdict
    assert ranged.closest_modes[0].least_separation == 0.0
    assert ranged.verdict == (
        "over the operating ranges there are coincidences: 1 within the margin of a mode"
    )
    assert [(b.low, b.high) for b in ranged.avoid] == [(b.low, b.high) for b in point.avoid]


def test_wedge_is_taken_over_the_range_of_the_other_speed() -> None:
    """1/rev of a propeller at 1200 rpm down 10 per cent meets 4/rev of the rotor from 270 rpm.

    By hand: 4 Omega = n, so 270 to 300 rpm, and 1000 to 1100 rpm of the propeller while the rotor
    has 250 rpm and up to 10 per cent more, widened by the ratio of a margin of 4 per cent.
    """
    found = coincidence(
        (Source("rotor 4/rev", "rotor", 4.0), Source("propeller 1/rev", "second", 1.0)),
        (),
        OperatingSpeeds(
            200.0 * rpm,
            400.0 * rpm,
            250.0 * rpm,
            rotor_above=0.1,
            second_speed=1200.0 * rpm,
            second_below=0.1,
        ),
        0.04,
    )
    of_rotor, of_propeller = found.avoid
    ratio = 1.02 / 0.98

    assert in_rpm(of_rotor.low) == pytest.approx(270.0 / ratio)
    assert in_rpm(of_rotor.high) == pytest.approx(300.0 * ratio)
    assert in_rpm(of_propeller.low) == pytest.approx(1000.0 / ratio)
    assert in_rpm(of_propeller.high) == pytest.approx(1100.0 * ratio)
    met = "rotor 4/rev coincides with propeller 1/rev (with the"
    assert of_rotor.reasons == f"{met} propeller at 1080 to 1200 rpm)"
    assert of_propeller.reasons == f"{met} rotor at 250 to 275 rpm)"
    sentences = " ".join(advice.sentence for advice in found.advice)
    assert of_rotor.reasons in sentences
    assert of_propeller.reasons in sentences
    assert "Rotor speed: free 200 to 258 rpm (with the propeller at 1080 to 1200 rpm)" in sentences


def test_what_the_margin_leaves_by_hand() -> None:
    """A margin of 5 per cent with 3 per cent damping leaves 9.01 of 16.67 below the mode.

    By hand: r = 0.975 / 1.025, (1 - r^2)^2 = 0.009061 and (0.06 r)^2 = 0.003257.
    """
    (row,) = _one(0.05, 0.0).at_the_margin
    ratio = 0.975 / 1.025

    assert row.amplification == pytest.approx(
        1.0 / math.hypot(1.0 - ratio**2, 0.06 * ratio), rel=1e-9
    )
    assert row.amplification == pytest.approx(9.01, abs=0.005)
    assert row.fraction == pytest.approx(0.54, abs=0.005)


def test_old_links_keep_their_answer() -> None:
    """A link of the first release, which knew no ranges, has the edges it had: 345.5, 351.4 ..."""
    fragment = (
        "#coincidence.sources=2/rev,rotor,2_/rev,0_Hz&coincidence.modes=mode,12_Hz,0.02,0.03"
        "&coincidence.rotor_low=200_rpm&coincidence.rotor_high=500_rpm"
        "&coincidence.second_low=100_rpm&coincidence.second_high=200_rpm"
        "&coincidence.rotor_speed=300_rpm&coincidence.second_speed=150_rpm&coincidence.margin=0.05"
    )
    name = "harmonics.coincidence.coincidence"
    found = calculate(name, entries_of_link(name, fragment))

    assert found.problems == ()
    (band,) = found.result.avoid
    assert in_rpm(band.low) == pytest.approx(0.98 * 360.0 * 0.975 / 1.025)
    assert in_rpm(band.high) == pytest.approx(1.02 * 360.0 * 1.025 / 0.975)


def test_names_change_nothing() -> None:
    """Another name of a source changes the words alone."""
    renamed = tuple(
        Source(f"source {i}", s.follows, s.multiple, s.frequency) for i, s in enumerate(LINES)
    )
    edges = [(band.low, band.high) for band in _example().avoid]

    assert [(band.low, band.high) for band in _example(renamed).avoid] == edges


def _example(sources: tuple[Source, ...] = LINES) -> Coincidence:
    return coincidence(sources, STRUCTURE, TWO_SPEEDS)


def test_chart_names_the_nearest_coincidences_and_covers_the_map() -> None:
    """The map says what is near the operating speeds, and its cells reach both ends of both axes.

    With a margin of one everything is within it, and the cells are one rectangle.
    """
    given_lists = LINES, STRUCTURE, TWO_SPEEDS
    chart = coincidence_chart(*given_lists, meetings(LINES, STRUCTURE, 0.05))
    full = coincidence_chart(*given_lists, meetings(LINES, STRUCTURE, 1.0))
    cells = next(mark for mark in full.marks if isinstance(mark, Cells))

    assert "rotor 4/rev crosses first vertical mode" in chart.csv()
    assert "operating speeds" in chart.svg("map")
    assert [round(edge / rpm, 9) for edge in (cells.x_edges[0], cells.x_edges[-1])] == [200, 400]
    assert [round(edge / rpm, 9) for edge in (cells.y_edges[0], cells.y_edges[-1])] == [800, 1800]
    assert len(cells.x_edges) == len(cells.rows[0]) + 1 == len(cells.rows) + 1


def test_operating_range_is_framed() -> None:
    """The map frames the ranges, where there are any."""
    ranged = OperatingSpeeds(200.0 * rpm, 400.0 * rpm, 300.0 * rpm, 0.1, 0.05)
    met = meetings(LINES, STRUCTURE, 0.05)
    plain = coincidence_chart(LINES, STRUCTURE, TWO_SPEEDS, met)
    framed = coincidence_chart(LINES, STRUCTURE, ranged, met)

    assert "operating ranges" not in plain.csv()
    assert "operating ranges" in framed.csv()


@pytest.mark.parametrize(
    ("source", "message"),
    [
        (Source("fan", "rotor", 0.0, 62.5), "fan: it needs an order of its shaft above 0"),
        (Source("fan", "none", 2.0), "fan: it needs a fixed frequency above 0"),
        (Source("fan", "tail", 1.0), "Shaft must be one of rotor, second, none"),
        (Source("fan", "rotor", math.nan), "Order must be a finite number"),
    ],
)
def test_impossible_sources_are_named(source: Source, message: str) -> None:
    """A source that stands still is refused by its name."""
    with pytest.raises(ValueError, match=message):
        _example((source,))


def test_range_must_rise() -> None:
    """The highest speed must be above the lowest."""
    with pytest.raises(ValueError, match="Highest less lowest rotor speed must be above 0 rpm"):
        OperatingSpeeds(40.0, 30.0, 30.0)
    with pytest.raises(ValueError, match="Highest less lowest propeller speed must be above 0"):
        OperatingSpeeds(20.0, 30.0, 30.0, second_low=200.0, second_high=100.0)


def test_orders_that_equal_blades_cancel_are_named_for_it() -> None:
    """Four blades transmit 4/rev and 8/rev, and 6/rev cancels, as the hub filter says.

    Imbalance makes 1/rev, and a tail rotor at 5.1/rev is no load of the blades: neither is marked.
    The bands stay as they are, those of the propeller are not asked, and nought asks nothing.
    """
    lines = (
        *LINES,
        *(Source(f"rotor {order}/rev", "rotor", float(order)) for order in (6, 8)),
        Source("tail rotor 1/rev", "rotor", 5.1),
    )
    plain, asked = (coincidence(lines, STRUCTURE, TWO_SPEEDS, blades=n) for n in (0, 4))
    mark = " (cancels at the hub if the blades are equal)"
    transmitted = {load.multiple for n in range(12) for load in hub_harmonics(4, n)} | {1.0, 5.1}

    for line in lines:
        cancelled = line.follows == "rotor" and line.multiple not in transmitted
        rows = [row.words for row in asked.closest_modes if row.words.startswith(line.name)]
        assert all((mark in words.partition(",")[0]) == cancelled for words in rows)
    assert any(mark in row.words for row in asked.closest_modes)
    for before, after in zip(plain.avoid, asked.avoid, strict=True):
        assert (before.low, before.high) == (after.low, after.high)
        assert before.reasons == after.reasons.replace(mark, "")
    assert any(row.words.startswith("tail rotor 1/rev,") for row in asked.closest_modes)
    assert f"rotor 6/rev{mark} crosses" in " ".join(band.reasons for band in asked.avoid)
    assert mark not in str(plain)


def test_a_verdict_counts_what_cancels_at_the_hub() -> None:
    """2/rev of four blades on a mode: within the margin, and cancelled if the blades are equal."""
    speeds = OperatingSpeeds(RPM.si(200.0), RPM.si(400.0), RPM.si(300.0))
    near = (Source("2/rev", "rotor", 2.0),), (Mode("mode", 10.0),), speeds

    assert coincidence(*near, blades=4).verdict.endswith(
        "1 within the margin of a mode; 1 of an order that cancels at the hub if the blades "
        "are equal"
    )
    assert "hub" not in coincidence(*near, blades=2).verdict
