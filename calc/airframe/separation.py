"""Separation: how far a forcing line lies from a mode, and what that leaves of the resonance."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.airframe.airframe_mode import DampedMode
from calc.airframe.quantities import DAMPED, FREQUENCY_RATIO, MAGNIFICATION
from calc.airframe.single_mode import amplification
from calc.chart import Axis, Chart, Line, Points, Rule
from calc.declaration import Name
from calc.quantity import Quantity
from calc.units import FREQUENCY, HERTZ, ONE, PER_REV, PERCENT, ROTATION, RPM, SHARE

ORDER = Quantity("n", "Order of the forcing line", (PER_REV,), above=0.0, example=4.0)
SHAFT_SPEED = Quantity(
    r"\Omega", "Rotor or shaft speed", ROTATION, above=0.0, example=360.0 * RPM.size
)
LINE_FREQUENCY = Quantity("f", "Frequency of the forcing line", FREQUENCY)
SEPARATION = Quantity("s", "Separation, forcing line over mode less one", (PERCENT, ONE))
PEAK = Quantity("D_{max}", "Dynamic magnification factor at the resonant peak")
OF_PEAK = Quantity("D/D_{max}", "Fraction of the resonant peak", SHARE)
CROSSING_SPEED = Quantity(r"\Omega_c", "Rotor or shaft speed at the crossing", ROTATION)
NEVER_PEAKS = 1.0 / math.sqrt(2.0)  # damping ratio from which on a mode has no resonant peak
SMALLEST = 5e-4  # a separation that rounds to no tenth of a per cent
STEPS = 400  # of the frequency axis

ModeOfAnyMass = Annotated[DampedMode, {"modal_mass": 1.0}]
"""A mode whose mass does not matter, since responses are compared and not computed."""


@dataclass(frozen=True, slots=True)
class Separation:
    """How far a forcing line lies from a mode, and how strongly the mode still responds."""

    answer: Annotated[str, Name("Answer")]
    frequency: Annotated[float, LINE_FREQUENCY]
    separation: Annotated[float, SEPARATION]
    magnification: Annotated[float, MAGNIFICATION]
    peak: Annotated[float, PEAK]
    fraction_of_peak: Annotated[float, OF_PEAK]
    crossing_speed: Annotated[float, CROSSING_SPEED]


def separation(
    order: Annotated[float, ORDER],
    shaft_speed: Annotated[float, SHAFT_SPEED],
    mode: ModeOfAnyMass,
) -> Separation:
    r"""Return how far a forcing line lies from a mode, and what fraction of its peak is left.

    $$ f = \frac{n \Omega}{2 \pi}, \quad s = \frac{f}{f_n} - 1, \quad
       D_{max} = \frac{1}{2 \zeta \sqrt{1 - \zeta^2}} \ \mathrm{for} \ \zeta < \tfrac{1}{\sqrt{2}},
       \quad \Omega_c = \frac{2 \pi f_n}{n} $$

    $D$ is the dynamic magnification factor at the line.  The force is taken as constant; the mode
    is linear and stands alone.

    Args:
        order: Cycles of the line in a revolution of its shaft; scalar, /rev.
        shaft_speed: Speed of the shaft that the line belongs to; scalar, rad/s.
        mode: Natural frequency and damping ratio.

    Returns:
        The answer in words, the separation, both magnification factors and the speed to avoid.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Steady solution of a mass on a spring with a damper.

    Examples:
        >>> from calc.airframe.airframe_mode import AirframeMode
        >>> found = separation(5.0, 2.0 * math.pi * 2.0, AirframeMode(1.0, 9.8, 0.03))
        >>> found.answer
        '5/rev at 10.00 Hz is 2.0 % above the mode: 81 % of the resonant peak'
    """
    ORDER.check(order)
    SHAFT_SPEED.check(shaft_speed)
    DAMPED.check(mode.damping_ratio)
    frequency = order * shaft_speed / (2.0 * math.pi)
    frequency_ratio: Annotated[float, FREQUENCY_RATIO] = frequency / mode.natural_frequency
    magnification = amplification(frequency_ratio, mode.damping_ratio)
    peak = peak_magnification(mode.damping_ratio)
    fraction_of_peak = magnification / peak
    return Separation(
        answer=_answer(order, frequency, frequency_ratio - 1.0, fraction_of_peak),
        frequency=frequency,
        separation=frequency_ratio - 1.0,
        magnification=magnification,
        peak=peak,
        fraction_of_peak=fraction_of_peak,
        crossing_speed=2.0 * math.pi * mode.natural_frequency / order,
    )


def peak_magnification(damping_ratio: Annotated[float, DAMPED]) -> Annotated[float, PEAK]:
    r"""Return the largest dynamic magnification factor of a mode.

    $$ D_{max} = \frac{1}{2 \zeta \sqrt{1 - \zeta^2}} $$

    From a damping ratio of 0.707 on nothing is magnified, and the largest factor is the static 1.

    Args:
        damping_ratio: Damping over critical damping; scalar.

    Returns:
        The factor at the resonant peak of the displacement; scalar.

    Raises:
        ValueError: If the damping ratio is not finite or breaks its limits.

    Source:
        Largest value of the dynamic magnification factor.

    Examples:
        >>> round(peak_magnification(0.03), 4)
        16.6742
    """
    DAMPED.check(damping_ratio)
    if damping_ratio >= NEVER_PEAKS:
        return 1.0
    return 1.0 / (2.0 * damping_ratio * math.sqrt(1.0 - damping_ratio**2))


def separation_chart(
    order: float,
    shaft_speed: float,
    mode: ModeOfAnyMass,
) -> Chart:
    """Return the fraction of the resonant peak over frequency, with the forcing line."""
    line = separation(order, shaft_speed, mode)
    own = mode.natural_frequency
    reach = min(max(1.5 * abs(line.separation), 0.15), 1.0)
    low, high = own * max(1.0 - reach, 0.0), max(own * (1.0 + reach), 1.05 * line.frequency)
    frequencies = sorted({own, *(low + (high - low) * n / STEPS for n in range(STEPS + 1))})
    points = [(f, amplification(f / own, mode.damping_ratio) / line.peak) for f in frequencies]
    return Chart(
        title="Fraction of the resonant peak",
        description="The response rises to its peak at the natural frequency of the mode; the "
        "point is the forcing line.",
        x=Axis("Frequency", HERTZ, low, high),
        y=Axis.of(OF_PEAK, 0.0, 1.05),
        marks=(
            Line(points, "", 1),
            Rule(own, "x", "mode"),
            Points([(line.frequency, line.fraction_of_peak)], f"{order:g}/rev", 2),
        ),
    )


def _answer(order: float, frequency: float, separation: float, fraction: float) -> str:
    """Return the separation and what is left of the peak, as one sentence."""
    side = "above" if separation > 0.0 else "below"
    where = f"{abs(separation):.1%}".replace("%", f" % {side} the mode")
    if abs(separation) < SMALLEST:
        where = "on the mode"
    left = f"{fraction:.0%}".replace("%", " %")
    return f"{order:g}/rev at {frequency:.2f} Hz is {where}: {left} of the resonant peak"
