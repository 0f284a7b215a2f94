"""Limits map: the governing limit drawn over airspeed and rotor speed."""

import math
from collections.abc import Sequence
from itertools import pairwise

from calc.chart import Axis, Cells, Chart, Label, Line, Points
from calc.flight.craft import Wing
from calc.flight.limit_shares import Case, Day, RotorLimits, governing
from calc.flight.quantities import (
    AIRSPEED,
    ROTOR_SPEED,
)
from calc.rotor.rotorcraft import Rotorcraft

MAP_CELLS = 40


def flight_limits_chart(
    rotorcraft: Rotorcraft,
    wing: Wing,
    limits: RotorLimits,
    day: Day,
    diameter: float,
    propeller_speed: float,
    airspeed: float,
) -> Chart:
    """Return the governing limit over airspeed and rotor speed, and where a limit is passed."""
    case = Case(rotorcraft, wing, limits, day, diameter, propeller_speed)
    fastest = 1.35 * rotorcraft.rotor_speed * rotorcraft.radius * limits.advance_ratio_limit
    lowest, highest = 0.9 * limits.lowest_rotor_speed, 1.1 * limits.highest_rotor_speed
    across = [fastest * step / MAP_CELLS for step in range(MAP_CELLS + 1)]
    up = [lowest + (highest - lowest) * step / MAP_CELLS for step in range(MAP_CELLS + 1)]
    found = [
        [
            governing(case, 0.5 * (left + right), 0.5 * (low + high))
            for left, right in pairwise(across)
        ]
        for low, high in pairwise(up)
    ]
    named = [[name if used < 1.0 else f"past {name}" for name, used in row] for row in found]
    areas = [*dict.fromkeys(name for row in named for name in row)]
    return Chart(
        title="Governing limit over airspeed and rotor speed",
        description="A map whose areas are named by the limit of which the largest share is used, "
        f"hatched where a limit is passed. Areas: {', '.join(areas)}.",
        x=Axis.of(AIRSPEED, 0.0, fastest),
        y=Axis.of(ROTOR_SPEED, lowest, highest),
        marks=(
            Cells(
                across,
                up,
                [[int(used >= 1.0) for _, used in row] for row in found],
                ["", "a limit is passed"],
                hatched=[1],
            ),
            Line(_borders(across, up, named), "", 0),
            Points([(airspeed, rotorcraft.rotor_speed)], "this flight", 2),
            *(
                Label(*_middle(across, up, named, name), name.removeprefix("past "))
                for name in areas
            ),
        ),
    )


def _borders(
    across: Sequence[float], up: Sequence[float], named: Sequence[Sequence[str]]
) -> list[tuple[float, float]]:
    """Return the edges between cells of different names, each followed by a break."""
    points = []
    for j, row in enumerate(named):
        for i, name in enumerate(row):
            if i and row[i - 1] != name:
                points += [(across[i], up[j]), (across[i], up[j + 1]), (math.nan, math.nan)]
            if j and named[j - 1][i] != name:
                points += [(across[i], up[j]), (across[i + 1], up[j]), (math.nan, math.nan)]
    return points


def _middle(
    across: Sequence[float], up: Sequence[float], named: Sequence[Sequence[str]], name: str
) -> tuple[float, float]:
    """Return the middle of the cell of a name that lies nearest to the middle of all of them."""
    cells = [(i, j) for j, row in enumerate(named) for i, other in enumerate(row) if other == name]
    centre = tuple(sum(place) / len(cells) for place in zip(*cells, strict=True))
    i, j = min(cells, key=lambda cell: math.dist(cell, centre))
    return 0.5 * (across[i] + across[i + 1]), 0.5 * (up[j] + up[j + 1])
