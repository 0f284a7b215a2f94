"""Fan plot: blade modes over rotor speed, their crossings with n/rev, and how near they come."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.blades.blade_planes import (
    FLAP_SPRING,
    LAG_SPRING,
    SEGMENTS,
    BladeSegment,
    blade_planes,
    plane_lines,
)
from calc.blades.fan_crossings import FanCrossing, Separation, crossings, separations
from calc.blades.quantities import ROOT, ROOT_OFFSET, TIP_MASS
from calc.chart import Axis, Band, Chart, Line, Points
from calc.declaration import Table
from calc.quantity import Quantity
from calc.units import HERTZ, PER_REV, ROTATION, RPM

OPERATING_LOW = Quantity(
    r"\Omega_1", "Lowest operating speed", ROTATION, above=0.0, example=360.0 * RPM.size
)
OPERATING_HIGH = Quantity(
    r"\Omega_2", "Highest operating speed", ROTATION, above=0.0, example=410.0 * RPM.size
)
OPERATING_RANGE = Quantity("s", "Highest less lowest operating speed", ROTATION, at_least=0.0)
FLAP_MODES = Quantity("i_f", "Flap modes", at_least=1, at_most=5, whole=True, example=3)
LAG_MODES = Quantity("i_l", "Lag modes", at_least=1, at_most=5, whole=True, example=2)
HARMONICS = Quantity("n_m", "Highest harmonic drawn", at_least=1, at_most=16, whole=True, example=8)
MARGIN = Quantity("m", "Margin", (PER_REV,), at_least=0.0, below=0.5, example=0.2)
SPEEDS = 24  # steps of the speed axis


@dataclass(frozen=True, slots=True)
class FanPlot:
    """Crossings up to the highest operating speed, and separations within the range."""

    crossings: Annotated[tuple[FanCrossing, ...], Table("Crossings", FanCrossing)]
    separations: Annotated[tuple[Separation, ...], Table("Separations", Separation)]


def fan_plot(
    segments: Annotated[tuple[BladeSegment, ...], SEGMENTS],
    hinge_offset: Annotated[float, ROOT_OFFSET],
    operating_low: Annotated[float, OPERATING_LOW],
    operating_high: Annotated[float, OPERATING_HIGH],
    root: Annotated[str, ROOT] = "clamped",
    flap_spring: Annotated[float, FLAP_SPRING] = 0.0,
    lag_spring: Annotated[float, LAG_SPRING] = 0.0,
    tip_mass: Annotated[float, TIP_MASS] = 0.0,
    flap_modes: Annotated[int, FLAP_MODES] = 3,
    lag_modes: Annotated[int, LAG_MODES] = 2,
    harmonics: Annotated[int, HARMONICS] = 8,
    margin: Annotated[float, MARGIN] = 0.2,
) -> FanPlot:
    r"""Return where blade modes cross multiples of rotor speed, and how far apart they stay.

    $$ \omega_i(\Omega) = n \Omega, \qquad
       d = \min_{\Omega_1 \le \Omega \le \Omega_2}
       \left| \frac{\omega_i}{\Omega} - n \right| $$

    Flap and lag are not coupled: zero pitch, no twist.  In cycles per revolution a mode falls as
    the rotor speeds up, so that the least separation is at an end of the range, or zero where the
    mode crosses within it.  The first flap mode is always near once per revolution and is not
    held against the margin there.  The margin is the reader's own.

    Args:
        segments: Outer station, mass per length and both stiffnesses, root to tip; rows.
        hinge_offset: Rotor axis to root, clamped or hinged; scalar, m.
        operating_low: Lowest speed, power off included; scalar, rad/s.
        operating_high: Highest speed, power off included; scalar, rad/s.
        root: How the blade is held; word.
        flap_spring: Spring about a hinged root in flap; scalar, N·m/rad.
        lag_spring: Spring about a hinged root in lag; scalar, N·m/rad.
        tip_mass: Point mass at the tip; scalar, kg.
        flap_modes: How many flap modes; scalar.
        lag_modes: How many lag modes; scalar.
        harmonics: Highest multiple of rotor speed; scalar.
        margin: Separation that is wanted; scalar, /rev.

    Returns:
        The crossings from rest to the highest operating speed, and the separations.

    Raises:
        ValueError: If an argument is not finite or breaks its limits, if stations do not rise, if
            the range falls, or if a clamped root is given a spring.

    Source:
        Rotating beam by finite elements; per-rev lines as in every fan plot.

    Examples:
        >>> blade = (BladeSegment(5.0, 9.0, 16000.0, 400000.0),)
        >>> found = fan_plot(blade, 0.2, 37.7, 42.9)
        >>> [row.verdict for row in found.separations if row.mode == "flap 1"]
        ['first flap mode, always near 1/rev', 'clear']
    """
    HARMONICS.check(harmonics)
    MARGIN.check(margin)
    OPERATING_LOW.check(operating_low)
    OPERATING_HIGH.check(operating_high)
    OPERATING_RANGE.check(operating_high - operating_low)
    counts = {"flap": flap_modes, "lag": lag_modes}
    FLAP_MODES.check(flap_modes)
    LAG_MODES.check(lag_modes)
    held = (root, flap_spring, lag_spring)
    turned = (operating_high, max(counts.values()))
    crossed: list[FanCrossing] = []
    separated: list[Separation] = []
    for plane, blade in blade_planes(segments, hinge_offset, tip_mass, held, turned).items():
        speeds = [operating_high * step / SPEEDS for step in range(SPEEDS + 1)]
        lines = plane_lines(blade, plane, counts[plane], speeds)
        ends = plane_lines(blade, plane, counts[plane], (operating_low, operating_high))
        for number, (line, end) in enumerate(zip(lines, ends, strict=True), 1):
            own = [*crossings(blade, plane, number, (speeds, line), harmonics)]
            ratios = (end[0] / operating_low, end[1] / operating_high)
            crossed += own
            separated += separations(
                f"{plane} {number}",
                ratios,
                (operating_low, operating_high),
                {crossing.harmonic: crossing.rotor_speed for crossing in own},
                margin,
            )
    crossed.sort(key=lambda crossing: crossing.rotor_speed)
    return FanPlot(tuple(crossed), tuple(separated))


def fan_plot_chart(
    segments: Annotated[tuple[BladeSegment, ...], SEGMENTS],
    hinge_offset: Annotated[float, ROOT_OFFSET],
    operating_low: Annotated[float, OPERATING_LOW],
    operating_high: Annotated[float, OPERATING_HIGH],
    root: Annotated[str, ROOT] = "clamped",
    flap_spring: Annotated[float, FLAP_SPRING] = 0.0,
    lag_spring: Annotated[float, LAG_SPRING] = 0.0,
    tip_mass: Annotated[float, TIP_MASS] = 0.0,
    flap_modes: Annotated[int, FLAP_MODES] = 3,
    lag_modes: Annotated[int, LAG_MODES] = 2,
    harmonics: Annotated[int, HARMONICS] = 8,
    margin: Annotated[float, MARGIN] = 0.2,
) -> Chart:
    """Return the fan plot, with the operating range hatched and the crossings marked."""
    counts = {"flap": flap_modes, "lag": lag_modes}
    highest = 1.15 * operating_high
    speeds = [highest * step / SPEEDS for step in range(SPEEDS + 1)]
    held, turned = (root, flap_spring, lag_spring), (highest, max(counts.values()))
    planes = blade_planes(segments, hinge_offset, tip_mass, held, turned)
    drawn = []
    for style, (plane, blade) in enumerate(planes.items(), 1):
        for number, line in enumerate(plane_lines(blade, plane, counts[plane], speeds), 1):
            points = [(speed, f / (2.0 * math.pi)) for speed, f in zip(speeds, line, strict=True)]
            drawn.append(Line(points, f"{plane} {number}", style))
    turns = highest / (2.0 * math.pi)
    rays = [
        Line([(0.0, 0.0), (highest, n * turns)], f"{n}/rev", 0) for n in range(1, harmonics + 1)
    ]
    found = fan_plot(
        segments,
        hinge_offset,
        operating_low,
        operating_high,
        root,
        flap_spring,
        lag_spring,
        tip_mass,
        flap_modes,
        lag_modes,
        harmonics,
        margin,
    )
    circles = [(crossing.rotor_speed, crossing.frequency) for crossing in found.crossings]
    return Chart(
        title="Fan plot",
        description="Frequencies of flap and lag modes over rotor speed, with the multiples of "
        "rotor speed as rays from the origin; circles are crossings, the band is the operating "
        "range.",
        x=Axis("Rotor speed", RPM, 0.0, highest),
        y=Axis("Frequency", HERTZ, 0.0, 1.05 * harmonics * turns),
        marks=(
            Band(operating_low, operating_high, "x", "operating range", style=3),
            *rays,
            *drawn,
            Points(circles, "", 4),
        ),
    )
