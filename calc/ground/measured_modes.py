"""Measured modes: ground resonance on measured airframe modes, with any lag dampers."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import isnan, nan
from typing import Annotated

from calc.chart import Band, Chart, Line
from calc.declaration import Name
from calc.ground.modal_support import SupportMode
from calc.ground.model.aircraft import Rotor
from calc.ground.quantities import GROWTH_RATE, HUB_MASS
from calc.ground.search.case_verdict import CASES, CaseVerdict, case_verdict, sentence
from calc.ground.search.growth_chart import growth_chart
from calc.ground.search.least_damped import LEAST_STABLE_FREQUENCY, PERCENT_CRITICAL
from calc.ground.search.mode_survey import MEASURED_MODES, Case, MeasuredMode, SpeedRange, survey
from calc.ground.search.rotor_on_modes import rotor_on_modes
from calc.ground.search.verdict import VERDICT, WORST_SPEED
from calc.quantity import Quantity
from calc.units import SHARE

DRAWN = 180  # points of a line in the figure
DAMPER_SHARE = Quantity(
    "d", "Damping left in a degraded damper", SHARE, at_least=0.0, at_most=1.0, example=0.5
)


@dataclass(frozen=True, slots=True)
class ModesVerdict:
    """The worst of all cases, and every case side by side."""

    verdict: Annotated[str, VERDICT]
    worst_case: Annotated[str, Name("Worst case")]
    worst_speed: Annotated[float, WORST_SPEED]
    growth_rate: Annotated[float, GROWTH_RATE]
    damping_ratio: Annotated[float, PERCENT_CRITICAL]
    frequency: Annotated[float, LEAST_STABLE_FREQUENCY]
    cases: Annotated[tuple[CaseVerdict, ...], CASES]


def growth_rate(
    rotor: Rotor, modes: Sequence[SupportMode], rotor_speed: float, lag_dampings: Sequence[float]
) -> float:
    r"""Return the growth rate of the least stable motion of a rotor on measured modes.

    $$ \sigma = \max_j \operatorname{Re} s_j \quad \text{(three or more blades alike)}, \qquad
    \sigma = \max_j \frac{\ln |\lambda_j(\Phi(T))|}{T} \quad \text{(any others)} $$

    Three or more blades with equal dampers have constant coefficients in multiblade coordinates;
    the N_b - 2 motions that leave the hub at rest are those of a blade alone.  Any other blades,
    and two, have coefficients that repeat with every revolution: Floquet's theory.

    Args:
        rotor: Two or more blades; its own lag damping is not used.
        modes: Modes without the blades, with the hub motion in their shapes; at least one.
        rotor_speed: Constant speed of rotation; scalar, rad/s.
        lag_dampings: Lag damper of each blade, infinite for one that has seized; shape (N_b,),
            N·m·s/rad.

    Returns:
        The growth rate; scalar, 1/s.  Above zero a disturbance grows.

    Raises:
        ValueError: If an input cannot exist, the modes are too light for the blades, or there is
            not one damper for each blade.

    Source:
        Coleman and Feingold (1958) and Hammond (1974), the theory; equations derived anew.

    Examples:
        >>> rotor = Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2000.0)
        >>> lateral = SupportMode(3.4, 0.147, 1400.0, 0.0, 1.0)
        >>> modes = (SupportMode(2.25, 0.071, 3000.0, 1.0, 0.0), lateral)
        >>> whole = growth_rate(rotor, modes, 28.0, (2000.0, 2000.0, 2000.0, 2000.0))
        >>> growth_rate(rotor, modes, 28.0, (0.0, 2000.0, 2000.0, 2000.0)) > 0.0 > whole
        True
    """
    known = rotor_on_modes(rotor, tuple(modes), tuple(lag_dampings))
    return known.growth_rate(rotor_speed)


def unstable_bands(
    rotor: Rotor,
    modes: Sequence[SupportMode],
    lag_dampings: Sequence[float],
    lowest_speed: float,
    highest_speed: float,
) -> tuple[tuple[float, float], ...]:
    """Return the bands of rotor speed in which a disturbance grows, with edges by root finding.

    Args:
        rotor: Two or more blades; its own lag damping is not used.
        modes: Modes without the blades, with the hub motion in their shapes; at least one.
        lag_dampings: Lag damper of each blade, infinite for one that has seized; shape (N_b,),
            N·m·s/rad.
        lowest_speed: Start of the sweep; scalar, rad/s.
        highest_speed: End of the sweep; scalar, rad/s.

    Returns:
        Lowest and highest rotor speed of each band in ascending order, rad/s; a band that
        reaches an end of the sweep ends there.  With damping everywhere an edge is where the
        growth rate is zero; where a damper is missing it is where the rate is 1e-6 1/s.

    Raises:
        ValueError: As `growth_rate`, or if the sweep does not rise.

    Source:
        Coleman and Feingold (1958) and Hammond (1974), the theory; equations derived anew.
    """
    known = rotor_on_modes(rotor, tuple(modes), tuple(lag_dampings))
    return known.unstable_bands(known.sampled(lowest_speed, highest_speed))


def measured_modes(
    rotor: Rotor,
    modes: Annotated[tuple[MeasuredMode, ...], MEASURED_MODES],
    speeds: SpeedRange,
    damper_share: Annotated[float, DAMPER_SHARE],
    hub_mass: Annotated[str, HUB_MASS] = "without_blades",
) -> ModesVerdict:
    r"""Return the verdict on measured modes in every landing-gear state and state of the dampers.

    $$ \sigma = \max_j \operatorname{Re} s_j, \qquad \zeta = -\frac{\sigma}{|s|}, \qquad
    f = \frac{|\operatorname{Im} s|}{2 \pi} $$

    Each landing-gear state is taken with all lag dampers nominal, with one degraded, with
    one out and with one seized, which holds its blade.  The row of a case gives the least stable
    motion of the sweep, the unstable band nearest to the operating range, and every band in words.
    A heavily damped blade that only creeps back is not counted as a motion, unless it grows.
    A guide for a test, never an approval to run a rotor.

    Args:
        rotor: Blades and lag hinges.
        modes: Modes in each landing-gear state, which is named in each row; rows.
        speeds: The sweep and the operating range.
        damper_share: Damping that the degraded damper has left; scalar.
        hub_mass: Whether the modes have the mass of the blades in them; word.

    Returns:
        The worst case, and a row a case.

    Raises:
        ValueError: If an argument is not finite or breaks its limits, or the modes are too light
            for the blades.

    Source:
        Coleman and Feingold (1958) and Hammond (1974), the theory; equations derived anew.

    Examples:
        >>> rotor = Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2000.0)
        >>> modes = (
        ...     MeasuredMode("on wheels", 2.25, 0.071, 3000.0, 1.0, 0.0),
        ...     MeasuredMode("on wheels", 3.4, 0.147, 1400.0, 0.0, 1.0),
        ... )
        >>> found = measured_modes(rotor, modes, SpeedRange(15.0, 42.0, 36.0, 40.0), 0.5)
        >>> found.worst_case
        'on wheels, one damper out'
    """
    DAMPER_SHARE.check(damper_share)
    HUB_MASS.check(hub_mass)
    blades = 0.0 if hub_mass == "without_blades" else rotor.blades * rotor.blade_mass
    swept = survey(rotor, modes, speeds, damper_share, blades)
    cases = tuple(case_verdict(case, speeds) for case in swept)
    worst = max(cases, key=lambda case: case.growth_rate)
    return ModesVerdict(
        verdict=sentence(swept),
        worst_case=f"{worst.state}, {worst.dampers}",
        worst_speed=worst.worst_speed,
        growth_rate=worst.growth_rate,
        damping_ratio=worst.damping_ratio,
        frequency=worst.frequency,
        cases=cases,
    )


def typed_modes(modes: tuple[MeasuredMode, ...]) -> tuple[MeasuredMode, ...]:
    """Return the modes that the form was given, as a data sheet takes them."""
    return modes


def measured_modes_chart(swept: Sequence[Case], speeds: SpeedRange) -> Chart:
    """Return the highest growth rate of all landing-gear states, a line a state of the dampers."""
    low, high = speeds.lowest_speed, speeds.highest_speed
    places = [low + (high - low) * number / DRAWN for number in range(DRAWN + 1)]
    lines = []
    for style, dampers in enumerate(dict.fromkeys(case.dampers for case in swept), 1):
        cases = [case for case in swept if case.dampers == dampers]
        growth = [[case.growth_at(speed) for case in cases] for speed in places]
        highest = [max((rate for rate in at if not isnan(rate)), default=nan) for at in growth]
        lines.append(Line(list(zip(places, highest, strict=True)), dampers, style))
    operating = speeds.lowest_operating_speed, speeds.highest_operating_speed
    return growth_chart(
        "Highest growth rate of all landing-gear states",
        "Above zero a disturbance grows in at least one landing-gear state.",
        (low, high),
        [Band(*operating, "x", "operating")],
        lines,
    )
