"""Damping map: the lag damping needed against the hub damping, and the Deutsch criterion."""

import math
from dataclasses import replace

from calc.chart import Axis, Chart, Line, Mark, Points
from calc.ground.criterion import damping_product, directions
from calc.ground.model.aircraft import Rotor, Support
from calc.ground.model.coalescence import coalescence_speeds
from calc.ground.model.spectrum import spectrum
from calc.ground.quantities import REQUIRED_LAG_DAMPING
from calc.ground.search import sweep
from calc.ground.search.minimum_damping import least_damping
from calc.quantity import Quantity

FACTORS = tuple(0.25 * 2.0 ** (number / 2.0) for number in range(9))
POINTS = 24  # rotor speeds of a sweep, to draw a line
SUPPORT_FACTOR = Quantity("", "Hub damping over the hub damping given")


def damping_map(rotor: Rotor, support: Support, lowest_speed: float, highest_speed: float) -> Chart:
    """Return the least lag damping for hub dampings from a quarter to four times the given one.

    Above the line the aircraft is stable, as far as the line is drawn; the hyperbola is the
    Deutsch criterion for one support mode, of the direction that asks for more.
    """
    line = [
        (factor, needed)
        for factor in FACTORS
        if (needed := _needed(rotor, support, factor, lowest_speed, highest_speed)) is not None
    ]
    product = _product(rotor, support)
    marks: list[Mark] = [
        Line(line, "needed, eigenvalues", 1),
        Line([(factor, product / factor) for factor in FACTORS], "Deutsch criterion", 2),
        Points([(1.0, rotor.lag_damping)], "as given", 3),
    ]
    return Chart(
        title="Stability map",
        description="The lag damping that is needed falls as the hub damping grows.",
        x=Axis.of(SUPPORT_FACTOR, FACTORS[0], FACTORS[-1]),
        y=Axis.of(REQUIRED_LAG_DAMPING, 0.0, 2.0 * max(rotor.lag_damping, product)),
        marks=tuple(marks if math.isfinite(product) else marks[::2]),
    )


def scaled(support: Support, factor: float) -> Support:
    """Return a support with a factor on both dampings."""
    return replace(
        support, damping_x=factor * support.damping_x, damping_y=factor * support.damping_y
    )


def _needed(
    rotor: Rotor, support: Support, factor: float, lowest_speed: float, highest_speed: float
) -> float | None:
    damped = scaled(support, factor)
    meetings = coalescence_speeds(rotor, support)

    def worst_growth(damping: float) -> float:
        changed = replace(rotor, lag_damping=damping)

        known = spectrum(changed, damped)

        def growth(speed: float) -> float:
            return max(value.real for value in known.at(speed))

        found = sweep.samples(growth, lowest_speed, highest_speed, meetings, POINTS, known.along)
        return sweep.peak(growth, found, 1e-3)[1]

    return least_damping(worst_growth, max(rotor.lag_damping, 1.0), 1e-3)


def _product(rotor: Rotor, support: Support) -> float:
    """Return the lag damping that the Deutsch criterion asks for; infinite without hub damping."""
    needed = [0.0]
    for direction in directions(rotor, support):
        found = damping_product(rotor, direction)
        if found is not None:
            damping = direction.support_damping
            needed.append(found.single_product / damping if damping else math.inf)
    return max(needed)
