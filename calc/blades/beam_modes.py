"""Beam modes: natural frequencies and shapes of a blade made of beam elements."""

import math
from collections.abc import Sequence
from operator import mul
from typing import NamedTuple

from calc.blades.beam_elements import (
    Element,
    Matrices,
    Matrix,
    deflection,
    degree_for,
    matrices,
    mesh,
)
from calc.blades.quantities import CLAMPED, FLAP, HINGED, LAG
from calc.linalg import generalized_symmetric_eigen

ROUNDING = 1e-9  # share of a shifted eigenvalue below which a squared frequency is rounding
DEPENDENT = 1e-10  # share of its square below which what a shape adds is left out
POINTS = 12  # places in each element at which a shape is given


class Held(NamedTuple):
    """At what radius and how a blade is held, and what its tip carries; SI units."""

    root_radius: float
    root: str = CLAMPED
    root_stiffness: float = 0.0
    tip_mass: float = 0.0


class Beam(NamedTuple):
    """A blade ready to turn: its elements, their degree, its matrices and how many root ties."""

    elements: list[Element]
    degree: int
    matrices: Matrices
    ties: int


class Solution(NamedTuple):
    """A natural frequency, rad/s, and the unknowns that are free to move in its mode."""

    frequency: float
    unknowns: list[float]


class ModeShape(NamedTuple):
    """A natural frequency, rad/s, and the deflection along the blade, one at its largest."""

    frequency: float
    shape: list[tuple[float, float]]


def beam(segments: Sequence[Element], held: Held) -> Beam:
    """Return a blade from its segments; a hinged root may have a spring, a clamped one has none."""
    if held.root != HINGED and held.root_stiffness:
        raise ValueError("Stiffness of the root hinge must be 0 for a clamped root")
    elements = mesh(segments)
    degree = degree_for(len(elements))
    made = matrices(elements, held.root_radius, held.tip_mass, degree)
    made.elastic[1][1] += held.root_stiffness
    return Beam(elements, degree, made, 1 if held.root == HINGED else 2)


def solve(blade: Beam, rotor_speed: float, plane: str, count: int) -> list[Solution]:
    r"""Return the lowest modes of a rotating blade.

    The roots are found as $M x = \theta (K + \sigma M) x$ with $\omega^2 = 1/\theta - \sigma$: the
    low frequencies are then the large roots, which keep all their digits, and a blade that can
    turn freely about its hinge needs no special case.
    """
    stiff, pull, mass = ([row[blade.ties :] for row in m[blade.ties :]] for m in blade.matrices)
    shift = rotor_speed**2 + _elastic_scale(blade.elements)
    shifted = [
        [k + rotor_speed**2 * t + shift * m for k, t, m in zip(*rows, strict=True)]
        for rows in zip(stiff, pull, mass, strict=True)
    ]
    roots, shapes = generalized_symmetric_eigen(mass, shifted)
    lost = rotor_speed**2 if plane == LAG else 0.0
    found = []
    for column in range(len(roots) - 1, len(roots) - 1 - count, -1):
        square = 1.0 / roots[column] - shift - lost
        frequency = math.sqrt(square) if square > ROUNDING / roots[column] else 0.0
        found.append(Solution(frequency, [row[column] for row in shapes]))
    return found


def frequencies(blade: Beam, rotor_speed: float, plane: str, count: int) -> list[float]:
    """Return the lowest natural frequencies of a rotating blade, rad/s."""
    return [mode.frequency for mode in solve(blade, rotor_speed, plane, count)]


def mode_shapes(blade: Beam, rotor_speed: float, plane: str, count: int) -> list[ModeShape]:
    """Return the shapes of the lowest modes of a rotating blade."""
    found = []
    for frequency, unknowns in solve(blade, rotor_speed, plane, count):
        line = deflection(blade.elements, [0.0] * blade.ties + unknowns, blade.degree, POINTS)
        largest = max((height for _, height in line), key=abs)
        found.append(
            ModeShape(frequency, [(station, height / largest) for station, height in line])
        )
    return found


def reduced(blade: Beam, speeds: Sequence[float], count: int) -> Beam:
    """Return a blade that bends only in its lowest flap shapes at some speeds.

    Its lowest frequencies are exact at these speeds and close from above between them, with few
    unknowns; how close is tested.
    """
    free = Matrices(*([row[blade.ties :] for row in m[blade.ties :]] for m in blade.matrices))
    shapes = [mode.unknowns for speed in speeds for mode in solve(blade, speed, FLAP, count)]
    basis = _independent(shapes, free.mass)
    small = []
    for matrix in free:
        loads = [_times(matrix, shape) for shape in basis]
        small.append([[sum(map(mul, shape, load)) for load in loads] for shape in basis])
    return Beam(blade.elements, blade.degree, Matrices(*small), 0)


def _independent(shapes: Sequence[list[float]], mass: Matrix) -> list[list[float]]:
    """Return shapes made orthogonal by the Gram-Schmidt process, without those that add nothing."""
    basis: list[list[float]] = []
    carried: list[list[float]] = []
    for shape in shapes:
        whole = sum(map(mul, shape, _times(mass, shape)))
        rest = shape
        for _ in range(2):
            for known, load in zip(basis, carried, strict=True):
                share = sum(map(mul, rest, load))
                rest = [r - share * k for r, k in zip(rest, known, strict=True)]
        left = sum(map(mul, rest, _times(mass, rest)))
        if left > DEPENDENT * whole:
            basis.append([r / math.sqrt(left) for r in rest])
            carried.append(_times(mass, basis[-1]))
    return basis


def _times(matrix: Matrix, shape: Sequence[float]) -> list[float]:
    return [sum(map(mul, row, shape)) for row in matrix]


def _elastic_scale(elements: Sequence[Element]) -> float:
    """Return the squared frequency that a blade's stiffness, mass and length make."""
    length = elements[-1].outer
    total = math.fsum((e.outer - e.inner) * math.fsum(e.mass) / 2.0 for e in elements)
    return max(max(e.stiffness) for e in elements) / (total * length**3)
