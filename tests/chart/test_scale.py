"""Axes: limits, tick marks and places."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.chart.scale import Axis
from calc.quantity import Quantity
from calc.units import CELSIUS, DEGREE, HERTZ, KNOT, ONE, RPM, SPEED, Unit

NUMBERS = st.floats(-1e9, 1e9, allow_nan=False).filter(lambda x: x == 0.0 or abs(x) > 1e-6)


def ticks(axis: Axis) -> list[str]:
    """Return the numbers at the tick marks."""
    return [text for _, text in axis.marked()]


def test_axis_of_a_quantity_has_its_label_and_first_unit() -> None:
    """Nothing is typed twice."""
    quantity = Quantity("V", "Airspeed", SPEED)

    assert Axis.of(quantity).title == "Airspeed (m/s)"
    assert Axis.of(quantity, unit=KNOT).title == "Airspeed (kt)"
    assert Axis("Ratio").title == "Ratio"


def test_limits_are_si_and_numbers_are_in_the_unit() -> None:
    """An axis in knots counts knots, though its limits are metres per second."""
    axis = Axis("Airspeed", KNOT, 0.0, 100.0 * KNOT.size)

    assert ticks(axis) == ["0", "20", "40", "60", "80", "100"]
    assert axis.at(50.0 * KNOT.size) == pytest.approx(0.5)


def test_unit_with_a_shifted_zero() -> None:
    """A Celsius axis from freezing to boiling."""
    axis = Axis("Temperature", CELSIUS).fitted([273.15, 373.15])

    assert (axis.low, axis.high) == pytest.approx((273.15, 373.15))
    assert ticks(axis)[:2] == ["0", "20"]


def test_angles_are_divided_in_eighths() -> None:
    """A full turn is marked every 45 degrees, a small angle in tens."""
    assert ticks(Axis("Azimuth", DEGREE, 0.0, 2.0 * math.pi))[1:3] == ["45", "90"]
    assert ticks(Axis("Angle", DEGREE, 0.0, math.radians(20.0)))[1:3] == ["5", "10"]


@given(st.lists(NUMBERS, min_size=1, max_size=9), st.sampled_from([ONE, RPM, DEGREE, CELSIUS]))
def test_fitted_axis_holds_all_values_between_round_limits(values: list[float], unit: Unit) -> None:
    """Values lie inside, ticks rise from 0 to 1, and there are neither few nor many of them."""
    axis = Axis("Value", unit).fitted(values)
    places = [place for place, _ in axis.marked()]

    assert all(-1e-6 <= axis.at(value) <= 1.0 + 1e-6 for value in values)
    assert 2 <= len(places) <= 11
    assert places == sorted(places)
    assert len(set(ticks(axis))) == len(places)


def test_given_limits_are_kept() -> None:
    """Only a limit left out is set by the data."""
    axis = Axis("Value", low=0.3).fitted([1.0, 7.2])

    assert (axis.low, axis.high) == (0.3, 8.0)


@pytest.mark.parametrize("values", [[], [math.nan], [5.0], [0.0, 0.0]])
def test_axis_without_a_range_gets_one(values: list[float]) -> None:
    """No data, or one value alone, still gives a figure."""
    axis = Axis("Value").fitted(values)

    assert axis.low < axis.high


def test_logarithmic_axis() -> None:
    """Decades, with 2 and 5 between them on a short axis; what is not positive has no place."""
    axis = Axis("Frequency", HERTZ, log=True).fitted([0.0, 0.7, 60.0])

    assert (axis.low, axis.high) == pytest.approx((0.1, 100.0))
    assert ticks(axis) == ["0.1", "0.2", "0.5", "1", "2", "5", "10", "20", "50", "100"]
    assert axis.at(math.sqrt(10.0)) == pytest.approx(0.5)
    assert math.isnan(axis.at(0.0))
    assert ticks(Axis("Cycles", low=1.0, high=1e8, log=True))[-1] == "1\N{MULTIPLICATION SIGN}10⁸"


def test_named_places_replace_numbers() -> None:
    """Harmonics of the rotor by name; those beyond the limits are left out."""
    axis = Axis("Harmonic", low=0.0, high=2.5, ticks=((1.0, "1P"), (2.0, "2P"), (3.0, "3P")))

    assert ticks(axis) == ["1P", "2P"]


@pytest.mark.parametrize(
    ("low", "high", "first", "last"),
    [
        (0.0, 20000.0, "0", "20\u202f000"),
        (-1.0, 1.0, "\N{MINUS SIGN}1.0", "1.0"),
        (0.0, 4e7, "0", "4.0\N{MULTIPLICATION SIGN}10⁷"),
        (0.0, 3e-6, "0", "3.0\N{MULTIPLICATION SIGN}10⁻⁶"),
    ],
)
def test_numbers_at_ticks_are_short(low: float, high: float, first: str, last: str) -> None:
    """Thousands are set apart, and very large and small numbers have a power of ten."""
    shown = ticks(Axis("Value", low=low, high=high))

    assert (shown[0], shown[-1]) == (first, last)
