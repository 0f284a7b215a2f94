"""Blade passage: counting, multiples, and the frequencies of the example aircraft."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.examples import CURLEW, PLOVER
from calc.form.copying import copies
from calc.harmonics.blade_passage import blade_passage, blade_passage_frequency, multiples
from calc.units import CYCLE_PER_MINUTE, HERTZ, RPM, TURN_PER_SECOND

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


def test_rotors_are_low_sources_and_propellers_higher_ones() -> None:
    """Both example rotors shake near 25 Hz; the blade passage of a propeller lies far above.

    By hand: 6 x 250 / 60 = 25 Hz, 4 x 360 / 60 = 24 Hz and 5 x 1150 / 60 = 95.83 Hz.
    """
    propeller = CURLEW.propellers[0]

    assert blade_passage_frequency(CURLEW.blades, CURLEW.rotor_speed) == pytest.approx(25.0)
    assert blade_passage_frequency(PLOVER.blades, PLOVER.rotor_speed) == pytest.approx(24.0)
    assert blade_passage_frequency(propeller.blades, propeller.propeller_speed) == pytest.approx(
        5.0 * 1150.0 / 60.0
    )


def test_a_heavy_slow_rotor() -> None:
    """Common practice, no source: five blades at 125 rpm make 10.42 Hz, which is 625 cpm."""
    found = blade_passage(5, RPM.si(125.0))

    assert found.order == "5/rev, 1 × blade passage of 5 blades"
    assert found.blade_passage_frequency == pytest.approx(10.4167, abs=0.5e-4)
    assert CYCLE_PER_MINUTE.reading(found.cycles_per_minute) == pytest.approx(625.0)


def test_every_copy_names_the_order_and_cycles_per_minute() -> None:
    """Text, Markdown, LaTeX and CSV say 5/rev; all but LaTeX, which has the working, say cpm."""
    name = "harmonics.blade_passage.blade_passage_frequency"
    written = copies(name, {"blades": "5", "rotor_speed": "142_rpm", "multiple": "1"}, "page.html")

    for kind in ("text", "markdown", "latex", "csv"):
        assert "5/rev" in written[kind], kind
    for kind in ("text", "markdown", "csv"):
        assert "cpm" in written[kind], kind


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
