"""Floquet: growth rates of blades that differ on a hub that differs in its two directions.

The coefficients then repeat with every revolution, in any frame.  One revolution is integrated
by collocation.  Within a step the blades are eliminated, so that only the hub accelerations at
the collocation points are left to solve for, and a seized damper, which makes the equations
stiff, needs no shorter steps than a free one.
"""

import math
from collections.abc import Sequence
from operator import add, mul

from calc import linalg
from calc.ground.aircraft import (
    Rotor,
    Support,
    coupling_parameters,
    support_frequencies,
    total_masses,
)
from calc.ground.collocation import POINTS, Blade, Hub, Matrix, dot, inverse, product

REACH = 0.8  # rad: the fastest motion turns by no more than this in a step
SMALLEST = 1e-300  # a multiplier that has decayed beyond any number


def growth_rates(
    rotor: Rotor,
    support: Support,
    rotor_speed: float,
    lag_dampings: Sequence[float],
    lag_stiffnesses: Sequence[float],
    reach: float = REACH,
) -> list[float]:
    r"""Return the real parts of the 2 (N_b + 2) characteristic exponents, highest first.

    $$ q(T) = \Phi q(0), \qquad T = \frac{2 \pi}{\Omega}, \qquad
    \sigma_j = \frac{\ln |\lambda_j(\Phi)|}{T} $$

    Args:
        rotor: Two or more blades; its own lag damping and lag stiffness are not used.
        support: Hub mass without blades, stiffness and damping in two directions.
        rotor_speed: Constant speed of rotation, above zero; scalar, rad/s.
        lag_dampings: Damping of each blade; shape (N_b,), N·m·s/rad.
        lag_stiffnesses: Lag spring of each blade; shape (N_b,), N·m/rad.
        reach: Angle by which the fastest motion may turn in a step; scalar, rad.

    Returns:
        Growth rates; shape (2 N_b + 4,), 1/s.

    Source:
        Hammond (1974), the method; equations derived anew.
    """
    centrifugal = rotor.hinge_offset * rotor.first_moment * rotor_speed**2
    springs = [(stiffness + centrifugal) / rotor.lag_inertia for stiffness in lag_stiffnesses]
    lightness = math.sqrt(1.0 - max(coupling_parameters(rotor, support)))
    fastest = (
        max(*support_frequencies(rotor, support), rotor_speed + math.sqrt(max(springs))) / lightness
    )
    period = 2.0 * math.pi / (rotor_speed or fastest)  # at standstill any time will do
    steps = max(4, math.ceil(period * fastest / reach))
    blades = [
        Blade(damping / rotor.lag_inertia, spring, rotor_speed, period / steps)
        for damping, spring in zip(lag_dampings, springs, strict=True)
    ]
    matrix = _transition(rotor, support, rotor_speed, blades, period / steps, steps)
    rates = [math.log(max(abs(value), SMALLEST)) / period for value in linalg.eigenvalues(matrix)]
    return sorted(rates, reverse=True)


def _transition(
    rotor: Rotor,
    support: Support,
    rotor_speed: float,
    blades: list[Blade],
    step: float,
    steps: int,
) -> Matrix:
    """Return the states after a revolution that started from each unit state, as columns.

    A state is the lag angles, x, y and their rates.  Two real columns travel as one complex one.
    """
    mass_x, mass_y = total_masses(rotor, support)
    hubs = (
        Hub(mass_x, support.damping_x, support.stiffness_x, step),
        Hub(mass_y, support.damping_y, support.stiffness_y, step),
    )
    size = 2 * len(blades) + 4
    columns = [
        [complex(row == pair, row == pair + 1) for row in range(size)] for pair in range(0, size, 2)
    ]
    for number in range(steps):
        azimuths = [rotor_speed * step * (number + point) for point in POINTS]
        columns = _advance(rotor, hubs, blades, azimuths, step, columns)
    parts = [
        part
        for column in columns
        for part in ([value.real for value in column], [value.imag for value in column])
    ]
    return [list(row) for row in zip(*parts, strict=True)]


def _advance(
    rotor: Rotor,
    hubs: tuple[Hub, Hub],
    blades: list[Blade],
    azimuths: list[float],
    step: float,
    columns: list[list[complex]],
) -> list[list[complex]]:
    """Return the states at the end of a step from those at its start."""
    count, points = len(blades), len(POINTS)
    arm = rotor.first_moment / rotor.lag_inertia
    zeros = [0.0] * points
    matrix = [row + zeros for row in hubs[0].matrix] + [zeros + row for row in hubs[1].matrix]
    starts = [[0.0] * (2 * count + 4) for _ in matrix]  # forces on the hub from a state
    for direction, hub in enumerate(hubs):
        for i in range(points):
            row = starts[direction * points + i]
            row[count + direction], row[2 * count + 2 + direction] = hub.start[i]
    pulls = []
    for number, blade in enumerate(blades):
        azimuth = 2.0 * math.pi * number / count
        sines = [math.sin(azimuth + shift) for shift in azimuths]
        cosines = [math.cos(azimuth + shift) for shift in azimuths]
        pull = [arm * sine for sine in sines] + [-arm * cosine for cosine in cosines]
        pulls.append(pull)
        for i in range(points):
            sine, cosine = rotor.first_moment * sines[i], rotor.first_moment * cosines[i]
            along, across = blade.along[i] * 2, blade.across[i] * 2
            lines = zip(along, across, pull, strict=True)
            forces = [
                ((sine * a + cosine * b) * u, (sine * b - cosine * a) * u) for a, b, u in lines
            ]
            for line, side in ((i, 0), (i + points, 1)):
                matrix[line] = [m - f[side] for m, f in zip(matrix[line], forces, strict=True)]
            for place, a, b in zip(
                (number, count + 2 + number),
                blade.along_start[i],
                blade.across_start[i],
                strict=True,
            ):
                starts[i][place] = sine * a + cosine * b
                starts[i + points][place] = sine * b - cosine * a
    solved = product(inverse(matrix), starts)
    return [_moved(column, solved, hubs, blades, pulls, step) for column in columns]


def _moved(
    column: list[complex],
    solved: Matrix,
    hubs: tuple[Hub, Hub],
    blades: list[Blade],
    pulls: Matrix,
    step: float,
) -> list[complex]:
    """Return one state at the end of a step."""
    half = len(blades) + 2
    accelerations = [dot(row, column) for row in solved]
    lags, rates = [], []
    for blade, pull, lag, rate in zip(blades, pulls, column, column[half:], strict=False):
        acting = list(map(mul, pull, accelerations))
        force = list(map(add, acting, acting[len(POINTS) :]))
        lags.append(
            blade.lag_start[0] * lag + blade.lag_start[1] * rate + dot(blade.lag_end, force)
        )
        rates.append(
            blade.rate_start[0] * lag + blade.rate_start[1] * rate + dot(blade.rate_end, force)
        )
    for direction, hub in enumerate(hubs):
        own = accelerations[direction * len(POINTS) :]
        place, speed = column[len(blades) + direction], column[half + len(blades) + direction]
        lags.append(place + step * speed + dot(hub.end[0], own))
        rates.append(speed + dot(hub.end[1], own))
    return lags + rates
