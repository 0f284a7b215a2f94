"""Planetary sidebands: which lines about the mesh a sensor on the ring sees, from the geometry."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from calc.chart import Axis, Chart, Points, Rule, Stems
from calc.declaration import Name, Table
from calc.harmonics.planet_spacing import (
    PLANET_GAP,
    assembly,
    gaps_between,
    nearest_places,
    places_of,
    planet_gap,
)
from calc.harmonics.planetary import (
    MESH_FREQUENCY,
    PLANETS,
    RING_TEETH,
    SUN_FREQUENCY,
    SUN_TEETH,
    TEETH_BETWEEN,
)
from calc.harmonics.ring_lines import (
    HALF_ANGLE,
    ROUNDING,
    WEAKEST,
    RingLine,
    planet_sum,
    ring_lines,
    turned,
)
from calc.quantity import Quantity
from calc.units import ANGLE, FREQUENCY, PER_REV

MESH_MULTIPLE = Quantity("q", "Multiple of the mesh", at_least=1, at_most=20, whole=True, example=1)
PLANET_ANGLE = Quantity(r"\psi_j", "Angle of the planet on the carrier", ANGLE, example=0.0)
ORDER = Quantity("p", "Order of the carrier", (PER_REV,), at_least=1, whole=True)
OFFSET = Quantity("p - q z_r", "Orders from the mesh", whole=True)
LINE_FREQUENCY = Quantity("f", "Frequency", FREQUENCY)
PLANET_SUM = Quantity("|S_p|/N_p", "Sum over the planets, of one when all add", at_least=0.0)
AMPLITUDE = Quantity("A_p", "Amplitude, of one for a planet at the sensor", at_least=0.0)


@dataclass(frozen=True, slots=True)
class Planet:
    """Where a planet sits on the carrier."""

    angle: Annotated[float, PLANET_ANGLE]


@dataclass(frozen=True, slots=True)
class SidebandLine:
    """A line that a sensor fixed to the ring sees."""

    line: Annotated[str, Name("Line")]
    order: Annotated[int, ORDER]
    offset: Annotated[int, OFFSET]
    frequency: Annotated[float, LINE_FREQUENCY]
    planet_sum: Annotated[float, PLANET_SUM]
    amplitude: Annotated[float, AMPLITUDE]


GIVEN_ANGLES = Table(
    "Planet angles, where they are not as near to equal as the teeth allow",
    Planet,
    at_most=20,
)
SIDEBAND_LINES = Table("Lines at a fixed ring sensor, strongest first", SidebandLine)


@dataclass(frozen=True, slots=True)
class Sidebands:
    """How the planets are spaced, and the lines that are left about a multiple of the mesh."""

    assembly: Annotated[str, Name("Assembly")]
    strongest: Annotated[str, Name("Strongest line")]
    mesh: Annotated[float, MESH_FREQUENCY]
    lines: Annotated[tuple[SidebandLine, ...], SIDEBAND_LINES]


def planetary_sidebands(
    sun_frequency: Annotated[float, SUN_FREQUENCY],
    sun_teeth: Annotated[int, SUN_TEETH],
    ring_teeth: Annotated[int, RING_TEETH],
    planets: Annotated[int, PLANETS],
    angles: Annotated[tuple[Planet, ...], GIVEN_ANGLES] = (),
    multiple: Annotated[int, MESH_MULTIPLE] = 1,
    half_angle: Annotated[float, HALF_ANGLE] = math.radians(40.0),
) -> Sidebands:
    r"""Return the lines about a multiple of the mesh that a sensor fixed to the ring sees.

    $$ x(\theta) = \sum_{j=1}^{N_p} w(\theta + \psi_j) \cos q z_r (\theta + \psi_j)
       \quad \Rightarrow \quad A_p = c_{p - q z_r} |S_p|, \quad
       S_p = \sum_{j=1}^{N_p} \mathrm{e}^{\mathrm{i} p \psi_j} $$
    $$ w(\theta) = \mathrm{e}^{-\kappa (1 - \cos \theta)}, \quad
       \kappa = \frac{\ln 2}{1 - \cos \theta_h}, \quad
       c_m = \frac{1}{2 \pi} \int_0^{2 \pi} w \cos m \theta \, \mathrm{d} \theta $$

    Every planet gives the sensor the same signal at another time, so that an order $p$ of the
    carrier is left only where the planets do not cancel in $S_p$.  Equally spaced planets leave
    whole multiples of $N_p$ alone: the mesh itself is lost unless $q z_r$ is one.  The window $w$
    says how the vibration of a planet fades as it moves away; it sets how high the lines that are
    left stand, not which.

    Args:
        sun_frequency: Revolutions of the sun per second; scalar, Hz.
        sun_teeth: Teeth of the sun; scalar.
        ring_teeth: Teeth of the fixed ring, more than those of the sun; scalar.
        planets: Number of planets, all alike; scalar.
        angles: Angle of each planet on the carrier; none for places as near to equal as fit; rows.
        multiple: Multiple of the mesh about which lines are sought; scalar.
        half_angle: Angle from the sensor at which a planet counts half; scalar, rad.

    Returns:
        The spacing in words and the lines, strongest first; those below a twentieth of the
        strongest are left out.

    Raises:
        ValueError: If an argument breaks its limits, the ring is not larger than the sun, a planet
            cannot be assembled at its angle, or there is not one angle for each planet.

    Source:
        Sum over the planets, derived anew; the same explanation in McFadden and Smith (1985).

    Examples:
        >>> [line.order for line in planetary_sidebands(26.0, 29, 99, 4).lines]
        [100, 96]
        >>> [line.order for line in planetary_sidebands(26.0, 27, 99, 4).lines]
        [98, 100, 102, 96]
    """
    SUN_FREQUENCY.check(sun_frequency)
    SUN_TEETH.check(sun_teeth)
    RING_TEETH.check(ring_teeth)
    PLANETS.check(planets)
    TEETH_BETWEEN.check(ring_teeth - sun_teeth)
    MESH_MULTIPLE.check(multiple)
    HALF_ANGLE.check(half_angle)
    carrier = sun_frequency * sun_teeth / (sun_teeth + ring_teeth)
    places = _places(sun_teeth, ring_teeth, planets, angles)
    seats = turned(places, sun_teeth + ring_teeth)
    found = ring_lines(seats, multiple * ring_teeth, half_angle)
    return Sidebands(
        assembly=assembly(places, sun_teeth, ring_teeth, given=bool(angles)),
        strongest=_strongest(found, seats, multiple, ring_teeth),
        mesh=ring_teeth * carrier,
        lines=tuple(_line(line, multiple, ring_teeth, carrier) for line in found),
    )


def line_name(order: int, multiple: int, ring_teeth: int) -> str:
    """Return a line as a multiple of the mesh, and so many orders of the carrier beside it."""
    offset = order - multiple * ring_teeth
    beside = f" {'+' if offset > 0 else '−'} {abs(offset)}/rev" if offset else ""
    return f"{multiple} × mesh{beside}"


def planetary_sidebands_chart(
    found: Sidebands, ring_teeth: int, multiple: int, seats: Sequence[float]
) -> Chart:
    """Return the lines that are left over the order of the carrier, and where others cancel."""
    mesh = multiple * ring_teeth
    shown = range(max(mesh - 9, 1), mesh + 10)
    cancelled = [order for order in shown if abs(planet_sum(seats, order)) < WEAKEST * len(seats)]
    return Chart(
        title=f"Lines about {multiple} × mesh at a fixed ring sensor",
        description=f"{found.strongest}. A cross marks an order at which the planets cancel.",
        x=Axis(ORDER.label, PER_REV, mesh - 9.5, mesh + 9.5),
        y=Axis("Amplitude", low=0.0),
        marks=(
            Rule(float(mesh), "x", f"{multiple} × mesh, {mesh}/rev"),
            Stems([(float(line.order), line.amplitude) for line in found.lines], "left", 1),
            Points([(float(order), 0.0) for order in cancelled], "the planets cancel", 2, "cross"),
        ),
    )


def _places(
    sun_teeth: int, ring_teeth: int, planets: int, angles: Sequence[Planet]
) -> tuple[int, ...]:
    """Return the places of the planets on the carrier, in tooth steps."""
    GIVEN_ANGLES.check(tuple(angles))
    if angles and len(angles) != planets:
        raise ValueError(f"There must be one angle for each of {planets} planets, or none")
    places = (
        places_of([planet.angle for planet in angles], sun_teeth, ring_teeth)
        if angles
        else nearest_places(sun_teeth, ring_teeth, planets)
    )
    steps = sun_teeth + ring_teeth
    apart = 2.0 * math.pi * min(gaps_between(places, steps)) / steps
    PLANET_GAP.check(planet_gap(sun_teeth, (ring_teeth - sun_teeth) / 2.0, apart))
    return places


def _strongest(
    found: Sequence[RingLine], angles: Sequence[float], multiple: int, ring_teeth: int
) -> str:
    """Return in words which line stands highest and what became of the mesh."""
    mesh = multiple * ring_teeth
    if not found:
        return f"none; the planets cancel at {multiple} × mesh and about it"
    first = found[0].order
    name = f"{first}/rev of the carrier, {line_name(first, multiple, ring_teeth)}"
    if first == mesh:
        return name
    is_lost = abs(planet_sum(angles, mesh)) < ROUNDING
    return f"{name}; the mesh itself, {mesh}/rev, {'cancels' if is_lost else 'stands lower'}"


def _line(line: RingLine, multiple: int, ring_teeth: int, carrier: float) -> SidebandLine:
    return SidebandLine(
        line=line_name(line.order, multiple, ring_teeth),
        order=line.order,
        offset=line.order - multiple * ring_teeth,
        frequency=line.order * carrier,
        planet_sum=line.planet_sum,
        amplitude=line.amplitude,
    )
