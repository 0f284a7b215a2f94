"""Coleman diagram: modal frequencies of lag and hub in the fixed frame against rotor speed."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.chart import Axis, Chart, Line, Rule
from calc.declaration import Name, Table
from calc.ground.aircraft import assembled
from calc.ground.coalescence import coalescence_speeds
from calc.ground.mode_tracks import LABELS, ModePoint, mode_tracks
from calc.ground.quantities import (
    BLADE_MASS,
    DAMPING_X,
    DAMPING_Y,
    FIRST_MOMENT,
    HIGHEST_SPEED,
    HINGE_OFFSET,
    HUB_MASS,
    LAG_DAMPING,
    LAG_INERTIA,
    LAG_STIFFNESS,
    LOWEST_SPEED,
    MASS_X,
    MASS_Y,
    ROTOR_SPEED,
    STIFFNESS_X,
    STIFFNESS_Y,
    THREE_BLADES,
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
LAG_SHARE = Quantity("s", "Share of the kinetic energy in the lag motion", SHARE)


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
    blades: Annotated[int, THREE_BLADES],
    blade_mass: Annotated[float, BLADE_MASS],
    first_moment: Annotated[float, FIRST_MOMENT],
    lag_inertia: Annotated[float, LAG_INERTIA],
    hinge_offset: Annotated[float, HINGE_OFFSET],
    lag_stiffness: Annotated[float, LAG_STIFFNESS],
    lag_damping: Annotated[float, LAG_DAMPING],
    mass_x: Annotated[float, MASS_X],
    mass_y: Annotated[float, MASS_Y],
    stiffness_x: Annotated[float, STIFFNESS_X],
    stiffness_y: Annotated[float, STIFFNESS_Y],
    damping_x: Annotated[float, DAMPING_X],
    damping_y: Annotated[float, DAMPING_Y],
    rotor_speed: Annotated[float, ROTOR_SPEED],
    lowest_speed: Annotated[float, LOWEST_SPEED],
    highest_speed: Annotated[float, HIGHEST_SPEED],
    hub_mass: Annotated[str, HUB_MASS] = "without_blades",
) -> Coalescence:
    r"""Return the modes of lag and hub at a rotor speed, labelled by their shapes.

    $$ f = \frac{\operatorname{Im} s}{2 \pi}, \qquad
    \text{uncoupled: } |\Omega - \omega_\zeta|, \; \Omega + \omega_\zeta, \;
    \omega_x, \; \omega_y $$

    In the fixed frame.  The regressing lag mode of a rotor that is soft in plane whirls with the
    rotation, slower than the rotor; where the lag frequency is above the rotor speed it whirls
    against it, and its frequency is shown negative.  The diagram follows each mode over the
    rotor speeds by its shape, straight on where frequencies cross or veer.

    Args:
        blades: Number of blades; scalar.
        blade_mass: Mass of one blade outboard of its lag hinge; scalar, kg.
        first_moment: First moment of one blade about its lag hinge; scalar, kg·m.
        lag_inertia: Second moment of one blade about its lag hinge; scalar, kg·m².
        hinge_offset: Distance of the lag hinge from the shaft; scalar, m.
        lag_stiffness: Lag spring of one blade; scalar, N·m/rad.
        lag_damping: Lag damper of one blade; scalar, N·m·s/rad.
        mass_x: Effective hub mass in x; scalar, kg.
        mass_y: Effective hub mass in y; scalar, kg.
        stiffness_x: Effective hub stiffness in x; scalar, N/m.
        stiffness_y: Effective hub stiffness in y; scalar, N/m.
        damping_x: Effective hub damping in x; scalar, N·s/m.
        damping_y: Effective hub damping in y; scalar, N·s/m.
        rotor_speed: Speed at which the modes are listed; scalar, rad/s.
        lowest_speed: Start of the diagram; scalar, rad/s.
        highest_speed: End of the diagram; scalar, rad/s.
        hub_mass: Whether the hub masses have the blades in them; word.

    Returns:
        Coalescence speeds, infinite where there are none, and the four modes.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Coleman and Feingold (1958), the diagram; labels by shape devised here.

    Examples:
        >>> found = coleman_diagram(
        ...     4, 50.0, 115.0, 350.0, 0.25, 0.0, 2500.0, 3000.0, 1400.0,
        ...     600e3, 640e3, 6000.0, 4000.0, 20.0, 2.0, 50.0,
        ... )
        >>> [mode.label for mode in found.modes]
        ['regressing lag', 'progressing lag', 'support x', 'support y']
    """
    rotor, support = assembled(
        (blades, blade_mass, first_moment, lag_inertia, hinge_offset, lag_stiffness, lag_damping),
        (mass_x, mass_y),
        (stiffness_x, stiffness_y, damping_x, damping_y),
        hub_mass,
    )
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
    blades: Annotated[int, THREE_BLADES],
    blade_mass: Annotated[float, BLADE_MASS],
    first_moment: Annotated[float, FIRST_MOMENT],
    lag_inertia: Annotated[float, LAG_INERTIA],
    hinge_offset: Annotated[float, HINGE_OFFSET],
    lag_stiffness: Annotated[float, LAG_STIFFNESS],
    lag_damping: Annotated[float, LAG_DAMPING],
    mass_x: Annotated[float, MASS_X],
    mass_y: Annotated[float, MASS_Y],
    stiffness_x: Annotated[float, STIFFNESS_X],
    stiffness_y: Annotated[float, STIFFNESS_Y],
    damping_x: Annotated[float, DAMPING_X],
    damping_y: Annotated[float, DAMPING_Y],
    rotor_speed: Annotated[float, ROTOR_SPEED],
    lowest_speed: Annotated[float, LOWEST_SPEED],
    highest_speed: Annotated[float, HIGHEST_SPEED],
    hub_mass: Annotated[str, HUB_MASS] = "without_blades",
) -> Chart:
    """Return the modal frequencies over rotor speed, with the coalescence speeds marked."""
    rotor, support = assembled(
        (blades, blade_mass, first_moment, lag_inertia, hinge_offset, lag_stiffness, lag_damping),
        (mass_x, mass_y),
        (stiffness_x, stiffness_y, damping_x, damping_y),
        hub_mass,
    )
    step = (highest_speed - lowest_speed) / (SPEEDS - 1)
    speeds = [lowest_speed + step * number for number in range(SPEEDS)]
    tracks = mode_tracks(rotor, support, speeds)
    lines = [
        Line(_unjoined(speeds, [points[number] for points in tracks]), label, number + 1)
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


def _unjoined(speeds: list[float], points: list[ModePoint]) -> list[tuple[float, float]]:
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
