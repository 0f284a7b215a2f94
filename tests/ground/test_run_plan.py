"""A generated test plan marks every step that enters or crosses an unstable band."""

import itertools

from hypothesis import given
from hypothesis import strategies as st

from calc.ground.run_plan import plan
from calc.ground.speed_steps import Mark, SpeedStep, order_verdict, speed_steps, unmarked_crossings
from calc.ground.stability import unstable_bands
from calc.ground.step_order import PLANNED, PlannedStep, order_check
from calc.ground.undercarriage import STATES, in_state
from calc.units import RPM
from tests.ground.example import ROTOR, ROTOR_VALUES, SUPPORT, SUPPORT_VALUES, SWEEP

INPUTS = (*ROTOR_VALUES, *SUPPORT_VALUES, *SWEEP)


def test_no_step_is_run_in_or_beyond_a_band() -> None:
    """Every step above the lower edge of the first band of its state says not to run it."""
    found = plan(*INPUTS, STATES.example, 2.0, 0.05)

    for state in STATES.example:
        bands = unstable_bands(ROTOR, in_state(SUPPORT, state), *SWEEP)
        run = [step for step in found.steps if step.state == state.name]
        for step in run:
            beyond = any(step.rotor_speed >= low for low, _ in bands)
            assert step.instruction.startswith("do not run") == beyond
    assert found.verdict == order_verdict(0)


def test_steps_rise_and_are_numbered() -> None:
    """Numbers run through, speeds rise within a state, and the last one is the highest."""
    found = plan(*INPUTS, STATES.example, 3.0, 0.05)

    assert [step.number for step in found.steps] == list(range(1, len(found.steps) + 1))
    for _, run in itertools.groupby(found.steps, key=lambda step: step.state):
        speeds = [step.rotor_speed for step in run]
        assert speeds == sorted(speeds)
        assert speeds[-1] == SWEEP[1]


def test_the_most_stable_state_comes_first() -> None:
    """Build up from the state with the most damping to that with the least."""
    found = plan(*INPUTS, STATES.example, 4.0, 0.05)

    assert found.steps[0].state == "soft ground"
    assert found.steps[-1].state == "strut frozen or over-serviced"


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


def test_reader_steps_are_checked() -> None:
    """The example passes the band of the invented aircraft on its way to 320 rpm."""
    found = order_check(*INPUTS, PLANNED.example)

    assert [round(RPM.reading(step.to_speed)) for step in found.unmarked] == [320]
    assert found.verdict.startswith("1 step touches")
    marked = (*PLANNED.example[:3], PlannedStep(RPM.si(320.0), "stop"))
    assert order_check(*INPUTS, marked).unmarked == ()
