"""A second way to the stability of a rotor: single blades turned numerically into fixed axes.

The program computes with a closed system in multiblade coordinates.  Here the equations of single
blades and hub are written as Newton gives them, with azimuths in them, and the change of
coordinates is put in as matrices at one instant; nothing is derived by hand.  For unlike blades
`benchmark.floquet` integrates the single blades over a revolution.
"""

import math
from collections.abc import Callable, Iterable, Sequence

import numpy as np
from numpy.typing import NDArray
from scipy.linalg import eigvals

from calc.ground.model.aircraft import Rotor, Support

Matrix = NDArray[np.float64]
Growth = Callable[[float], float]


def eigenvalues_of_single_blades(
    rotor: Rotor, support: Support, speed: float
) -> NDArray[np.complex128]:
    """Return the eigenvalues of identical blades and hub in fixed axes; three or more blades.

    With blades q = T(t) c the system M q'' + C q' + K q = 0 becomes one for c, whose matrices do
    not depend on the instant; they are taken at one where no azimuth is special.
    """
    count = rotor.blades
    azimuths = 0.3 + 2.0 * math.pi * np.arange(count) / count
    mass, damping, stiffness = _single_blades(rotor, support, speed, azimuths)
    turn, rate, second = _coordinates(count, azimuths, speed)
    found_mass = turn.T @ mass @ turn
    found_damping = turn.T @ (2.0 * mass @ rate + damping @ turn)
    found_stiffness = turn.T @ (mass @ second + damping @ rate + stiffness @ turn)
    size = count + 2
    first = np.block([[np.zeros((size, size)), np.eye(size)], [-found_stiffness, -found_damping]])
    weights = np.block(
        [[np.eye(size), np.zeros((size, size))], [np.zeros((size, size)), found_mass]]
    )
    found: NDArray[np.complex128] = eigvals(first, weights)
    return found


def growth_of_single_blades(rotor: Rotor, support: Support, speed: float) -> float:
    """Return the highest growth rate of identical blades and hub."""
    return float(max(eigenvalues_of_single_blades(rotor, support, speed).real))


def assert_edges(growth: Growth, edges: Sequence[float], level: float = 0.0) -> None:
    """Check by another growth rate that it passes a level at each edge, upward and downward."""
    for number, edge in enumerate(edges):
        below, above = (growth(edge * (1.0 + step)) > level for step in (-1e-5, 1e-5))
        assert (below, above) == ((False, True) if number % 2 == 0 else (True, False)), edge


def assert_no_other_bands(
    growth: Growth, edges: Sequence[float], speeds: Iterable[float], level: float = 0.0
) -> None:
    """Check that the growth rate is above a level at those speeds that lie inside the bands."""
    bands = list(zip(edges[::2], edges[1::2], strict=True))
    for speed in speeds:
        assert (growth(speed) > level) == any(low < speed < high for low, high in bands), speed


def assert_peak(growth: Growth, speed: float, value: float) -> None:
    """Check that the growth rate has a value at a speed and less on both sides of it."""
    assert math.isclose(growth(speed), value, rel_tol=1e-5, abs_tol=1e-6)
    assert growth(speed) > max(growth(0.997 * speed), growth(1.003 * speed))


def _single_blades(
    rotor: Rotor, support: Support, speed: float, azimuths: Matrix
) -> tuple[Matrix, Matrix, Matrix]:
    """Return mass, damping and stiffness of blade lag angles and hub displacements at an instant.

    Newton for each blade about its hinge, and for the hub with all blades, small angles.
    """
    count, moment = rotor.blades, rotor.first_moment
    across = np.array([-np.sin(azimuths), np.cos(azimuths)])
    total = np.array([support.mass_x, support.mass_y]) + count * rotor.blade_mass
    centrifugal = rotor.hinge_offset * moment * speed**2
    mass = np.diag([*[rotor.lag_inertia] * count, *total])
    damping = np.diag([*[rotor.lag_damping] * count, support.damping_x, support.damping_y])
    lag_stiffness = rotor.lag_stiffness + centrifugal
    stiffness = np.diag([*[lag_stiffness] * count, support.stiffness_x, support.stiffness_y])
    mass[:count, count:], mass[count:, :count] = moment * across.T, moment * across
    damping[count:, :count] -= 2.0 * moment * speed * np.array([across[1], -across[0]])
    stiffness[count:, :count] -= moment * speed**2 * across
    return mass, damping, stiffness


def _coordinates(count: int, azimuths: Matrix, speed: float) -> tuple[Matrix, Matrix, Matrix]:
    """Return the change from multiblade coordinates to single blades, and its two derivatives."""
    harmonics = range(1, (count - 1) // 2 + 1)
    columns = [np.ones(count)]
    rates, seconds = [np.zeros(count)], [np.zeros(count)]
    for n in harmonics:
        cosine, sine, pace = np.cos(n * azimuths), np.sin(n * azimuths), n * speed
        columns += [cosine, sine]
        rates += [-pace * sine, pace * cosine]
        seconds += [-(pace**2) * cosine, -(pace**2) * sine]
    if count % 2 == 0:
        columns.append(np.cos(math.pi * np.arange(count)))
        rates.append(np.zeros(count))
        seconds.append(np.zeros(count))
    turn, rate, second = (np.zeros((count + 2, count + 2)) for _ in range(3))
    turn[-2:, -2:] = np.eye(2)
    for whole, part in ((turn, columns), (rate, rates), (second, seconds)):
        whole[:-2, :-2] = np.array(part).T
    return turn, rate, second
