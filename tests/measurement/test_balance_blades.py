"""Balance by blades: a rotor whose blades differ, seen by a sensor while they pass."""

import math

import numpy as np
import pytest

from calc.measurement.balance_blades import (
    ALL,
    SOME,
    Allowed,
    ConditionReading,
    StepEffect,
    blade_balance,
    blade_balance_chart,
)
from calc.measurement.counting import Counting

BLADES = 5
PASSING = {"hover": (2.0e-3, 0.8), "fast": (3.5e-3, 2.1)}
"""What a step on a blade does to the sensor as it passes: size, and how long after azimuth zero."""


def shown(condition: str, steps: dict[int, float]) -> tuple[float, float]:
    """Return amplitude and lag of 1/rev, from the sum of passing blades sampled over a turn.

    Blade 1 is at azimuth zero at the pulse, and each next blade follows it: numbers grow against
    the rotation.
    """
    size, late = PASSING[condition]
    turn = np.arange(3600) * 2.0 * math.pi / 3600
    signal = sum(
        amount * size * np.cos(turn - 2.0 * math.pi * (blade - 1) / BLADES - late)
        for blade, amount in steps.items()
    )
    cosine, sine = (2.0 * np.mean(signal * wave) for wave in (np.cos(turn), np.sin(turn)))
    return math.hypot(cosine, sine), math.atan2(sine, cosine) % math.tau


EFFECTS = tuple(StepEffect(name, "tab", *shown(name, {1: 1.0})) for name in PASSING)


def readings(steps: dict[int, float]) -> tuple[ConditionReading, ...]:
    """Return what the sensor shows in every condition."""
    return tuple(ConditionReading(name, *shown(name, steps)) for name in PASSING)


def test_blades_that_are_off_are_put_back() -> None:
    """Tabs of two blades that are off are asked back, on the same blades."""
    found = blade_balance(
        Counting("lag", "against"),
        BLADES,
        readings({2: 1.5, 5: -0.5}),
        EFFECTS,
        (Allowed("tab", 2), Allowed("tab", 5)),
    )

    assert [row.steps for row in found.adjustments] == pytest.approx([-1.5, 0.5], rel=1e-9)
    assert found.fixed == ALL
    assert max(row.forecast for row in found.forecasts) < 1e-12


def test_numbers_counted_the_other_way_leave_more_than_there_was() -> None:
    """With blade numbers against what they are, the answer belongs to the mirror image."""
    found = blade_balance(
        Counting("lag", "with"),
        BLADES,
        readings({2: 1.5}),
        EFFECTS,
        (Allowed("tab", 2), Allowed("tab", 3)),
    )
    steps = {row.blade: row.steps for row in found.adjustments}
    steps[2] += 1.5

    assert shown("hover", steps)[0] > 0.9 * shown("hover", {2: 1.5})[0]


def test_same_step_on_all_blades_does_nothing() -> None:
    """Three tabs or five: what one blade has too much can be shared among the others."""
    everyone = tuple(Allowed("tab", blade) for blade in range(1, BLADES + 1))
    found = blade_balance(Counting("lag", "against"), BLADES, readings({4: 1.0}), EFFECTS, everyone)
    steps = {row.blade: row.steps + (row.blade == 4) for row in found.adjustments}

    assert found.fixed == SOME
    assert sum(row.steps for row in found.adjustments) == pytest.approx(0.0, abs=1e-9)
    assert shown("fast", steps)[0] == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize(
    ("effects", "allowed", "message"),
    [
        (EFFECTS, (Allowed("tab", 6),), "no blade 6 among 5"),
        (EFFECTS, (Allowed("weight", 1),), "effect of one step of hub or blade weight is missing"),
        (EFFECTS, (Allowed("tab", 1),) * 2, "named once"),
        (EFFECTS * 2, (Allowed("tab", 1),), "one effect in each condition"),
        ((StepEffect("hill", "tab", 1.0, 0.0),), (Allowed("tab", 1),), "“hill” is not among"),
    ],
)
def test_tables_that_do_not_fit_are_refused(
    effects: tuple[StepEffect, ...], allowed: tuple[Allowed, ...], message: str
) -> None:
    """A blade that is not there, an unknown name, and what stands twice are said."""
    with pytest.raises(ValueError, match=message):
        blade_balance(Counting("lag", "against"), BLADES, readings({1: 1.0}), effects, allowed)


def test_condition_named_twice_is_refused() -> None:
    """Two readings of one name cannot both have the effects of that name."""
    twice = (ConditionReading("hover", 1.0, 0.0),) * 2
    with pytest.raises(ValueError, match="stands twice"):
        blade_balance(Counting("lag", "with"), BLADES, twice, EFFECTS[:1], (Allowed("tab", 1),))


def test_figure_has_each_reading_twice() -> None:
    """Before and forecast, as phases are shown."""
    given = readings({2: 1.5})
    found = blade_balance(Counting("lag", "against"), BLADES, given, EFFECTS, (Allowed("tab", 3),))
    before, forecast = blade_balance_chart(given, found).arrows

    assert before.points == [(row.amplitude, row.phase) for row in given]
    assert forecast.points == [(row.forecast, row.phase) for row in found.forecasts]
