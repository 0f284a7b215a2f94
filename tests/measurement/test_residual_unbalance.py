"""Residual unbalance: units of the trade, a mass on a circle, and errors put into a correction.

Source:
    A trade magazine's article on balancing standards, whose author was not recorded, read on
    2026-11-26, prints the grade in US units: U = 6.015 G W / N, in oz in, mm/s, lb and rpm.
"""

import cmath
import math

import pytest

from calc.measurement.correction import single_plane_correction
from calc.measurement.residual_unbalance import (
    expected_residual,
    expected_residual_chart,
    permissible,
    permissible_unbalance,
    unbalance_force,
)
from calc.units import OUNCE_INCH, POUND, RPM


def test_factor_of_us_units() -> None:
    """6.015 ounce inches for 1 mm/s, 1 lb and 1 rpm, to the last printed digit."""
    found = permissible_unbalance(POUND.si(1.0), RPM.si(1.0), 0.001)

    assert OUNCE_INCH.reading(found) == pytest.approx(6.015, abs=5e-4)


def test_grade_is_the_speed_of_the_centre_of_mass() -> None:
    """The centre of mass on its circle, timed over one turn, moves at the grade."""
    found = permissible(38.0, 120.0, 0.0063)
    turn = 2.0 * math.pi / 120.0

    assert 2.0 * math.pi * found.eccentricity / turn == pytest.approx(0.0063, rel=1e-12)
    assert found.unbalance == pytest.approx(38.0 * found.eccentricity, rel=1e-12)


def test_force_by_the_change_of_momentum() -> None:
    """The velocity of a weight on a circle turns; its change over a short time is the force."""
    mass, radius, speed, step = 0.05, 0.18, 120.0, 1e-6

    def velocity(time: float) -> complex:
        return 1j * radius * speed * cmath.exp(1j * speed * time)

    force = mass * abs(velocity(step) - velocity(-step)) / (2.0 * step)
    assert unbalance_force(mass, radius, speed) == pytest.approx(force, rel=1e-7)


@pytest.mark.parametrize(("error", "degrees"), [(0.1, 10.0), (-0.3, 25.0), (0.0, -60.0)])
def test_errors_put_into_a_correction(error: float, degrees: float) -> None:
    """The weight of a wrong effect, put on the true rotor, leaves what the formula says."""
    before, used, trial = 5.0 + 2.0j, 0.2 + 0.1j, 3.0 - 1.0j
    true = used * (1.0 + error) * cmath.exp(1j * math.radians(degrees))
    weight = single_plane_correction(before, before + used * trial, trial)
    left = abs(before + true * weight) / abs(before)

    assert expected_residual(error, math.radians(degrees)) == pytest.approx(left, rel=1e-12)


def test_sixty_degrees_leave_as_much_as_there_was() -> None:
    """An equilateral triangle; half a turn doubles the reading."""
    assert expected_residual(0.0, math.radians(60.0)) == pytest.approx(1.0, rel=1e-12)
    assert expected_residual(0.0, math.pi) == pytest.approx(2.0, rel=1e-12)
    assert expected_residual(0.0, 0.0) == 0.0


def test_figure_has_the_error_given_on_its_line() -> None:
    """The point lies where the formula puts it."""
    turn = math.radians(10.0)
    line, _, here, _ = expected_residual_chart(0.1, turn).marks

    assert here.points == [(turn, pytest.approx(expected_residual(0.1, turn)))]  # type: ignore[union-attr]
    assert dict(line.points)[turn] == pytest.approx(expected_residual(0.1, turn))  # type: ignore[union-attr]
