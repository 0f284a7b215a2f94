"""Mode survey: every landing-gear state with every state of the dampers, swept."""

import math
from dataclasses import replace

import pytest

from calc.ground.measured_modes import growth_rate, measured_modes, unstable_bands
from calc.ground.search.mode_survey import MEASURED_MODES, MeasuredMode, SpeedRange
from calc.units import RPM
from tests.ground.benchmark import floquet_on_modes
from tests.ground.example import ROTOR
from tests.ground.surveyed import SPEEDS, TIED, without_state


def test_rows_are_the_sweeps_of_their_cases() -> None:
    """Each case alone, by the functions of one sweep: bands and growth rate."""
    found = measured_modes(ROTOR, TIED, SPEEDS, 0.5)
    modes = without_state(TIED)
    shares = (1.0, 0.5, 0.0, math.inf)

    assert len(found.cases) == len(shares)
    for row, share in zip(found.cases, shares, strict=True):
        dampings = (share * 2000.0, 2000.0, 2000.0, 2000.0)
        growth = growth_rate(ROTOR, modes, row.worst_speed, dampings)
        assert row.growth_rate == pytest.approx(growth, abs=2e-6)
        omega = 2.0 * math.pi * row.frequency
        assert row.damping_ratio == pytest.approx(-growth / math.hypot(growth, omega), rel=1e-4)
        bands = unstable_bands(ROTOR, modes, dampings, SPEEDS.lowest_speed, SPEEDS.highest_speed)
        assert (row.lower_speed, row.upper_speed) == pytest.approx(bands[-1], rel=1e-5)
        assert row.verdict == "unstable"
    assert found.worst_case == "tied down, one damper out"


def test_every_band_is_said_and_where_the_sweep_cuts_one_off() -> None:
    """Two bands of a sweep are both in words, rounded outward; shorter sweeps end within one."""
    full = tuple(mode for mode in MEASURED_MODES.example if mode.state == "full weight")
    dampings = (0.0, 2000.0, 2000.0, 2000.0)
    first, second = unstable_bands(
        ROTOR, without_state(full), dampings, SPEEDS.lowest_speed, SPEEDS.highest_speed
    )

    def said(low: float, high: float) -> list[str]:
        speeds = SpeedRange(low, high, high, high)
        row = measured_modes(ROTOR, full, speeds, 0.5).cases[2]
        assert row.dampers == "one damper out"
        return row.bands.split("; ")

    low, high = (RPM.reading(speed) for speed in second)
    whole = said(SPEEDS.lowest_speed, SPEEDS.highest_speed)
    numbers = [[int(word) for word in text.split() if word.isdigit()] for text in whole]
    assert len(whole) == 2
    for (lower, upper), (exact_low, exact_high) in zip(numbers, (first, second), strict=True):
        assert 0.0 <= RPM.reading(exact_low) - lower < 1.0
        assert 0.0 <= upper - RPM.reading(exact_high) < 1.0
    middle = RPM.si(0.5 * (low + high))
    assert said(SPEEDS.lowest_speed, middle)[-1] == f"{numbers[1][0]} rpm to end of the sweep"
    assert said(middle, SPEEDS.highest_speed) == [f"start of the sweep to {numbers[1][1]} rpm"]


def test_a_sweep_holds_the_operating_range() -> None:
    """A margin to a band that the sweep cuts off short of operation would be a false one."""
    with pytest.raises(ValueError, match="highest rotor speed must not be below the operating"):
        SpeedRange(10.0, 45.0, 40.0, 50.0)
    with pytest.raises(ValueError, match="lowest rotor speed must not be above the operating"):
        SpeedRange(42.0, 60.0, 40.0, 50.0)


def test_margin_is_the_way_from_the_operating_range() -> None:
    """A band below is measured from the lower end, one above from the upper, one inside is none."""
    speeds = SpeedRange(10.0, 60.0, 40.0, 50.0)

    assert speeds.margin((20.0, 30.0)) == pytest.approx(0.25)
    assert speeds.margin((55.0, 58.0)) == pytest.approx(0.1)
    assert speeds.margin((30.0, 41.0)) == 0.0
    assert speeds.margin((42.0, 45.0)) == 0.0


def test_a_stable_case_has_no_band_and_says_where_it_is_least_damped() -> None:
    """A well damped hub: stable with every damper, and no numbers where there is no band."""
    modes = (
        MeasuredMode("full weight", 2.25, 0.3, 3000.0, 1.0, 0.0),
        MeasuredMode("full weight", 3.40, 0.3, 1400.0, 0.0, 1.0),
    )
    found = measured_modes(ROTOR, modes, SPEEDS, 0.9)

    assert (
        found.verdict.startswith("Unstable in 0 of 1 landing-gear states")
        or "Stable" in found.verdict
    )
    whole = found.cases[0]
    assert whole.verdict.startswith("stable")
    assert (whole.lower_speed, whole.upper_speed, whole.margin) == (None, None, None)
    assert whole.damping_ratio > 0.0


def test_a_stable_case_with_hardly_any_damping_is_called_lightly_damped() -> None:
    """One damper at half, by integrating single blades: it decays, by less than one per cent."""
    full = tuple(mode for mode in MEASURED_MODES.example if mode.state == "full weight")
    found = measured_modes(ROTOR, full, SPEEDS, 0.5)
    whole, half = found.cases[:2]
    lag = ROTOR.lag_damping
    for row, damping, light in ((whole, lag, False), (half, 0.5 * lag, True)):
        growth = floquet_on_modes(
            ROTOR, without_state(full), row.worst_speed, (damping, lag, lag, lag)
        )[0]
        assert growth < 0.0
        assert (-growth / (2.0 * math.pi * row.frequency) < 0.01) == light
    assert whole.verdict == "stable"
    assert half.verdict == "stable, lightly damped: below 1% of critical"
    assert found.verdict.endswith("; of the stable cases 1 lightly damped")


def test_a_state_with_lift_is_swept_where_the_rotor_can_carry_it() -> None:
    """Half of the weight at 340 rpm takes 240 rpm: nothing is said of lower speeds."""
    light = tuple(replace(mode, lift_share=0.5) for mode in TIED)
    lowest = RPM.si(340.0) * math.sqrt(0.5)
    found = measured_modes(ROTOR, light, SPEEDS, 0.5)

    assert all(case.worst_speed >= lowest for case in found.cases)
    assert SPEEDS.from_lift(0.5) == pytest.approx(lowest)
    assert replace(SPEEDS, thrust_ratio=2.0).from_lift(0.5) == pytest.approx(0.5 * RPM.si(340.0))
    still = SpeedRange(*(RPM.si(340.0),) * 4)
    with pytest.raises(ValueError, match="highest rotor speed must be above"):
        measured_modes(ROTOR, TIED, still, 0.5)


def test_more_states_than_can_be_swept_are_refused() -> None:
    """Nine states are one too many."""
    modes = tuple(replace(TIED[0], state=f"state {number}") for number in range(9))
    with pytest.raises(ValueError, match="at most 8 states"):
        measured_modes(ROTOR, modes, SPEEDS, 0.5)
