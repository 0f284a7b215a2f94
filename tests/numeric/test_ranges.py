"""The distance of two ranges against that of all their numbers."""

from itertools import combinations_with_replacement, product

import pytest

from calc.numeric.ranges import apart


def test_distance_is_that_of_the_nearest_numbers() -> None:
    """Every number of one range against every number of the other, on all ranges up to five."""
    ranges = list(combinations_with_replacement(range(6), 2))
    for first, second in product(ranges, ranges):
        numbers = product(*(range(low, high + 1) for low, high in (first, second)))
        assert apart(first, second) == min((a - b for a, b in numbers), key=abs)


def test_order_turns_the_sign() -> None:
    """A range is as far above another as that is below it."""
    assert apart((2.0, 2.5), (4.0, 9.0)) == -apart((4.0, 9.0), (2.0, 2.5)) == pytest.approx(-1.5)
