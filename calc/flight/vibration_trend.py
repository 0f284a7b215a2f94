"""Vibration trend: how the harmonics of blade lift grow with advance ratio, by blade elements."""

import cmath
import math
from dataclasses import dataclass, replace
from typing import Annotated, NamedTuple

from calc.chart import Axis, Chart, Line, Points
from calc.declaration import Method
from calc.examples import CURLEW
from calc.flight.quantities import LIFT_SLOPE_OF_BLADE, TWIST
from calc.quantity import Quantity
from calc.rotor.blade_loading import LOCK_NUMBER
from calc.rotor.quantities import (
    ADVANCE_RATIO,
    BLADE_LOADING,
    DISC_INCIDENCE,
    SOLIDITY,
)
from calc.rotor.retreating_tip import RetreatingTip, retreating_tip
from calc.units import ANGLE, SHARE

AZIMUTHS = 120
CHART_POINTS = 24
HARMONICS = (2, 3, 4)

FLYING_RATIO = replace(
    ADVANCE_RATIO,
    above=0.0,
    at_least=-math.inf,
    below=0.85,
    covered=(0.15, 0.5),
    covered_by="below it the vortices of the blades, which the uniform inflow leaves out, give far "
    "more; above it stall and reverse flow fail the linear lift",
    example=0.30,
)
CARRIED_LOADING = replace(BLADE_LOADING, above=0.0, at_least=-math.inf, example=0.08)
CURLEW_SOLIDITY = replace(
    SOLIDITY, example=CURLEW.blades * CURLEW.chord / (math.pi * CURLEW.radius)
)
SMALL_TILT = replace(DISC_INCIDENCE, example=math.radians(2.0))
FLAPPING_LOCK = replace(LOCK_NUMBER, above=0.0, example=8.0)
CONING = Quantity(r"\beta_0", "Coning", ANGLE)
SECOND = Quantity("L_2/L_0", "2/rev lift of a blade over its mean lift", SHARE)
THIRD = Quantity("L_3/L_0", "3/rev lift of a blade over its mean lift", SHARE)
FOURTH = Quantity("L_4/L_0", "4/rev lift of a blade over its mean lift", SHARE)


@dataclass(frozen=True, slots=True)
class LiftHarmonics:
    """Amplitudes of the lift of one blade over its mean, in the rotating frame."""

    second: Annotated[float, SECOND]
    third: Annotated[float, THIRD]
    fourth: Annotated[float, FOURTH]
    coning: Annotated[float, CONING]


def blade_lift_harmonics(
    advance_ratio: Annotated[float, FLYING_RATIO],
    blade_loading: Annotated[float, CARRIED_LOADING],
    solidity: Annotated[float, CURLEW_SOLIDITY],
    disc_incidence: Annotated[float, SMALL_TILT],
    twist: Annotated[float, TWIST],
    lift_slope: Annotated[float, LIFT_SLOPE_OF_BLADE] = 5.7,
    lock_number: Annotated[float, FLAPPING_LOCK] = 8.0,
) -> LiftHarmonics:
    r"""Return the harmonics of the lift of a blade over its mean lift, by blade elements.

    $$ L(\psi) \sim \int_0^1 |u_T| \left( u_T \theta - \lambda - \mu \beta_0 \cos \psi \right)
    \mathrm{d}x, \qquad u_T = x + \mu \sin \psi $$
    $$ \theta = \theta_0 + x \theta_1 + \theta_{1c} \cos \psi + \beta_{1c} \sin \psi $$

    A rigid blade turns in the tip-path plane with constant coning; the pitch about that plane is
    the collective and the flapping of `retreating_tip`, and a cosine part that balances the
    coning.  The inflow is uniform and the lift in proportion to the angle of attack, with its sign
    turned in the reverse flow.

    This is a trend, not a prediction: wake, stall, compressibility and bending of the blades make
    most of the real 3/rev and higher harmonics, and they are left out.

    Args:
        advance_ratio: Airspeed in the plane of the disc over tip speed; scalar.
        blade_loading: Thrust coefficient over solidity, without a factor 1/2; scalar.
        solidity: Area of the blades over area of the disc; scalar.
        disc_incidence: Angle of the tip-path plane to the flight path, nose down; scalar, rad.
        twist: Pitch at the tip minus pitch at the shaft axis; scalar, rad.
        lift_slope: Lift coefficient per angle of attack; scalar, 1/rad.
        lock_number: Air forces on a flapping blade over its inertia; scalar.

    Returns:
        Amplitudes at two, three and four per revolution over the mean, and the coning.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Blade elements, summed over one revolution.

    Examples:
        >>> arguments = 0.3, 0.08, 0.08, math.radians(2.0), math.radians(-8.0), 5.7, 8.0
        >>> round(blade_lift_harmonics(*arguments).second, 5)
        0.2566
    """
    FLYING_RATIO.check(advance_ratio)
    CARRIED_LOADING.check(blade_loading)
    FLAPPING_LOCK.check(lock_number)
    trim = retreating_tip(advance_ratio, blade_loading, solidity, disc_incidence, twist, lift_slope)
    coning, second, third, fourth = _harmonics(advance_ratio, twist, lock_number, trim)
    return LiftHarmonics(second=second, third=third, fourth=fourth, coning=coning)


class _Azimuth(NamedTuple):
    """Powers of the in-plane speed summed along a blade at one azimuth, and the speed of its root.

    In the reverse flow, where the in-plane speed is negative, the lift has its sign turned.
    """

    psi: float
    root: float
    sums: tuple[float, ...]

    def lift(self, twist: float, pitch: float, normal: float) -> float:
        """Return the lift for a pitch at the root and a normal speed, over a common unit."""
        return twist * self.sums[2] + pitch * self.sums[1] - normal * self.sums[0]

    def moment(self, twist: float, pitch: float, normal: float) -> float:
        """Return the flapping moment likewise."""
        outer = twist * self.sums[3] + pitch * self.sums[2] - normal * self.sums[1]
        return outer - self.root * self.lift(twist, pitch, normal)


def _azimuth(advance_ratio: float, psi: float) -> _Azimuth:
    """Return what lift and moment need at an azimuth: powers of u from root to tip."""
    root = advance_ratio * math.sin(psi)
    turned = -1.0 if root < 0.0 else 1.0
    sums = tuple(((1.0 + root) ** n - turned * root**n) / n for n in (2, 3, 4, 5))
    return _Azimuth(psi, root, sums)


def _harmonics(
    advance_ratio: float, twist: float, lock_number: float, trim: RetreatingTip
) -> Annotated[
    tuple[float, ...],
    Method("blade elements in closed form along the radius, summed over the azimuths"),
]:
    """Return the coning, and the amplitudes of the harmonics over the mean.

    The mean flapping moment sets the coning; what the coning does to the moment once per
    revolution is balanced by a cosine part of the pitch.
    """
    places = [_azimuth(advance_ratio, 2.0 * math.pi * k / AZIMUTHS) for k in range(AZIMUTHS)]
    pitches = [
        trim.collective + trim.longitudinal_flapping * math.sin(at.psi) - twist * at.root
        for at in places
    ]
    trimmed = [*zip(places, pitches, strict=True)]
    moments = (at.moment(twist, pitch, trim.inflow) for at, pitch in trimmed)
    coning = 0.5 * lock_number * math.fsum(moments) / AZIMUTHS
    by_pitch = math.fsum(math.cos(at.psi) ** 2 * at.moment(0.0, 1.0, 0.0) for at in places)
    by_speed = math.fsum(math.cos(at.psi) ** 2 * at.moment(0.0, 0.0, 1.0) for at in places)
    cosine_pitch = -advance_ratio * coning * by_speed / by_pitch
    lifts = [
        at.lift(
            twist,
            pitch + cosine_pitch * math.cos(at.psi),
            trim.inflow + advance_ratio * coning * math.cos(at.psi),
        )
        for at, pitch in trimmed
    ]
    mean = math.fsum(lifts) / AZIMUTHS
    amplitudes = []
    for k in HARMONICS:
        turning = (
            lift * cmath.exp(1j * k * at.psi) for lift, at in zip(lifts, places, strict=True)
        )
        amplitudes.append(2.0 * abs(sum(turning)) / AZIMUTHS / mean)
    return coning, *amplitudes


def vibration_trend_chart(advance_ratio: float, **rotor: float) -> Chart:
    """Return the amplitudes against advance ratio at the same blade loading."""
    ratios = [0.05 + 0.45 * step / CHART_POINTS for step in range(CHART_POINTS + 1)]
    samples = [(ratio, blade_lift_harmonics(ratio, **rotor)) for ratio in ratios]
    lines = {
        "2/rev": [(ratio, state.second) for ratio, state in samples],
        "3/rev": [(ratio, state.third) for ratio, state in samples],
        "4/rev": [(ratio, state.fourth) for ratio, state in samples],
    }
    found = blade_lift_harmonics(advance_ratio, **rotor)
    here = [(advance_ratio, value) for value in (found.second, found.third, found.fourth)]
    return Chart(
        title="Harmonics of blade lift against advance ratio",
        description="Three rising lines on a logarithmic scale: lift of a blade at two, three and "
        "four per revolution over its mean lift, with points at the advance ratio asked for.",
        x=Axis.of(ADVANCE_RATIO, 0.0, max(0.5, advance_ratio)),
        y=Axis("Amplitude over mean lift", low=1e-4, high=1.0, log=True),
        marks=(
            *(Line(points, label, style) for style, (label, points) in enumerate(lines.items(), 1)),
            Points(here, "this flight", 0),
        ),
    )
