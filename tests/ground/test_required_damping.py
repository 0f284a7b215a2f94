"""Required damping, by way of what is stable with it."""

from dataclasses import replace

import pytest

from calc.chart import Line
from calc.ground.criterion import damping_product
from calc.ground.model.aircraft import Support
from calc.ground.required_damping import (
    required_lag_damping,
    required_lag_damping_chart,
    required_support_damping,
)
from calc.ground.search.damping_map import damping_map, scaled
from calc.ground.search.needed_damping import minimum_lag_damping
from calc.ground.stability import worst_speed
from tests.ground.example import HUB, ROTOR, SUPPORT, SWEEP

INPUTS = (ROTOR, HUB, *SWEEP)


def test_lag_damping_and_margin() -> None:
    """The margin is the damping there is over the least that is stable."""
    found = required_lag_damping(*INPUTS)

    assert found is not None
    assert found.required_lag_damping == minimum_lag_damping(ROTOR, SUPPORT, *SWEEP)
    assert found.margin == pytest.approx(ROTOR.lag_damping / found.required_lag_damping)
    enough = replace(ROTOR, lag_damping=found.required_lag_damping)
    assert worst_speed(enough, SUPPORT, *SWEEP)[1] == pytest.approx(0.0, abs=1e-7)


def test_support_damping_and_margin() -> None:
    """With the hub damping found the worst motion neither grows nor decays."""
    found = required_support_damping(*INPUTS)

    assert found is not None
    factor = 1.0 / found.margin
    assert found.required_damping_x == pytest.approx(factor * SUPPORT.damping_x)
    assert found.required_damping_y == pytest.approx(factor * SUPPORT.damping_y)
    assert worst_speed(ROTOR, scaled(SUPPORT, factor), *SWEEP)[1] == pytest.approx(0.0, abs=1e-7)


def test_the_reverse_of_each_other() -> None:
    """The hub damping that the needed lag damping needs is the hub damping there is."""
    lag = required_lag_damping(*INPUTS)
    assert lag is not None
    needed = replace(ROTOR, lag_damping=lag.required_lag_damping)
    back = required_support_damping(needed, HUB, *SWEEP)

    assert back is not None
    assert back.margin == pytest.approx(1.0, abs=1e-5)


def test_without_hub_damping_no_lag_damping_is_enough() -> None:
    """An undamped hub cannot be made stable by lag dampers, nor the other way round."""
    bare = replace(HUB, damping_x=0.0, damping_y=0.0)

    assert required_lag_damping(ROTOR, bare, *SWEEP) is None
    undamped = replace(ROTOR, lag_damping=0.0)
    assert required_support_damping(undamped, HUB, *SWEEP) is None


def test_map_follows_the_needed_damping() -> None:
    """The line of the chart passes through the damping needed, to what a picture shows."""
    table = required_lag_damping_chart(*INPUTS).table()
    row = next(row for row in table[1:] if row[0] == "1")
    found = required_lag_damping(*INPUTS)

    assert found is not None
    assert float(row[1]) == pytest.approx(found.required_lag_damping, rel=0.01)


def test_more_hub_damping_needs_less_lag_damping() -> None:
    """Twice the hub damping, less lag damping: the product counts."""
    twice = minimum_lag_damping(ROTOR, scaled(SUPPORT, 2.0), *SWEEP)
    once = minimum_lag_damping(ROTOR, SUPPORT, *SWEEP)

    assert twice is not None
    assert once is not None
    assert twice < once
    assert isinstance(scaled(SUPPORT, 2.0), Support)


def test_hyperbola_of_the_map_is_the_deutsch_criterion() -> None:
    """Required product over hub damping, of the direction that asks for more, over the factor."""
    lateral = damping_product(ROTOR, SUPPORT.lateral)
    assert lateral is not None
    chart = damping_map(ROTOR, SUPPORT, *SWEEP)
    line = next(m for m in chart.marks if isinstance(m, Line) and m.label.startswith("Deutsch"))

    for factor, damping in line.points:
        expected = lateral.single_product / (factor * SUPPORT.damping_y)
        assert damping == pytest.approx(expected)
    assert chart.y.high == 2.0 * max(ROTOR.lag_damping, lateral.single_product / SUPPORT.damping_y)
