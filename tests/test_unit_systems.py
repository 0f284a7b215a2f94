"""The systems of units: each shows every quantity in one of its units.

Sources:
    ICAO Annex 5, Units of Measurement to be Used in Air and Ground Operations, 5th edition (2010),
    table 3-3: foot and knot stay in use for altitude and speed (from memory).
    NIST Handbook 44, appendix C: foot, pound and degree Fahrenheit are US customary (from memory).
"""

import pytest

from calc import units
from calc.catalogue import FORMULAS, formula
from calc.declaration import Field, Table, inputs, outputs
from calc.quantity import Quantity
from calc.unit_systems import STARTING, SYSTEMS, systems_of, unit_of
from calc.units import FAMILIES, Family

METRIC = {"m", "mm", "m2", "m3", "kg", "t", "N", "kN", "Pa", "K"}


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("family", FAMILIES, ids=lambda family: family[0].key)
def test_each_system_has_one_unit_of_each_family(family: Family, system: str) -> None:
    """There is one, and only one of them; the system that holds at first changes nothing."""
    assert [unit for unit in family if system in systems_of(unit, family)] == [
        unit_of(family, system)
    ]
    assert unit_of(family, STARTING) == family[0]
    assert unit_of(family, "no such system") == family[0]


@pytest.mark.parametrize("family", FAMILIES, ids=lambda family: family[0].key)
def test_feet_and_pounds_leave_nothing_metric(family: Family) -> None:
    """Neither metres nor kilograms, newtons, pascals or kelvins are left in any unit."""
    for system in ("aviation", "us"):
        shown = unit_of(family, system)
        assert not METRIC & set(shown.key.replace("/", ".").split("."))


@pytest.mark.parametrize(
    ("family", "aviation", "us"),
    [
        (units.ALTITUDE, "ft", "ft"),
        (units.SPEED, "kt", "ft/s"),
        (units.MASS, "lb", "lb"),
        (units.ROTATION, "rpm", "rpm"),
        (units.TEMPERATURE, "degC", "degF"),
        (units.TEMPERATURE_DIFFERENCE, "degC", "degF"),
    ],
)
def test_units_of_the_trade(family: Family, aviation: str, us: str) -> None:
    """Knots, feet, rpm and pounds in aviation; feet, pounds and Fahrenheit in the USA."""
    assert [unit_of(family, system).key for system in ("aviation", "us")] == [aviation, us]


@pytest.mark.parametrize("name", FORMULAS)
def test_every_declared_quantity_can_be_shown_in_every_system(name: str) -> None:
    """Also those whose units are a list of their own; a share starts without a unit."""
    for field in columns([*inputs(formula(name)), *outputs(formula(name))]):
        quantity = field.declaration
        if isinstance(quantity, Quantity):
            assert all(unit_of(quantity.units, system) in quantity.units for system in SYSTEMS)
    for field in columns(inputs(formula(name))):
        if isinstance(field.declaration, Quantity):
            assert "" not in [unit.key for unit in field.declaration.units[1:]]


def columns(fields: list[Field]) -> list[Field]:
    """Return fields, with the columns of tables in the place of tables."""
    return [
        column
        for field in fields
        for column in (
            inputs(field.declaration.row) if isinstance(field.declaration, Table) else [field]
        )
    ]
