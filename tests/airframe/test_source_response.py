"""Source response against scipy's search and the response of a mode."""

import math

import pytest
from scipy.optimize import minimize_scalar

from calc.airframe.single_mode import mode_response
from calc.airframe.source_response import source_response, source_response_chart
from calc.units import RPM

rpm = RPM.size


@pytest.mark.parametrize("growth", ["square", "constant"])
@pytest.mark.parametrize("damping", [0.005, 0.05, 0.3])
def test_largest_response_by_search(growth: str, damping: float) -> None:
    """Scipy finds the same speed and size of the largest response."""

    def acceleration(speed: float) -> float:
        force = 500.0 * ((speed / 27.0) ** 2 if growth == "square" else 1.0)
        forcing = 4.0 * speed / (2.0 * math.pi)
        return mode_response(force, 800.0, 12.5, damping, forcing).acceleration

    found = source_response(4.0, 500.0, 27.0, 800.0, 12.5, damping, 10.0, 24.0, growth)
    near = 12.5 * 2.0 * math.pi / 4.0
    search = minimize_scalar(
        lambda speed: -acceleration(speed),
        bounds=(near * 0.9, 24.0 if damping > 0.1 else near * 1.2),
        method="bounded",
        options={"xatol": 1e-9},
    )

    assert found.worst_acceleration == pytest.approx(-search.fun, rel=1e-6)
    assert found.worst_speed == pytest.approx(search.x, rel=1e-4)


def test_critical_speed_by_hand() -> None:
    """4/rev meets 12.5 Hz at 187.5 rpm."""
    found = source_response(4.0, 500.0, 258.0 * rpm, 800.0, 12.5, 0.02, 150.0 * rpm, 290.0 * rpm)

    assert RPM.reading(found.critical_speed) == pytest.approx(187.5)
    assert found.worst_speed == pytest.approx(found.critical_speed, rel=1e-2)


def test_worst_speed_stays_in_the_range() -> None:
    """A range that ends below the meeting has its largest response at its end."""
    found = source_response(4.0, 500.0, 258.0 * rpm, 800.0, 12.5, 0.02, 100.0 * rpm, 170.0 * rpm)

    assert found.worst_speed == pytest.approx(170.0 * rpm)


def test_chart_names_the_harmonic() -> None:
    """The figure says which harmonic it is of."""
    chart = source_response_chart(
        4.0, 500.0, 258.0 * rpm, 800.0, 12.5, 0.02, 150.0 * rpm, 290.0 * rpm
    )

    assert "4/rev" in chart.svg("response")


def test_range_must_rise() -> None:
    """The highest speed must be above the lowest."""
    with pytest.raises(ValueError, match="Highest less lowest rotor speed must be above 0 rpm"):
        source_response(4.0, 1.0, 20.0, 1.0, 12.5, 0.02, 20.0, 20.0)
