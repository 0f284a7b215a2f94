"""Blade loading and Lock number: identities, published ranges and errors."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.declaration import outputs
from calc.examples import CURLEW, PLOVER, Rotorcraft
from calc.quantity import Quantity
from calc.rotor.blade_loading import (
    blade_loading,
    lock_number,
    rotor_loading,
    solidity,
    thrust_coefficient,
)

POSITIVE = st.floats(0.1, 100.0)


@given(st.floats(0.0, 1e6), st.floats(0.1, 2.0), POSITIVE, st.floats(1.0, 300.0))
def test_blade_loading_is_thrust_coefficient_over_solidity(
    thrust: float, density: float, radius: float, tip_speed: float
) -> None:
    """C_T over sigma equals thrust over density, blade area and tip speed squared."""
    blades, chord = 3, 0.1 * radius

    loading = blade_loading(thrust, density, blades, chord, radius, tip_speed)
    blade_area = blades * chord * radius
    assert loading == pytest.approx(thrust / (density * blade_area * tip_speed**2), rel=1e-12)


def test_constant_lift_coefficient_in_hover_carries_the_thrust() -> None:
    """Blade elements with the mean lift coefficient, summed over the radius, give the thrust."""
    thrust, density, blades, chord, radius, rotor_speed = 54000.0, 1.225, 4, 0.42, 7.0, 31.4
    mean = rotor_loading(thrust, density, blades, chord, radius, rotor_speed).mean_lift_coefficient

    pieces = 100000
    lift = math.fsum(
        0.5 * density * (rotor_speed * radius * (i + 0.5) / pieces) ** 2 * chord * mean
        for i in range(pieces)
    )
    assert blades * lift * radius / pieces == pytest.approx(thrust, rel=1e-9)


def test_disc_loading_of_a_round_hover() -> None:
    """50 kN on a radius of 7.5 m load the disc with 282.942 N/m2, thrust over area."""
    loading = rotor_loading(50000.0, 1.225, 4, 0.5, 7.5, 29.0)

    assert loading.disc_loading == pytest.approx(50000.0 / (math.pi * 7.5**2), rel=1e-15)
    assert loading.thrust_coefficient == thrust_coefficient(50000.0, 1.225, 7.5, 7.5 * 29.0)
    assert loading.solidity == solidity(4, 0.5, 7.5)


@pytest.mark.parametrize("craft", [PLOVER, CURLEW], ids=lambda craft: craft.name)
def test_examples_have_lock_numbers_of_built_rotors(craft: Rotorcraft) -> None:
    """Typical values are 3 to 12: common practice, quoted in an encyclopaedia from a patent."""
    number = lock_number(1.225, craft.lift_slope, craft.chord, craft.radius, craft.flap_inertia)

    assert 3.0 < number < 12.0


def test_lock_number_outside_the_published_range_is_warned_of() -> None:
    """The declared range of the output ends at 12."""
    declared = outputs(lock_number)[0].declaration

    assert isinstance(declared, Quantity)
    assert "typical values" in declared.warning(12.5, declared.si)
    assert declared.warning(8.0, declared.si) == ""


@given(POSITIVE, st.floats(0.5, 2.0))
def test_lock_number_scales(radius: float, factor: float) -> None:
    """It grows with density, and with the fourth power of the radius."""
    number = lock_number(1.0, 5.7, 0.4, radius, 900.0)

    assert lock_number(factor, 5.7, 0.4, radius, 900.0) == pytest.approx(factor * number)
    assert lock_number(1.0, 5.7, 0.4, factor * radius, 900.0) == pytest.approx(factor**4 * number)


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        ((0, 0.4, 7.0), "Number of blades must be at least 1, not 0"),
        ((2.5, 0.4, 7.0), "Number of blades must be a whole number, not 2.5"),
        ((4, 6.0, 7.0), "Solidity must be above 0 and below 1"),
    ],
)
def test_impossible_rotors_are_named(arguments: tuple[int, float, float], message: str) -> None:
    """Half a blade, no blade, and blades that overlap are refused."""
    with pytest.raises(ValueError, match=message):
        solidity(*arguments)
