"""Source response against scipy's search and the response of a mode."""

import pytest
from scipy.optimize import minimize_scalar

from calc.airframe.airframe_mode import AirframeMode
from calc.airframe.single_mode import mode_response
from calc.airframe.source_response import (
    RotorHarmonic,
    SourceResponse,
    source_response,
    source_response_chart,
)
from calc.chart import Chart
from calc.form.calculation import calculate, start
from calc.units import RPM

NAME = "airframe.source_response.source_response"
rpm = RPM.size


def _found(
    lowest: float, highest: float, damping: float = 0.02, growth: str = "square"
) -> SourceResponse:
    """Return the response of a mode at 12.5 Hz to 4/rev between two rotor speeds in rpm."""
    harmonic = RotorHarmonic(4.0, 500.0, 258.0 * rpm, growth)
    return source_response(
        harmonic, AirframeMode(800.0, 12.5, damping), lowest * rpm, highest * rpm
    )


@pytest.mark.parametrize("growth", ["square", "constant"])
@pytest.mark.parametrize("damping", [0.005, 0.05, 0.12, 0.2, 0.6, 0.8])
def test_largest_response_by_search(growth: str, damping: float) -> None:
    """Scipy's search of a fine grid finds the same rotor speed and size of the largest response."""

    def acceleration(speed: float) -> float:
        force = 500.0 * ((speed / 258.0) ** 2 if growth == "square" else 1.0)
        mode = AirframeMode(800.0, 12.5, damping)
        return mode_response(force, mode, 4.0 * speed / 60.0).acceleration

    found = _found(100.0, 230.0, damping, growth)
    grid = [100.0 + 0.1 * n for n in range(1301)]
    best = max(grid, key=acceleration)
    bounds = max(best - 0.1, 100.0), min(best + 0.1, 230.0)
    search = minimize_scalar(
        lambda speed: -acceleration(speed), bounds=bounds, options={"xatol": 1e-10}
    )

    assert found.worst_acceleration == pytest.approx(-search.fun, rel=1e-6)
    assert RPM.reading(found.worst_speed) == pytest.approx(search.x, rel=1e-4)


def test_critical_speed_by_hand() -> None:
    """4/rev crosses 12.5 Hz at 187.5 rpm."""
    found = _found(150.0, 290.0)

    assert RPM.reading(found.critical_speed) == pytest.approx(187.5)
    assert found.worst_speed == pytest.approx(found.critical_speed, rel=1e-2)


def test_worst_speed_stays_in_the_range() -> None:
    """A range that ends below or begins above the crossing has its largest response at that end."""
    assert RPM.reading(_found(100.0, 170.0).worst_speed) == pytest.approx(170.0)
    assert RPM.reading(_found(200.0, 240.0).worst_speed) == pytest.approx(200.0)


def test_imbalance_starts_as_once_per_revolution() -> None:
    """The form starts with a force at 1/rev that grows with the square of rotor speed."""
    values = calculate(NAME, start(NAME)).values

    assert (values["multiple"], values["growth"]) == (1.0, "square")


def test_chart_reaches_the_largest_response() -> None:
    """The curve of even a sharp resonance reaches the largest response, and follows the form."""
    harmonic, mode = RotorHarmonic(4.0, 500.0, 258.0 * rpm), AirframeMode(800.0, 12.5, 0.002)
    found = source_response(harmonic, mode, 100.0 * rpm, 290.0 * rpm)
    chart = source_response_chart(harmonic, mode, 100.0 * rpm, 290.0 * rpm, found)
    worst = found.worst_acceleration
    curve = chart.marks[0].points  # type: ignore[union-attr] # the first mark is the curve

    assert max(a for _, a in curve) == pytest.approx(worst)
    assert sum(a > 0.5 * worst for _, a in curve) > 20
    assert "4/rev" in chart.svg("response")


def test_chart_is_read_in_the_unit_of_the_form() -> None:
    """Rotor speed typed in rad/s is drawn in rad/s."""
    entries = start(NAME) | {"lowest_speed": "10_rad/s"}
    drawn = calculate(NAME, entries).chart

    assert isinstance(drawn, Chart)
    assert drawn.x.title == "Rotor speed (rad/s)"


def test_range_must_rise() -> None:
    """The highest speed must be above the lowest."""
    with pytest.raises(ValueError, match="Highest less lowest rotor speed must be above 0 rpm"):
        _found(200.0, 200.0)


def test_impossible_harmonics_are_named() -> None:
    """A harmonic without cycles and a mode without damping are refused."""
    with pytest.raises(ValueError, match="Cycles per revolution must be above 0"):
        RotorHarmonic(0.0, 1.0, 20.0)
    with pytest.raises(ValueError, match="Damping ratio must be above 0"):
        _found(100.0, 200.0, damping=0.0)
