"""How many digits of a number are shown."""

import math

_HELD = 12
"""Digits that a calculation is trusted for when it is told whether a number is a half."""
_SUPERSCRIPTS = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")


def significant(value: float, digits: int = 4) -> str:
    """Return a number for reading: significant digits, trailing zeros, whole numbers whole.

    Very large and very small numbers are written with a power of ten.

    Examples:
        >>> significant(227.5), significant(1.0), significant(101325.0), significant(0.000012345)
        ('227.5', '1.000', '101325', '1.235×10⁻⁵')
        >>> significant(8812.5), significant(-0.00125, 2), significant(8812.499)
        ('8813', '−0.0013', '8812')
    """
    if not math.isfinite(value):
        return {math.inf: "∞", -math.inf: "−∞"}.get(value, "—")
    if value == 0.0:
        return "0"
    sign = "−" if value < 0.0 else ""
    number, power = half_away(value, digits)
    if digits <= power < 7:
        number, power = half_away(value, half_away(value, _HELD)[1] + 1)
    told = str(number).ljust(power + 1 if power < 7 else 0, "0")
    if -4 < power < 0:
        return f"{sign}0.{'0' * (-1 - power)}{told}"
    is_plain = 0 <= power < max(digits, 7)
    whole = power + 1 if is_plain else 1
    text = f"{told[:whole]}.{told[whole:]}".rstrip(".")
    raised = "" if is_plain else f"×10{str(power).translate(_SUPERSCRIPTS)}"
    return f"{sign}{text}{raised}"


def half_away(value: float, digits: int) -> tuple[int, int]:
    """Return the digits of the size of a number as a whole number, and the power of the first.

    A half is rounded away from zero, as on paper; so is a number that differs from a half only in
    its thirteenth digit, where rounding in a calculation may have left it.

    Examples:
        >>> half_away(8812.5, 4), half_away(-0.99996, 4), half_away(8812.499999999999, 4)
        ((8813, 3), (1000, 0), (8813, 3))
    """
    held = max(digits, _HELD)
    mantissa, _, exponent = f"{abs(value):.{held - 1}e}".partition("e")
    step, power = 10 ** (held - digits), int(exponent)
    number = (int(mantissa.replace(".", "")) + step // 2) // step
    return (number // 10, power + 1) if number == 10**digits else (number, power)


def plain(value: float, digits: int = 6) -> str:
    """Return a number as short as it can be typed: no trailing zeros.

    Examples:
        >>> plain(5.5), plain(12.0), plain(1e-7)
        ('5.5', '12', '1e-07')
    """
    return f"{value + 0.0:.{digits}g}"


def readable(value: float, towards: float = 0.0, digits: int = 4) -> str:
    """Return a number to be read in a sentence: at most some digits, thousands set apart.

    A bound is rounded `towards` the side where no number inside it is lost: -1 is down, 1 is up;
    0 rounds to the nearest.

    Examples:
        >>> readable(-16404.199, -1), readable(65616.8, 1), readable(0.35), readable(2e-7)
        ('−16\u202f410', '65\u202f620', '0.35', '2e−07')
    """
    if value == 0.0 or not math.isfinite(value):
        return plain(value)
    unit = 10.0 ** (math.floor(math.log10(abs(value))) + 1 - digits)
    steps = value / unit
    nearest = math.copysign(math.floor(abs(steps) + 0.5), steps)
    if towards and abs(steps - nearest) > 1e-6:
        nearest = math.floor(steps) if towards < 0.0 else math.ceil(steps)
    mantissa, _, exponent = f"{nearest * unit:.{digits - 1}e}".partition("e")
    rounded = float(f"{mantissa}e{exponent}")
    is_plain = -5 < int(exponent) < 7
    text = f"{rounded:,.{max(0, digits - 1 - int(exponent))}f}" if is_plain else plain(rounded)
    if is_plain and "." in text:
        text = text.rstrip("0").rstrip(".")
    whole, point, rest = text.partition(".")
    if whole.count(",") == 1 and len(whole.strip("-")) == len("1,000"):
        whole = whole.replace(",", "")  # four digits stand together
    return (whole.replace(",", "\u202f") + point + rest).replace("-", "−")
