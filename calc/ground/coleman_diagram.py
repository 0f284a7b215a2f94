"""Coleman diagram: modal frequencies of lag and hub in the fixed frame against rotor speed."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.chart import Axis, Chart, Line, Rule
from calc.declaration import Name, Table
from calc.ground.model.aircraft import Hub, LagRotor
from calc.ground.model.coalescence import coalescence_speeds
from calc.ground.model.mode_tracks import LABELS, ModePoint, mode_tracks
from calc.ground.quantities import (
    HIGHEST_SPEED,
    LOWEST_SPEED,
    ROTOR_SPEED,
)
from calc.ground.undercarriage import COALESCENCE_X, COALESCENCE_Y
from calc.quantity import Quantity
from calc.units import FREQUENCY, GROWTH, SHARE

SPEEDS = 100  # rotor speeds of a diagram
STEEPEST = 2.5  # change of a modal frequency with rotor speed that is still one mode
MODE = Name("Mode")
MODE_FREQUENCY = Quantity(
    "f", "Frequency in the fixed frame, negative against the rotation", FREQUENCY
)
MODE_GROWTH = Quantity(r"\sigma", "Growth rate", GROWTH)
LAG_SHARE = Quantity("s", "Fraction of the kinetic energy in the lag motion", SHARE)


@dataclass(frozen=True, slots=True)
class Mode:
    """A mode at one rotor speed, as it is felt in the fixed frame."""

    label: Annotated[str, MODE]
    frequency: Annotated[float, MODE_FREQUENCY]
    growth_rate: Annotated[float, MODE_GROWTH]
    lag_share: Annotated[float, LAG_SHARE]


MODES = Table("Modes at the rotor speed", Mode)


@dataclass(frozen=True, slots=True)
class Coalescence:
    """Where the regressing lag mode meets the support modes, and the modes at one rotor speed."""

    coalescence_x: Annotated[float, COALESCENCE_X]
    coalescence_y: Annotated[float, COALESCENCE_Y]
    modes: Annotated[tuple[Mode, ...], MODES]


def coleman_diagram(
    rotor: LagRotor,
    hub: Hub,
    rotor_speed: Annotated[float, ROTOR_SPEED],
    lowest_speed: Annotated[float, LOWEST_SPEED],
    highest_speed: Annotated[float, HIGHEST_SPEED],
) -> Coalescence:
    r"""Return the modes of lag and hub at a rotor speed, labelled by their shapes.

    $$ f = \frac{\operatorname{Im} s}{2 \pi}, \qquad
    \text{uncoupled: } |\Omega - \omega_\xi|, \; \Omega + \omega_\xi, \;
    \omega_x, \; \omega_y $$

    In the fixed frame.  The regressing lag mode of a rotor that is soft in plane whirls with the
    rotation, slower than the rotor; where the lag frequency is above the rotor speed it whirls
    against it, and its frequency is shown negative.  The diagram follows each mode over the
    rotor speeds by its shape, straight on where frequencies cross or veer.

    Args:
        rotor: Blades and lag hinges.
        hub: Effective masses, stiffness and damping at the hub.
        rotor_speed: Speed at which the modes are listed; scalar, rad/s.
        lowest_speed: Start of the diagram; scalar, rad/s.
        highest_speed: End of the diagram; scalar, rad/s.

    Returns:
        Coalescence speeds, infinite where there are none, and the four modes.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Coleman and Feingold (1958), the diagram; labels by shape devised here.

    Examples:
        >>> from calc.ground.model.aircraft import Rotor
        >>> found = coleman_diagram(
        ...     Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2000.0),
        ...     Hub(3000.0, 1400.0, 600e3, 640e3, 6000.0, 4000.0), 20.0, 2.0, 50.0,
        ... )
        >>> [mode.label for mode in found.modes]
        ['regressing lag', 'progressing lag', 'support x', 'support y']
    """
    support = hub.support(rotor)
    ROTOR_SPEED.check(rotor_speed)
    LOWEST_SPEED.check(lowest_speed)
    HIGHEST_SPEED.check(highest_speed)
    coalescence = coalescence_speeds(rotor, support) or (math.inf, math.inf)
    points = mode_tracks(rotor, support, [rotor_speed])[0]
    return Coalescence(
        coalescence_x=coalescence[0],
        coalescence_y=coalescence[1],
        modes=tuple(_mode(point) for point in points),
    )


def coleman_chart(
    rotor: LagRotor,
    hub: Hub,
    rotor_speed: float,
    lowest_speed: float,
    highest_speed: float,
) -> Chart:
    """Return the modal frequencies over rotor speed, with the coalescence speeds marked."""
    support = hub.support(rotor)
    step = (highest_speed - lowest_speed) / (SPEEDS - 1)
    speeds = [lowest_speed + step * number for number in range(SPEEDS)]
    tracks = mode_tracks(rotor, support, speeds)
    lines = [
        Line(unjoined(speeds, [points[number] for points in tracks]), label, number + 1)
        for number, label in enumerate(LABELS)
    ]
    meetings = [s for s in coalescence_speeds(rotor, support) if lowest_speed < s < highest_speed]
    return Chart(
        title="Coleman diagram",
        description="Frequencies of the lag modes and the support modes in the fixed frame; the "
        "regressing lag mode crosses the support modes at the coalescence speeds.",
        x=Axis.of(ROTOR_SPEED, lowest_speed, highest_speed),
        y=Axis.of(MODE_FREQUENCY),
        marks=(
            *(Rule(speed, "x", "coalescence") for speed in meetings),
            Rule(rotor_speed, "x", "listed"),
            *lines,
        ),
    )


def unjoined(speeds: list[float], points: list[ModePoint]) -> list[tuple[float, float]]:
    """Return frequencies over speeds, broken where a mode takes over the shape of another."""
    line: list[tuple[float, float]] = []
    for number, (speed, point) in enumerate(zip(speeds, points, strict=True)):
        if number:
            step, moved = speed - speeds[number - 1], point.frequency - points[number - 1].frequency
            if abs(moved) > STEEPEST * step:
                line.append((speed - 0.5 * step, math.nan))
        line.append((speed, point.frequency / (2.0 * math.pi)))
    return line


def _mode(point: ModePoint) -> Mode:
    return Mode(
        label=point.label,
        frequency=point.frequency / (2.0 * math.pi),
        growth_rate=point.eigenvalue.real,
        lag_share=point.lag_share,
    )
