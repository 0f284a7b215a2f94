"""Run rules: how far a ground run stays from a predicted instability, and how it steps."""

from dataclasses import dataclass
from typing import Annotated, ClassVar

from calc.declaration import check
from calc.ground.model.gear_state import THRUST_RATIO
from calc.quantity import Quantity
from calc.units import ROTATION, RPM, SHARE

PRACTICE = "common practice, no source"

KEEP_CLEAR = Quantity(
    r"\epsilon",
    "Stand-off from a predicted unstable band, fraction of rotor speed",
    SHARE,
    at_least=0.02,
    below=1.0,
    covered=(0.05, 1.0),
    covered_by=f"a smaller stand-off is not {PRACTICE}",
    example=0.1,
    source=PRACTICE,
)
LEAST_DAMPING = Quantity(
    r"\zeta_{min}",
    "Least predicted damping ratio at which to excite",
    SHARE,
    at_least=0.002,
    at_most=0.2,
    covered=(0.005, 0.2),
    covered_by=f"a smaller damping ratio is not {PRACTICE}",
    example=0.01,
    source=PRACTICE,
)
FREQUENCY_UNCERTAINTY = Quantity(
    "u_f",
    "Uncertainty of the airframe frequencies, plus or minus",
    SHARE,
    at_least=0.0,
    at_most=0.5,
    covered=(0.02, 0.5),
    covered_by=f"a smaller uncertainty is not {PRACTICE}, even after a shake test",
    example=0.05,
    source=PRACTICE,
)
DAMPING_UNCERTAINTY = Quantity(
    r"u_\zeta",
    "Uncertainty of the airframe damping and the lag damping",
    SHARE,
    at_least=0.0,
    at_most=0.9,
    covered=(0.1, 0.9),
    covered_by=f"a smaller uncertainty is not {PRACTICE}, even after a shake test",
    example=0.2,
    source=PRACTICE,
)
STEP_SHARE = Quantity(
    "q",
    "Largest step, fraction of the nominal rotor speed",
    SHARE,
    at_least=0.01,
    at_most=0.2,
    covered=(0.01, 0.05),
    covered_by=f"a larger step is not {PRACTICE}",
    example=0.04,
    source=PRACTICE,
)
STEP_SIZE = Quantity(
    r"\Delta\Omega", "Largest step of rotor speed", ROTATION, above=0.0, example=RPM.si(30.0)
)
MOST_LIFT = Quantity(
    r"L_{max}",
    "Most weight on the rotor, fraction, a limit below lift-off",
    SHARE,
    at_least=0.0,
    below=1.0,
    covered=(0.0, 0.9),
    covered_by=f"a limit nearer to lift-off is not {PRACTICE}",
    example=0.9,
    source=PRACTICE,
)
FINE = 4  # fine steps in a full one; common practice, no source
FALL = 0.75  # a step over which the damping falls below this fraction is a fine one; no source


@dataclass(frozen=True, slots=True)
class RunRules:
    """Margins and steps of a ground run; each default is common practice without a source.

    Attributes:
        keep_clear: Stand-off from an unstable band, fraction of rotor speed; scalar.
        least_damping: Predicted damping ratio below which nothing is excited; scalar.
        frequency_uncertainty: Uncertainty of the airframe frequencies, fraction; scalar.
        damping_uncertainty: Uncertainty of airframe and lag damping, fraction; scalar.
        step_share: Largest step, fraction of the nominal rotor speed; scalar.
        step_size: Largest step of rotor speed, where it is the smaller; scalar, rad/s.
        thrust_ratio: Largest thrust at nominal rotor speed over the weight; scalar.
        most_lift: Most weight on the rotor, a fraction below lift-off; scalar.
    """

    heading: ClassVar[str] = "Rules of the run"

    keep_clear: Annotated[float, KEEP_CLEAR] = KEEP_CLEAR.example
    least_damping: Annotated[float, LEAST_DAMPING] = LEAST_DAMPING.example
    frequency_uncertainty: Annotated[float, FREQUENCY_UNCERTAINTY] = FREQUENCY_UNCERTAINTY.example
    damping_uncertainty: Annotated[float, DAMPING_UNCERTAINTY] = DAMPING_UNCERTAINTY.example
    step_share: Annotated[float, STEP_SHARE] = STEP_SHARE.example
    step_size: Annotated[float, STEP_SIZE] = STEP_SIZE.example
    thrust_ratio: Annotated[float, THRUST_RATIO] = THRUST_RATIO.example
    most_lift: Annotated[float, MOST_LIFT] = MOST_LIFT.example

    def __post_init__(self) -> None:
        """Refuse rules that cannot be."""
        check(self)

    def step(self, nominal_speed: float) -> float:
        """Return the largest step, rad/s."""
        return min(self.step_share * nominal_speed, self.step_size)

    def stop_below(self, damping_ratio: float) -> float:
        """Return the measured damping ratio of a mode below which a run is stopped."""
        return max((1.0 - self.damping_uncertainty) * damping_ratio, self.least_damping)

    def closed(self, low: float, high: float) -> tuple[float, float]:
        """Return an unstable band with its stand-off on both sides, rad/s."""
        return low * (1.0 - self.keep_clear), high / (1.0 - self.keep_clear)
