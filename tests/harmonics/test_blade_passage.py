"""Blade passage: counting, multiples, and what a large compound is heard by."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.examples import HEAVY_COMPOUND
from calc.harmonics.blade_passage import blade_passage_frequency, multiples
from calc.units import HERTZ, RPM, TURN_PER_SECOND

BLADES = st.integers(1, 12)
SPEEDS = st.floats(0.1, 1000.0)


@given(BLADES, st.integers(1, 60))
def test_blades_are_counted(blades: int, turns: int) -> None:
    """At a whole number of turns a second, that many times the blades pass in a second."""
    speed = TURN_PER_SECOND.si(float(turns))

    assert blade_passage_frequency(blades, speed) == pytest.approx(blades * turns, rel=1e-14)


@given(BLADES, SPEEDS, st.integers(1, 50))
def test_rows_are_multiples(blades: int, speed: float, count: int) -> None:
    """Row k is k times the blade passage, the k N_b-th harmonic, and 60 times its hertz."""
    rows = multiples(blades, speed, count)

    assert [row.multiple for row in rows] == list(range(1, count + 1))
    for row in rows:
        assert row.harmonic == row.multiple * blades
        assert row.frequency == blade_passage_frequency(blades, speed, row.multiple)
        assert row.cycles_per_minute == pytest.approx(60.0 * row.frequency, rel=1e-15)
        assert row.frequency == pytest.approx(row.harmonic * TURN_PER_SECOND.reading(speed))


def test_rpm_typed_as_radians_per_second_is_wrong_by_a_factor() -> None:
    """Mistaking 300 rpm for 300 rad/s multiplies the frequency by 60 / (2 pi)."""
    right, wrong = blade_passage_frequency(4, RPM.si(300.0)), blade_passage_frequency(4, 300.0)

    assert HERTZ.reading(right) == pytest.approx(20.0, rel=1e-15)
    assert wrong / right == pytest.approx(30.0 / math.pi, rel=1e-15)


def test_slow_rotor_is_a_low_source_and_its_propellers_higher_ones() -> None:
    """A rotor at about 125 rpm shakes near 2 Hz times its blades; its propellers far above.

    Common practice: a large compound's rotor is its lowest source.
    """
    rotor = multiples(HEAVY_COMPOUND.blades, HEAVY_COMPOUND.rotor_speed)
    propeller = HEAVY_COMPOUND.propellers[0]
    passage = blade_passage_frequency(propeller.blades, propeller.propeller_speed)

    assert rotor[0].frequency == pytest.approx(125.0 / 60.0 * 5.0, rel=1e-14)
    assert rotor[0].frequency < 15.0
    assert passage > rotor[-1].frequency


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        ((4.5, 30.0), "Number of blades must be a whole number, not 4.5"),
        ((4, 0.0), "Rotor speed must be above 0 rpm, not 0 rpm"),
        ((4, 30.0, 0), "Multiple of the blade passage must be at least 1, not 0"),
    ],
)
def test_impossible_inputs_are_named(arguments: tuple[int, float], message: str) -> None:
    """An input that cannot exist is refused by its label, in the reader's unit."""
    with pytest.raises(ValueError, match=message):
        blade_passage_frequency(*arguments)
