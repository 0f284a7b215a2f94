"""Fan plot: blade modes over rotor speed, their crossings with n/rev, and how near they come."""

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import Annotated, NamedTuple

from calc.blades.beam_modes import Beam, frequencies
from calc.blades.blade_planes import (
    FLAP_SPRING,
    LAG_SPRING,
    SEGMENTS,
    BladeSegment,
    blade_planes,
    plane_lines,
)
from calc.blades.fan_crossings import NEAR, FanCrossing, Separation, crossings, separations
from calc.blades.quantities import ROOT, ROOT_OFFSET, TIP_MASS
from calc.chart import Axis, Band, Chart, Line, Points
from calc.declaration import Name, Table
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
MARGIN = Quantity("m", "Margin from a harmonic", (PER_REV,), at_least=0.0, below=0.5, example=0.2)
SPEEDS = 24  # steps of the speed axis
BEYOND = 1.15  # end of the speed axis over the highest operating speed


@dataclass(frozen=True, slots=True)
class FanPlot:
    """What is too near in the operating range, every separation there, and all crossings."""

    verdict: Annotated[str, Name("Within the margin")]
    separations: Annotated[tuple[Separation, ...], Table("Separations", Separation)]
    crossings: Annotated[tuple[FanCrossing, ...], Table("Crossings", FanCrossing)]


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
    FLAP_MODES.check(flap_modes)
    LAG_MODES.check(lag_modes)
    operating = (operating_low, operating_high)
    held = (root, flap_spring, lag_spring)
    counts = (flap_modes, lag_modes)
    fan = _fan(segments, hinge_offset, tip_mass, held, operating[1], counts, harmonics)
    separated: list[Separation] = []
    for name, blade in fan.blades.items():
        plane, number = name.split()
        low, high = (
            frequencies(blade, speed, plane, int(number))[-1] / speed for speed in operating
        )
        own = {c.harmonic: c.rotor_speed for c in fan.crossings if c.mode == name}
        separated += separations(name, (low, high), operating, own, (harmonics, margin))
    crossed = [c for c in fan.crossings if c.rotor_speed <= operating_high]
    return FanPlot(_verdict(separated), tuple(separated), tuple(crossed))


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
    """Return the fan plot, with the operating range tinted and the crossings marked."""
    MARGIN.check(margin)
    held = (root, flap_spring, lag_spring)
    counts = (flap_modes, lag_modes)
    fan = _fan(segments, hinge_offset, tip_mass, held, operating_high, counts, harmonics)
    highest = fan.speeds[-1]
    turns = highest / (2.0 * math.pi)
    rays = [
        Line([(0.0, 0.0), (highest, n * turns)], f"{n}/rev", 0) for n in range(1, harmonics + 1)
    ]
    modes = [
        Line(
            [(speed, f / (2.0 * math.pi)) for speed, f in zip(fan.speeds, line, strict=True)],
            name,
            1 if name.startswith("flap") else 2,
        )
        for name, line in fan.lines.items()
    ]
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
            *modes,
            Points([(c.rotor_speed, c.frequency) for c in fan.crossings], "", 4),
        ),
    )


def _verdict(separated: list[Separation]) -> str:
    """Return in words which modes come too near to which harmonics."""
    near = [f"{row.mode} and {row.harmonic}/rev" for row in separated if row.verdict == NEAR]
    return ", ".join(near) or "no mode and no harmonic"


class _Fan(NamedTuple):
    """Modes by name over the speeds, and their crossings in order of speed."""

    speeds: list[float]
    blades: dict[str, Beam]
    lines: dict[str, tuple[float, ...]]
    crossings: list[FanCrossing]


@lru_cache(maxsize=2)  # the form asks for the answer and then for its figure
def _fan(
    segments: tuple[BladeSegment, ...],
    hinge_offset: float,
    tip_mass: float,
    held: tuple[str, float, float],
    operating_high: float,
    counts: tuple[int, int],
    harmonics: int,
) -> _Fan:
    """Return the modes of a blade from rest to a little above its highest speed."""
    highest = BEYOND * operating_high
    fan = _Fan([highest * step / SPEEDS for step in range(SPEEDS + 1)], {}, {}, [])
    planes = blade_planes(segments, hinge_offset, tip_mass, held, (highest, max(counts)))
    for (plane, blade), count in zip(planes.items(), counts, strict=True):
        for number, line in enumerate(plane_lines(blade, plane, count, fan.speeds), 1):
            name = f"{plane} {number}"
            fan.blades[name] = blade
            fan.lines[name] = line
            fan.crossings.extend(crossings(blade, plane, number, (fan.speeds, line), harmonics))
    fan.crossings.sort(key=lambda crossing: crossing.rotor_speed)
    return fan
