"""Source response: how a mode responds to a rotor harmonic over a range of rotor speed."""

import math
from dataclasses import dataclass, replace
from typing import Annotated, ClassVar

from calc.airframe.airframe_mode import AirframeMode
from calc.airframe.quantities import (
    DAMPED,
    FORCE_AMPLITUDE,
    FORCING_FREQUENCY,
    MODAL_MASS,
    NATURAL_FREQUENCY,
    VIBRATION,
)
from calc.airframe.single_mode import mode_response
from calc.chart import Axis, Chart, Line, Points, Rule
from calc.declaration import Choice, Method, check
from calc.quantity import Quantity
from calc.units import FORCE, PER_REV, ROTATION, RPM
from calc.vocabulary import ROTOR_SPEED

MULTIPLE = Quantity("k", "Cycles per revolution", (PER_REV,), above=0.0, example=1.0)
NOMINAL_SPEED = Quantity(
    r"\Omega_0", "Rotor speed of the known force", ROTATION, above=0.0, example=360.0 * RPM.size
)
NOMINAL_FORCE = Quantity("F_0", "Known force amplitude", FORCE, at_least=0.0, example=200.0)
LOWEST = Quantity(
    r"\Omega_1", "Lowest rotor speed of the range", ROTATION, above=0.0, example=100.0 * RPM.size
)
HIGHEST = Quantity(
    r"\Omega_2", "Highest rotor speed of the range", ROTATION, above=0.0, example=378.0 * RPM.size
)
GROWN = Quantity("F/F_0", "Growth of the force")
SPEED_RANGE = Quantity("s", "Highest less lowest rotor speed", ROTATION, above=0.0)
SQUARE = "square"
GROWTH = Choice(
    "Force over rotor speed", {SQUARE: "square, as imbalance", "constant": "constant, as airload"}
)
CRITICAL_SPEED = Quantity(r"\Omega_c", "Rotor speed at the crossing", ROTATION)
WORST_SPEED = Quantity(r"\Omega_w", "Rotor speed of the largest response in the range", ROTATION)
WORST = Quantity("a_w", "Largest acceleration in the range", VIBRATION.units)
NOMINAL = Quantity("a_0", "Acceleration at the rotor speed of the known force", VIBRATION.units)
STEPS = 160  # of the range of rotor speed
NEAR = 16  # to a change of rotor speed by the damping ratio, about the peak

CrossedMode = Annotated[
    AirframeMode,
    {
        "modal_mass": replace(MODAL_MASS, example=1600.0),
        "natural_frequency": replace(NATURAL_FREQUENCY, example=3.2),
        "damping_ratio": replace(DAMPED, example=0.06),
    },
]
"""A damped mode; the example rocks the aircraft on its wheels."""


@dataclass(frozen=True, slots=True)
class RotorHarmonic:
    """A force at a multiple of rotor speed, known at one rotor speed.

    Attributes:
        multiple: Cycles of the force in a revolution; scalar, /rev.
        nominal_force: Amplitude of the force at the rotor speed where it is known; scalar, N.
        nominal_speed: Rotor speed at which the force is known; scalar, rad/s.
        growth: How the force changes with rotor speed; word.
    """

    heading: ClassVar[str] = "Rotor harmonic"

    multiple: Annotated[float, MULTIPLE]
    nominal_force: Annotated[float, NOMINAL_FORCE]
    nominal_speed: Annotated[float, NOMINAL_SPEED]
    growth: Annotated[str, GROWTH] = SQUARE

    def __post_init__(self) -> None:
        """Refuse a harmonic that cannot exist."""
        check(self)


@dataclass(frozen=True, slots=True)
class SourceResponse:
    """Where a harmonic crosses a mode, and the largest response in a range of rotor speed."""

    critical_speed: Annotated[float, CRITICAL_SPEED]
    worst_speed: Annotated[float, WORST_SPEED]
    worst_acceleration: Annotated[float, WORST]
    nominal_acceleration: Annotated[float, NOMINAL]


def source_response(
    harmonic: RotorHarmonic,
    mode: CrossedMode,
    lowest_speed: Annotated[float, LOWEST],
    highest_speed: Annotated[float, HIGHEST],
) -> SourceResponse:
    r"""Return how one mode responds to one harmonic of a rotor over a range of rotor speed.

    $$ f = \frac{k \Omega}{2 \pi}, \quad a = \frac{F D}{m} \left(\frac{f}{f_n}\right)^2, \quad
       F = F_0 \left(\frac{\Omega}{\Omega_0}\right)^2 \ \mathrm{or} \ F_0, \quad
       \Omega_c = \frac{2 \pi f_n}{k} $$

    At each rotor speed the response is the steady one; a run through the range builds up less.

    Args:
        harmonic: Cycles in a revolution, force, and how the force changes with rotor speed.
        mode: Modal mass, natural frequency and damping ratio.
        lowest_speed: Lower end of the range; scalar, rad/s.
        highest_speed: Upper end of the range; scalar, rad/s.

    Returns:
        The rotor speed of the crossing, the largest response and that at the nominal speed.

    Raises:
        ValueError: If an argument is not finite or breaks its limits, or the range does not rise.

    Source:
        Steady solution of a mass on a spring with a damper.

    Examples:
        >>> two_pi = 2.0 * math.pi
        >>> harmonic, mode = RotorHarmonic(2.0, 1.0, two_pi), AirframeMode(1.0, 4.0, 0.01)
        >>> found = source_response(harmonic, mode, two_pi, 3.0 * two_pi)
        >>> round(found.critical_speed / two_pi, 9), round(found.worst_speed / two_pi, 2)
        (2.0, 2.0)
    """
    DAMPED.check(mode.damping_ratio)
    LOWEST.check(lowest_speed)
    HIGHEST.check(highest_speed)
    SPEED_RANGE.check(highest_speed - lowest_speed)
    crossing = critical_speed(harmonic, mode)
    worst_speed = _worst_speed(harmonic, mode, lowest_speed, highest_speed)
    return SourceResponse(
        critical_speed=crossing,
        worst_speed=worst_speed,
        worst_acceleration=harmonic_response(harmonic, mode, worst_speed),
        nominal_acceleration=harmonic_response(harmonic, mode, harmonic.nominal_speed),
    )


def critical_speed(harmonic: RotorHarmonic, mode: AirframeMode) -> Annotated[float, CRITICAL_SPEED]:
    """Return the rotor speed at which a harmonic crosses a mode.

    Args:
        harmonic: Cycles in a revolution, force, and how the force changes with rotor speed.
        mode: Modal mass, natural frequency and damping ratio.

    Returns:
        The rotor speed; scalar, rad/s.

    Source:
        Definition of a crossing.
    """
    return 2.0 * math.pi * mode.natural_frequency / harmonic.multiple


def harmonic_response(
    harmonic: RotorHarmonic, mode: AirframeMode, rotor_speed: Annotated[float, ROTOR_SPEED]
) -> Annotated[float, VIBRATION]:
    """Return the steady acceleration of a mode under a harmonic at one rotor speed.

    Args:
        harmonic: Cycles in a revolution, force, and how the force changes with rotor speed.
        mode: Modal mass, natural frequency and damping ratio.
        rotor_speed: Speed of rotation; scalar, rad/s.

    Returns:
        The amplitude of the acceleration; scalar, m/s².

    Raises:
        ValueError: If the rotor speed is not finite or is zero.

    Source:
        Steady solution of a mass on a spring with a damper.
    """
    growth: Annotated[float, GROWN] = (
        (rotor_speed / harmonic.nominal_speed) ** 2 if harmonic.growth == SQUARE else 1.0
    )
    force: Annotated[float, FORCE_AMPLITUDE] = harmonic.nominal_force * growth
    frequency: Annotated[float, FORCING_FREQUENCY] = (
        harmonic.multiple * rotor_speed / (2.0 * math.pi)
    )
    return mode_response(force, mode, frequency).acceleration


def source_response_chart(
    harmonic: RotorHarmonic,
    mode: CrossedMode,
    lowest_speed: float,
    highest_speed: float,
    found: SourceResponse,
) -> Chart:
    """Return the acceleration over rotor speed, with more points about its peak."""
    worst = found.worst_speed
    even = [lowest_speed + (highest_speed - lowest_speed) * n / STEPS for n in range(STEPS + 1)]
    near = [worst * (1.0 + mode.damping_ratio * n / NEAR) for n in range(-5 * NEAR, 5 * NEAR + 1)]
    speeds = sorted(even + [speed for speed in near if lowest_speed < speed < highest_speed])
    points = [(speed, harmonic_response(harmonic, mode, speed)) for speed in speeds]
    return Chart(
        title="Response of the mode over rotor speed",
        description="The acceleration peaks where the harmonic of the rotor crosses the mode.",
        x=Axis("Rotor speed", RPM, lowest_speed, highest_speed, follows=LOWEST),
        y=Axis.of(VIBRATION),
        marks=(
            Line(points, f"{harmonic.multiple:g}/rev", 1),
            Rule(found.critical_speed, "x", "crossing"),
            Points([(worst, found.worst_acceleration)], "largest in the range", 2),
        ),
    )


def _worst_speed(
    harmonic: RotorHarmonic, mode: AirframeMode, lowest: float, highest: float
) -> Annotated[float, WORST_SPEED, Method("the peak, or an end of the range")]:
    """Return the rotor speed of the largest response in a range: its peak, or an end."""
    peak = _peak_ratio(mode.damping_ratio, harmonic.growth)
    speeds = [lowest, highest]
    if peak is not None:
        peak_speed = peak * critical_speed(harmonic, mode)
        speeds += [peak_speed] if lowest < peak_speed < highest else []
    return max(speeds, key=lambda speed: harmonic_response(harmonic, mode, speed))


def _peak_ratio(damping_ratio: float, growth: str) -> float | None:
    r"""Return where the acceleration peaks, as a frequency ratio, or None where it only rises.

    With $u = r^2$ a constant force peaks where $u (1 - 2 \zeta^2) = 1$, one that grows with the
    square of rotor speed at the lower root of $u^2 - (3 - 6 \zeta^2) u + 2 = 0$.
    """
    level = 1.0 - 2.0 * damping_ratio**2
    if growth != SQUARE:
        return 1.0 / math.sqrt(level) if level > 0.0 else None
    discriminant = 9.0 * level**2 - 8.0
    if level <= 0.0 or discriminant < 0.0:
        return None
    return math.sqrt((3.0 * level - math.sqrt(discriminant)) / 2.0)
