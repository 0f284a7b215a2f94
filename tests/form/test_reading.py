"""Entries as readers type them."""

import math
from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.declaration import Choice
from calc.form.reading import EntryError, read
from calc.quantity import Quantity
from calc.units import LENGTH, NUMBER, ROTATION, RPM, SPEED

ROTOR_SPEED = Quantity(r"\Omega", "Rotor speed", ROTATION, above=0.0)
BLADES = Quantity("N_b", "Number of blades", NUMBER, at_least=1, whole=True)


@pytest.mark.parametrize(
    ("entry", "rpm"),
    [
        ("395", 395.0),
        (" 395 ", 395.0),
        ("395 rpm", 395.0),
        ("395rpm", 395.0),
        ("395_rpm", 395.0),
        ("395,5", 395.5),
        ("1e3", 1000.0),
        ("1.2×10^3", 1200.0),
        ("1.2×10³", 1200.0),
        ("1 234,5", 1234.5),
        ("1\u2009234.5", 1234.5),
        ("1,234.5", 1234.5),
        ("1.234,5", 1234.5),
        ("1,234,567", 1234567.0),
        ("0,123", 0.123),
        (".5", 0.5),
        ("−3", -3.0),
    ],
)
def test_numbers_are_read_generously(entry: str, rpm: float) -> None:
    """Spaces, powers of ten, either decimal mark and a unit are understood."""
    assert read(ROTOR_SPEED, entry).value == pytest.approx(RPM.si(rpm), rel=1e-15)


@pytest.mark.parametrize(
    ("entry", "si"),
    [
        ("41.4 rad/s", 41.4),
        ("41.4_rad/s", 41.4),
        ("6.5 Hz", 13.0 * math.pi),
        ("41.4 rad/s_rpm", 41.4),
    ],
)
def test_unit_in_the_entry_wins(entry: str, si: float) -> None:
    """A unit typed behind the number is the one that counts."""
    assert read(ROTOR_SPEED, entry).value == pytest.approx(si, rel=1e-15)


@pytest.mark.parametrize(
    ("entry", "message"),
    [
        ("", "Enter the rotor speed"),
        ("   ", "Enter the rotor speed"),
        ("abc", "Rotor speed must be a number, not “abc”"),
        ("10 12", "Rotor speed must be a number, not “10 12”"),
        ("1.2.3", "Rotor speed must be a number, not “1.2.3”"),
        ("3 m", "Rotor speed cannot be in metres. Use rpm, rad/s, Hz"),
        ("3 furlongs", "Rotor speed has an unknown unit, “furlongs”. Use rpm, rad/s, Hz"),
        ("3_kt", "Rotor speed cannot be in knots. Use rpm, rad/s, Hz"),
        ("1" * 61, "Rotor speed must be at most 60 characters long"),
    ],
)
def test_what_is_not_understood_is_said(entry: str, message: str) -> None:
    """An entry that is no number is answered with what to do."""
    with pytest.raises(EntryError) as caught:
        read(ROTOR_SPEED, entry)
    assert str(caught.value) == message


@pytest.mark.parametrize("entry", ["1,234", "12,345 rpm", "-1,234", "-12,345e-3 rad/s"])
def test_two_meanings_are_asked_about(entry: str) -> None:
    """A comma before exactly three digits may be either mark; sign, power and unit stay."""
    with pytest.raises(EntryError, match="can mean") as caught:
        read(ROTOR_SPEED, entry)
    assert caught.value.choices == (entry.replace(",", ""), entry.replace(",", "."))


def test_whole_numbers_stay_whole() -> None:
    """A whole quantity becomes an int; its limits refuse a fraction."""
    assert isinstance(read(BLADES, "4.0").value, int)
    with pytest.raises(ValueError, match=r"Number of blades must be a whole number, not 4\.5"):
        BLADES.check(read(BLADES, "4.5").value)


@given(st.floats(1e-6, 1e9), st.sampled_from([*ROTATION, *LENGTH, *SPEED]))
def test_unit_there_and_back(reading: float, unit: object) -> None:
    """A reading turned to SI and back is the same to 12 digits, which is what a field shows."""
    for family in (ROTATION, LENGTH, SPEED):
        for other in family:
            if other is unit:
                assert f"{other.reading(other.si(reading)):.12g}" == f"{reading:.12g}"


@given(st.text(max_size=80))
def test_any_text_is_a_number_or_a_clear_error(entry: str) -> None:
    """No text makes the reader of entries fail in any other way."""
    for quantity in (ROTOR_SPEED, BLADES):
        with suppress(EntryError):
            assert isinstance(read(quantity, entry).value, (int, float))


def test_word_that_is_no_choice_is_refused_in_words() -> None:
    """A damaged link is answered with what a page shows, not with the keys of links."""
    root = Choice("Root", {"clamped": "built in", "hinged": "on a hinge"})
    with pytest.raises(EntryError, match=r"^Root must be “built in” or “on a hinge”, not “glued”$"):
        read(root, "glued")
