"""Ring lines: the orders of a carrier that like planets leave at a sensor fixed to the ring."""

import cmath
import math
from collections.abc import Sequence
from typing import NamedTuple

from calc.quantity import Quantity
from calc.units import ANGLE

HALF_ANGLE = Quantity(
    r"\theta_h",
    "Half-amplitude angle of the passing window",
    ANGLE,
    at_least=math.radians(10.0),
    at_most=math.radians(180.0),
    example=math.radians(40.0),
)

WIDEST = 24  # orders on either side of the mesh that are looked at
WEAKEST = 0.05  # of the strongest line; weaker ones are left out
ROUNDING = 1e-6  # of a planet at the sensor; what is left of lines that cancel is far below
SAMPLES = 360  # of the passing window over a revolution


class RingLine(NamedTuple):
    """An order of the carrier, its sum over the planets, and its amplitude."""

    order: int
    planet_sum: float
    amplitude: float


def turned(places: Sequence[int], steps: int) -> list[float]:
    """Return the angles of places on the carrier, rad."""
    return [2.0 * math.pi * place / steps for place in places]


def ring_lines(
    angles: Sequence[float], mesh: int, half_angle: float = HALF_ANGLE.example
) -> list[RingLine]:
    """Return the orders of the carrier that like planets leave about a multiple of the mesh.

    Args:
        angles: Angle of each planet on the carrier; shape (n,), rad.
        mesh: Multiple of the mesh times teeth of the ring; scalar.
        half_angle: Angle from the sensor at which a planet counts half; scalar, rad.

    Returns:
        The lines, strongest first; those below a twentieth of the strongest are left out.

    Examples:
        >>> quarters = [0.0, 0.5 * math.pi, math.pi, 1.5 * math.pi]
        >>> [line.order for line in ring_lines(quarters, 108)]
        [108, 104, 112]
    """
    window = passing_window(half_angle)
    found = []
    for order in range(max(mesh - WIDEST, 1), mesh + WIDEST + 1):
        total = abs(planet_sum(angles, order))
        found.append(RingLine(order, total / len(angles), total * window[abs(order - mesh)]))
    floor = max(ROUNDING, WEAKEST * max(line.amplitude for line in found))
    left = [line for line in found if line.amplitude > floor]
    return sorted(left, key=lambda line: (-round(line.amplitude, 12), line.order))


def planet_sum(angles: Sequence[float], order: int) -> complex:
    """Return the sum over the planets at an order of the carrier."""
    return sum(cmath.exp(1j * order * angle) for angle in angles)


def passing_window(half_angle: float) -> list[float]:
    """Return the Fourier coefficients of the passing window, from its mean up."""
    sharpness = math.log(2.0) / (1.0 - math.cos(half_angle))
    turn = [2.0 * math.pi * step / SAMPLES for step in range(SAMPLES)]
    heights = [math.exp(-sharpness * (1.0 - math.cos(angle))) for angle in turn]
    return [
        math.fsum(h * math.cos(m * angle) for h, angle in zip(heights, turn, strict=True)) / SAMPLES
        for m in range(WIDEST + 1)
    ]
