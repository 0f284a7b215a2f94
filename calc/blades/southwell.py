"""Southwell coefficients: how rotation stiffens the modes that a blade has at rest."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from calc.blades.beam_elements import matrices
from calc.blades.beam_modes import solve
from calc.blades.quantities import (
    FLAP,
    MODE,
    MODES,
    PLANE,
    ROTATING_FREQUENCY,
    ROTOR_SPEED,
)
from calc.blades.segments import Blade
from calc.declaration import Nothing, Table
from calc.quantity import Quantity
from calc.units import FREQUENCY, ROTATION

AT_REST = Quantity("f_0", "Natural frequency at rest", FREQUENCY, at_least=0.0, example=3.0)
RISE = Quantity("K", "Southwell coefficient", at_least=0.0, example=1.2)
RISE_AT_AXIS = Quantity("K_0", "Coefficient without root offset", at_least=0.0)
RISE_WITH_OFFSET = Quantity("K_1", "Increase with root radius over length", at_least=0.0)
HARMONIC = Quantity("n", "Multiple of rotor speed", at_least=1, at_most=50, whole=True, example=3)
CROSSING_SPEED = Quantity(
    r"\Omega_n", "Rotor speed at the crossing with the harmonic", ROTATION, at_least=0.0
)


@dataclass(frozen=True, slots=True)
class Coefficients:
    """A mode at rest and how rotation raises the square of its frequency, in flap."""

    mode: Annotated[int, MODE]
    at_rest: Annotated[float, AT_REST]
    at_axis: Annotated[float, RISE_AT_AXIS]
    with_offset: Annotated[float, RISE_WITH_OFFSET]


COEFFICIENTS = Table("Southwell coefficients", Coefficients)


def southwell_coefficients(
    blade: Blade, modes: Annotated[int, MODES] = 4
) -> Annotated[tuple[Coefficients, ...], COEFFICIENTS]:
    r"""Return the Southwell coefficients of a blade, from its shapes at rest.

    $$ \omega_i^2 = \omega_{0i}^2 + \left(K_{0i} + K_{1i} \frac{e}{L}\right) \Omega^2, \qquad
       K_i = \frac{\int T_1 \phi_i'^2 \mathrm{d}x}{\int m \phi_i^2 \mathrm{d}x} $$

    $T_1$ is the tension at a rotor speed of one.  Rotation changes the shapes a little, so that
    the first frequency found this way is never below the true one; for a blade hinged at its root
    the first mode is exact.  Here $e$ is divided by the length of the blade, not by the radius.

    Args:
        blade: Segments of the blade and how its root is held.
        modes: How many modes; scalar.

    Returns:
        The frequency at rest and the coefficients of each mode; rows.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Rayleigh's quotient with the shapes at rest; Yntema (1955) gives charts.

    Examples:
        >>> from calc.blades.segments import Segment
        >>> uniform = Blade((Segment(1.0, 1.0, 1.0),))
        >>> first = southwell_coefficients(uniform, modes=1)[0]
        >>> round(first.at_axis, 4), round(first.with_offset, 4)
        (1.1933, 1.5709)
    """
    MODES.check(modes)
    at_axis = blade.beam(0.0)
    offset = matrices(at_axis.elements, blade.length, blade.tip_mass, at_axis.degree)
    found = []
    for number, (frequency, free) in enumerate(solve(at_axis, 0.0, FLAP, modes), 1):
        shape = [0.0] * at_axis.ties + free
        inertia = _energy(at_axis.matrices.mass, shape)
        rise = _energy(at_axis.matrices.centrifugal, shape) / inertia
        rise_with_offset = _energy(offset.centrifugal, shape) / inertia
        row = Coefficients(number, frequency / (2.0 * math.pi), rise, rise_with_offset - rise)
        found.append(row)
    return tuple(found)


def southwell_frequency(
    at_rest: Annotated[float, AT_REST],
    coefficient: Annotated[float, RISE],
    rotor_speed: Annotated[float, ROTOR_SPEED],
    plane: Annotated[str, PLANE] = FLAP,
) -> Annotated[float, ROTATING_FREQUENCY]:
    r"""Return the natural frequency of a rotating blade from that at rest.

    $$ f = \sqrt{f_0^2 + K \left(\frac{\Omega}{2 \pi}\right)^2} $$

    In lag the coefficient is less by one.

    Args:
        at_rest: Natural frequency at rest; scalar, Hz.
        coefficient: Southwell coefficient for flap, offset included; scalar.
        rotor_speed: Speed of rotation; scalar, rad/s.
        plane: Flap is out of the plane of rotation, lag is in it; word.

    Returns:
        The frequency; scalar, Hz.

    Raises:
        ValueError: If an argument is not finite or breaks its limits, or a lag coefficient is
            below zero.

    Source:
        Southwell's form; Yntema (1955).

    Examples:
        >>> round(southwell_frequency(3.0, 1.0, 8.0 * math.pi), 9)
        5.0
    """
    AT_REST.check(at_rest)
    RISE.check(coefficient)
    ROTOR_SPEED.check(rotor_speed)
    PLANE.check(plane)
    in_plane = coefficient if plane == FLAP else coefficient - 1.0
    RISE.check(in_plane)
    turns_per_second = rotor_speed / (2.0 * math.pi)
    return math.sqrt(at_rest**2 + in_plane * turns_per_second**2)


def crossing_speed(
    at_rest: Annotated[float, AT_REST],
    coefficient: Annotated[float, RISE],
    harmonic: Annotated[int, HARMONIC],
) -> Annotated[
    float | None,
    CROSSING_SPEED,
    Nothing("Rotation raises the mode as fast as the harmonic: they never cross"),
]:
    r"""Return the rotor speed at which a mode crosses a multiple of rotor speed.

    $$ \Omega_n = \frac{2 \pi f_0}{\sqrt{n^2 - K}}, \qquad n^2 > K $$

    Args:
        at_rest: Natural frequency at rest; scalar, Hz.
        coefficient: Southwell coefficient in the plane of the mode; scalar.
        harmonic: Multiple of rotor speed; scalar.

    Returns:
        The rotor speed, or None where there is no crossing; scalar, rad/s.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Southwell's form, solved for the speed.

    Examples:
        >>> crossing_speed(3.0, 1.2, 1) is None
        True
    """
    AT_REST.check(at_rest)
    RISE.check(coefficient)
    HARMONIC.check(harmonic)
    difference = harmonic**2 - coefficient
    if difference <= 0.0:
        return None
    return 2.0 * math.pi * at_rest / math.sqrt(difference)


def _energy(matrix: Sequence[Sequence[float]], shape: Sequence[float]) -> float:
    """Return the quadratic form of a matrix with a shape."""
    return math.fsum(
        a * value * b
        for a, row in zip(shape, matrix, strict=True)
        for value, b in zip(row, shape, strict=True)
    )
