"""Steps of the reader's own against the bands of the aircraft."""

from calc.ground.step_order import PLANNED, PlannedStep, order_check
from calc.units import RPM
from tests.ground.example import HUB, ROTOR, SWEEP

INPUTS = (ROTOR, HUB, *SWEEP)


def test_reader_steps_are_checked() -> None:
    """The example passes the band of the invented aircraft on its way to 320 rpm and back."""
    found = order_check(*INPUTS, PLANNED.example)

    assert [round(RPM.reading(step.to_speed)) for step in found.unmarked] == [320, 0]
    assert found.verdict.startswith("2 steps touch")
    marked = (*PLANNED.example[:3], PlannedStep(RPM.si(320.0), "stop"))
    assert order_check(*INPUTS, marked).unmarked == ()


def test_way_from_rest_counts() -> None:
    """A single step above the band cannot be reached, nor left, without crossing it."""
    found = order_check(*INPUTS, (PlannedStep(RPM.si(320.0), "hold"),))

    assert [round(RPM.reading(step.from_speed)) for step in found.unmarked] == [0, 320]
