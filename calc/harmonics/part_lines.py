"""Part lines: what each kind of part of a drive train excites, in cycles of its shaft."""

from collections.abc import Iterator
from itertools import product
from typing import NamedTuple

from calc.harmonics.drive_train import BLADED, INDEPENDENT, Part, Turning
from calc.harmonics.planet_spacing import nearest_places
from calc.harmonics.planetary_sidebands import line_name
from calc.harmonics.ring_lines import WEAKEST, planet_sum, ring_lines, turned


class PartLine(NamedTuple):
    """A line of a part: its cycles in each turn of the part, and what is known about it."""

    label: str
    cause: str
    cycles: float
    confidence: str
    frame: str = "airframe"
    spacing: str = INDEPENDENT


def part_lines(part: Part, turns: dict[str, Turning]) -> Iterator[PartLine]:
    """Yield the lines of a part."""
    cause = "imbalance or unequal blades" if part.kind in BLADED else "imbalance or run-out"
    yield PartLine("1/rev", cause, 1.0, "likely")
    if part.kind == "gear_pair":
        yield from _gear_pair(part, turns)
    elif part.kind == "planetary":
        yield from _planetary(part)
    elif part.count:
        yield from _bladed(part)
    else:
        for k in range(2, max(part.multiples, 2) + 1):
            yield PartLine(f"{k}/rev", "misalignment or joint", k, "possible")


def _bladed(part: Part) -> Iterator[PartLine]:
    """Yield the passage of blades, and the loads in a rotor's blades that become it."""
    cause = "blade passage" if part.kind in BLADED else "blades or lobes passing"
    shown = 0
    for passage in range(part.count, part.multiples * part.count + 1, part.count):
        yield PartLine(f"{passage}/rev", cause, passage, "certain")
        if part.kind in ("rotor", "propeller"):
            for cycles in range(max(passage - 1, shown + 1), passage + 2):
                becomes = f"blade load that becomes {passage}/rev"
                yield PartLine(f"{cycles}/rev in the blade", becomes, cycles, "certain", "rotating")
            shown = passage + 1


def _gear_pair(part: Part, turns: dict[str, Turning]) -> Iterator[PartLine]:
    """Yield mesh and sidebands; the mesh turns with this shaft and so do its cycles."""
    other = turns[part.driven_by].ratio / turns[part.name].ratio
    for k in range(1, part.multiples + 1):
        mesh = k * part.count
        name = f"{k} × mesh"
        yield PartLine(name, "gear mesh", mesh, "certain")
        shafts = ((part.name, 1.0), (part.driven_by, other))
        for (shaft, cycles), sign in product(shafts, (-1, 1)):
            label = f"{name} {_signed(sign)} 1/rev of {shaft}"
            yield PartLine(
                label, "gear mesh sideband", mesh + sign * cycles, "possible", spacing=shaft
            )


def _planetary(part: Part) -> Iterator[PartLine]:
    """Yield the lines of a planetary stage, in cycles of its carrier.

    The planets are as near to equally spaced as the teeth allow; only the lines about the mesh
    that they leave at a fixed ring sensor are there.
    """
    sun, ring, planets = part.driving_teeth, part.count, part.planets
    angles = turned(nearest_places(sun, ring, planets), sun + ring)
    for order in range(1, planets + 1):
        if abs(planet_sum(angles, order)) > WEAKEST * planets:
            name = "planet pass" if order == planets else f"{order}/rev of the planet spacing"
            yield PartLine(name, "planets passing the sensor, or a ring tooth", order, "likely")
    yield PartLine("sun tooth", "damaged sun tooth", planets * ring / sun, "possible")
    if part.planet_teeth:
        spin = ring / part.planet_teeth
        yield PartLine("planet spin", "planet on its carrier", spin, "possible", "rotating")
        yield PartLine("planet tooth", "damaged planet tooth", 2.0 * spin, "possible", "rotating")
    for k in range(1, part.multiples + 1):
        found = ring_lines(angles, k * ring)
        for number, line in enumerate(found):
            offset = line.order - k * ring
            yield PartLine(
                line_name(line.order, k, ring),
                "planetary mesh sideband" if offset else "planetary mesh",
                line.order,
                "likely" if number else "certain",
                spacing=part.name if offset else INDEPENDENT,
            )


def _signed(sign: int) -> str:
    return "+" if sign > 0 else "−"
