"""Units against their definitions.

Sources:
    BIPM (2019), The International System of Units, 9th edition: tables 2, 4 and 8.
    International yard and pound agreement (1959): 1 yd = 0.9144 m, 1 lb = 0.45359237 kg.
    NIST (2008), Special Publication 811, appendix B.8: factors to seven digits (from memory).
"""

import math
from typing import get_type_hints

import pytest

from calc import units
from calc.units import FAMILIES, Family, Unit, find_unit, si_unit

NIST_SP_811 = {
    units.FOOT: "0.3048",
    units.INCH: "0.0254",
    units.SQUARE_FOOT: "0.09290304",
    units.KNOT: "0.5144444",
    units.KILOMETRE_PER_HOUR: "0.2777778",
    units.MILE_PER_HOUR: "0.44704",
    units.POUND: "0.4535924",
    units.SLUG: "14.59390",
    units.SLUG_PER_CUBIC_FOOT: "515.3788",
    units.SLUG_SQUARE_FOOT: "1.355818",
    units.POUND_FORCE: "4.448222",
    units.POUND_PER_FOOT: "14.59390",
    units.POUND_PER_SQUARE_FOOT: "47.88026",
    units.INCH_OF_MERCURY: "3386.389",
    units.RPM: "0.1047198",
    units.DEGREE: "0.01745329",
    units.HORSEPOWER: "745.6999",
}


@pytest.mark.parametrize(("unit", "size"), NIST_SP_811.items(), ids=lambda item: str(item)[:20])
def test_size_to_every_printed_digit(unit: Unit, size: str) -> None:
    """NIST SP 811, appendix B.8: the size of the unit in SI, to its last printed digit."""
    last_digit = 10.0 ** -len(size.partition(".")[2])
    assert unit.size == pytest.approx(float(size), rel=0.0, abs=0.5 * last_digit)


def test_temperature_scales_agree_at_fixed_points() -> None:
    """BIPM (2019), section 2.3.1: 0 degC is 273.15 K; water boils near 212 degF, 373.15 K."""
    assert units.CELSIUS.si(0.0) == 273.15
    assert units.FAHRENHEIT.si(32.0) == pytest.approx(273.15, rel=1e-15)
    assert units.FAHRENHEIT.si(212.0) == pytest.approx(373.15, rel=1e-15)
    assert units.FAHRENHEIT.si(-40.0) == pytest.approx(units.CELSIUS.si(-40.0), rel=1e-15)


def test_full_turn() -> None:
    """One revolution a second is 60 rpm and 2 pi rad/s."""
    assert units.TURN_PER_SECOND.si(1.0) == pytest.approx(units.RPM.si(60.0), rel=1e-15)
    assert units.RPM.si(60.0) == pytest.approx(2.0 * math.pi, rel=1e-15)


@pytest.mark.parametrize(
    ("family", "typed", "unit"),
    [
        (units.ALTITUDE, "feet", units.FOOT),
        (units.ALTITUDE, "Metres", units.METRE),
        (units.LENGTH, "meters", units.METRE),
        (units.LENGTH, "inches", units.INCH),
        (units.ROTATION, "rad/sec", units.RADIAN_PER_SECOND),
        (units.ROTATION, "r.p.m.", units.RPM),
        (units.ROTATION, "1/min", units.RPM),
        (units.SPEED, "m/sec", units.METRE_PER_SECOND),
        (units.SPEED, "ft/sec", units.FOOT_PER_SECOND),
        (units.SPEED, "km/hr", units.KILOMETRE_PER_HOUR),
    ],
)
def test_usual_spellings_are_read(family: Family, typed: str, unit: units.Unit) -> None:
    """Spellings that many people type, common practice, no source; capitals make no difference."""
    assert find_unit(typed, family) is unit


def test_every_family_is_listed() -> None:
    """A family that the module declares is in the list of all."""
    declared = [name for name, kind in get_type_hints(units).items() if kind == Family]
    assert [getattr(units, name) for name in declared] == list(FAMILIES)


@pytest.mark.parametrize("family", FAMILIES, ids=lambda family: family[0].key)
def test_family_is_unambiguous(family: Family) -> None:
    """Each family has an SI unit, and no spelling stands for two of its units."""
    assert si_unit(family).size == 1.0
    spellings = [s.casefold() for u in family for s in {u.name, u.key, *u.also}]
    assert len(spellings) == len(set(spellings))
    for unit in family:
        for spelling in (unit.name, unit.key, *unit.also):
            assert find_unit(spelling, family) is unit
            assert unit.key.isascii()
