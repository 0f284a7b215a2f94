"""Single mode: how strongly and how late one mode answers a steady force."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.airframe.quantities import (
    AMPLIFICATION,
    FORCE_AMPLITUDE,
    FORCING_FREQUENCY,
    FREQUENCY_RATIO,
    MODAL_MASS,
    NATURAL_FREQUENCY,
    PHASE,
)
from calc.chart import Axis, Chart, Line, Rule
from calc.quantity import Quantity
from calc.units import ACCELERATION, LENGTH, SPEED
from calc.vocabulary import DAMPING_RATIO

DISPLACEMENT = Quantity("x", "Displacement amplitude", LENGTH)
VELOCITY = Quantity("v", "Velocity amplitude", SPEED)
VIBRATION = Quantity("a", "Acceleration amplitude", ACCELERATION)
PEAK_RATIO = Quantity("r_p", "Frequency ratio at the displacement peak")
DISTANCE_TO_SINGULARITY = Quantity("d", "Distance from an undamped resonance", above=0.0)


@dataclass(frozen=True, slots=True)
class ModeResponse:
    """Steady vibration of one mode under a steady force."""

    amplification: Annotated[float, AMPLIFICATION]
    phase: Annotated[float, PHASE]
    displacement: Annotated[float, DISPLACEMENT]
    velocity: Annotated[float, VELOCITY]
    acceleration: Annotated[float, VIBRATION]


def amplification(
    frequency_ratio: Annotated[float, FREQUENCY_RATIO],
    damping_ratio: Annotated[float, DAMPING_RATIO],
) -> Annotated[float, AMPLIFICATION]:
    r"""Return the steady response of one mode over its response to the same force at rest.

    $$ D = \frac{1}{\sqrt{(1 - r^2)^2 + (2 \zeta r)^2}} $$

    The mode is linear with viscous damping, and the force has been on for long.

    Args:
        frequency_ratio: Forcing frequency over natural frequency; scalar.
        damping_ratio: Damping over critical damping; scalar.

    Returns:
        The amplification; scalar.

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


def peak_frequency_ratio(
    damping_ratio: Annotated[float, DAMPING_RATIO],
) -> Annotated[float, PEAK_RATIO]:
    r"""Return where the displacement of one mode is largest, over its natural frequency.

    $$ r_p = \sqrt{\max(1 - 2 \zeta^2, 0)} $$

    The velocity peaks at the natural frequency itself, the acceleration as far above it as the
    displacement below: at $1 / r_p$.  Above a damping ratio of 0.707 nothing is amplified.

    Args:
        damping_ratio: Damping over critical damping; scalar.

    Returns:
        The frequency ratio at the peak; scalar.

    Raises:
        ValueError: If the damping ratio is not finite or breaks its limits.

    Source:
        Largest value of the amplification.

    Examples:
        >>> round(peak_frequency_ratio(0.1), 6)
        0.989949
    """
    DAMPING_RATIO.check(damping_ratio)
    return math.sqrt(max(1.0 - 2.0 * damping_ratio**2, 0.0))


def mode_response(
    force: Annotated[float, FORCE_AMPLITUDE],
    modal_mass: Annotated[float, MODAL_MASS],
    natural_frequency: Annotated[float, NATURAL_FREQUENCY],
    damping_ratio: Annotated[float, DAMPING_RATIO],
    forcing_frequency: Annotated[float, FORCING_FREQUENCY],
) -> ModeResponse:
    r"""Return the steady vibration of one mode under a steady force.

    $$ x = \frac{F D}{m (2 \pi f_n)^2}, \quad v = 2 \pi f x, \quad a = (2 \pi f)^2 x,
       \quad r = \frac{f}{f_n} $$

    The mode shape is one where the force acts and where the vibration is measured.

    Args:
        force: Amplitude of the force; scalar, N.
        modal_mass: Mass of the mode, for a shape of one at the force; scalar, kg.
        natural_frequency: Undamped natural frequency; scalar, Hz.
        damping_ratio: Damping over critical damping; scalar.
        forcing_frequency: Frequency of the force; scalar, Hz.

    Returns:
        Amplification, phase and amplitudes.

    Raises:
        ValueError: If an argument is not finite or breaks its limits, or an undamped mode is
            forced at its natural frequency.

    Source:
        Steady solution of a mass on a spring with a damper.

    Examples:
        A force at the natural frequency meets the damper alone: 1 N over 5 N·s/m.

        >>> frequency = math.sqrt(8000.0 / 2.0) / (2.0 * math.pi)
        >>> damping = 5.0 / (2.0 * math.sqrt(8000.0 * 2.0))
        >>> round(mode_response(1.0, 2.0, frequency, damping, frequency).velocity, 9)
        0.2
    """
    FORCE_AMPLITUDE.check(force)
    MODAL_MASS.check(modal_mass)
    NATURAL_FREQUENCY.check(natural_frequency)
    DAMPING_RATIO.check(damping_ratio)
    FORCING_FREQUENCY.check(forcing_frequency)
    frequency_ratio = forcing_frequency / natural_frequency
    gain = amplification(frequency_ratio, damping_ratio)
    static = force / (modal_mass * (2.0 * math.pi * natural_frequency) ** 2)
    displacement = static * gain
    velocity = 2.0 * math.pi * forcing_frequency * displacement
    return ModeResponse(
        amplification=gain,
        phase=phase(frequency_ratio, damping_ratio),
        displacement=displacement,
        velocity=velocity,
        acceleration=2.0 * math.pi * forcing_frequency * velocity,
    )


def mode_response_chart(
    force: Annotated[float, FORCE_AMPLITUDE],
    modal_mass: Annotated[float, MODAL_MASS],
    natural_frequency: Annotated[float, NATURAL_FREQUENCY],
    damping_ratio: Annotated[float, DAMPING_RATIO],
    forcing_frequency: Annotated[float, FORCING_FREQUENCY],
) -> Chart:
    """Return the acceleration of one mode over the forcing frequency."""
    highest = max(2.0 * natural_frequency, 1.1 * forcing_frequency)
    near = [natural_frequency * (1.0 + 0.001 * step) for step in range(-100, 101)]
    coarse = [highest * step / 200 for step in range(1, 201)]
    frequencies = sorted({f for f in near + coarse if damping_ratio or f != natural_frequency})
    points = [
        (f, mode_response(force, modal_mass, natural_frequency, damping_ratio, f).acceleration)
        for f in frequencies
    ]
    return Chart(
        title="Acceleration of one mode",
        description="The acceleration rises to a peak at the natural frequency and falls to the "
        "acceleration of a free mass.",
        x=Axis.of(FORCING_FREQUENCY, 0.0, highest),
        y=Axis.of(VIBRATION),
        marks=(
            Line(points, "acceleration", 1),
            Rule(forcing_frequency, "x", "forcing frequency"),
        ),
    )
