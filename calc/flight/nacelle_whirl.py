"""Nacelle whirl: a propeller splits the modes of its mount, and may set them off in flight."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.chart import Axis, Chart, Line, Points, Rule
from calc.declaration import Name
from calc.flight.nacelle import (
    FLYING,
    NACELLE_INERTIA,
    ONCE,
    PITCH_FREQUENCY,
    PROPELLER_INERTIA,
    YAW_FREQUENCY,
    NacelleMount,
    RigidPropeller,
)
from calc.flight.whirl_motion import boundary_airspeed, least_damped, least_frequency_share
from calc.quantity import Quantity
from calc.rotor.quantities import AIR_DENSITY, AIRSPEED
from calc.rotor.tip_speed import PROPELLER_SPEED
from calc.units import FREQUENCY, GROWTH, SHARE, SPEED

CHART_STEPS = 30
BACKWARD = Quantity("f_b", "Backward whirl", FREQUENCY)
FORWARD = Quantity("f_f", "Forward whirl", FREQUENCY)
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
        (7.4475, 8.5934)
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
        >>> from calc.flight.nacelle import CURLEW_MOUNT, CURLEW_PROPELLER
        >>> found = whirl_stability(CURLEW_MOUNT, CURLEW_PROPELLER, 120.0, 90.0)
        >>> found.verdict
        'decays at this airspeed'
    """
    PROPELLER_SPEED.check(propeller_speed)
    FLYING.check(airspeed)
    AIR_DENSITY.check(density)
    case = propeller_speed, density
    root = least_damped(mount, propeller, *case, airspeed)
    boundary = boundary_airspeed(mount, propeller, *case)
    begins = NO_BOUNDARY
    if boundary is not None:
        turning = least_damped(mount, propeller, *case, boundary * (1.0 + 1e-6)).imag != 0.0
        begins = WHIRL_FLUTTER if turning else DIVERGENCE
    return WhirlStability(
        verdict=GROWS if root.real > 0.0 else DECAYS,
        growth_rate=root.real,
        frequency=abs(root.imag) / (2.0 * math.pi),
        whirl_damping=-root.real / abs(root),
        boundary_airspeed=boundary,
        at_boundary=begins,
        least_frequency_share=least_frequency_share(mount, propeller, *case, airspeed),
    )


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
        (v, least_damped(mount, propeller, propeller_speed, density, v).real) for v in samples
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
