"""Planetary stage: speeds, mesh and fault frequencies of a planetary gear with its ring fixed."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.harmonics.planet_spacing import PLANET_GAP, planet_gap
from calc.quantity import Quantity
from calc.units import FREQUENCY

SUN_FREQUENCY = Quantity("f_s", "Sun shaft frequency", FREQUENCY, above=0.0, example=26.3)
SUN_TEETH = Quantity("z_s", "Teeth of the sun", at_least=1, at_most=1000, whole=True, example=31)
RING_TEETH = Quantity("z_r", "Teeth of the ring", at_least=1, at_most=1000, whole=True, example=105)
PLANET_TEETH = Quantity(
    "z_p", "Teeth of a planet", at_least=1, at_most=1000, whole=True, example=37
)
PLANETS = Quantity("N_p", "Number of planets", at_least=1, at_most=20, whole=True, example=4)
TEETH_BETWEEN = Quantity("z_r - z_s", "Teeth of the ring less those of the sun", at_least=2)
STAGE_RATIO = Quantity("i", "Reduction ratio, sun speed over carrier speed", above=1.0)
CARRIER_FREQUENCY = Quantity("f_c", "Carrier shaft frequency", FREQUENCY)
MESH_FREQUENCY = Quantity("f_m", "Mesh frequency", FREQUENCY)
SPIN_FREQUENCY = Quantity("f_p", "Planet spin relative to the carrier", FREQUENCY)
PASS_FREQUENCY = Quantity("f_n", "Planet-pass frequency at a fixed ring location", FREQUENCY)
RING_FAULT = Quantity("f_{ring}", "Fault frequency of a ring tooth", FREQUENCY)
SUN_FAULT = Quantity("f_{sun}", "Fault frequency of a sun tooth", FREQUENCY)
PLANET_FAULT = Quantity(
    "f_{planet}", "Fault frequency of a planet tooth that strikes both ring and sun", FREQUENCY
)
TEETH_LEFT = Quantity(
    r"\Delta z",
    "Ring teeth less sun and two planets",
    whole=True,
    covered=(-4, 4),
    covered_by="profile shift seldom takes up more (common practice, no source)",
)


@dataclass(frozen=True, slots=True)
class PlanetaryStage:
    """The ratio of a planetary stage, the frequencies that it makes, and whether it can be made."""

    ratio: Annotated[float, STAGE_RATIO]
    carrier: Annotated[float, CARRIER_FREQUENCY]
    mesh: Annotated[float, MESH_FREQUENCY]
    planet_spin: Annotated[float, SPIN_FREQUENCY]
    planet_pass: Annotated[float, PASS_FREQUENCY]
    ring_fault: Annotated[float, RING_FAULT]
    sun_fault: Annotated[float, SUN_FAULT]
    planet_fault: Annotated[float, PLANET_FAULT]
    teeth_left: Annotated[int, TEETH_LEFT]
    planet_gap: Annotated[float, PLANET_GAP]


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
    $$ f_{ring} = N_p f_c, \quad f_{sun} = N_p (f_s - f_c), \quad f_{planet} = 2 f_p $$

    The ratio comes from teeth alone.  Pitch circles mislead, because profile-shifted gears need
    not have a ring of $z_s + 2 z_p$ teeth.  The mesh frequency is the ring's teeth times the speed
    of the carrier, not of the sun.  A planet tooth meets the ring and the sun once each in a turn
    of the planet on its carrier; damage on one flank meets only one of them, and strikes at $f_p$.

    Args:
        sun_frequency: Revolutions of the sun per second; scalar, Hz.
        sun_teeth: Teeth of the sun; scalar.
        ring_teeth: Teeth of the fixed ring, more than those of the sun; scalar.
        planet_teeth: Teeth of a planet; scalar.
        planets: Number of planets; scalar.

    Returns:
        The ratio, the frequencies, and two numbers that tell whether the gears fit.

    Raises:
        ValueError: If an argument is not finite or breaks its limits, the ring is not larger than
            the sun, or the planets would overlap.

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
    TEETH_BETWEEN.check(ring_teeth - sun_teeth)
    ratio = 1.0 + ring_teeth / sun_teeth
    carrier = sun_frequency / ratio
    planet_spin = carrier * ring_teeth / planet_teeth
    gap = planet_gap(sun_teeth, planet_teeth, 2.0 * math.pi / planets)
    PLANET_GAP.check(gap)
    return PlanetaryStage(
        ratio=ratio,
        carrier=carrier,
        mesh=ring_teeth * carrier,
        planet_spin=planet_spin,
        planet_pass=planets * carrier,
        ring_fault=planets * carrier,
        sun_fault=planets * (sun_frequency - carrier),
        planet_fault=2.0 * planet_spin,
        teeth_left=ring_teeth - sun_teeth - 2 * planet_teeth,
        planet_gap=gap,
    )
