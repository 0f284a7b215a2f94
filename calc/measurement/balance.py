"""Balance in one plane: a trial weight shows what a weight does, and so which weight to add."""

import math
from dataclasses import dataclass, replace
from typing import Annotated, ClassVar

from calc.chart import Arrows, Axis, Polar
from calc.declaration import Choice, Name, check
from calc.measurement.correction import (
    blade_adjustments,
    influence_coefficient,
    several_plane_correction,
    single_plane_correction,
)
from calc.measurement.counting import Counting, turned
from calc.measurement.four_runs import four_run_correction
from calc.measurement.residual_unbalance import (
    expected_residual,
    permissible_unbalance,
    unbalance_force,
)
from calc.measurement.split_weight import combined_weight, split_weight
from calc.quantity import Quantity
from calc.units import ANGLE, INFLUENCE, PER_CENT, SMALL_MASS, VIBRATION_VELOCITY

__all__ = [
    "blade_adjustments",
    "combined_weight",
    "expected_residual",
    "four_run_correction",
    "influence_coefficient",
    "permissible_unbalance",
    "several_plane_correction",
    "single_plane",
    "single_plane_correction",
    "split_weight",
    "unbalance_force",
]

AMPLITUDE_BEFORE = Quantity(
    "A_0", "Amplitude without trial weight", VIBRATION_VELOCITY, above=0.0, example=8.4e-3
)
PHASE_BEFORE = Quantity(
    r"\varphi_0", "Phase without trial weight", ANGLE, example=math.radians(62.0)
)
AMPLITUDE_AFTER = Quantity(
    "A_1", "Amplitude with trial weight", VIBRATION_VELOCITY, at_least=0.0, example=5.9e-3
)
PHASE_AFTER = Quantity(r"\varphi_1", "Phase with trial weight", ANGLE, example=math.radians(108.0))
TRIAL_MASS = Quantity("m_t", "Mass of the trial weight", SMALL_MASS, above=0.0, example=0.040)
TRIAL_ANGLE = Quantity(r"\theta_t", "Place of the trial weight", ANGLE, example=0.0)
TRIAL_LEFT = Choice(
    "Afterwards the trial weight", {"removed": "comes off", "left": "stays on for good"}
)
SCATTER = Quantity(
    "u", "Scatter of repeated readings", VIBRATION_VELOCITY, at_least=0.0, example=4e-4
)
WEIGHT_LIMIT = Quantity(
    "m_{max}", "Largest weight that the procedure allows", SMALL_MASS, above=0.0, example=0.120
)
CHANGE = Quantity("A_t", "Change by the trial weight", VIBRATION_VELOCITY)
ALONG = Quantity("A_x", "Change of the cosine part", VIBRATION_VELOCITY)
ACROSS = Quantity("A_y", "Change of the sine part", VIBRATION_VELOCITY)
CHANGE_PHASE = Quantity(r"\varphi_t", "Phase of the change", ANGLE)
MOVED = Quantity(r"\Delta\theta", "Turn from the trial weight to the weight to add", ANGLE)
CORRECTION_MASS = Quantity("m_c", "Weight to add", SMALL_MASS)
CORRECTION_ANGLE = Quantity(r"\theta_c", "Place of the weight to add", ANGLE)
EFFECT = Quantity(r"A_{\alpha}", "Effect of a weight", INFLUENCE)
LEFTOVER = Quantity("A_r", "Expected residual from the scatter", VIBRATION_VELOCITY)
LEFTOVER_SHARE = Quantity("A_r/A_0", "Expected residual over the first reading", PER_CENT)
TRUST = Name("Before a weight is cut")
TRUSTED = "the readings agree with an unbalance that one weight can correct"
SMALL_TRIAL = (
    "the trial weight moved the reading by less than 30 % and 30 deg: take a larger one, within "
    "the procedure"
)
NO_GAIN = (
    "the scatter of the readings is as large as what the weight would cure: find out why they "
    "scatter first"
)
TOO_LARGE = (
    "the weight, with a trial weight that stays, is larger than the procedure allows: look for a "
    "fault, a lost weight or a wrong sensor, and add nothing"
)
SMALL_SHARE = 0.3
SMALL_TURN = math.radians(30.0)
"""A trial weight should change one of both as much; a rule of thumb from memory."""


@dataclass(frozen=True, slots=True)
class TrialRun:
    """The readings without and with a trial weight, at one speed and one sensor.

    Attributes:
        before_amplitude: Amplitude without the trial weight; scalar, m/s.
        before_phase: Phase without it, as the instrument shows it; scalar, rad.
        trial_mass: Mass of the trial weight; scalar, kg.
        trial_angle: Where it was, as the rotor is marked; scalar, rad.
        after_amplitude: Amplitude with the trial weight; scalar, m/s.
        after_phase: Phase with it; scalar, rad.
    """

    heading: ClassVar[str] = "Readings"

    before_amplitude: Annotated[float, AMPLITUDE_BEFORE]
    before_phase: Annotated[float, PHASE_BEFORE]
    trial_mass: Annotated[float, TRIAL_MASS]
    trial_angle: Annotated[float, TRIAL_ANGLE]
    after_amplitude: Annotated[float, AMPLITUDE_AFTER]
    after_phase: Annotated[float, PHASE_AFTER]

    def __post_init__(self) -> None:
        """Refuse readings that cannot be."""
        check(self)


@dataclass(frozen=True, slots=True)
class SinglePlane:
    """The weight to add, and how far the readings can be trusted."""

    trust: Annotated[str, TRUST]
    correction_mass: Annotated[float, CORRECTION_MASS]
    correction_angle: Annotated[float, CORRECTION_ANGLE]
    change: Annotated[float, CHANGE]
    effect: Annotated[float, EFFECT]
    residual: Annotated[float, LEFTOVER]
    residual_share: Annotated[float, LEFTOVER_SHARE]


def single_plane(
    counting: Counting,
    run: TrialRun,
    trial_left: Annotated[str, TRIAL_LEFT],
    scatter: Annotated[float, SCATTER],
    weight_limit: Annotated[float, WEIGHT_LIMIT],
) -> SinglePlane:
    r"""Return the weight to add in one plane, from two readings and a trial weight.

    $$ A_t \mathrm{e}^{\mathrm{i} \varphi_t} = A_1 \mathrm{e}^{\mathrm{i} \varphi_1}
       - A_0 \mathrm{e}^{\mathrm{i} \varphi_0}, \qquad m_c = m_t \frac{A_0}{A_t}, \qquad
       \theta_c = \theta_t \pm (\varphi_0 + 180^\circ - \varphi_t), \qquad
       A_r = \frac{u}{A_t} \sqrt{A_0^2 + A_1^2} $$

    The sign is plus where phases and angles on the rotor are counted in one sense: lags with
    angles against the rotation, leads with angles with it.  With the trial weight left on, $A_1$
    and $\varphi_1$ stand in the place of $A_0$ and $\varphi_0$.  The rotor answers in proportion
    to the weight; speed, sensor and state are those of both readings.

    Args:
        counting: How the instrument and the marks on the rotor count; record.
        run: The readings and the trial weight; record.
        trial_left: Whether the trial weight comes off before the correction is put on; word.
        scatter: Root mean square distance of repeated readings from their mean; scalar, m/s.
        weight_limit: Above it the procedure asks for another cure; scalar, kg.

    Returns:
        The weight to add and its place, what the trial weight did, and what is left if all goes
        as the scatter of the readings allows.

    Raises:
        ValueError: If an argument breaks its limits or the trial weight changed nothing.

    Source:
        Influence coefficients, Goodman (1964); the residual from the scatter is derived here.

    Examples:
        >>> found = single_plane(
        ...     Counting("lag", "against"), TrialRun(4e-3, 0.0, 0.05, 0.0, 2e-3, 0.0), "removed",
        ...     2e-4, 0.2,
        ... )
        >>> round(found.correction_mass, 9), found.correction_angle
        (0.1, 0.0)
    """
    TRIAL_LEFT.check(trial_left)
    SCATTER.check(scatter)
    WEIGHT_LIMIT.check(weight_limit)
    first, second = run.before_amplitude, run.after_amplitude
    along: Annotated[float, ALONG] = second * math.cos(run.after_phase) - first * math.cos(
        run.before_phase
    )
    across: Annotated[float, ACROSS] = second * math.sin(run.after_phase) - first * math.sin(
        run.before_phase
    )
    change: Annotated[float, CHANGE] = math.hypot(along, across)
    if change <= 1e-12 * first:
        raise ValueError("The trial weight must change the reading")
    change_phase: Annotated[float, CHANGE_PHASE] = math.atan2(across, along)
    stays = trial_left == "left"
    amplitude = run.after_amplitude if stays else run.before_amplitude
    phase = run.after_phase if stays else run.before_phase
    moved: Annotated[float, MOVED] = (
        phase + math.pi - change_phase if counting.same_sense else change_phase - phase - math.pi
    )
    correction_mass: Annotated[float, CORRECTION_MASS] = run.trial_mass * amplitude / change
    residual: Annotated[float, LEFTOVER] = scatter * math.hypot(first, second) / change
    # A trial weight that stays is with the weight to add what would have corrected the first.
    largest = run.trial_mass * max(amplitude, first) / change
    return SinglePlane(
        trust=_trust(run, largest, residual, weight_limit),
        correction_mass=correction_mass,
        correction_angle=turned(run.trial_angle + moved),
        change=change,
        effect=change / run.trial_mass,
        residual=residual,
        residual_share=residual / first,
    )


def single_plane_chart(run: TrialRun, change: float, change_phase: float, residual: float) -> Polar:
    """Return the two readings, what the trial weight did, and the expected residual as a ring."""
    before = run.before_amplitude, run.before_phase
    after = run.after_amplitude, run.after_phase
    return Polar(
        title="Readings before and with the trial weight",
        description="Arrows of the reading without the trial weight, with it, and of what it "
        "added, on a dial of the phases as the instrument shows them; the dashed ring about the "
        "middle is the residual that the scatter lets expect.",
        amplitude=replace(Axis.of(AMPLITUDE_BEFORE), label="Amplitude"),
        angle="Phase as shown",
        arrows=(
            Arrows([before], "without trial weight", 1),
            Arrows([after], "with trial weight", 2),
            Arrows([(change, turned(change_phase))], "what the trial weight added", 3),
        ),
        ring=residual,
        ring_label="expected residual",
    )


def _trust(run: TrialRun, mass: float, residual: float, limit: float) -> str:
    """Return in words whether the weight is worth cutting."""
    if mass > limit:
        return TOO_LARGE
    if residual >= run.before_amplitude:
        return NO_GAIN
    share = abs(run.after_amplitude - run.before_amplitude) / run.before_amplitude
    turn = abs(math.remainder(run.after_phase - run.before_phase, math.tau))
    return SMALL_TRIAL if share < SMALL_SHARE and turn < SMALL_TURN else TRUSTED
