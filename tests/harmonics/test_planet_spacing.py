"""Planet spacing: places that fit, against gears rolled into place one tooth at a time."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.harmonics.planet_spacing import (
    assembly,
    gaps_between,
    nearest_places,
    places_of,
    planet_gap,
)

suns, rings, counts = st.integers(15, 60), st.integers(61, 150), st.integers(1, 8)


def _fits(sun: int, ring: int, angle: float) -> bool:
    """Return whether a planet fits at an angle, by rolling one round from where it fits.

    The carrier is turned by the angle with the ring held, which turns the sun by 1 + z_r / z_s as
    much.  Another planet fits there if the sun then shows the same teeth as before.
    """
    turn_of_sun = angle / (2.0 * math.pi) * (1.0 + ring / sun) * sun
    return abs(turn_of_sun - round(turn_of_sun)) < 1e-6


@given(suns, rings, counts)
def test_a_planet_fits_at_every_place(sun: int, ring: int, planets: int) -> None:
    """Rolling a planet round to its place leaves the teeth of the sun where they were."""
    for place in nearest_places(sun, ring, planets):
        assert _fits(sun, ring, 2.0 * math.pi * place / (sun + ring))


@given(suns, rings, counts)
def test_no_place_that_fits_is_nearer_to_equal(sun: int, ring: int, planets: int) -> None:
    """Each planet is within half a step of where equal spacing would put it."""
    steps = sun + ring
    for number, place in enumerate(nearest_places(sun, ring, planets)):
        assert abs(place - number * steps / planets) <= 0.5


@given(suns, rings, st.integers(2, 8))
def test_equal_spacing_needs_a_whole_share(sun: int, ring: int, planets: int) -> None:
    """Equal gaps are found if, and only if, the sum of the teeth is a multiple of the planets."""
    gaps = gaps_between(nearest_places(sun, ring, planets), sun + ring)

    assert sum(gaps) == sun + ring
    assert (len(set(gaps)) == 1) == ((sun + ring) % planets == 0)
    assert max(gaps) - min(gaps) <= 1


@given(suns, rings, st.sampled_from([2, 4, 6]))
def test_opposite_planets_stay_opposite(sun: int, ring: int, planets: int) -> None:
    """Where the sum of the teeth is even, planets come in opposite pairs, which balance."""
    ring += (sun + ring) % 2
    places, half = nearest_places(sun, ring, planets), (sun + ring) // 2

    assert {(place + half) % (2 * half) for place in places} == set(places)


def test_by_hand() -> None:
    """By hand: 126 steps for four planets are 31.5 each, so 31, 32, 31, 32."""
    places = nearest_places(27, 99, 4)

    assert [after - before for before, after in pairwise([*places, 126])] == [31, 32, 31, 32]
    assert "cannot be equally spaced, as (27 + 99) / 4 = 31.5 is not whole" in assembly(
        places, 27, 99, given=False
    )
    assert "fit equally spaced" in assembly(nearest_places(29, 99, 4), 29, 99, given=False)
    assert assembly((0,), 29, 99, given=False) == "A single planet fits anywhere"


def test_angles_are_read_as_places() -> None:
    """An angle typed to a hundredth of a degree is the place it means; any other is refused."""
    typed = [math.radians(angle) for angle in (10.0, 98.57, 190.0, 278.57)]

    assert places_of(typed, 27, 99) == (0, 31, 63, 94)
    with pytest.raises(ValueError, match=r"Planet 2 cannot be assembled at 90 deg.*88.5714 deg"):
        places_of([0.0, math.pi / 2], 27, 99)
    with pytest.raises(ValueError, match="Two planets are at the same place"):
        places_of([0.0, 2.0 * math.pi], 27, 99)


def test_gap_between_planets_by_hand() -> None:
    """By hand: three planets as large as the sun are 2 x 30 sin 60 less 30 and two addenda apart.

    In modules, centres lie (30 + 30) / 2 from the axis, sin 60 times twice that from one another,
    and the tip diameter is 32.
    """
    gap = planet_gap(30, 30, 2.0 * math.pi / 3.0)

    assert gap == pytest.approx(60.0 * math.sqrt(3.0) / 2.0 - 32.0)
    assert planet_gap(30, 30, 2.0 * math.pi / 6.0) == pytest.approx(-2.0)
