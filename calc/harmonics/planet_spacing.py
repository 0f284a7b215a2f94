"""Planet spacing: where planets can be put between a sun and a ring, from numbers of teeth.

A planet fits wherever teeth of the sun, of the planet and of the ring line up, which is at steps
of one over the sum of sun and ring teeth of a revolution.
"""

import math
from collections.abc import Sequence
from typing import Annotated

from calc.declaration import Method
from calc.quantity import Quantity

PLANET_GAP = Quantity(
    "g",
    "Gap between the tips of neighbouring planets, in modules",
    above=-2.0,
    covered=(0.0, math.inf),
    covered_by="the tips of full-depth teeth would touch",
)
STEP_ROOM = 0.02  # a typed angle may be off by this part of a step and still mean the place


def nearest_places(sun_teeth: int, ring_teeth: int, planets: int) -> tuple[int, ...]:
    r"""Return the places of planets that are as near to equally spaced as the teeth allow.

    $$ p_k = \left\lceil \frac{k (z_s + z_r)}{N_p} - \frac{1}{2} \right\rceil $$

    Args:
        sun_teeth: Teeth of the sun; scalar.
        ring_teeth: Teeth of the ring; scalar.
        planets: Number of planets; scalar.

    Returns:
        A place for each planet, in steps of one over the sum of the teeth of a revolution; the
        first is 0.

    Examples:
        >>> nearest_places(29, 99, 4)
        (0, 32, 64, 96)
        >>> nearest_places(27, 99, 4)
        (0, 31, 63, 94)
    """
    steps = sun_teeth + ring_teeth
    return tuple((2 * k * steps + planets - 1) // (2 * planets) for k in range(planets))


def places_of(angles: Sequence[float], sun_teeth: int, ring_teeth: int) -> tuple[int, ...]:
    """Return the places of planets from their angles on the carrier.

    Args:
        angles: Angle of each planet from any mark on the carrier; shape (n,), rad.
        sun_teeth: Teeth of the sun; scalar.
        ring_teeth: Teeth of the ring; scalar.

    Returns:
        A place for each planet, in steps of one over the sum of the teeth of a revolution.

    Raises:
        ValueError: If a planet cannot be assembled at its angle, or two are at the same place.

    Examples:
        >>> places_of((0.0, math.pi), 29, 99)
        (0, 64)
    """
    steps = sun_teeth + ring_teeth
    found = []
    for number, angle in enumerate(angles, 1):
        place = (angle - angles[0]) / (2.0 * math.pi) * steps
        if abs(place - round(place)) > STEP_ROOM:
            first = math.degrees(angles[0])
            below, above = (first + end(place) * 360.0 / steps for end in (math.floor, math.ceil))
            raise ValueError(
                f"Planet {number} cannot be assembled at {math.degrees(angle):.6g} deg; the "
                f"nearest places are {below:.6g} deg and {above:.6g} deg"
            )
        found.append(round(place) % steps)
    if len(set(found)) < len(found):
        raise ValueError("Two planets are at the same place")
    return tuple(found)


def assembly(places: Sequence[int], sun_teeth: int, ring_teeth: int, *, given: bool) -> str:
    """Return in words how planets are spaced, and whether they could be equally spaced."""
    planets, steps = len(places), sun_teeth + ring_teeth
    share = f"({sun_teeth} + {ring_teeth}) / {planets} = {steps / planets:.6g}"
    gaps = ", ".join(map(str, gaps_between(places, steps)))
    spaced = f"steps of {gaps} between neighbours, of {steps} in a turn"
    if given:
        return f"The planets fit at the angles given: {spaced}"
    if planets == 1:
        return "A single planet fits anywhere"
    if steps % planets == 0:
        return f"{planets} planets fit equally spaced, as {share} is whole"
    return (
        f"{planets} planets cannot be equally spaced, as {share} is not whole; "
        f"taken at the nearest places that fit: {spaced}"
    )


def planet_gap(
    sun_teeth: int, planet_teeth: float, apart: float
) -> Annotated[
    float, Method("the chord between two planet centres less twice the tip radius of a planet")
]:
    """Return the gap between the tips of two planets, from gears without profile shift.

    Args:
        sun_teeth: Teeth of the sun; scalar.
        planet_teeth: Teeth of a planet; scalar.
        apart: Angle between the two on the carrier; scalar, rad.

    Returns:
        The gap in modules; below -2 the pitch circles overlap; scalar.

    Examples:
        >>> round(planet_gap(30, 30, math.pi), 6)
        28.0
    """
    return (sun_teeth + planet_teeth) * math.sin(min(apart, math.pi) / 2.0) - planet_teeth - 2.0


def gaps_between(places: Sequence[int], steps: int) -> tuple[int, ...]:
    """Return the steps from each place to the next one round the carrier."""
    ordered = sorted(places)
    return tuple(
        after - before
        for before, after in zip(ordered, [*ordered[1:], ordered[0] + steps], strict=True)
    )
