"""Peaks of curves whose tops are known."""

import math
from collections.abc import Callable

import pytest

from calc.numeric.peaks import highest, lowest

CURVES: dict[str, tuple[Callable[[float], float], float, float, float]] = {
    "parabola": (lambda x: 3.0 - (x - 1.3) ** 2, 0.0, 4.0, 1.3),
    "sine": (math.sin, 0.0, 3.0, 0.5 * math.pi),
    "edge": (lambda x: -abs(x - 2.2), 0.0, 3.0, 2.2),
    "resonance": (lambda x: 1.0 / (1.0 + 400.0 * (x - 0.7) ** 2), 0.0, 1.0, 0.7),
    "flat top": (lambda x: -(x**4), -1.0, 2.0, 0.0),
    "rise to an end": (lambda x: x, 0.0, 3.0, 3.0),
    "fall from an end": (lambda x: -x, 0.0, 3.0, 0.0),
}


@pytest.mark.parametrize("name", CURVES)
def test_top_is_found_to_the_width(name: str) -> None:
    """Place within the width; never outside the two places."""
    curve, low, high, top = CURVES[name]
    place, value = highest(curve, low, high, 1e-6)

    assert place == pytest.approx(top, abs=2e-3 if name == "flat top" else 1e-6)
    assert value == curve(place)
    assert low <= place <= high


def counted(curve: Callable[[float], float], seen: list[float]) -> Callable[[float], float]:
    """Return a curve that writes down where it is asked."""

    def asked(place: float) -> float:
        seen.append(place)
        return curve(place)

    return asked


def test_a_smooth_top_takes_few_evaluations() -> None:
    """A parabola is met at its top within a dozen and a half; golden section takes thirty."""
    seen: list[float] = []
    highest(counted(lambda x: -((x - 1.3) ** 2), seen), 0.0, 4.0, 1e-6)

    assert len(seen) <= 20


def test_search_ends_at_a_place_that_is_high_enough() -> None:
    """The first place above the level is taken."""
    seen: list[float] = []
    _, value = highest(counted(math.sin, seen), 0.0, 3.0, 1e-9, 0.5)

    assert value > 0.5
    assert [math.sin(place) > 0.5 for place in seen] == [False] * (len(seen) - 1) + [True]


def test_a_search_without_a_width_ends() -> None:
    """A width of nothing, and a curve that is not a number, end all the same."""
    assert highest(math.sin, 0.0, 3.0, 0.0)[1] == pytest.approx(1.0)
    assert math.isnan(highest(lambda _: math.nan, 0.0, 3.0, 1e-9)[1])


def test_lowest_is_the_highest_upside_down() -> None:
    """The bottom of a cosine is at pi."""
    assert lowest(math.cos, 2.0, 4.5) == pytest.approx((math.pi, -1.0), abs=3e-5)
