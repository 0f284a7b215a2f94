"""Planetary stage: speeds and frequencies of a planetary gear with its ring fixed."""

from dataclasses import dataclass
from typing import Annotated

from calc.quantity import Quantity
from calc.units import FREQUENCY

SUN_FREQUENCY = Quantity("f_s", "Revolutions of the sun", FREQUENCY, above=0.0, example=100.0)
SUN_TEETH = Quantity("z_s", "Teeth of the sun", at_least=1, whole=True, example=27)
RING_TEETH = Quantity("z_r", "Teeth of the ring", at_least=1, whole=True, example=99)
PLANET_TEETH = Quantity("z_p", "Teeth of a planet", at_least=1, whole=True, example=35)
PLANETS = Quantity("N_p", "Number of planets", at_least=1, at_most=20, whole=True, example=4)
STAGE_RATIO = Quantity("i", "Sun speed over carrier speed", above=1.0)
CARRIER_FREQUENCY = Quantity("f_c", "Revolutions of the carrier", FREQUENCY)
MESH_FREQUENCY = Quantity("f_m", "Mesh frequency", FREQUENCY)
SPIN_FREQUENCY = Quantity("f_p", "Planet turning on its carrier", FREQUENCY)
PASS_FREQUENCY = Quantity("f_n", "Planets passing a place of the ring", FREQUENCY)


@dataclass(frozen=True, slots=True)
class PlanetaryStage:
    """The ratio of a planetary stage and the frequencies that it makes."""

    ratio: Annotated[float, STAGE_RATIO]
    carrier: Annotated[float, CARRIER_FREQUENCY]
    mesh: Annotated[float, MESH_FREQUENCY]
    planet_spin: Annotated[float, SPIN_FREQUENCY]
    planet_pass: Annotated[float, PASS_FREQUENCY]


def planetary_stage(
    sun_frequency: Annotated[float, SUN_FREQUENCY],
    sun_teeth: Annotated[int, SUN_TEETH],
    ring_teeth: Annotated[int, RING_TEETH],
    planet_teeth: Annotated[int, PLANET_TEETH],
    planets: Annotated[int, PLANETS],
) -> PlanetaryStage:
    r"""Return the frequencies of a planetary stage whose ring is fixed and whose sun drives.

    $$ i = 1 + \frac{z_r}{z_s}, \quad f_c = \frac{f_s}{i}, \quad f_m = z_r f_c, \quad
       f_p = f_c \frac{z_r}{z_p}, \quad f_n = N_p f_c $$

    The ratio comes from teeth alone.  Pitch circles mislead, because corrected gears need not
    have a ring of $z_s + 2 z_p$ teeth.  The mesh frequency is the ring's teeth times the speed of
    the carrier, not of the sun.

    Args:
        sun_frequency: Revolutions of the sun per second; scalar, Hz.
        sun_teeth: Teeth of the sun; scalar.
        ring_teeth: Teeth of the fixed ring; scalar.
        planet_teeth: Teeth of a planet; scalar.
        planets: Number of planets; scalar.

    Returns:
        The ratio and the frequencies.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Kinematics of gears, seen from the carrier.

    Examples:
        >>> stage = planetary_stage(28.0, 27, 99, 35, 4)
        >>> round(stage.carrier, 9), round(stage.mesh, 9)
        (6.0, 594.0)
    """
    SUN_FREQUENCY.check(sun_frequency)
    SUN_TEETH.check(sun_teeth)
    RING_TEETH.check(ring_teeth)
    PLANET_TEETH.check(planet_teeth)
    PLANETS.check(planets)
    ratio = 1.0 + ring_teeth / sun_teeth
    carrier = sun_frequency / ratio
    return PlanetaryStage(
        ratio=ratio,
        carrier=carrier,
        mesh=ring_teeth * carrier,
        planet_spin=carrier * ring_teeth / planet_teeth,
        planet_pass=planets * carrier,
    )
