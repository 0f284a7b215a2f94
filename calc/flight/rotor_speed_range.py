"""Rotor speed range and never-exceed speed: the margins of 14 CFR 27 and 29 in numbers."""

from dataclasses import dataclass, replace
from typing import Annotated

from calc.chart import Axis, Bars, Chart
from calc.declaration import Name
from calc.flight.quantities import AIRSPEED, ROTOR_SPEED
from calc.quantity import Constant, InputsError, Quantity
from calc.units import KNOT, ROTATION, RPM, SPEED

POWER_OFF_SHARE = Constant(0.95, Quantity("k_1", "Most of the highest rotor speed shown"))
"""14 CFR 27.1509(a) and 29.1509(a)."""
LOWEST_SHARE = Constant(1.05, Quantity("k_2", "Least of the lowest rotor speed shown"))
"""14 CFR 27.1509(b) and 29.1509(b)."""
NEVER_EXCEED_SHARE = Constant(0.9, Quantity("k_3", "Most of a speed that was shown"))
"""14 CFR 27.1505(a)(2) and 29.1505(a)(2)."""
LEAST_NEVER_EXCEED = KNOT.si(40.0)


def _rotor(symbol: str, label: str, rpm: float) -> Quantity:
    return replace(ROTOR_SPEED, symbol=symbol, label=label, example=RPM.si(rpm))


def _airspeed(symbol: str, label: str, knots: float) -> Quantity:
    return replace(AIRSPEED, symbol=symbol, label=label, example=KNOT.si(knots))


DESIGN_MAXIMUM = _rotor(r"\Omega_d", "Maximum design rotor speed", 290.0)
TESTED_MAXIMUM = _rotor(r"\Omega_{t,1}", "Highest rotor speed shown in type tests", 285.0)
TESTED_MINIMUM = _rotor(r"\Omega_{t,2}", "Lowest rotor speed shown in type tests", 185.0)
SUBSTANTIATED_MINIMUM = _rotor(r"\Omega_s", "Lowest rotor speed substantiated by design", 180.0)
EXPECTED_LOWEST = _rotor(r"\Omega_{a,2}", "Lowest rotor speed expected in autorotation", 205.0)
EXPECTED_HIGHEST = _rotor(r"\Omega_{a,1}", "Highest rotor speed expected in autorotation", 265.0)
HIGHEST_POWER_OFF = Quantity(
    r"\Omega_{off,1}", "Highest power-off rotor speed, proposed limit", ROTATION
)
LOWEST_POWER_OFF = Quantity(
    r"\Omega_{off,2}", "Lowest power-off rotor speed, proposed limit", ROTATION
)
LOWEST_POWER_ON = Quantity(
    r"\Omega_{on,2}", "Lowest power-on rotor speed, proposed limit", ROTATION
)
VERDICT = Name("Expected range of autorotation")
INSIDE = "inside the proposed limits"
TOO_LOW = "too low: it reaches below the lowest power-off rotor speed"
TOO_HIGH = "too high: it reaches above the highest power-off rotor speed"
TOO_WIDE = "too wide: it passes both power-off rotor speeds"
EMPTY = "no range is left: the lowest power-off rotor speed is above the highest"

DESIGN_AIRSPEED = _airspeed("V_{fd}", "Maximum design forward speed", 210.0)
DEMONSTRATED_AIRSPEED = _airspeed("V_{df}", "Highest speed shown for vibration and flutter", 200.0)
MACH_AIRSPEED = _airspeed("V_M", "Highest speed substantiated for tip Mach number", 205.0)
CLIMB_AIRSPEED = _airspeed("V_y", "Airspeed of the climb requirement", 80.0)
POWER_ON_BOUND = Quantity("V_{NE}", "Most never-exceed speed, power on, proposed limit", SPEED)
POWER_OFF_BOUND = Quantity(
    "V_{NE,off}", "Least never-exceed speed, power off, proposed limit", SPEED
)
SETS_IT = Name("Set by")
BY_DESIGN = "design forward speed"
BY_DEMONSTRATION = "speed shown for vibration and flutter"
BY_MACH = "speed substantiated for tip Mach number"
BELOW_FORTY = "; below 40 kt, which the paragraph does not allow"


@dataclass(frozen=True, slots=True)
class RotorSpeedRange:
    """The proposed rotor speed limits, and whether an expected range lies inside them."""

    highest_power_off: Annotated[float, HIGHEST_POWER_OFF]
    lowest_power_off: Annotated[float, LOWEST_POWER_OFF]
    lowest_power_on: Annotated[float, LOWEST_POWER_ON]
    verdict: Annotated[str, VERDICT]


@dataclass(frozen=True, slots=True)
class NeverExceed:
    """The most never-exceed speed with power on, and the least that power off may have."""

    power_on: Annotated[float, POWER_ON_BOUND]
    set_by: Annotated[str, SETS_IT]
    power_off: Annotated[float, POWER_OFF_BOUND]


def rotor_speed_range(
    design_maximum: Annotated[float, DESIGN_MAXIMUM],
    tested_maximum: Annotated[float, TESTED_MAXIMUM],
    tested_minimum: Annotated[float, TESTED_MINIMUM],
    substantiated_minimum: Annotated[float, SUBSTANTIATED_MINIMUM],
    expected_lowest: Annotated[float, EXPECTED_LOWEST],
    expected_highest: Annotated[float, EXPECTED_HIGHEST],
) -> RotorSpeedRange:
    r"""Return the rotor speed limits that the margins of 14 CFR 1509 leave, as a proposal.

    $$ \Omega_{off,1} = k_1 \min(\Omega_d, \Omega_{t,1}), \qquad
    \Omega_{off,2} = k_2 \max(\Omega_{t,2}, \Omega_s), \qquad
    \Omega_{on,2} = \max(\Omega_{t,2}, \Omega_s) $$

    The lowest power-on rotor speed has an upper bound too, by 27.33 or 29.33, which is not
    computed.

    Args:
        design_maximum: Maximum design rotor speed of 27.309(b) or 29.309(b); scalar, rad/s.
        tested_maximum: Highest rotor speed shown during the type tests; scalar, rad/s.
        tested_minimum: Lowest rotor speed shown during the type tests; scalar, rad/s.
        substantiated_minimum: Lowest rotor speed by design substantiation; scalar, rad/s.
        expected_lowest: Lowest rotor speed over all weights and airspeeds; scalar, rad/s.
        expected_highest: Highest rotor speed over all weights and airspeeds; scalar, rad/s.

    Returns:
        The proposed limits, and whether the expected range of autorotation lies inside them.

    Raises:
        ValueError: If an argument breaks its limits, or the expected range is empty.

    Source:
        14 CFR 27.1509 and 29.1509 (read).

    Examples:
        >>> found = rotor_speed_range(30.0, 29.0, 20.0, 19.0, 22.0, 27.0)
        >>> round(found.highest_power_off, 2), round(found.lowest_power_off, 2), found.verdict
        (27.55, 21.0, 'inside the proposed limits')
    """
    DESIGN_MAXIMUM.check(design_maximum)
    TESTED_MAXIMUM.check(tested_maximum)
    TESTED_MINIMUM.check(tested_minimum)
    SUBSTANTIATED_MINIMUM.check(substantiated_minimum)
    EXPECTED_LOWEST.check(expected_lowest)
    EXPECTED_HIGHEST.check(expected_highest)
    if expected_lowest > expected_highest:
        raise InputsError(
            "The lowest rotor speed expected must not be above the highest",
            "expected_lowest",
            "expected_highest",
        )
    highest = POWER_OFF_SHARE * min(design_maximum, tested_maximum)
    lowest = LOWEST_SHARE * max(tested_minimum, substantiated_minimum)
    return RotorSpeedRange(
        highest_power_off=highest,
        lowest_power_off=lowest,
        lowest_power_on=max(tested_minimum, substantiated_minimum),
        verdict=_verdict(lowest, highest, expected_lowest, expected_highest),
    )


def never_exceed_speed(
    design_airspeed: Annotated[float, DESIGN_AIRSPEED],
    demonstrated_airspeed: Annotated[float, DEMONSTRATED_AIRSPEED],
    mach_airspeed: Annotated[float, MACH_AIRSPEED],
    climb_airspeed: Annotated[float, CLIMB_AIRSPEED],
) -> NeverExceed:
    r"""Return the bounds that 14 CFR 1505 sets for never-exceed speeds, as a proposal.

    $$ V_{NE} = k_3 \min(V_{fd}, V_{df}, V_M), \qquad V_{NE,off} = \frac{V_{NE} + V_y}{2} $$

    The factor applies to each speed before the least is taken.  A power-off never-exceed speed of
    its own may be set lower than the power-on one, but not below midway to the climb airspeed.

    Args:
        design_airspeed: Maximum forward speed of 27.309 or 29.309; scalar, m/s.
        demonstrated_airspeed: Highest speed shown for 1505(a)(2)(ii); scalar, m/s.
        mach_airspeed: Highest speed substantiated for advancing-tip Mach number; scalar, m/s.
        climb_airspeed: Airspeed of the climb requirement that 1505(c) names; scalar, m/s.

    Returns:
        The most never-exceed speed with power on, what sets it, and the least with power off.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        14 CFR 27.1505 and 29.1505 (read).

    Examples:
        >>> found = never_exceed_speed(100.0, 90.0, 95.0, 41.0)
        >>> found.power_on, found.set_by, found.power_off
        (81.0, 'speed shown for vibration and flutter', 61.0)
    """
    DESIGN_AIRSPEED.check(design_airspeed)
    DEMONSTRATED_AIRSPEED.check(demonstrated_airspeed)
    MACH_AIRSPEED.check(mach_airspeed)
    CLIMB_AIRSPEED.check(climb_airspeed)
    bound: Annotated[float, POWER_ON_BOUND] = NEVER_EXCEED_SHARE * min(
        design_airspeed, demonstrated_airspeed, mach_airspeed
    )
    return NeverExceed(
        power_on=bound,
        set_by=_set_by(design_airspeed, demonstrated_airspeed, mach_airspeed),
        power_off=(bound + climb_airspeed) / 2,
    )


def rotor_speed_range_chart(
    expected_lowest: float, expected_highest: float, found: RotorSpeedRange
) -> Chart:
    """Return the proposed limits beside the range that autorotation is expected to need."""
    rows = [
        (1.0, expected_lowest),
        (2.0, expected_highest),
    ]
    limits = [(0.0, found.lowest_power_off), (3.0, found.highest_power_off)]
    names = ("lowest allowed", "lowest expected", "highest expected", "highest allowed")
    return Chart(
        title="Rotor speeds in autorotation beside their proposed limits",
        description="Bars of the lowest and highest rotor speed allowed by the margins, and of "
        "those expected, from the lowest to the highest.",
        x=Axis("Rotor speed", low=-0.7, high=3.7, ticks=tuple(enumerate(names))),
        y=Axis.of(ROTOR_SPEED, 0.0),
        marks=(Bars(limits, 0.5, "proposed limit", 1), Bars(rows, 0.5, "expected", 2)),
    )


def _verdict(lowest: float, highest: float, first: float, last: float) -> str:
    if lowest >= highest:
        return EMPTY
    words = {
        (False, False): INSIDE,
        (True, False): TOO_LOW,
        (False, True): TOO_HIGH,
        (True, True): TOO_WIDE,
    }
    return words[first < lowest, last > highest]


def _set_by(design: float, demonstrated: float, mach: float) -> str:
    """Return in words which of the speeds is the least."""
    least = min(design, demonstrated, mach)
    names = {design: BY_DESIGN, demonstrated: BY_DEMONSTRATION, mach: BY_MACH}
    short = NEVER_EXCEED_SHARE * least < LEAST_NEVER_EXCEED
    return names[least] + (BELOW_FORTY if short else "")
