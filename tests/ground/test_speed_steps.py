"""Rotor speed steps and the bands between them."""

from hypothesis import given
from hypothesis import strategies as st

from calc.ground.speed_steps import Mark, SpeedStep, order_verdict, speed_steps, unmarked_crossings

BANDS = st.lists(st.floats(5.0, 50.0), max_size=6, unique=True).map(
    lambda edges: list(zip(sorted(edges)[::2], sorted(edges)[1::2], strict=False))
)
"""Bands that neither touch nor overlap."""


@given(bands=BANDS, step=st.floats(0.5, 9.0), near=st.lists(st.floats(5.0, 50.0), max_size=2))
def test_marked_steps_never_cross_unmarked(
    bands: list[tuple[float, float]], step: float, near: list[float]
) -> None:
    """Any bands and steps: a run-up as generated has no unmarked crossing."""
    run = speed_steps((4.0, 55.0, step), bands, near, 0.05)

    assert unmarked_crossings(run, bands) == []


def test_a_step_across_a_band_is_found_in_both_directions() -> None:
    """Both ends are stable and the band lies between: up and down it is a crossing."""
    run = [SpeedStep(10.0, Mark.HOLD), SpeedStep(30.0, Mark.HOLD), SpeedStep(12.0, Mark.HOLD)]

    assert len(unmarked_crossings(run, [(18.0, 20.0)])) == 2
    assert unmarked_crossings(run, [(31.0, 40.0)]) == []


def test_verdict_counts_the_steps() -> None:
    """None, one and several steps, each in words."""
    assert order_verdict(0).startswith("Every step")
    assert order_verdict(1) == "1 step touches an unstable band without a mark"
    assert order_verdict(3) == "3 steps touch an unstable band without a mark"
