"""A generated test plan marks every step that enters or crosses an unstable band."""

import itertools

from calc.ground.run_plan import plan
from calc.ground.speed_steps import order_verdict
from calc.ground.stability import unstable_bands
from calc.ground.undercarriage import STATES, in_state
from tests.ground.example import HUB, ROTOR, SUPPORT, SWEEP

INPUTS = (ROTOR, HUB, *SWEEP)


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
