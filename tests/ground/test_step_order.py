"""Steps of the reader's own against the rules of a ground run."""

from calc.form.calculation import calculate
from calc.ground.examples import HIGHEST_SPEED, LOWEST_SPEED
from calc.ground.model.gear_state import UndercarriageState
from calc.ground.plan.speed_steps import Mark
from calc.ground.run_plan import plan
from calc.ground.step_order import PLANNED, PlannedStep, order_check
from calc.units import RPM
from tests.form.scripts import entries_of_link
from tests.ground.example import HUB, ROTOR, SWEEP

INPUTS = (ROTOR, HUB, *SWEEP)


def test_reader_steps_are_checked() -> None:
    """The example steps far over a fall of damping, passes where it should measure, and crosses."""
    found = order_check(*INPUTS, PLANNED.example)

    to = [round(RPM.reading(step.to_speed)) for step in found.unmarked]
    assert to == [112, 160, 200, 320, 0]
    assert "falls by more than a quarter" in found.unmarked[0].reason
    assert found.unmarked[3].reason == "crosses a predicted unstable band"
    assert found.verdict == "5 steps break a rule of the run"
    assert found.bad_end_bands[0].lower_speed < found.bands[0].lower_speed


def test_way_from_rest_counts() -> None:
    """A single step above the band cannot be reached, nor left, without crossing it."""
    found = order_check(*INPUTS, (PlannedStep(RPM.si(320.0), "hold"),))

    assert [round(RPM.reading(step.from_speed)) for step in found.unmarked] == [0, 320]


def test_steps_that_are_not_run_break_nothing() -> None:
    """Every step marked as not to be run leaves nothing to judge."""
    steps = tuple(PlannedStep(step.rotor_speed, "stop") for step in PLANNED.example)

    assert order_check(*INPUTS, steps).unmarked == ()


def test_a_generated_plan_passes_the_check() -> None:
    """The plan of the nominal state, entered by hand as steps, breaks none of the same rules."""
    state = UndercarriageState("nominal", 1.0, 1.0, 1.0, 1.0)
    words = {Mark.TRANSIT: "transit"}
    steps = tuple(
        PlannedStep(step.rotor_speed, words.get(Mark(step.instruction), "hold"))
        for step in plan(*INPUTS, (state,)).steps
    )

    assert order_check(*INPUTS, steps).unmarked == ()
    faster = PlannedStep(1.1 * steps[-1].rotor_speed, "hold")
    assert order_check(*INPUTS, (*steps, faster)).unmarked


def test_an_old_link_is_read() -> None:
    """A link from before the rules were inputs is judged by their defaults."""
    fragment = (
        "#blades=4&blade_mass=50_kg&first_moment=115_kg.m&lag_inertia=350_kg.m2"
        "&hinge_offset=0.25_m&lag_stiffness=0_N.m/rad&lag_damping=2000_N.m.s/rad"
        "&mass_x=3000_kg&mass_y=1400_kg&stiffness_x=600000_N/m&stiffness_y=640000_N/m"
        "&damping_x=6000_N.s/m&damping_y=4000_N.s/m&lowest_speed=40_rpm&highest_speed=400_rpm"
        "&steps=100,hold;200,transit;320,stop&hub_mass=without_blades"
    )
    name = "ground.step_order.order_check"
    found = calculate(name, entries_of_link(name, fragment))
    steps = ((100.0, "hold"), (200.0, "transit"), (320.0, "stop"))

    assert found.problems == ()
    assert found.result == order_check(
        ROTOR,
        HUB,
        LOWEST_SPEED,
        HIGHEST_SPEED,
        tuple(PlannedStep(RPM.si(speed), what) for speed, what in steps),
    )
