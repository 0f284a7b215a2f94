"""Response: damping from a resonance peak, with the width of the window, and from its circle."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Annotated

from calc.chart import Axis, Chart, Line, Points
from calc.declaration import Name, Table
from calc.measurement.apparent_bandwidth import BANDWIDTH_TIME, true_bandwidth_time
from calc.measurement.circle import KIND, angle_misfit, circle_fit, circle_of, mobilities
from calc.measurement.decay_fit import BLOCK
from calc.measurement.half_power import (
    LOWER,
    NATURAL,
    RATIO,
    UPPER,
    half_power_damping,
    half_power_frequency,
)
from calc.measurement.quantities import WINDOW
from calc.quantity import Quantity
from calc.units import ANGLE, FREQUENCY, PER_CENT, SHARE, TIME

BANDWIDTH = Quantity("B", "Half-power bandwidth as read", FREQUENCY, above=0.0)
LINES = replace(
    BANDWIDTH_TIME,
    symbol="n_B",
    label="Lines inside the bandwidth as read",
    at_least=0.0,
    at_most=math.inf,
)
RATIO_RESOLVED = Quantity(r"\zeta_c", "Damping ratio with the width of the window taken off", SHARE)
TIME_CONSTANT = Quantity(r"\tau", "Time constant of the window", TIME, above=0.0, example=10.0)
WINDOW_RATIO = Quantity(r"\zeta_w", "Damping ratio that the window adds", SHARE)
PART = Quantity("x", "Response over force, in phase")
QUADRATURE = Quantity("y", "Response over force, in quadrature, plus where it leads")
POINT_FREQUENCY = Quantity("f", "Frequency", FREQUENCY, above=0.0)
DIAMETER = Quantity("D", "Diameter of the mobility circle, in its unit")
MISFIT = Quantity("e", "Distance of the points from the circle, rms over radius", PER_CENT)
ARC = Quantity(r"\alpha", "Arc that the points cover", ANGLE)
REMARK = Name("Remark")
LEAST_ARC = math.radians(180.0)
MOST_MISFIT = 0.05
MOST_TURNED = math.radians(5.0)
"""Points that lie farther from their angles on the circle are remarked on; chosen here."""
GOOD_CIRCLE = "A circle"


@dataclass(frozen=True, slots=True)
class ResponsePoint:
    """A point of a frequency response."""

    frequency: Annotated[float, POINT_FREQUENCY]
    real: Annotated[float, PART]
    imaginary: Annotated[float, QUADRATURE]


def _example() -> tuple[ResponsePoint, ...]:
    """Return receptances of an invented mode, 3.0 Hz and 3 %, as an analyser would list them."""
    rows = []
    for step in range(-6, 7):
        frequency = 3.0 + 0.03 * step
        value = 1e3 / complex(9.0 - frequency**2, 0.18 * frequency)
        rows.append(ResponsePoint(round(frequency, 2), round(value.real), round(value.imag)))
    return tuple(rows)


POINTS = Table("Points about one resonance", ResponsePoint, _example(), at_least=5, at_most=400)


@dataclass(frozen=True, slots=True)
class HalfPower:
    """Damping from the half-power points, as read and without what the window added."""

    damping_ratio: Annotated[float, RATIO]
    frequency: Annotated[float, NATURAL]
    bandwidth: Annotated[float, BANDWIDTH]
    lines: Annotated[float, LINES]
    resolved_ratio: Annotated[float | None, RATIO_RESOLVED]


@dataclass(frozen=True, slots=True)
class FreedMode:
    """A mode for a data sheet whose damping is freed of the window, and the words that say so."""

    frequency: float
    damping_ratio: float
    method: str = "half power, window width taken off"


@dataclass(frozen=True, slots=True)
class CircleOfPoints:
    """One mode from its circle, and how well the points make one."""

    damping_ratio: Annotated[float, RATIO]
    frequency: Annotated[float, NATURAL]
    diameter: Annotated[float, DIAMETER]
    misfit: Annotated[float, MISFIT]
    arc: Annotated[float, ARC]
    remark: Annotated[str, REMARK]


def half_power(
    lower: Annotated[float, LOWER],
    upper: Annotated[float, UPPER],
    block_length: Annotated[float, BLOCK] = BLOCK.example,
    window: Annotated[str, WINDOW] = "hann",
) -> HalfPower:
    r"""Return damping and frequency from half-power points, and what the window made of them.

    $$ \zeta = \sin\left(\frac{1}{2} \arctan\frac{f_2^2 - f_1^2}{f_2^2 + f_1^2}\right), \qquad
    f_n = \left(\frac{f_1^4 + f_2^4}{2}\right)^{1/4}, \qquad B = f_2 - f_1, \qquad
    n_B = B T_b, \qquad \zeta_c = \zeta \frac{B_c}{B}, \quad B_c R(B_c T_b) = B $$

    Displacement over force of one mode that stands alone.  $R$ is how much wider a mode in
    broad-band noise looks through blocks of a window; a stepped or slowly swept sine has no
    blocks, and there the first answer counts.

    Args:
        lower: Half-power frequency below the peak; scalar, Hz.
        upper: Half-power frequency above the peak; scalar, Hz.
        block_length: Length of the blocks that were averaged; scalar, s.
        window: Window of the blocks; word.

    Returns:
        Damping ratio, natural frequency and bandwidth as read, the lines inside it, and the
        damping ratio without the width of the window, None where the window alone is that wide.

    Raises:
        ValueError: If an argument breaks its limits or the frequencies do not rise.

    Source:
        Receptance of one mode, solved here; `apparent_bandwidth_ratio`.

    Examples:
        >>> round(half_power(8.837434654, 10.858165073, 60.0).damping_ratio, 9)
        0.1
    """
    BLOCK.check(block_length)
    WINDOW.check(window)
    damping_ratio: Annotated[float, RATIO] = half_power_damping(lower, upper)
    bandwidth: Annotated[float, BANDWIDTH] = upper - lower
    lines: Annotated[float, LINES] = bandwidth * block_length
    true_lines = true_bandwidth_time(lines, window)
    return HalfPower(
        damping_ratio=damping_ratio,
        frequency=half_power_frequency(lower, upper),
        bandwidth=bandwidth,
        lines=lines,
        resolved_ratio=None if true_lines is None else damping_ratio * true_lines / lines,
    )


def window_damping(
    frequency: Annotated[float, NATURAL], time_constant: Annotated[float, TIME_CONSTANT]
) -> Annotated[float, WINDOW_RATIO]:
    r"""Return the damping ratio that an exponential window adds to a mode; subtract it.

    $$ \zeta_w = \frac{1}{2 \pi f_n \tau} $$

    Args:
        frequency: Natural frequency of the mode; scalar, Hz.
        time_constant: Time in which the window falls by a factor of e; scalar, s.

    Returns:
        The damping ratio that is added; scalar.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Product of two exponentials; common knowledge.

    Examples:
        >>> round(window_damping(3.0, 10.0), 6)
        0.005305
    """
    NATURAL.check(frequency)
    TIME_CONSTANT.check(time_constant)
    return 1.0 / (2.0 * math.pi * frequency * time_constant)


def half_power_mode(found: HalfPower) -> tuple[FreedMode, ...]:
    """Return the mode for a data sheet, freed of the window; none where that leaves no damping."""
    if found.resolved_ratio is None:
        return ()
    return (FreedMode(found.frequency, found.resolved_ratio),)


def circle_mode(found: CircleOfPoints) -> tuple[CircleOfPoints, ...]:
    """Return the mode for a data sheet; none where the points make no good circle."""
    return (found,) if found.remark == GOOD_CIRCLE else ()


def circle_of_points(
    points: Annotated[tuple[ResponsePoint, ...], POINTS],
    kind: Annotated[str, KIND] = "receptance",
) -> CircleOfPoints:
    r"""Return frequency and damping of one mode from the circle of a measured response.

    $$ x^2 + y^2 = a x + b y + c, \qquad
    \omega \tan\frac{\theta}{2} = \frac{\omega_n^2 - \omega^2}{2 \zeta \omega_n}, \qquad
    D = \frac{1}{2 \zeta \omega_n m} $$

    The mobility of a viscous mode is a circle; receptance and accelerance are turned into it
    first.  Other modes add a constant that shifts the circle.

    Args:
        points: Frequency and response over force, both parts; rows.
        kind: Whether displacement, velocity or acceleration stands over the force; word.

    Returns:
        Damping ratio, natural frequency, diameter, how well the points make a circle, and a
        remark.

    Raises:
        ValueError: If an argument breaks its limits or the points make no circle through a
            resonance.

    Source:
        Kennedy and Pancu (1947), the circle of a mode; from memory.

    Examples:
        >>> found = circle_of_points(POINTS.example)
        >>> round(found.frequency, 2), round(found.damping_ratio, 3)
        (3.0, 0.03)
    """
    POINTS.check(points)
    KIND.check(kind)
    frequencies = [point.frequency for point in points]
    responses = [complex(point.real, point.imaginary) for point in points]
    fit = circle_fit(frequencies, responses, kind)
    fitted = circle_of(mobilities(frequencies, responses, kind))
    arc = max(fitted.angles) - min(fitted.angles)
    turned = angle_misfit(frequencies, fitted.angles, fit.frequency, fit.damping_ratio)
    return CircleOfPoints(
        damping_ratio=fit.damping_ratio,
        frequency=fit.frequency,
        diameter=fit.diameter,
        misfit=fitted.misfit,
        arc=arc,
        remark=_remark(fitted.misfit, arc, turned),
    )


def circle_chart(points: Sequence[ResponsePoint], kind: str) -> Chart:
    """Return the mobility in its plane with the circle through it."""
    plane = mobilities(
        [point.frequency for point in points],
        [complex(point.real, point.imaginary) for point in points],
        kind,
    )
    fitted = circle_of(plane)
    turns = [2.0 * math.pi * step / 90 for step in range(91)]
    middle, radius = fitted.centre, fitted.radius
    ring = [(middle.real + radius * math.cos(t), middle.imag + radius * math.sin(t)) for t in turns]
    return Chart(
        title="Circle of the mobility",
        description="The mobility at each frequency in the plane of its parts in phase and in "
        "quadrature, with the circle that comes nearest to it.",
        x=Axis("Mobility, in phase"),
        y=Axis("Mobility, in quadrature"),
        marks=(
            Line(ring, "", 1),
            Points([(point.real, point.imag) for point in plane], "points", 2),
        ),
    )


def _remark(misfit: float, arc: float, turned: float) -> str:
    """Return whether the points make a circle that can be trusted, in words."""
    if misfit > MOST_MISFIT:
        return "The points are no circle: another mode, noise, or damping that is not linear"
    if arc < LEAST_ARC:
        return "The points cover less than half of the circle: take more of them about the peak"
    if turned > MOST_TURNED:
        return (
            "A circle whose points do not lie at the frequencies of one mode: displacement taken "
            "for velocity or acceleration, a wrong frequency, a phase that is not that of the "
            "force, or a second mode"
        )
    return GOOD_CIRCLE
