"""What stands beside a field: limits that are read at a glance, and a slider with round steps."""

import re

import pytest

from calc.catalogue import FORMULAS, entry, formula
from calc.declaration import inputs
from calc.digits import readable
from calc.form.unit_list import limits_hint, slider_scale
from calc.quantity import Quantity
from calc.units import ALTITUDE, FOOT, LENGTH, METRE, ONE

NUMBER = re.compile(r"[−\d][\d.\u202f]*(?:e[−+]?\d+)?")


def quantities(name: str) -> list[Quantity]:
    """Return the quantities that a form asks for."""
    return [f.declaration for f in inputs(formula(name)) if isinstance(f.declaration, Quantity)]


def number(text: str) -> float:
    """Return a number that was written to be read."""
    return float(text.replace("\u202f", "").replace("−", "-"))


@pytest.mark.parametrize("name", FORMULAS)
def test_hint_leaves_out_no_legal_value(name: str) -> None:
    """In every unit a bound has four digits at most, and lies where it is or farther out."""
    for quantity in quantities(name):
        for unit in quantity.units:
            hint = limits_hint(quantity, unit).lower()
            for word, bound in (
                ("above", quantity.above),
                ("at least", quantity.at_least),
                ("at most", quantity.at_most),
                ("below", quantity.below),
            ):
                if word not in hint:
                    assert abs(bound) == float("inf")
                    continue
                found = NUMBER.search(hint.partition(word)[2])
                assert found is not None
                digits = re.sub(r"e.*|[−.\u202f]", "", found[0]).strip("0")
                assert len(digits) <= 4
                exact, shown = unit.reading(bound), number(found[0])
                slack = 1e-9 * abs(exact)
                if word in ("above", "at least"):
                    assert exact - 2e-3 * abs(exact) <= shown <= exact + slack
                else:
                    assert exact - slack <= shown <= exact + 2e-3 * abs(exact)


@pytest.mark.parametrize("name", [name for name in FORMULAS if entry(name).sliders])
def test_slider_has_round_steps(name: str) -> None:
    """In every unit: a step of 1, 2 or 5 and zeros, ends in whole steps, inside those declared."""
    for f in inputs(formula(name)):
        ends = entry(name).sliders.get(f.name)
        if ends is None or not isinstance(f.declaration, Quantity):
            continue
        for unit in f.declaration.units:
            low, high, step = map(float, slider_scale(f.declaration, unit, ends))
            assert f"{step:e}"[:8] in {"1.000000", "2.000000", "5.000000"}
            for end in (low, high):
                assert end / step == pytest.approx(round(end / step), abs=1e-6)
            first, last = unit.reading(ends[0]), unit.reading(ends[1])
            slack = 1e-6 * step
            assert first - slack <= low < first + step + slack
            assert last - step - slack < high <= last + slack
            assert f.declaration.whole or 100 < (high - low) / step < 600


def test_warning_is_rounded_but_never_to_the_range_itself() -> None:
    """Few digits, in the unit shown; all of them where few would put the number into the range."""
    altitude = Quantity("", "Altitude", ALTITUDE, covered=(-100.0, 5000.0))
    assert altitude.outside(6000.0, FOOT) == (
        "Altitude 19\u202f690 ft is outside the covered range, −328.1 ft to 16\u202f400 ft"
    )
    assert altitude.outside(5000.4, METRE) == (
        "Altitude 5000.4 m is outside the covered range, -100 m to 5000 m"
    )


def test_refusal_keeps_every_digit() -> None:
    """What is refused is said as it is, with the limit as it is."""
    span = Quantity("", "Span", LENGTH, at_most=1234.56)
    assert span.refusal(1234.57, METRE) == "Span must be at most 1234.56 m, not 1234.57 m"
    assert limits_hint(span, METRE) == "At most 1235 m"


def test_readable_numbers() -> None:
    """Rounded outward or to the nearest; thousands set apart from five digits on."""
    assert readable(-16404.199, -1.0) == "−16\u202f410"
    assert readable(-16404.199) == "−16\u202f400"
    assert (readable(1000.0), readable(9999.6), readable(0.1, -1.0)) == (
        "1000",
        "10\u202f000",
        "0.1",
    )


def test_refusal_writes_a_whole_number_as_such() -> None:
    """No propeller is 0, not 0.0, though a 0 stands in the limits; so is the one above a limit."""
    count = Quantity("n", "Number", at_least=1, at_most=10000000, whole=True)
    assert count.refusal(0.0, ONE) == "Number must be at least 1 and at most 1e+07, not 0"
    assert count.refusal(10000001.0, ONE).endswith("at most 1e+07, not 10000001")
