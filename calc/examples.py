"""Invented rotorcraft for worked examples; none of them has ever flown."""

import math
from dataclasses import dataclass

from calc.units import RPM


@dataclass(frozen=True, slots=True)
class Propeller:
    """A propeller in SI units: diameter in m and shaft speed in rad/s."""

    blades: int
    diameter: float
    propeller_speed: float


@dataclass(frozen=True, slots=True)
class Wing:
    """A wing at a fixed angle to the flight path, in SI units: m², 1/rad and rad."""

    area: float
    aspect_ratio: float
    angle: float
    lift_slope: float
    span_efficiency: float
    profile_drag_coefficient: float
    maximum_lift_coefficient: float


@dataclass(frozen=True, slots=True)
class Rotorcraft:
    """A rotorcraft with one main rotor, in SI units: kg, m, rad, rad/s, m² and kg·m²."""

    name: str
    mass: float
    blades: int
    radius: float
    chord: float
    rotor_speed: float
    twist: float
    lift_slope: float
    drag_area: float
    flap_inertia: float
    propellers: tuple[Propeller, ...] = ()


PLOVER = Rotorcraft(
    name="Plover, an invented helicopter with four blades",
    mass=3000.0,
    blades=4,
    radius=4.8,
    chord=0.45,
    rotor_speed=RPM.si(360.0),
    twist=math.radians(-8.0),
    lift_slope=5.7,
    drag_area=1.3,
    flap_inertia=350.0,
)

CURLEW = Rotorcraft(
    name="Curlew, an invented compound with six blades, a wing and two pusher propellers",
    mass=8600.0,
    blades=6,
    radius=7.9,
    chord=0.40,
    rotor_speed=RPM.si(250.0),
    twist=math.radians(-6.0),
    lift_slope=5.7,
    drag_area=2.2,
    flap_inertia=1125.0,
    propellers=2 * (Propeller(blades=5, diameter=2.9, propeller_speed=RPM.si(1150.0)),),
)

CURLEW_WING = Wing(
    area=22.0,
    aspect_ratio=6.5,
    angle=math.radians(5.0),
    lift_slope=4.5,
    span_efficiency=0.8,
    profile_drag_coefficient=0.012,
    maximum_lift_coefficient=1.2,
)
"""The wing of the Curlew; its drag area leaves this wing out."""
