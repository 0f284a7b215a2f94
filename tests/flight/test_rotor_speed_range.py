"""Rotor speed range and never-exceed speed against the text of the paragraphs."""

import pytest

from calc.flight.rotor_speed_range import (
    BY_DEMONSTRATION,
    BY_DESIGN,
    BY_MACH,
    EMPTY,
    INSIDE,
    TOO_HIGH,
    TOO_LOW,
    TOO_WIDE,
    never_exceed_speed,
    rotor_speed_range,
    rotor_speed_range_chart,
)
from calc.units import KNOT


def test_margins_of_1509_by_hand() -> None:
    """14 CFR 27.1509 and 29.1509: 95 % of the lesser maximum, 105 % of the greater minimum."""
    found = rotor_speed_range(32.0, 30.0, 20.0, 21.0, 23.0, 28.0)
    assert found.highest_power_off == pytest.approx(28.5)
    assert found.lowest_power_off == pytest.approx(22.05)
    assert found.lowest_power_on == 21.0

    other = rotor_speed_range(30.0, 32.0, 21.0, 20.0, 23.0, 28.0)
    assert other == found


@pytest.mark.parametrize(
    ("lowest", "highest", "verdict"),
    [
        (23.0, 28.0, INSIDE),
        (21.5, 28.0, TOO_LOW),
        (23.0, 29.0, TOO_HIGH),
        (21.5, 29.0, TOO_WIDE),
    ],
)
def test_expected_range_is_held_against_the_limits(
    lowest: float, highest: float, verdict: str
) -> None:
    """Power-off limits of 22.05 and 28.5 rad/s, and an expected range on either side of them."""
    assert rotor_speed_range(32.0, 30.0, 20.0, 21.0, lowest, highest).verdict == verdict


def test_no_range_left_is_said() -> None:
    """Tests that were too narrow leave nothing between the margins."""
    assert rotor_speed_range(22.0, 22.0, 20.0, 20.0, 20.0, 22.0).verdict == EMPTY


def test_expected_range_must_rise() -> None:
    """The lowest above the highest is no range."""
    with pytest.raises(ValueError, match="must not be above the highest"):
        rotor_speed_range(32.0, 30.0, 20.0, 21.0, 28.0, 23.0)


@pytest.mark.parametrize(
    ("speeds", "name"),
    [
        ((100.0, 110.0, 120.0), BY_DESIGN),
        ((110.0, 100.0, 120.0), BY_DEMONSTRATION),
        ((120.0, 110.0, 100.0), BY_MACH),
    ],
)
def test_least_of_three_speeds_sets_never_exceed(
    speeds: tuple[float, float, float], name: str
) -> None:
    """14 CFR 29.1505(a)(2): 0.9 of each, and the least; (c): midway to the climb airspeed."""
    found = never_exceed_speed(*speeds, 40.0)

    assert found.power_on == pytest.approx(90.0)
    assert found.set_by == name
    assert found.power_off == pytest.approx(65.0)


def test_below_forty_knots_is_said() -> None:
    """14 CFR 29.1505(a)(1): not less than 40 kt."""
    slow = never_exceed_speed(KNOT.si(44.0), 100.0, 100.0, 15.0)
    fast = never_exceed_speed(KNOT.si(45.0), 100.0, 100.0, 15.0)

    assert "below 40 kt" in slow.set_by
    assert "below 40 kt" not in fast.set_by


def test_figure_shows_both_ranges() -> None:
    """Bars stand at the limits and at the expected range."""
    found = rotor_speed_range(32.0, 30.0, 20.0, 21.0, 23.0, 28.0)
    limits, expected = rotor_speed_range_chart(23.0, 28.0, found).marks

    heights = [y for _, y in limits.points]  # type: ignore[union-attr]
    assert heights == pytest.approx([22.05, 28.5])
    assert [y for _, y in expected.points] == [23.0, 28.0]  # type: ignore[union-attr]
