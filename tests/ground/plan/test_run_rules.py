"""The rules of a ground run, by their definitions."""

import pytest

from calc.ground.plan.run_rules import RunRules


def test_stand_off_is_a_fraction_of_the_rotor_speed_at_each_edge() -> None:
    """A tenth of 100 below a band is 90; 180 is a tenth of 200 below 200.

    Common practice, no source.
    """
    low, high = RunRules(keep_clear=0.1).closed(100.0, 180.0)

    assert low == pytest.approx(90.0)
    assert high == pytest.approx(200.0)
    assert high - 180.0 == pytest.approx(0.1 * high)
