"""Whirl motion: the two equations of a nacelle with its propeller in the air, and their roots."""

import math
from dataclasses import replace
from typing import Annotated, NamedTuple

from calc import linalg
from calc.declaration import Method
from calc.flight.nacelle import NacelleMount, RigidPropeller
from calc.numeric.roots import first_root

STEPS = 120
MOST_CHANGE = 20.0
"""How far the search for the least frequencies lowers or raises them."""


class _Air(NamedTuple):
    """What the air does: damping of both rates, coupling of pitch and yaw, and a turning moment."""

    damping: float
    coupling: float
    turning: float


def boundary_airspeed(
    mount: NacelleMount, propeller: RigidPropeller, propeller_speed: float, density: float
) -> Annotated[
    float | None,
    Method("the lowest airspeed at which a motion neither grows nor decays, by halving"),
]:
    """Return the lowest airspeed at which a motion stops decaying, up to the tip speed."""
    fastest = propeller_speed * propeller.diameter / 2.0
    return first_root(
        lambda v: least_damped(mount, propeller, propeller_speed, density, v).real,
        (fastest * step / STEPS for step in range(1, STEPS + 1)),
    )


def least_frequency_share(
    mount: NacelleMount,
    propeller: RigidPropeller,
    propeller_speed: float,
    density: float,
    airspeed: float,
) -> Annotated[
    float | None,
    Method("both frequencies of the mount lowered alike until a motion stops decaying, by halving"),
]:
    """Return the share of both frequencies at which a motion first grows at an airspeed.

    Below one the mount is stiffer than it has to be; the search ends at a twentieth and at twenty.
    """

    def excess(lowered: float) -> float:
        softer = replace(
            mount,
            pitch_frequency=mount.pitch_frequency / lowered,
            yaw_frequency=mount.yaw_frequency / lowered,
        )
        return least_damped(softer, propeller, propeller_speed, density, airspeed).real

    steps = range(-STEPS // 2, STEPS // 2 + 1)
    lowered = first_root(excess, (MOST_CHANGE ** (2.0 * step / STEPS) for step in steps))
    return None if lowered is None else 1.0 / lowered


def least_damped(
    mount: NacelleMount,
    propeller: RigidPropeller,
    propeller_speed: float,
    density: float,
    airspeed: float,
) -> Annotated[complex, Method("the eigenvalue of the two equations that decays least")]:
    """Return the eigenvalue with the largest real part; of a pair the one that turns forward."""
    air = _air(propeller, propeller_speed, density, airspeed)
    inertia = mount.nacelle_inertia
    pitch, yaw = 2.0 * math.pi * mount.pitch_frequency, 2.0 * math.pi * mount.yaw_frequency
    gyroscopic = propeller.propeller_inertia * propeller_speed / inertia
    damping, coupling, turning = (part / inertia for part in air)
    by_mount = 2.0 * mount.damping_ratio
    rows = [
        [0.0, 0.0, 1.0, 0.0],
        [0.0, 0.0, 0.0, 1.0],
        [turning - pitch**2, coupling, -by_mount * pitch - damping, -gyroscopic],
        [-coupling, turning - yaw**2, gyroscopic, -by_mount * yaw - damping],
    ]
    return max(linalg.eigenvalues(rows), key=lambda root: (root.real, root.imag))


def _air(
    propeller: RigidPropeller, propeller_speed: float, density: float, airspeed: float
) -> _Air:
    """Return the moments of the air about the pivot for small tilt and rates of the propeller."""
    unit = 0.5 * density * propeller.propeller_chord * propeller.propeller_lift_slope
    radius = propeller.diameter / 2.0
    zeroth, second, fourth = (unit * whole for whole in _radial(propeller_speed, airspeed, radius))
    half, arm = propeller.propeller_blades / 2.0, propeller.hub_distance
    return _Air(
        damping=half * (propeller_speed**2 * fourth + (arm * airspeed) ** 2 * zeroth),
        coupling=half * propeller_speed * airspeed**2 * second,
        turning=half * arm * airspeed**3 * zeroth,
    )


def _radial(propeller_speed: float, airspeed: float, radius: float) -> tuple[float, ...]:
    """Return the integrals of 1, r² and r⁴ over the speed of a blade element, hub to tip."""
    tip = math.hypot(airspeed, propeller_speed * radius)
    square = propeller_speed**2
    zeroth = math.asinh(propeller_speed * radius / airspeed) / propeller_speed
    second = (radius * tip - airspeed**2 * zeroth) / (2.0 * square)
    fourth = (radius**3 * tip - 3.0 * airspeed**2 * second) / (4.0 * square)
    return zeroth, second, fourth
