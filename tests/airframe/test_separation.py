"""Separation of a forcing line and a mode: worked by hand, and a search of the peak."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import minimize_scalar

from calc.airframe.airframe_mode import AirframeMode
from calc.airframe.separation import peak_magnification, separation, separation_chart
from calc.airframe.single_mode import amplification
from calc.units import RPM


def test_a_line_two_per_cent_off_by_hand() -> None:
    """5/rev at 120 rpm is 10 Hz; on 9.8 Hz with 3 per cent, D is 13.55 of 16.67.

    By hand: r = 1.0204, 1 - r² = -0.04123, 2 zeta r = 0.06122, D = 1/sqrt(0.001700 + 0.003748);
    the peak is 1/(0.06 sqrt(0.9991)).
    """
    found = separation(5.0, RPM.si(120.0), AirframeMode(1.0, 9.8, 0.03))

    assert found.frequency == pytest.approx(10.0)
    assert found.separation == pytest.approx(0.0204, abs=0.5e-4)
    assert found.magnification == pytest.approx(13.55, abs=0.005)
    assert found.peak == pytest.approx(16.67, abs=0.005)
    assert found.fraction_of_peak == pytest.approx(0.8125, abs=0.5e-3)
    assert RPM.reading(found.crossing_speed) == pytest.approx(117.6)
    assert found.answer == "5/rev at 10.00 Hz is 2.0 % above the mode: 81 % of the resonant peak"


def test_a_line_below_and_a_line_on_the_mode_are_said_so() -> None:
    """The sentence gives the side; a line that meets the mode is on it."""
    mode = AirframeMode(1.0, 12.0, 0.02)

    assert "is 16.7 % below the mode" in separation(1.0, 2.0 * math.pi * 10.0, mode).answer
    assert "is 25.0 % above the mode" in separation(3.0, 2.0 * math.pi * 5.0, mode).answer
    assert "is on the mode: 100 %" in separation(2.0, 2.0 * math.pi * 6.0, mode).answer


@pytest.mark.parametrize("damping", [0.01, 0.1, 0.3, 0.6])
def test_peak_by_search(damping: float) -> None:
    """The largest magnification is the one scipy finds, a little below the natural frequency."""
    peak = minimize_scalar(lambda r: -amplification(r, damping), bounds=(0.2, 1.2))

    assert peak_magnification(damping) == pytest.approx(-peak.fun)
    assert peak.x == pytest.approx(math.sqrt(1.0 - 2.0 * damping**2), abs=1e-4)


def test_strong_damping_has_no_peak() -> None:
    """From a damping ratio of 0.707 on, the static response is the largest."""
    assert peak_magnification(0.8) == 1.0
    assert peak_magnification(math.sqrt(0.5)) == pytest.approx(1.0)
    assert max(amplification(0.01 * n, 0.8) for n in range(300)) == 1.0


@given(st.floats(0.5, 20.0), st.floats(1.0, 60.0), st.floats(2.0, 50.0), st.floats(0.001, 0.99))
def test_no_line_exceeds_the_peak(order: float, speed: float, own: float, damping: float) -> None:
    """The fraction is never above one, and at the crossing speed the separation is zero."""
    mode = AirframeMode(1.0, own, damping)
    found = separation(order, speed, mode)

    assert found.fraction_of_peak <= 1.0 + 1e-12
    assert separation(order, found.crossing_speed, mode).separation == pytest.approx(0.0, abs=1e-12)


def test_chart_marks_line_and_mode() -> None:
    """The figure has its peak at the mode, and the line where the answer has it."""
    mode = AirframeMode(1.0, 22.6, 0.02)
    chart = separation_chart(4.0, RPM.si(360.0), mode)
    line = separation(4.0, RPM.si(360.0), mode)

    curve, _, point = chart.marks
    assert max(curve.points, key=lambda p: p[1])[0] == pytest.approx(22.6, rel=1e-3)  # type: ignore[union-attr] # the curve
    assert point.points == [(line.frequency, line.fraction_of_peak)]  # type: ignore[union-attr] # the line
    assert "4/rev" in chart.svg("line")


def test_a_mode_without_damping_is_refused() -> None:
    """Its peak would be infinite."""
    with pytest.raises(ValueError, match="Damping ratio must be above 0"):
        separation(1.0, 1.0, AirframeMode(1.0, 1.0, 0.0))
