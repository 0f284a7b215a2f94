"""Fan plot: blade modes over rotor speed, their crossings with n/rev, and how near they come."""

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import Annotated, NamedTuple

from calc.blades.blade_planes import (
    TwoPlaneBlade,
    plane_modes,
)
from calc.blades.fan_crossings import (
    NEAR,
    OPERATING_LOW,
    FanCrossing,
    FanMode,
    Limits,
    OperatingRange,
    Separation,
    crossings,
    separations,
)
from calc.blades.quantities import FLAP, LAG
from calc.chart import Axis, Band, Chart, Line, Points
from calc.declaration import Name, Table
from calc.quantity import Quantity
from calc.units import HERTZ, PER_REV, RPM

FLAP_MODES = Quantity("i_f", "Flap modes", at_least=1, at_most=5, whole=True, example=3)
LAG_MODES = Quantity("i_l", "Lag modes", at_least=1, at_most=5, whole=True, example=2)
HARMONICS = Quantity("n_m", "Highest harmonic drawn", at_least=1, at_most=16, whole=True, example=8)
MARGIN = Quantity(
    r"\delta", "Margin from a harmonic", (PER_REV,), at_least=0.0, below=0.5, example=0.2
)
SPEEDS = 24  # steps of the speed axis
BEYOND = 1.15  # end of the speed axis over the highest operating rotor speed
STYLES = {FLAP: 1, LAG: 2}


@dataclass(frozen=True, slots=True)
class FanPlot:
    """What is too near in the operating range, every separation there, and all crossings."""

    verdict: Annotated[str, Name("Within the margin")]
    separations: Annotated[tuple[Separation, ...], Table("Separations", Separation)]
    crossings: Annotated[tuple[FanCrossing, ...], Table("Crossings", FanCrossing)]


def fan_plot(
    blade: TwoPlaneBlade,
    operating: OperatingRange,
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
        blade: Segments of the blade and how its root is held.
        operating: Lowest and highest rotor speed in operation.
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
        >>> from calc.blades.blade_planes import BladeSegment
        >>> blade = TwoPlaneBlade((BladeSegment(5.0, 9.0, 16000.0, 400000.0),), 0.2)
        >>> found = fan_plot(blade, OperatingRange(37.7, 42.9))
        >>> [row.verdict for row in found.separations if row.mode == "flap 1"]
        ['first flap mode, always near 1/rev', 'outside the margin']
    """
    HARMONICS.check(harmonics)
    MARGIN.check(margin)
    FLAP_MODES.check(flap_modes)
    LAG_MODES.check(lag_modes)
    fan = _fan(blade, operating.operating_high, flap_modes, lag_modes, harmonics)
    limits = Limits(harmonics, margin)
    separated = [row for mode in fan.modes for row in separations(mode, operating, limits)]
    crossed = [c for c in fan.crossings if c.rotor_speed <= operating.operating_high]
    return FanPlot(_verdict(separated), tuple(separated), tuple(crossed))


def fan_plot_chart(
    blade: TwoPlaneBlade,
    operating: OperatingRange,
    flap_modes: int = 3,
    lag_modes: int = 2,
    harmonics: int = 8,
    margin: float = 0.2,
) -> Chart:
    """Return the fan plot, with the operating range tinted and the crossings marked."""
    MARGIN.check(margin)
    fan = _fan(blade, operating.operating_high, flap_modes, lag_modes, harmonics)
    highest = fan.speeds[-1]
    turns = highest / (2.0 * math.pi)
    rays = [
        Line([(0.0, 0.0), (highest, n * turns)], f"{n}/rev", 0) for n in range(1, harmonics + 1)
    ]
    lines = [
        Line(
            [
                (speed, f / (2.0 * math.pi))
                for speed, f in zip(fan.speeds, mode.frequencies, strict=True)
            ],
            mode.name,
            STYLES[mode.plane],
        )
        for mode, _ in fan.modes
    ]
    return Chart(
        title="Fan plot",
        description="Frequencies of flap and lag modes over rotor speed, with the multiples of "
        "rotor speed as rays from the origin; circles are crossings, the band is the operating "
        "range.",
        x=Axis("Rotor speed", RPM, 0.0, highest, follows=OPERATING_LOW),
        y=Axis("Frequency", HERTZ, 0.0, 1.05 * harmonics * turns),
        marks=(
            Band(
                operating.operating_low, operating.operating_high, "x", "operating range", style=3
            ),
            *rays,
            *lines,
            Points([(c.rotor_speed, c.frequency) for c in fan.crossings], "", 4),
        ),
    )


def _verdict(separated: list[Separation]) -> str:
    """Return in words which modes come too near to which harmonics."""
    near = [f"{row.mode} and {row.harmonic}/rev" for row in separated if row.verdict == NEAR]
    return ", ".join(near) or "no mode and no harmonic"


class _Fan(NamedTuple):
    """Rotor speeds, and the modes over them with the crossings of each."""

    speeds: list[float]
    modes: list[FanMode]

    @property
    def crossings(self) -> list[FanCrossing]:
        """All crossings, in order of rotor speed."""
        found = [crossing for mode in self.modes for crossing in mode.crossings]
        return sorted(found, key=lambda crossing: crossing.rotor_speed)


@lru_cache(maxsize=2)  # the form asks for the answer and then for its figure
def _fan(
    blade: TwoPlaneBlade, operating_high: float, flap_modes: int, lag_modes: int, harmonics: int
) -> _Fan:
    """Return the modes of a blade from rest to a little above its highest rotor speed."""
    highest = BEYOND * operating_high
    speeds = [highest * step / SPEEDS for step in range(SPEEDS + 1)]
    modes = plane_modes(blade, speeds, flap_modes, lag_modes)
    return _Fan(speeds, [FanMode(mode, [*crossings(mode, speeds, harmonics)]) for mode in modes])
