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
    nearest = round(steps)
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
