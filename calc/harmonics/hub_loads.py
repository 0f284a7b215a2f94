"""Hub loads: what sums over the blades of a rotor are as loads on the airframe."""

import cmath
import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Annotated

from calc.declaration import Name, Table
from calc.quantity import Quantity
from calc.units import ANGLE

AZIMUTH = Quantity(r"\psi_k", "Blade azimuth spacing from the first", ANGLE, example=0.0)
STRENGTH = Quantity("w_k", "Load of the blade over its design load", example=1.0)
MULTIPLE = Quantity("p", "Multiple of rotor speed in the airframe", at_least=0, whole=True)
FACTOR = Quantity("S", "Sum over the blades", at_least=0.0)
PHASE = Quantity(r"\phi", "Phase, with blade 1 at azimuth zero", ANGLE)
COMPONENT = Name("Component")
DIRECTION = Name("Direction")

VERTICAL = "vertical shear and torque"
IN_PLANE = "in-plane force and hub moment"
ALONG = "along the shaft"
FORWARD = "turns with the rotor"
BACKWARD = "turns against the rotor"
FIXED = "fixed in the airframe"


@dataclass(frozen=True, slots=True)
class Blade:
    """Where a blade sits on the hub and how strongly it is loaded, as a share of the design."""

    azimuth: Annotated[float, AZIMUTH]
    strength: Annotated[float, STRENGTH] = 1.0


@dataclass(frozen=True, slots=True)
class HubHarmonic:
    """A load on the airframe: what it is, its multiple of rotor speed and the sum that makes it.

    An in-plane load has the factor along each axis and turns, so that its two axes are a quarter
    of a cycle apart.
    """

    component: Annotated[str, COMPONENT]
    multiple: Annotated[int, MULTIPLE]
    factor: Annotated[float, FACTOR]
    direction: Annotated[str, DIRECTION] = ALONG
    phase: Annotated[float, PHASE] = 0.0


HUB_HARMONICS = Table("Loads transferred to the fixed system", HubHarmonic)
BLADE_ROWS = Table(
    "Blades",
    Blade,
    tuple(Blade(math.radians(angle)) for angle in (0.0, 60.0, 180.0, 240.0)),
    at_least=1,
    at_most=16,
)


def loads_of(sums: dict[int, complex], harmonic: int) -> tuple[HubHarmonic, ...]:
    """Return the loads that the sums over the blades leave, without rounding residues."""
    found = [HubHarmonic(VERTICAL, harmonic, *_polar(sums[harmonic], ALONG))]
    if harmonic == 0:
        return _left([*found, HubHarmonic(IN_PLANE, 1, *_polar(sums[1], FORWARD))])
    against = BACKWARD if harmonic > 1 else FIXED
    found += [
        HubHarmonic(IN_PLANE, harmonic - 1, *_polar(sums[harmonic - 1] / 2.0, against)),
        HubHarmonic(IN_PLANE, harmonic + 1, *_polar(sums[harmonic + 1] / 2.0, FORWARD)),
    ]
    return _left(found)


def _polar(total: complex, direction: str) -> tuple[float, str, float]:
    """Return the size of a sum, the direction of its load, and its phase."""
    return abs(total), direction, cmath.phase(total)


def _left(loads: Iterable[HubHarmonic]) -> tuple[HubHarmonic, ...]:
    """Return the loads that do not cancel; phases of rounding residues are none."""
    kept = (load for load in loads if load.factor > 1e-9)
    return tuple(replace(load, phase=0.0) if abs(load.phase) < 1e-9 else load for load in kept)
