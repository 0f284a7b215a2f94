"""Units a reader may type; inside `calc` every number is in SI units."""

import math
from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit a reader types: a reading r stands for r * size + zero in the SI unit.

    `name` is what a page shows, `key` is its ASCII form in a link, `words` is its full name and
    `also` lists other spellings that a reader may type.
    """

    name: str
    key: str
    words: str
    size: float = 1.0
    zero: float = 0.0
    also: tuple[str, ...] = ()

    def si(self, reading: float) -> float:
        """Return a reading in this unit as a number in the SI unit."""
        return reading * self.size + self.zero

    def reading(self, value: float) -> float:
        """Return a number in the SI unit as a reading in this unit."""
        return (value - self.zero) / self.size


def _exact(*factors: str) -> float:
    """Return the product of exact decimal or fractional factors, rounded once."""
    return float(math.prod(Fraction(factor) for factor in factors))


# Exact sizes: BIPM, The International System of Units, 9th edition (2019), and the international
# yard and pound agreement (1959): 1 ft = 0.3048 m, 1 lb = 0.45359237 kg, 1 lbf = 1 lb × 9.80665.
_FOOT = "0.3048"
_POUND = "0.45359237"
_GRAVITY = "9.80665"
_PER_FOOT = "1250/381"
_FOOT_POUND = _exact(_POUND, _GRAVITY, _FOOT)
_SLUG = _exact(_POUND, _GRAVITY, _PER_FOOT)

ONE = Unit("", "", "")
PERCENT = Unit("%", "pct", "per cent", 0.01, also=("percent",))
PER_REV = Unit("/rev", "/rev", "per revolution", also=("per rev", "P"))

METRE = Unit("m", "m", "metres", also=("metres", "metre", "meters", "meter"))
MILLIMETRE = Unit("mm", "mm", "millimetres", 0.001)
CENTIMETRE = Unit("cm", "cm", "centimetres", 0.01, also=("centimetre", "centimeter"))
MICROMETRE = Unit("µm", "um", "micrometres", 1e-6, also=("micron", "microns"))
FOOT = Unit("ft", "ft", "feet", _exact(_FOOT), also=("feet", "foot"))
INCH = Unit("in", "in", "inches", 0.0254, also=("inches", "inch"))
MIL = Unit("mil", "mil", "thousandths of an inch", _exact("0.0000254"), also=("mils", "thou"))
SQUARE_METRE = Unit("m²", "m2", "square metres", also=("m^2",))
SQUARE_FOOT = Unit("ft²", "ft2", "square feet", _exact(_FOOT, _FOOT), also=("ft^2", "sq ft"))

METRE_PER_SECOND = Unit("m/s", "m/s", "metres per second", also=("m/sec",))
KNOT = Unit("kt", "kt", "knots", _exact("1852/3600"), also=("kn", "kts", "knots"))
KILOMETRE_PER_HOUR = Unit(
    "km/h", "km/h", "kilometres per hour", _exact("10/36"), also=("kph", "km/hr")
)
MILE_PER_HOUR = Unit("mph", "mph", "miles per hour", 0.44704)
FOOT_PER_SECOND = Unit("ft/s", "ft/s", "feet per second", _exact(_FOOT), also=("fps", "ft/sec"))
MILLIMETRE_PER_SECOND = Unit("mm/s", "mm/s", "millimetres per second", 0.001, also=("mm/sec",))
INCH_PER_SECOND = Unit("in/s", "in/s", "inches per second", 0.0254, also=("ips", "in/sec"))

SECOND = Unit("s", "s", "seconds")
MINUTE = Unit("min", "min", "minutes", 60.0)
HOUR = Unit("h", "h", "hours", 3600.0)
PER_SECOND = Unit("1/s", "1/s", "per second", also=("s^-1",))
HERTZ = Unit("Hz", "Hz", "hertz")
CYCLE_PER_MINUTE = Unit("cpm", "cpm", "cycles per minute", _exact("1/60"))
RADIAN_PER_SECOND = Unit("rad/s", "rad/s", "radians per second", also=("rad/sec",))
RPM = Unit(
    "rpm",
    "rpm",
    "revolutions per minute",
    math.pi / 30.0,
    also=("rev/min", "r/min", "r.p.m.", "1/min"),
)
TURN_PER_SECOND = Unit("Hz", "Hz", "revolutions per second", 2.0 * math.pi, also=("rev/s", "rps"))
METRE_PER_SECOND_SQUARED = Unit("m/s²", "m/s2", "metres per second squared", also=("m/s^2",))
STANDARD_GRAVITY = Unit("g", "g", "standard gravity", _exact(_GRAVITY))
RADIAN_PER_SECOND_SQUARED = Unit("rad/s²", "rad/s2", "radians per second squared")
HERTZ_PER_SECOND = Unit("Hz/s", "Hz/s", "hertz per second")
RPM_PER_SECOND = Unit("rpm/s", "rpm/s", "revolutions per minute, per second", math.pi / 30.0)

RADIAN = Unit("rad", "rad", "radians")
DEGREE = Unit("deg", "deg", "degrees", math.pi / 180.0, also=("°", "degrees"))
PER_RADIAN = Unit("1/rad", "1/rad", "per radian", also=("/rad",))
PER_DEGREE = Unit("1/deg", "1/deg", "per degree", 180.0 / math.pi, also=("/deg", "1/°"))

KELVIN = Unit("K", "K", "kelvins")
CELSIUS = Unit("°C", "degC", "degrees Celsius", 1.0, 273.15, also=("C", "deg C"))
FAHRENHEIT = Unit(
    "°F", "degF", "degrees Fahrenheit", _exact("5/9"), _exact("45967/180"), also=("F", "deg F")
)
KELVIN_STEP = Unit("K", "K", "kelvins")
CELSIUS_STEP = Unit("°C", "degC", "degrees Celsius", also=("C", "deg C"))
FAHRENHEIT_STEP = Unit("°F", "degF", "degrees Fahrenheit", _exact("5/9"), also=("F",))

DECIBEL = Unit("dB", "dB", "decibels")

KILOGRAM = Unit("kg", "kg", "kilograms")
GRAM = Unit("g", "g", "grams", 0.001, also=("gram", "grams"))
TONNE = Unit("t", "t", "tonnes", 1000.0)
POUND = Unit("lb", "lb", "pounds", _exact(_POUND), also=("lbm", "lbs"))
OUNCE = Unit("oz", "oz", "ounces", _exact(_POUND, "1/16"), also=("ounce", "ounces"))
SLUG = Unit("slug", "slug", "slugs", _SLUG, also=("slugs",))
KILOGRAM_PER_CUBIC_METRE = Unit("kg/m³", "kg/m3", "kilograms per cubic metre", also=("kg/m^3",))
SLUG_PER_CUBIC_FOOT = Unit(
    "slug/ft³",
    "slug/ft3",
    "slugs per cubic foot",
    _exact(_POUND, _GRAVITY, _PER_FOOT, _PER_FOOT, _PER_FOOT, _PER_FOOT),
    also=("slug/ft^3",),
)
KILOGRAM_PER_METRE = Unit("kg/m", "kg/m", "kilograms per metre")
SLUG_PER_FOOT = Unit(
    "slug/ft", "slug/ft", "slugs per foot", _exact(_POUND, _GRAVITY, _PER_FOOT, _PER_FOOT)
)
KILOGRAM_METRE = Unit("kg·m", "kg.m", "kilogram metres", also=("kg m",))
SLUG_FOOT = Unit("slug·ft", "slug.ft", "slug feet", _exact(_POUND, _GRAVITY), also=("slug ft",))
GRAM_MILLIMETRE = Unit("g·mm", "g.mm", "gram millimetres", 1e-6, also=("g mm",))
OUNCE_INCH = Unit(
    "oz·in", "oz.in", "ounce inches", _exact(_POUND, "1/16", "0.0254"), also=("oz in", "oz-in")
)
MILLIMETRE_PER_SECOND_PER_GRAM = Unit("(mm/s)/g", "mm/s/g", "millimetres per second, per gram")
INCH_PER_SECOND_PER_GRAM = Unit("(in/s)/g", "in/s/g", "inches per second, per gram", 25.4)
INCH_PER_SECOND_PER_OUNCE = Unit(
    "(in/s)/oz", "in/s/oz", "inches per second, per ounce", 0.0254 / _exact(_POUND, "1/16")
)
KILOGRAM_SQUARE_METRE = Unit("kg·m²", "kg.m2", "kilogram square metres", also=("kg m2", "kg m^2"))
SLUG_SQUARE_FOOT = Unit(
    "slug·ft²", "slug.ft2", "slug square feet", _FOOT_POUND, also=("slug ft2", "slug ft^2")
)

NEWTON = Unit("N", "N", "newtons")
KILONEWTON = Unit("kN", "kN", "kilonewtons", 1000.0)
POUND_FORCE = Unit("lbf", "lbf", "pounds force", _exact(_POUND, _GRAVITY))
PASCAL = Unit("Pa", "Pa", "pascals")
HECTOPASCAL = Unit("hPa", "hPa", "hectopascals", 100.0, also=("mbar", "mb"))
POUND_PER_SQUARE_FOOT = Unit(
    "psf",
    "psf",
    "pounds force per square foot",
    _exact(_POUND, _GRAVITY, _PER_FOOT, _PER_FOOT),
    also=("lbf/ft2", "lbf/ft²", "lb/ft2"),
)
INCH_OF_MERCURY = Unit("inHg", "inHg", "inches of mercury", 3386.389)
NEWTON_PER_METRE = Unit("N/m", "N/m", "newtons per metre")
POUND_PER_FOOT = Unit(
    "lbf/ft",
    "lbf/ft",
    "pounds force per foot",
    _exact(_POUND, _GRAVITY, _PER_FOOT),
    also=("lb/ft",),
)
NEWTON_SECOND_PER_METRE = Unit("N·s/m", "N.s/m", "newton seconds per metre", also=("N s/m",))
POUND_SECOND_PER_FOOT = Unit(
    "lbf·s/ft",
    "lbf.s/ft",
    "pound-force seconds per foot",
    _exact(_POUND, _GRAVITY, _PER_FOOT),
    also=("lb s/ft", "lbf s/ft"),
)
JOULE = Unit("J", "J", "joules", also=("N m", "N·m"))
NEWTON_METRE = Unit("N·m", "N.m", "newton metres", also=("N m",))
FOOT_POUND = Unit(
    "lbf·ft", "lbf.ft", "foot pounds force", _FOOT_POUND, also=("lb ft", "ft lb", "lbf ft")
)
NEWTON_METRE_PER_RADIAN = Unit("N·m/rad", "N.m/rad", "newton metres per radian", also=("N m/rad",))
FOOT_POUND_PER_RADIAN = Unit(
    "lbf·ft/rad",
    "lbf.ft/rad",
    "foot pounds force per radian",
    _FOOT_POUND,
    also=("lb ft/rad", "ft lb/rad", "lbf ft/rad"),
)
NEWTON_METRE_SECOND_PER_RADIAN = Unit(
    "N·m·s/rad", "N.m.s/rad", "newton metre seconds per radian", also=("N m s/rad",)
)
FOOT_POUND_SECOND_PER_RADIAN = Unit(
    "lbf·ft·s/rad",
    "lbf.ft.s/rad",
    "foot pound-force seconds per radian",
    _FOOT_POUND,
    also=("lb ft s/rad", "ft lb s/rad", "lbf ft s/rad"),
)
NEWTON_SQUARE_METRE = Unit("N·m²", "N.m2", "newton square metres", also=("N m2", "N m^2"))
POUND_SQUARE_FOOT = Unit(
    "lbf·ft²", "lbf.ft2", "pound-force square feet", _exact(_POUND, _GRAVITY, _FOOT, _FOOT)
)

WATT = Unit("W", "W", "watts")
KILOWATT = Unit("kW", "kW", "kilowatts", 1000.0)
HORSEPOWER = Unit("hp", "hp", "horsepower, 550 foot pounds force a second", 550.0 * _FOOT_POUND)
CUBIC_METRE_PER_NEWTON = Unit("m³/N", "m3/N", "cubic metres per newton", also=("m^3/N",))
CUBIC_FOOT_PER_POUND = Unit(
    "ft³/lbf",
    "ft3/lbf",
    "cubic feet per pound force",
    _exact(_FOOT, _FOOT, _FOOT) / _exact(_POUND, _GRAVITY),
    also=("ft^3/lbf", "ft3/lb"),
)

Family = tuple[Unit, ...]
"""Units for one kind of quantity; the first is the one that a form starts with."""

NUMBER: Family = (ONE,)
SHARE: Family = (ONE, PERCENT)
PER_CENT: Family = (PERCENT, ONE)
LENGTH: Family = (METRE, FOOT, INCH, MILLIMETRE)
SMALL_LENGTH: Family = (MILLIMETRE, METRE, INCH)
VIBRATION_DISPLACEMENT: Family = (MICROMETRE, MILLIMETRE, METRE, MIL, INCH)
ALTITUDE: Family = (METRE, FOOT)
AREA: Family = (SQUARE_METRE, SQUARE_FOOT)
SPEED: Family = (
    METRE_PER_SECOND,
    KNOT,
    KILOMETRE_PER_HOUR,
    MILE_PER_HOUR,
    FOOT_PER_SECOND,
)
VIBRATION_VELOCITY: Family = (MILLIMETRE_PER_SECOND, METRE_PER_SECOND, INCH_PER_SECOND)
TIME: Family = (SECOND, MINUTE, HOUR)
ACCELERATION: Family = (METRE_PER_SECOND_SQUARED, STANDARD_GRAVITY)
ROTATION: Family = (RPM, RADIAN_PER_SECOND, TURN_PER_SECOND)
ROTATION_RATE: Family = (RPM_PER_SECOND, RADIAN_PER_SECOND_SQUARED)
FREQUENCY: Family = (HERTZ, CYCLE_PER_MINUTE)
LEVEL: Family = (DECIBEL,)
GROWTH: Family = (PER_SECOND,)
ANGLE: Family = (DEGREE, RADIAN)
LIFT_SLOPE: Family = (PER_RADIAN, PER_DEGREE)
TEMPERATURE: Family = (KELVIN, CELSIUS, FAHRENHEIT)
TEMPERATURE_DIFFERENCE: Family = (KELVIN_STEP, CELSIUS_STEP, FAHRENHEIT_STEP)
MASS: Family = (KILOGRAM, POUND, SLUG, TONNE)
SMALL_MASS: Family = (GRAM, KILOGRAM, OUNCE, POUND)
UNBALANCE: Family = (GRAM_MILLIMETRE, KILOGRAM_METRE, OUNCE_INCH)
INFLUENCE: Family = (
    MILLIMETRE_PER_SECOND_PER_GRAM,
    INCH_PER_SECOND_PER_GRAM,
    INCH_PER_SECOND_PER_OUNCE,
)
DENSITY: Family = (KILOGRAM_PER_CUBIC_METRE, SLUG_PER_CUBIC_FOOT)
MASS_PER_LENGTH: Family = (KILOGRAM_PER_METRE, SLUG_PER_FOOT)
FIRST_MOMENT: Family = (KILOGRAM_METRE, SLUG_FOOT)
INERTIA: Family = (KILOGRAM_SQUARE_METRE, SLUG_SQUARE_FOOT)
FORCE: Family = (NEWTON, KILONEWTON, POUND_FORCE)
PRESSURE: Family = (PASCAL, HECTOPASCAL, POUND_PER_SQUARE_FOOT, INCH_OF_MERCURY)
STIFFNESS: Family = (NEWTON_PER_METRE, POUND_PER_FOOT)
DAMPING: Family = (NEWTON_SECOND_PER_METRE, POUND_SECOND_PER_FOOT)
ENERGY: Family = (JOULE, FOOT_POUND)
MOMENT: Family = (NEWTON_METRE, FOOT_POUND)
ANGULAR_STIFFNESS: Family = (NEWTON_METRE_PER_RADIAN, FOOT_POUND_PER_RADIAN)
ANGULAR_DAMPING: Family = (NEWTON_METRE_SECOND_PER_RADIAN, FOOT_POUND_SECOND_PER_RADIAN)
POWER: Family = (KILOWATT, WATT, HORSEPOWER)
AUTOROTATION_INDEX: Family = (CUBIC_METRE_PER_NEWTON, CUBIC_FOOT_PER_POUND)
BENDING_STIFFNESS: Family = (NEWTON_SQUARE_METRE, POUND_SQUARE_FOOT)

FAMILIES: tuple[Family, ...] = (
    NUMBER,
    SHARE,
    PER_CENT,
    LENGTH,
    SMALL_LENGTH,
    VIBRATION_DISPLACEMENT,
    ALTITUDE,
    AREA,
    SPEED,
    VIBRATION_VELOCITY,
    TIME,
    ACCELERATION,
    ROTATION,
    ROTATION_RATE,
    FREQUENCY,
    LEVEL,
    GROWTH,
    ANGLE,
    LIFT_SLOPE,
    TEMPERATURE,
    TEMPERATURE_DIFFERENCE,
    MASS,
    SMALL_MASS,
    UNBALANCE,
    INFLUENCE,
    DENSITY,
    MASS_PER_LENGTH,
    FIRST_MOMENT,
    INERTIA,
    FORCE,
    PRESSURE,
    STIFFNESS,
    DAMPING,
    ENERGY,
    MOMENT,
    ANGULAR_STIFFNESS,
    ANGULAR_DAMPING,
    POWER,
    AUTOROTATION_INDEX,
    BENDING_STIFFNESS,
)
"""Every family of units; a quantity has one of them."""


def si_unit(family: Family) -> Unit:
    """Return the SI unit of a family: the one of size 1 whose zero is not shifted."""
    for unit in family:
        if unit.size == 1.0 and unit.zero == 0.0:
            return unit
    raise ValueError("A family must have an SI unit")


def find_unit(text: str, family: Family) -> Unit | None:
    """Return the unit of a family that a reader typed, or None if it is not one of them.

    Names and keys are compared first as typed, then without regard to case and spaces.
    """
    for fold in (str.strip, _folded):
        for unit in family:
            if fold(text) in {fold(name) for name in (unit.name, unit.key, *unit.also)}:
                return unit
    return None


def _folded(text: str) -> str:
    return text.casefold().replace(" ", "").replace("·", ".").replace("*", ".")
