"""Single mode: how strongly, and with what phase lag, one mode responds to a steady force."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.airframe.airframe_mode import AirframeMode
from calc.airframe.quantities import (
    DISPLACEMENT,
    FORCE_AMPLITUDE,
    FORCING_FREQUENCY,
    FREQUENCY_RATIO,
    MAGNIFICATION,
    PHASE,
    VELOCITY,
    VIBRATION,
)
from calc.chart import Axis, Chart, Line, Rule
from calc.quantity import Quantity
from calc.vocabulary import DAMPING_RATIO

DISTANCE_TO_SINGULARITY = Quantity("d", "Distance from an undamped resonance", above=0.0)


@dataclass(frozen=True, slots=True)
class ModeResponse:
    """Steady vibration of one mode under a steady force."""

    amplification: Annotated[float, MAGNIFICATION]
    phase: Annotated[float, PHASE]
    displacement: Annotated[float, DISPLACEMENT]
    velocity: Annotated[float, VELOCITY]
    acceleration: Annotated[float, VIBRATION]


def amplification(
    frequency_ratio: Annotated[float, FREQUENCY_RATIO],
    damping_ratio: Annotated[float, DAMPING_RATIO],
) -> Annotated[float, MAGNIFICATION]:
    r"""Return the dynamic magnification factor of one mode: steady response over static response.

    $$ D = \frac{1}{\sqrt{(1 - r^2)^2 + (2 \zeta r)^2}} $$

    The mode is linear with viscous damping, and the force has been on for long.

    Args:
        frequency_ratio: Forcing frequency over natural frequency; scalar.
        damping_ratio: Damping over critical damping; scalar.

    Returns:
        The dynamic magnification factor; scalar.

    Raises:
        ValueError: If an argument is not finite or breaks its limits, or an undamped mode is
            forced at its natural frequency.

    Source:
        Steady solution of a mass on a spring with a damper.

    Examples:
        >>> round(amplification(1.0, 0.02), 9)
        25.0
    """
    FREQUENCY_RATIO.check(frequency_ratio)
    DAMPING_RATIO.check(damping_ratio)
    spring_part = 1.0 - frequency_ratio**2
    damping_part = 2.0 * damping_ratio * frequency_ratio
    distance = spring_part**2 + damping_part**2
    DISTANCE_TO_SINGULARITY.check(distance)
    return 1.0 / math.sqrt(distance)


def phase(
    frequency_ratio: Annotated[float, FREQUENCY_RATIO],
    damping_ratio: Annotated[float, DAMPING_RATIO],
) -> Annotated[float, PHASE]:
    r"""Return by what angle the displacement of one mode leads the force: it is never positive.

    $$ \phi = -\operatorname{atan2}(2 \zeta r, 1 - r^2) $$

    It falls from zero at rest through a lag of a quarter cycle at resonance to half a cycle.

    Args:
        frequency_ratio: Forcing frequency over natural frequency; scalar.
        damping_ratio: Damping over critical damping; scalar.

    Returns:
        The phase, negative where the response lags; scalar, rad.

    Raises:
        ValueError: If an argument is not finite or breaks its limits, or an undamped mode is
            forced at its natural frequency.

    Source:
        Steady solution of a mass on a spring with a damper.

    Examples:
        >>> round(math.degrees(phase(1.0, 0.02)), 9)
        -90.0
    """
    FREQUENCY_RATIO.check(frequency_ratio)
    DAMPING_RATIO.check(damping_ratio)
    spring_part = 1.0 - frequency_ratio**2
    damping_part = 2.0 * damping_ratio * frequency_ratio
    distance = spring_part**2 + damping_part**2
    DISTANCE_TO_SINGULARITY.check(distance)
    return -math.atan2(damping_part, spring_part)


def mode_response(
    force: Annotated[float, FORCE_AMPLITUDE],
    mode: AirframeMode,
    forcing_frequency: Annotated[float, FORCING_FREQUENCY],
) -> ModeResponse:
    r"""Return the steady vibration of one mode under a steady force.

    $$ x = \frac{F D}{m (2 \pi f_n)^2}, \quad v = 2 \pi f x, \quad a = (2 \pi f)^2 x,
       \quad r = \frac{f}{f_n} $$

    The mode shape is one at the drive point, and the vibration is that of the drive point.

    Args:
        force: Amplitude of the force; scalar, N.
        mode: Modal mass, natural frequency and damping ratio.
        forcing_frequency: Frequency of the force; scalar, Hz.

    Returns:
        Dynamic magnification factor, phase and amplitudes.

    Raises:
        ValueError: If an argument is not finite or breaks its limits, or an undamped mode is
            forced at its natural frequency.

    Source:
        Steady solution of a mass on a spring with a damper.

    Examples:
        At the natural frequency only the damper resists: 1 N over 5 N·s/m.

        >>> frequency = math.sqrt(8000.0 / 2.0) / (2.0 * math.pi)
        >>> damping = 5.0 / (2.0 * math.sqrt(8000.0 * 2.0))
        >>> mode = AirframeMode(2.0, frequency, damping)
        >>> round(mode_response(1.0, mode, frequency).velocity, 9)
        0.2
    """
    FORCE_AMPLITUDE.check(force)
    FORCING_FREQUENCY.check(forcing_frequency)
    frequency_ratio: Annotated[float, FREQUENCY_RATIO] = forcing_frequency / mode.natural_frequency
    gain = amplification(frequency_ratio, mode.damping_ratio)
    static = force / (mode.modal_mass * (2.0 * math.pi * mode.natural_frequency) ** 2)
    displacement = static * gain
    velocity = 2.0 * math.pi * forcing_frequency * displacement
    return ModeResponse(
        amplification=gain,
        phase=phase(frequency_ratio, mode.damping_ratio),
        displacement=displacement,
        velocity=velocity,
        acceleration=2.0 * math.pi * forcing_frequency * velocity,
    )


def mode_response_chart(
    force: float,
    mode: AirframeMode,
    forcing_frequency: float,
) -> Chart:
    """Return the acceleration of one mode over the forcing frequency."""
    own = mode.natural_frequency
    highest = max(2.0 * own, 1.1 * forcing_frequency)
    near = [own * (1.0 + 0.001 * step) for step in range(-100, 101)]
    coarse = [highest * step / 200 for step in range(1, 201)]
    frequencies = sorted({f for f in near + coarse if mode.damping_ratio or f != own})
    points = [(f, mode_response(force, mode, f).acceleration) for f in frequencies]
    return Chart(
        title="Acceleration of one mode",
        description="The acceleration rises to a peak at the natural frequency and falls to the "
        "acceleration of a free mass.",
        x=Axis.of(FORCING_FREQUENCY, 0.0, highest),
        y=Axis.of(VIBRATION),
        marks=(
            Line(points, "acceleration", 1),
            Rule(forcing_frequency, "x", "forcing frequency"),
            Rule(own, "x", "natural frequency"),
        ),
    )
