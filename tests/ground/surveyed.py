"""Measured modes and a sweep, for the tests of what is found on them."""

from collections.abc import Sequence

from calc.ground.modal_support import SupportMode
from calc.ground.search.mode_survey import MEASURED_MODES, MeasuredMode, SpeedRange
from calc.units import RPM

SPEEDS = SpeedRange(RPM.si(60.0), RPM.si(400.0), RPM.si(340.0), RPM.si(380.0))
TIED = tuple(mode for mode in MEASURED_MODES.example if mode.state == "tied down")


def without_state(modes: Sequence[MeasuredMode]) -> tuple[SupportMode, ...]:
    """Return measured modes as modes of one state."""
    return tuple(
        SupportMode(m.frequency, m.damping_ratio, m.modal_mass, m.shape_x, m.shape_y) for m in modes
    )
