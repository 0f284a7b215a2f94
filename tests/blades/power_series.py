"""The equation of a turning beam integrated by power series with sixty digits."""

from itertools import pairwise
from typing import NamedTuple

from mpmath import mpf, polyval, workdps  # type: ignore[import-untyped] # it has none

Profile = list[tuple[float, float]]

MASSES: Profile = [(0.4, 22.0), (1.3, 11.0), (4.1, 8.0), (5.5, 12.0)]
STIFFNESSES: Profile = [(0.4, 9e4), (0.9, 3e4), (5.5, 1.2e4)]

TERMS = 220  # of each power series


class Case(NamedTuple):
    """How a blade is held and turned, and what it is made of."""

    offset: float
    speed: float
    root: str
    spring: float
    tip_mass: float
    masses: Profile = MASSES
    stiffnesses: Profile = STIFFNESSES


def mismatch(frequency: float, case: Case) -> mpf:
    """Return what is left over at the tip when the beam equation is integrated from the root.

    In each stretch the deflection is a power series with 60 digits, so that the growing solutions
    of a fast blade do not drown the others.
    """
    with workdps(60):
        return _determinant(mpf(frequency), case)


def _determinant(frequency: mpf, case: Case) -> mpf:
    stretches = _stretches(case)
    starts = [(0, 1, case.spring, 0) if case.root == "hinged" else (0, 0, 1, 0), (0, 0, 0, 1)]
    ends = []
    for start in starts:
        state = [mpf(value) for value in start]
        for stretch in stretches:
            state = _across(state, frequency**2, stretch)
        deflection, _, moment, shear = state
        ends.append((moment, shear + case.tip_mass * frequency**2 * deflection))
    (moment_1, shear_1), (moment_2, shear_2) = ends
    return moment_1 * shear_2 - moment_2 * shear_1


def _stretches(case: Case) -> list[tuple[mpf, mpf, mpf, list[mpf]]]:
    """Return width, mass, stiffness and tension polynomial of each stretch, root to tip."""
    stations = sorted({0.0, *(x for x, _ in (*case.masses, *case.stiffnesses))})
    pull = mpf(case.tip_mass) * (case.offset + stations[-1])
    found = []
    for inner, outer in reversed([*pairwise(stations)]):
        mass = next(value for end, value in case.masses if inner < end)
        stiffness = next(value for end, value in case.stiffnesses if inner < end)
        width, radius = mpf(outer) - mpf(inner), mpf(case.offset) + mpf(inner)
        pull += mass * width * (radius + width / 2)
        square = mpf(case.speed) ** 2
        tension = [square * pull, -square * mass * radius, -square * mass / 2]
        found.append((width, mpf(mass), mpf(stiffness), tension))
    return found[::-1]


def _across(state: list[mpf], square: mpf, stretch: tuple[mpf, mpf, mpf, list[mpf]]) -> list[mpf]:
    """Return deflection, slope, moment and shear at the far end of a stretch."""
    width, mass, stiffness, tension = stretch
    deflection, slope, moment, shear = state
    series = [deflection, slope, moment / stiffness / 2]
    series.append((shear + tension[0] * slope) / stiffness / 6)
    for n in range(TERMS):
        slopes = [(n + 2 - j) * series[n + 2 - j] for j in range(3) if n + 2 - j > 0]
        pulled = (n + 1) * sum(t * s for t, s in zip(tension, slopes, strict=False))
        fourth = (pulled + mass * square * series[n]) / stiffness
        series.append(fourth / ((n + 1) * (n + 2) * (n + 3) * (n + 4)))
    ends = []
    for _ in range(4):
        ends.append(polyval(series, width, asc=True))
        series = [n * c for n, c in enumerate(series)][1:]
    far_tension = polyval(tension, width, asc=True)
    return [*ends[:2], stiffness * ends[2], stiffness * ends[3] - far_tension * ends[1]]
