"""Nacelle whirl: a propeller splits the modes of its mount, and may set them off in flight."""

import math
from dataclasses import dataclass, replace
from typing import Annotated, ClassVar, NamedTuple

from calc import linalg
from calc.chart import Axis, Chart, Line, Points, Rule
from calc.declaration import Method, Name, check
from calc.examples import CURLEW
from calc.numeric.roots import first_root
from calc.quantity import Quantity
from calc.rotor.quantities import AIR_DENSITY, AIRSPEED
from calc.rotor.tip_speed import DIAMETER, PROPELLER_SPEED
from calc.units import FREQUENCY, GROWTH, INERTIA, KNOT, LENGTH, LIFT_SLOPE, SHARE, SPEED
from calc.vocabulary import DAMPING_RATIO

_PROPELLER = CURLEW.propellers[0]
STEPS = 120
CHART_STEPS = 30
MOST_CHANGE = 20.0
"""How far the search for the least frequencies lowers or raises them."""

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

BACKWARD = Quantity("f_b", "Backward whirl", FREQUENCY)
FORWARD = Quantity("f_f", "Forward whirl", FREQUENCY)
ONCE = Quantity("f_1", "1/rev of the propeller", FREQUENCY)
BACKWARD_RATIO = Quantity("f_b/f_1", "Backward whirl over 1/rev of the propeller")
GROWTH_RATE = Quantity(r"\sigma_w", "Growth rate of the least damped whirl", GROWTH)
WHIRL_FREQUENCY = Quantity("f_w", "Frequency of the least damped whirl", FREQUENCY)
WHIRL_DAMPING = Quantity(r"\zeta_w", "Damping ratio of the least damped whirl", SHARE)
BOUNDARY = Quantity("V_w", "Airspeed at the boundary", SPEED)
LEAST_SHARE = Quantity("f_l/f", "Least frequencies of the mount over these", SHARE)
WHAT = Name("What begins there")
VERDICT = Name("In this model")
WHIRL_FLUTTER = "whirl flutter: a whirl that grows"
DIVERGENCE = "divergence: the nacelle turns aside without a whirl"
NO_BOUNDARY = "nothing up to an airspeed equal to the tip speed of the propeller"
GROWS = "grows at this airspeed"
DECAYS = "decays at this airspeed"


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


@dataclass(frozen=True, slots=True)
class Whirl:
    """The two whirls of a nacelle without air, beside once per revolution of its propeller."""

    backward: Annotated[float, BACKWARD]
    forward: Annotated[float, FORWARD]
    once_per_revolution: Annotated[float, ONCE]
    backward_ratio: Annotated[float, BACKWARD_RATIO]


@dataclass(frozen=True, slots=True)
class WhirlStability:
    """The least damped whirl at an airspeed, and the airspeed at which the first one grows."""

    verdict: Annotated[str, VERDICT]
    growth_rate: Annotated[float, GROWTH_RATE]
    frequency: Annotated[float, WHIRL_FREQUENCY]
    whirl_damping: Annotated[float, WHIRL_DAMPING]
    boundary_airspeed: Annotated[float | None, BOUNDARY]
    at_boundary: Annotated[str, WHAT]
    least_frequency_share: Annotated[float | None, LEAST_SHARE]


class _Air(NamedTuple):
    """What the air does: damping of both rates, coupling of pitch and yaw, and a turning moment."""

    damping: float
    coupling: float
    turning: float


def whirl_frequencies(
    pitch_frequency: Annotated[float, PITCH_FREQUENCY],
    yaw_frequency: Annotated[float, YAW_FREQUENCY],
    nacelle_inertia: Annotated[float, NACELLE_INERTIA],
    propeller_inertia: Annotated[float, PROPELLER_INERTIA],
    propeller_speed: Annotated[float, PROPELLER_SPEED],
) -> Whirl:
    r"""Return the backward and the forward whirl of a nacelle whose propeller turns.

    $$ \omega^4 - \left(\omega_\theta^2 + \omega_\psi^2 + g^2\right) \omega^2
    + \omega_\theta^2 \omega_\psi^2 = 0, \qquad g = \frac{J_p \Omega_p}{I} $$

    The gyroscopic moment of the propeller couples pitch and yaw: one frequency falls with
    propeller speed and belongs to a whirl against the rotation, the other rises.  Their product
    stays.  No air, no damping, rigid blades, nacelle inertia alike in pitch and yaw.

    Args:
        pitch_frequency: Natural frequency in pitch, propeller at rest; scalar, Hz.
        yaw_frequency: Natural frequency in yaw, propeller at rest; scalar, Hz.
        nacelle_inertia: Moment of inertia about the pivot, alike in pitch and yaw; scalar, kg·m².
        propeller_inertia: Polar moment of inertia of the propeller; scalar, kg·m².
        propeller_speed: Angular speed of the propeller; scalar, rad/s.

    Returns:
        Both frequencies, and once per revolution of the propeller.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Equations of a gyroscope on springs; derived on the page.

    Examples:
        >>> whirl = whirl_frequencies(8.0, 8.0, 450.0, 27.0, 120.0)
        >>> round(whirl.backward, 4), round(whirl.forward, 4)
        (7.4474, 8.5936)
    """
    PITCH_FREQUENCY.check(pitch_frequency)
    YAW_FREQUENCY.check(yaw_frequency)
    NACELLE_INERTIA.check(nacelle_inertia)
    PROPELLER_INERTIA.check(propeller_inertia)
    PROPELLER_SPEED.check(propeller_speed)
    once = propeller_speed / (2 * math.pi)
    gyroscopic = propeller_inertia / nacelle_inertia * once
    # sum and difference of both frequencies: their product is that of the two at rest
    total = math.hypot(pitch_frequency + yaw_frequency, gyroscopic)
    apart = math.hypot(pitch_frequency - yaw_frequency, gyroscopic)
    backward: Annotated[float, BACKWARD] = (total - apart) / 2
    return Whirl(
        backward=backward,
        forward=(total + apart) / 2,
        once_per_revolution=once,
        backward_ratio=backward / once,
    )


def whirl_stability(
    mount: NacelleMount,
    propeller: RigidPropeller,
    propeller_speed: Annotated[float, PROPELLER_SPEED],
    airspeed: Annotated[float, FLYING],
    density: Annotated[float, AIR_DENSITY] = 1.225,
) -> WhirlStability:
    r"""Return the least damped whirl of a nacelle in flight, and where the first one grows.

    $$ I \ddot\theta + (C_\theta + D) \dot\theta + J_p \Omega_p \dot\psi
    + (K_\theta - E) \theta - S \psi = 0 $$
    $$ I \ddot\psi + (C_\psi + D) \dot\psi - J_p \Omega_p \dot\theta
    + (K_\psi - E) \psi + S \theta = 0 $$
    $$ D = \tfrac{N_p}{2} (\Omega_p^2 I_4 + l^2 V^2 I_0), \quad
    S = \tfrac{N_p}{2} \Omega_p V^2 I_2, \quad E = \tfrac{N_p}{2} l V^3 I_0, \quad
    I_n = \int_0^R \frac{\rho c_p a_p r^n}{2 \sqrt{V^2 + \Omega_p^2 r^2}} \, \mathrm{d}r $$

    The classical model of two degrees of freedom: a rigid propeller on a nacelle that pitches and
    yaws about one pivot, quasi-steady strip theory about a propeller without thrust.  The coupling
    $S$ by the air feeds the backward whirl.  A stiff wing, no flapping of blades, no lag of the
    wake, no compressibility.

    Args:
        mount: The nacelle on its mount; record.
        propeller: The propeller; record.
        propeller_speed: Angular speed of the propeller; scalar, rad/s.
        airspeed: True airspeed along the shaft; scalar, m/s.
        density: Density of the air; scalar, kg/m³.

    Returns:
        Growth rate, frequency and damping ratio of the least damped motion, the airspeed at which
        one first grows at this propeller speed, and what it is; None if nothing grows up to an
        airspeed equal to the tip speed.  The least frequency share is what both frequencies of the
        mount, lowered alike, may come to before a motion grows at this airspeed.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Derived anew on the page, by blade elements; Reed and Bland (1961) describe the model.

    Examples:
        >>> found = whirl_stability(CURLEW_MOUNT, CURLEW_PROPELLER, 120.0, 90.0)
        >>> found.verdict
        'decays at this airspeed'
    """
    PROPELLER_SPEED.check(propeller_speed)
    FLYING.check(airspeed)
    AIR_DENSITY.check(density)
    case = propeller_speed, density
    root = _least_damped(mount, propeller, *case, airspeed)
    boundary = _boundary(mount, propeller, *case)
    begins = NO_BOUNDARY
    if boundary is not None:
        turning = _least_damped(mount, propeller, *case, boundary * (1.0 + 1e-6)).imag != 0.0
        begins = WHIRL_FLUTTER if turning else DIVERGENCE
    return WhirlStability(
        verdict=GROWS if root.real > 0.0 else DECAYS,
        growth_rate=root.real,
        frequency=abs(root.imag) / (2.0 * math.pi),
        whirl_damping=-root.real / abs(root),
        boundary_airspeed=boundary,
        at_boundary=begins,
        least_frequency_share=_frequency_share(mount, propeller, *case, airspeed),
    )


def _boundary(
    mount: NacelleMount, propeller: RigidPropeller, propeller_speed: float, density: float
) -> Annotated[
    float | None,
    Method("the lowest airspeed at which a motion neither grows nor decays, by halving"),
]:
    """Return the lowest airspeed at which a motion stops decaying, up to the tip speed."""
    fastest = propeller_speed * propeller.diameter / 2.0
    return first_root(
        lambda v: _least_damped(mount, propeller, propeller_speed, density, v).real,
        (fastest * step / STEPS for step in range(1, STEPS + 1)),
    )


def _frequency_share(
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
        return _least_damped(softer, propeller, propeller_speed, density, airspeed).real

    steps = range(-STEPS // 2, STEPS // 2 + 1)
    lowered = first_root(excess, (MOST_CHANGE ** (2.0 * step / STEPS) for step in steps))
    return None if lowered is None else 1.0 / lowered


def _least_damped(
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


def whirl_frequencies_chart(
    pitch_frequency: float,
    yaw_frequency: float,
    nacelle_inertia: float,
    propeller_inertia: float,
    propeller_speed: float,
) -> Chart:
    """Return both whirls and 1/rev of the propeller over propeller speed."""
    speeds = [1.3 * propeller_speed * step / CHART_STEPS for step in range(1, CHART_STEPS + 1)]
    found = [
        (
            speed,
            whirl_frequencies(
                pitch_frequency, yaw_frequency, nacelle_inertia, propeller_inertia, speed
            ),
        )
        for speed in speeds
    ]
    at_rest = sorted((pitch_frequency, yaw_frequency))
    here = whirl_frequencies(
        pitch_frequency, yaw_frequency, nacelle_inertia, propeller_inertia, propeller_speed
    )
    return Chart(
        title="Whirl of a nacelle over propeller speed",
        description="Two lines that part from the frequencies at rest, the backward whirl falling "
        "and the forward whirl rising, and the steep line of once per revolution.",
        x=Axis.of(PROPELLER_SPEED, 0.0, speeds[-1]),
        y=Axis("Frequency", FREQUENCY[0], 0.0, 1.4 * found[-1][1].forward),
        marks=(
            Line([(0.0, at_rest[0]), *((s, w.backward) for s, w in found)], "backward whirl", 1),
            Line([(0.0, at_rest[1]), *((s, w.forward) for s, w in found)], "forward whirl", 2),
            Line([(0.0, 0.0), *((s, w.once_per_revolution) for s, w in found)], "1/rev", 3),
            Points([(propeller_speed, here.backward), (propeller_speed, here.forward)], "", 0),
        ),
    )


def whirl_stability_chart(
    mount: NacelleMount,
    propeller: RigidPropeller,
    propeller_speed: float,
    airspeed: float,
    density: float,
    found: WhirlStability,
) -> Chart:
    """Return the growth rate of the least damped motion against airspeed."""
    end = 1.3 * max(airspeed, min(found.boundary_airspeed or airspeed, 4.0 * airspeed))
    samples = [end * step / CHART_STEPS for step in range(1, CHART_STEPS + 1)]
    points = [
        (v, _least_damped(mount, propeller, propeller_speed, density, v).real) for v in samples
    ]
    return Chart(
        title="Growth rate of the least damped whirl against airspeed",
        description="A line that lies below zero while every motion decays, and crosses zero at "
        "the boundary if there is one; a point at the airspeed asked for.",
        x=Axis.of(AIRSPEED, 0.0, end),
        y=Axis.of(GROWTH_RATE),
        marks=(
            Rule(0.0, "y", "neither grows nor decays"),
            Line(points, "least damped", 1),
            Points([(airspeed, found.growth_rate)], "this airspeed", 2),
        ),
    )
