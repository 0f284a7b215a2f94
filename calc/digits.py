"""How many digits of a number are shown."""

import math

_SUPERSCRIPTS = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")


def significant(value: float, digits: int = 4) -> str:
    """Return a number for reading: significant digits, trailing zeros, whole numbers whole.

    Very large and very small numbers are written with a power of ten.

    Examples:
        >>> significant(227.5), significant(1.0), significant(101325.0), significant(0.000012345)
        ('227.5', '1.000', '101325', '1.234×10⁻⁵')
    """
    if not math.isfinite(value):
        return {math.inf: "∞", -math.inf: "−∞"}.get(value, "—")
    if value == 0.0:
        return "0"
    mantissa, _, exponent = f"{value:.{digits - 1}e}".partition("e")
    power = int(exponent)
    if -4 < power < digits:
        text = f"{value:.{digits - 1 - power}f}"
    elif digits <= power < 7:
        text = f"{value:.0f}"
    else:
        text = f"{mantissa}×10{str(power).translate(_SUPERSCRIPTS)}"
    return text.replace("-", "−")


def plain(value: float, digits: int = 6) -> str:
    """Return a number as short as it can be typed: no trailing zeros.

    Examples:
        >>> plain(5.5), plain(12.0), plain(1e-7)
        ('5.5', '12', '1e-07')
    """
    return f"{value + 0.0:.{digits}g}"
