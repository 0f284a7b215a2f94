"""Nacelle: a nacelle on its mount and the propeller that it carries."""

import math
from dataclasses import dataclass, replace
from typing import Annotated, ClassVar

from calc.declaration import check
from calc.examples import CURLEW
from calc.quantity import Quantity
from calc.rotor.quantities import AIRSPEED
from calc.rotor.tip_speed import DIAMETER
from calc.units import FREQUENCY, INERTIA, KNOT, LENGTH, LIFT_SLOPE
from calc.vocabulary import DAMPING_RATIO

_PROPELLER = CURLEW.propellers[0]
PITCH_FREQUENCY = Quantity(
    r"f_\theta",
    "Pitch frequency of the nacelle, propeller at rest",
    FREQUENCY,
    above=0.0,
    example=8.4,
)
YAW_FREQUENCY = Quantity(
    r"f_\psi",
    "Yaw frequency of the nacelle, propeller at rest",
    FREQUENCY,
    above=0.0,
    example=8.4,
)
NACELLE_INERTIA = Quantity(
    "I", "Inertia of nacelle and propeller about the mount", INERTIA, above=0.0, example=450.0
)
PROPELLER_INERTIA = Quantity(
    "J_p", "Inertia of the propeller about its shaft", INERTIA, at_least=0.0, example=27.0
)
MOUNT_DAMPING = replace(DAMPING_RATIO, example=0.03)
PROPELLER_BLADES = Quantity(
    "N_p", "Blades of the propeller", at_least=3, at_most=20, whole=True, example=_PROPELLER.blades
)
PROPELLER_CHORD = Quantity("c_p", "Mean chord of the propeller", LENGTH, above=0.0, example=0.22)
PROPELLER_LIFT_SLOPE = Quantity(
    "a_p", "Lift slope of the propeller", LIFT_SLOPE, above=0.0, example=5.0
)
HUB_DISTANCE = Quantity(
    "l", "Propeller ahead of the mount, negative behind it", LENGTH, example=-0.9
)
FLYING = replace(AIRSPEED, above=0.0, at_least=-math.inf, example=KNOT.si(180.0))
ONCE = Quantity("f_1", "1/rev of the propeller", FREQUENCY)


@dataclass(frozen=True, slots=True)
class NacelleMount:
    """A nacelle that can pitch and yaw on its mount, with the propeller on it but at rest.

    Attributes:
        pitch_frequency: Natural frequency in pitch, propeller at rest; scalar, Hz.
        yaw_frequency: Natural frequency in yaw, propeller at rest; scalar, Hz.
        nacelle_inertia: Of nacelle and propeller about the pivot, in pitch and yaw; scalar, kg·m².
        damping_ratio: Damping of the mount over critical damping, without air; scalar.
    """

    heading: ClassVar[str] = "Nacelle on its mount"

    pitch_frequency: Annotated[float, PITCH_FREQUENCY]
    yaw_frequency: Annotated[float, YAW_FREQUENCY]
    nacelle_inertia: Annotated[float, NACELLE_INERTIA]
    damping_ratio: Annotated[float, MOUNT_DAMPING]

    def __post_init__(self) -> None:
        """Refuse a mount that cannot exist."""
        check(self)


@dataclass(frozen=True, slots=True)
class RigidPropeller:
    """A propeller with rigid blades of constant chord.

    Attributes:
        propeller_blades: Blades of the propeller, three or more; scalar.
        diameter: Diameter of the propeller; scalar, m.
        propeller_chord: Chord of a blade, taken as constant; scalar, m.
        propeller_lift_slope: Lift coefficient of a blade per angle of attack; scalar, 1/rad.
        propeller_inertia: Polar moment of inertia about the shaft; scalar, kg·m².
        hub_distance: Propeller ahead of the pivot, below zero for a pusher; scalar, m.
    """

    heading: ClassVar[str] = "Propeller"

    propeller_blades: Annotated[int, PROPELLER_BLADES]
    diameter: Annotated[float, DIAMETER]
    propeller_chord: Annotated[float, PROPELLER_CHORD]
    propeller_lift_slope: Annotated[float, PROPELLER_LIFT_SLOPE]
    propeller_inertia: Annotated[float, PROPELLER_INERTIA]
    hub_distance: Annotated[float, HUB_DISTANCE]

    def __post_init__(self) -> None:
        """Refuse a propeller that cannot exist."""
        check(self)


CURLEW_MOUNT = NacelleMount(8.4, 8.4, 450.0, 0.03)
CURLEW_PROPELLER = RigidPropeller(_PROPELLER.blades, _PROPELLER.diameter, 0.22, 5.0, 27.0, -0.9)
"""A nacelle of the invented Curlew: the propeller pushes, behind its mount."""
