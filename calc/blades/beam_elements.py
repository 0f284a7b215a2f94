"""Beam elements: a blade in elements, each carried by Hermite cubics and smooth interior shapes.

The cubics keep deflection and slope continuous from element to element; the interior shapes are
twice integrated Legendre polynomials, which vanish with their slope at both ends, so that a few
elements of high degree replace many simple ones.  Mass and stiffness vary linearly along an
element, the centrifugal tension is their exact integral, and so is every matrix.
"""

import math
from collections.abc import Sequence
from functools import cache
from itertools import pairwise
from typing import NamedTuple

Matrix = list[list[float]]
Polynomial = list[float]
"""Coefficients of a polynomial, constant first."""

CUBICS: tuple[Polynomial, ...] = (
    [0.5, -0.75, 0.0, 0.25],
    [0.25, -0.25, -0.25, 0.25],
    [0.5, 0.75, 0.0, -0.25],
    [-0.25, -0.25, 0.25, 0.25],
)
"""Deflection and slope at the inner end of an element, then at its outer end."""

MESH = (0.0, 0.07, 0.28, 0.62, 1.0)  # finer at the root, where a fast blade bends sharply
FINE_MESH = (0.0, 0.05, 0.16, 0.3, 0.46, 0.63, 0.81, 1.0)  # for a blade that may be soft anywhere
FEW = 3  # segments up to which the first mesh does
CLOSE = 0.04  # share of the length within which a mesh station gives way to a segment end
UNKNOWNS = 70  # about how many a blade may have before the degree of its elements falls
DEGREES = (8, 10)  # lowest and highest degree of the shapes


class Element(NamedTuple):
    """A stretch of a blade: its ends, and mass and stiffness at each of them."""

    inner: float
    outer: float
    mass: tuple[float, float]
    stiffness: tuple[float, float]


class Matrices(NamedTuple):
    """A blade as matrices, its root deflection and root slope being the first two unknowns."""

    elastic: Matrix
    centrifugal: Matrix
    mass: Matrix


def mesh(segments: Sequence[Element]) -> list[Element]:
    """Return segments cut at the stations of the mesh."""
    length = segments[-1].outer
    ends = [segments[0].inner, *(segment.outer for segment in segments)]
    cuts = [length * share for share in (MESH if len(segments) <= FEW else FINE_MESH)]
    cuts = [x for x in cuts if all(abs(x - end) > CLOSE * length for end in ends)]
    return [
        Element(
            inner, outer, *(_between(ends_of, segment, inner, outer) for ends_of in segment[2:])
        )
        for segment in segments
        for inner, outer in pairwise(
            [segment.inner, *(x for x in cuts if segment.inner < x < segment.outer), segment.outer]
        )
    ]


def degree_for(elements: int) -> int:
    """Return the degree of the shapes that suits a number of elements."""
    lowest, highest = DEGREES
    return max(lowest, min(highest, UNKNOWNS // elements + 1))


def matrices(
    elements: Sequence[Element], root_radius: float, tip_mass: float, degree: int
) -> Matrices:
    r"""Return the matrices of a blade; the centrifugal one is for a rotor speed of 1 rad/s.

    $$ K_{ij} = \int EI \phi_i'' \phi_j'' \mathrm{d}x, \quad
       G_{ij} = \int \frac{T}{\Omega^2} \phi_i' \phi_j' \mathrm{d}x, \quad
       M_{ij} = \int m \phi_i \phi_j \mathrm{d}x $$
    """
    interior = degree - len(CUBICS) + 1
    size = 2 + len(elements) * (2 + interior)
    blade = Matrices(*([[0.0] * size for _ in range(size)] for _ in range(3)))
    tension = tip_mass * (root_radius + elements[-1].outer)
    blade.mass[size - 2][size - 2] = tip_mass
    for number, element in reversed([*enumerate(elements)]):
        first = number * (2 + interior)
        inside = range(first + 2, first + 2 + interior)
        places = [first, first + 1, inside.stop, inside.stop + 1, *inside]
        half = 0.5 * (element.outer - element.inner)
        scales = [1.0, half, 1.0, half] + [1.0] * interior
        mass = _linear(element.mass)
        pull = _tension(element, mass, root_radius, tension)
        tension = _value(pull, -1.0)
        parts = [(_linear(element.stiffness), 2), (pull, 1), (mass, 0)]
        for matrix, (weight, order) in zip(blade, parts, strict=True):
            local = _element_matrix(weight, order, half, degree)
            for i, row in enumerate(local):
                for j, value in enumerate(row):
                    matrix[places[i]][places[j]] += scales[i] * scales[j] * value
    return blade


def deflection(
    elements: Sequence[Element], unknowns: Sequence[float], degree: int, points: int
) -> list[tuple[float, float]]:
    """Return station and deflection at points along a blade, from all of its unknowns."""
    interior = degree - len(CUBICS) + 1
    line = []
    for number, element in enumerate(elements):
        first = number * (2 + interior)
        half = 0.5 * (element.outer - element.inner)
        own = unknowns[first : first + 4 + interior]
        weights = [own[0], half * own[1], own[-2], half * own[-1], *own[2:-2]]
        for step in range(0 if number == 0 else 1, points + 1):
            local = 2.0 * step / points - 1.0
            shape = zip(weights, _shapes(degree, 0), strict=True)
            height = math.fsum(weight * _value(form, local) for weight, form in shape)
            line.append((element.inner + half * (1.0 + local), height))
    return line


def _between(
    ends: tuple[float, float], segment: Element, inner: float, outer: float
) -> tuple[float, float]:
    """Return what varies linearly along a segment at two stations in it."""
    slope = (ends[1] - ends[0]) / (segment.outer - segment.inner)
    return ends[0] + slope * (inner - segment.inner), ends[0] + slope * (outer - segment.inner)


def _linear(ends: tuple[float, float]) -> Polynomial:
    """Return the straight line through two end values, on -1 to 1."""
    return [0.5 * (ends[0] + ends[1]), 0.5 * (ends[1] - ends[0])]


def _tension(
    element: Element, mass: Polynomial, root_radius: float, tip_tension: float
) -> Polynomial:
    """Return the tension along an element at 1 rad/s, from the tension at its outer end."""
    half = 0.5 * (element.outer - element.inner)
    radius = [root_radius + 0.5 * (element.inner + element.outer), half]
    pull = [0.0, *(-half * c / (i + 1) for i, c in enumerate(_product(mass, radius)))]
    pull[0] = tip_tension - math.fsum(pull)
    return pull


def _element_matrix(weight: Polynomial, order: int, half: float, degree: int) -> Matrix:
    """Return the integral of a weight times derivatives of the shapes over an element."""
    terms = [_moments(order, power, degree) for power in range(len(weight))]
    scale = half ** (1 - 2 * order)
    return [
        [
            scale * math.fsum(map(float.__mul__, weight, moments))
            for moments in zip(*rows, strict=True)
        ]
        for rows in zip(*terms, strict=True)
    ]


@cache
def _moments(order: int, power: int, degree: int) -> Matrix:
    """Return the integrals over -1 to 1 of a power times products of derivatives of the shapes."""
    shapes = _shapes(degree, order)
    weight = [0.0] * power + [1.0]
    return [[_integral(_product(weight, _product(a, b))) for b in shapes] for a in shapes]


@cache
def _shapes(degree: int, order: int) -> list[Polynomial]:
    """Return the derivatives of the shapes of an element on -1 to 1."""
    if order:
        return [[i * c for i, c in enumerate(shape)][1:] for shape in _shapes(degree, order - 1)]
    return [*CUBICS, *(_interior(number) for number in range(2, degree - 1))]


def _interior(number: int) -> Polynomial:
    """Return a Legendre polynomial integrated twice, so that it vanishes with its slope at ±1."""
    k = 2 * number + 1
    weights = (1.0 / ((k - 2) * k), -2.0 / ((k - 2) * (k + 2)), 1.0 / (k * (k + 2)))
    terms = [_legendre(number + shift) for shift in (-2, 0, 2)]
    padded = [term + [0.0] * (number + 3 - len(term)) for term in terms]
    return [math.fsum(map(float.__mul__, weights, column)) for column in zip(*padded, strict=True)]


@cache
def _legendre(number: int) -> Polynomial:
    """Return a Legendre polynomial."""
    if number < 2:
        return [0.0] * number + [1.0]
    ahead = [0.0, *_legendre(number - 1)]
    behind = [*_legendre(number - 2), 0.0, 0.0]
    return [
        ((2 * number - 1) * a - (number - 1) * b) / number
        for a, b in zip(ahead, behind, strict=True)
    ]


def _product(first: Polynomial, second: Polynomial) -> Polynomial:
    product = [0.0] * (len(first) + len(second) - 1)
    for i, a in enumerate(first):
        for j, b in enumerate(second):
            product[i + j] += a * b
    return product


def _integral(polynomial: Polynomial) -> float:
    """Return the integral over -1 to 1."""
    return math.fsum(2.0 * c / (i + 1) for i, c in enumerate(polynomial) if i % 2 == 0)


def _value(polynomial: Polynomial, place: float) -> float:
    total = 0.0
    for c in reversed(polynomial):
        total = total * place + c
    return total
