"""Blade modes: frequencies and shapes of a blade given in segments."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.blades.beam_modes import frequencies, mode_shapes
from calc.blades.quantities import (
    FLAP,
    MODE,
    MODES,
    PLANE,
    ROOT_OFFSET,
    ROTATING_FREQUENCY,
    STATION,
    TURNING_SPEED,
)
from calc.blades.segments import Blade
from calc.chart import Axis, Chart, Line, Rule
from calc.declaration import Table
from calc.quantity import Quantity
from calc.units import NUMBER, PER_REV

PER_REVOLUTION = Quantity(r"\omega_i/\Omega", "Per revolution", (PER_REV,), at_least=0.0)
SHAPE = Quantity(r"\phi_i", "Deflection", NUMBER)


@dataclass(frozen=True, slots=True)
class BladeMode:
    """A natural frequency in hertz and in cycles per revolution."""

    mode: Annotated[int, MODE]
    frequency: Annotated[float, ROTATING_FREQUENCY]
    per_rev: Annotated[float, PER_REVOLUTION]


BLADE_MODES = Table("Modes", BladeMode)
MOST_LINES = 6  # of a figure


def blade_modes(
    blade: Blade,
    hinge_offset: Annotated[float, ROOT_OFFSET],
    rotor_speed: Annotated[float, TURNING_SPEED],
    plane: Annotated[str, PLANE] = FLAP,
    modes: Annotated[int, MODES] = 4,
) -> Annotated[tuple[BladeMode, ...], BLADE_MODES]:
    r"""Return the lowest modes of a blade in segments, in hertz and per revolution.

    $$ (EI v'')'' - (T v')' - m \omega^2 v = 0, \qquad
       T = \Omega^2 \left[\int_x^L m (e + s) \mathrm{d}s + m_t (e + L)\right],
       \qquad \omega_{lag}^2 = \omega_{flap}^2 - \Omega^2 $$

    A slender beam at zero pitch, without twist, shear, rotary inertia, or coupling with stretch;
    mass axis, tension axis and bending axis coincide.  The stiffness is the one of the plane.

    Args:
        blade: Segments of the blade and how its root is held.
        hinge_offset: Rotor axis to root, clamped or hinged; scalar, m.
        rotor_speed: Speed of rotation; scalar, rad/s.
        plane: Flap is out of the plane of rotation, lag is in it; word.
        modes: How many modes; scalar.

    Returns:
        The modes, lowest first; rows.

    Raises:
        ValueError: If an argument is not finite or breaks its limits, if stations do not rise, or
            if a clamped root is given a spring.

    Source:
        Equation as in Wright, Smith, Thresher and Wang (1982); solved by finite elements.

    Examples:
        >>> from calc.blades.segments import Segment
        >>> rows = blade_modes(Blade((Segment(1.0, 1.0, 1.0),)), 0.0, 4.0, modes=2)
        >>> [round(row.per_rev, 4) for row in rows]
        [1.3963, 6.0683]
    """
    ROOT_OFFSET.check(hinge_offset)
    TURNING_SPEED.check(rotor_speed)
    PLANE.check(plane)
    MODES.check(modes)
    found = frequencies(blade.beam(hinge_offset), rotor_speed, plane, modes)
    return tuple(
        BladeMode(number, frequency / (2.0 * math.pi), frequency / rotor_speed)
        for number, frequency in enumerate(found, 1)
    )


def blade_modes_chart(
    blade: Blade,
    hinge_offset: float,
    rotor_speed: float,
    plane: str = FLAP,
    modes: int = 4,
) -> Chart:
    """Return the shapes of the lowest modes along the blade."""
    shapes = mode_shapes(blade.beam(hinge_offset), rotor_speed, plane, min(modes, MOST_LINES))
    return Chart(
        title="Mode shapes",
        description="Deflection along the blade of each mode, one at its largest; each mode has "
        "one more node than the one below it.",
        x=Axis.of(STATION, 0.0, blade.length),
        y=Axis.of(SHAPE, -1.0, 1.0),
        marks=(
            Rule(0.0, "y"),
            *(Line(mode.shape, f"mode {i}", i) for i, mode in enumerate(shapes, 1)),
        ),
    )
