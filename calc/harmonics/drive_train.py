"""Drive train: which shaft turns how fast, from one independent speed and ratios or teeth."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated, NamedTuple

from calc.declaration import Choice, Name, Table, check
from calc.harmonics.planet_spacing import PLANET_GAP, gaps_between, nearest_places, planet_gap
from calc.quantity import Quantity
from calc.units import ROTATION, RPM

INDEPENDENT = "-"
"""What an independent shaft is driven by."""

KINDS = {
    "rotor": "rotor",
    "propeller": "propeller",
    "fan": "fan",
    "shaft": "shaft",
    "gear_pair": "gear pair",
    "planetary": "planetary stage, ring fixed",
    "spool": "engine spool",
    "accessory": "accessory",
}
GEARED = ("gear_pair", "planetary")
BLADED = ("rotor", "propeller", "fan")

PART = Name("Name", "Main rotor")
KIND = Choice("Kind", KINDS)
DRIVER = Name("Driven by", INDEPENDENT)
OWN_SPEED = Quantity(
    r"\Omega", "Speed of an independent shaft", ROTATION, at_least=0.0, example=360.0 * RPM.size
)
RATIO = Quantity("i", "Speed over driver speed", above=0.0, example=1.0)
COUNT = Quantity(
    "z", "Blades, or teeth of its gear or ring", at_least=0, at_most=1000, whole=True, example=4
)
DRIVING_TEETH = Quantity(
    "z_1", "Teeth of the driving gear or sun", at_least=0, at_most=1000, whole=True, example=0
)
PLANETS = Quantity("N_p", "Planets", at_least=0, at_most=20, whole=True, example=0)
PLANET_TEETH = Quantity("z_p", "Teeth of a planet", at_least=0, at_most=1000, whole=True, example=0)
MULTIPLES = Quantity("k", "Harmonics wanted", at_least=1, at_most=20, whole=True, example=3)


@dataclass(frozen=True, slots=True)
class Part:
    """A part that turns.

    `driven_by` names another part, or is `-` for an independent shaft.  The speed of a gear pair
    or of a planetary stage follows from teeth, that of any other driven part from its ratio.
    """

    name: Annotated[str, PART]
    kind: Annotated[str, KIND]
    driven_by: Annotated[str, DRIVER] = INDEPENDENT
    speed: Annotated[float, OWN_SPEED] = 0.0
    ratio: Annotated[float, RATIO] = 1.0
    count: Annotated[int, COUNT] = 0
    driving_teeth: Annotated[int, DRIVING_TEETH] = 0
    planets: Annotated[int, PLANETS] = 0
    planet_teeth: Annotated[int, PLANET_TEETH] = 0
    multiples: Annotated[int, MULTIPLES] = 1


class Turning(NamedTuple):
    """How a part turns: the independent part it follows, the ratio to it, and its speed, rad/s."""

    follows: str
    ratio: float
    speed: float


TRAIN = Table(
    "Drive train",
    Part,
    (
        Part("Engine output", "shaft", speed=6017.0 * RPM.size),
        Part("Bevel", "gear_pair", "Engine output", count=80, driving_teeth=21, multiples=2),
        Part("Mast", "planetary", "Bevel", 0.0, 1.0, 105, 31, planets=4, planet_teeth=37),
        Part("Main rotor", "rotor", "Mast", count=4, multiples=3),
        Part("Tail rotor", "rotor", "Bevel", ratio=0.904, count=3, multiples=2),
    ),
    at_least=1,
    at_most=30,
)


def turning(train: Sequence[Part]) -> dict[str, Turning]:
    """Return how every part turns, by name; a train that cannot exist is refused by name."""
    names = [part.name for part in train]
    for name in names:
        if names.count(name) > 1:
            raise ValueError(f"{name}: two parts of the drive train have this name")
    parts = dict(zip(names, train, strict=True))
    for part in train:
        _check(part, parts)
    TRAIN.check(tuple(train))
    return {part.name: _follow(part, parts) for part in train}


def own_ratio(part: Part) -> float:
    """Return the speed of a part over that of its driver, from teeth where it has them."""
    if part.kind == "gear_pair":
        return part.driving_teeth / part.count
    if part.kind == "planetary":
        return part.driving_teeth / (part.driving_teeth + part.count)
    return part.ratio


def _follow(part: Part, parts: dict[str, Part]) -> Turning:
    """Return how a part turns by walking to the independent part that it follows."""
    ratio, passed, at = 1.0, [part.name], part
    while at.driven_by != INDEPENDENT:
        ratio *= own_ratio(at)
        at = parts[at.driven_by]
        if at.name in passed:
            loop = " drives ".join([*passed[passed.index(at.name) :], at.name][::-1])
            raise ValueError(f"{part.name}: the drive train is a loop, in which {loop}")
        passed.append(at.name)
    return Turning(at.name, ratio, ratio * at.speed)


def _check(part: Part, parts: dict[str, Part]) -> None:
    """Raise ValueError, with the name of the part, for one that cannot turn or mesh."""
    try:
        check(part)
    except ValueError as error:
        raise ValueError(f"{part.name}: {error}") from None
    independent = part.driven_by == INDEPENDENT
    faults = {
        "it is driven by an unknown part, " + part.driven_by: not independent
        and part.driven_by not in parts,
        "the speed of an independent shaft must be above 0 rpm": independent and part.speed == 0.0,
        "a gear pair or a planetary stage must be driven by another part": independent
        and part.kind in GEARED,
        "blades must be at least 1": part.kind in BLADED and part.count == 0,
        "teeth must be at least 1 on both gears": part.kind in GEARED
        and 0 in (part.count, part.driving_teeth),
        "planets must be at least 1": part.kind == "planetary" and part.planets == 0,
        "the ring must have more teeth than the sun": part.kind == "planetary"
        and part.count < part.driving_teeth + 2,
    }
    for fault, present in faults.items():
        if present:
            raise ValueError(f"{part.name}: {fault}")
    if part.kind == "planetary":
        _check_planets(part)


def _check_planets(part: Part) -> None:
    """Raise ValueError, with the name of the part, for planets that would overlap."""
    sun, ring = part.driving_teeth, part.count
    places = nearest_places(sun, ring, part.planets)
    apart = 2.0 * math.pi * min(gaps_between(places, sun + ring)) / (sun + ring)
    try:
        PLANET_GAP.check(planet_gap(sun, part.planet_teeth or (ring - sun) / 2.0, apart))
    except ValueError as error:
        raise ValueError(f"{part.name}: {error}") from None
