"""The systems of units that a reader can choose for the whole handbook, and what each shows.

A form starts with the first unit of each quantity, and that is what SI shows here: metres,
kilograms and newtons, but rotor speeds in rpm and angles in degrees, as instruments and drawings
give them.  Another system is said by what it shows in the place of that first unit; a unit that
is not named, such as rpm, Hz or a per cent, is the same in all of them.
"""

from collections.abc import Mapping

from calc.units import Family, Unit

STARTING = "si"
"""The system that a reader has who chose none."""

SYSTEMS: Mapping[str, str] = {STARTING: "SI", "aviation": "Aviation", "us": "US customary"}
"""The systems by their key in links and in what a browser keeps, with what a page calls them."""

_FEET_AND_POUNDS: Mapping[str, str] = {
    "m": "ft",
    "mm": "in",
    "um": "mil",
    "mm/s": "in/s",
    "mm/s/g": "in/s/g",
    "g.mm": "oz.in",
    "m2": "ft2",
    "m/s2": "g",
    "kg": "lb",
    "kg/m3": "slug/ft3",
    "kg/m": "slug/ft",
    "kg.m": "slug.ft",
    "kg.m2": "slug.ft2",
    "N": "lbf",
    "N/m": "lbf/ft",
    "N.s/m": "lbf.s/ft",
    "N.m": "lbf.ft",
    "N.m/rad": "lbf.ft/rad",
    "N.m.s/rad": "lbf.ft.s/rad",
    "N.m2": "lbf.ft2",
    "kW": "hp",
    "m3/N": "ft3/lbf",
}

_IN_PLACE: Mapping[str, Mapping[str, str]] = {
    STARTING: {},
    "aviation": {**_FEET_AND_POUNDS, "m/s": "kt", "Pa": "hPa", "K": "degC"},
    "us": {**_FEET_AND_POUNDS, "m/s": "ft/s", "Pa": "psf", "K": "degF"},
}
"""By system: the key of the unit that is shown, by that of the unit a form starts with."""


def unit_of(family: Family, system: str) -> Unit:
    """Return the unit in which a system shows a quantity with these units to choose from.

    A system that does not exist, as a link may name one, shows what a form starts with; so does
    one whose unit is none of these.
    """
    first = family[0]
    key = _IN_PLACE.get(system, {}).get(first.key, first.key)
    return next((unit for unit in family if unit.key == key), first)


def systems_of(unit: Unit, family: Family) -> list[str]:
    """Return the systems that show a quantity in this one of its units."""
    return [system for system in SYSTEMS if unit_of(family, system) == unit]
