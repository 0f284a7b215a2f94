"""Nonlinear dampers: what dry friction or an orifice is worth at one amplitude of lag."""

import math
from typing import Annotated

from calc.chart import Axis, Chart, Line, Rule
from calc.ground.damper import LAG_DAMPING_OF_DAMPER, LAG_FREQUENCY
from calc.quantity import Quantity
from calc.units import ANGLE, MOMENT, RADIAN_PER_SECOND

FRICTION_MOMENT = Quantity(
    "F", "Friction moment about the lag hinge", MOMENT, at_least=0.0, example=400.0
)
LAG_AMPLITUDE = Quantity("A", "Lag amplitude", ANGLE, above=0.0, example=math.radians(1.0))
ORIFICE_MOMENT = Quantity(
    "F", "Moment about the lag hinge at the stated rate", MOMENT, at_least=0.0, example=300.0
)
ORIFICE_RATE = Quantity(
    r"\dot{\xi}_0", "Lag rate of that moment", (RADIAN_PER_SECOND,), above=0.0, example=0.2
)


def friction_damper(
    friction_moment: Annotated[float, FRICTION_MOMENT],
    lag_frequency: Annotated[float, LAG_FREQUENCY],
    lag_amplitude: Annotated[float, LAG_AMPLITUDE],
) -> Annotated[float, LAG_DAMPING_OF_DAMPER]:
    r"""Return the lag damping that takes as much energy in a cycle as dry friction does.

    $$ C_\xi = \frac{4 F}{\pi (2 \pi f_\xi) A} $$

    It falls as the amplitude grows: a rotor may be stable when it is left alone and unstable
    after a hard touchdown.  Motion that does not break the friction loose is not covered.

    Args:
        friction_moment: Constant moment against the motion; scalar, N·m.
        lag_frequency: Frequency of the lag motion in the rotating frame; scalar, Hz.
        lag_amplitude: Amplitude of the lag motion; scalar, rad.

    Returns:
        Equivalent lag damping of one blade at that amplitude; scalar, N·m·s/rad.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Equal energy lost in a cycle; derived anew.

    Examples:
        >>> round(friction_damper(400.0, 1.35, math.radians(1.0)), 0)
        3440.0
    """
    FRICTION_MOMENT.check(friction_moment)
    LAG_FREQUENCY.check(lag_frequency)
    LAG_AMPLITUDE.check(lag_amplitude)
    angular_frequency = 2.0 * math.pi * lag_frequency
    return 4.0 * friction_moment / (math.pi * angular_frequency * lag_amplitude)


def friction_chart(
    friction_moment: float,
    lag_frequency: float,
    lag_amplitude: float,
) -> Chart:
    """Return the equivalent damping of friction over the lag amplitude."""
    amplitudes = [lag_amplitude * number / 20.0 for number in range(4, 81)]
    return _over_amplitude(
        [(a, friction_damper(friction_moment, lag_frequency, a)) for a in amplitudes],
        lag_amplitude,
        "The damping of friction falls as the amplitude grows.",
    )


def orifice_damper(
    orifice_moment: Annotated[float, ORIFICE_MOMENT],
    orifice_rate: Annotated[float, ORIFICE_RATE],
    lag_frequency: Annotated[float, LAG_FREQUENCY],
    lag_amplitude: Annotated[float, LAG_AMPLITUDE],
) -> Annotated[float, LAG_DAMPING_OF_DAMPER]:
    r"""Return the lag damping that takes as much energy in a cycle as an orifice damper does.

    $$ C_\xi = \frac{8}{3 \pi} \frac{F}{\dot{\xi}_0^2} (2 \pi f_\xi) A $$

    The moment grows with the square of the rate, so that the damping grows with the amplitude:
    small motion is hardly damped and may grow until the damper holds it.

    Args:
        orifice_moment: Moment of the damper at a stated rate; scalar, N·m.
        orifice_rate: The lag rate of that moment; scalar, rad/s.
        lag_frequency: Frequency of the lag motion in the rotating frame; scalar, Hz.
        lag_amplitude: Amplitude of the lag motion; scalar, rad.

    Returns:
        Equivalent lag damping of one blade at that amplitude; scalar, N·m·s/rad.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Equal energy lost in a cycle; derived anew.

    Examples:
        >>> round(orifice_damper(300.0, 0.2, 1.35, math.radians(1.0)), 1)
        942.5
    """
    ORIFICE_MOMENT.check(orifice_moment)
    ORIFICE_RATE.check(orifice_rate)
    LAG_FREQUENCY.check(lag_frequency)
    LAG_AMPLITUDE.check(lag_amplitude)
    lag_rate = 2.0 * math.pi * lag_frequency * lag_amplitude
    return 8.0 / (3.0 * math.pi) * orifice_moment / orifice_rate**2 * lag_rate


def orifice_chart(
    orifice_moment: float,
    orifice_rate: float,
    lag_frequency: float,
    lag_amplitude: float,
) -> Chart:
    """Return the equivalent damping of an orifice over the lag amplitude."""
    amplitudes = [lag_amplitude * number / 20.0 for number in range(1, 81)]
    return _over_amplitude(
        [(a, orifice_damper(orifice_moment, orifice_rate, lag_frequency, a)) for a in amplitudes],
        lag_amplitude,
        "The damping of an orifice grows with the amplitude.",
    )


def _over_amplitude(line: list[tuple[float, float]], given: float, description: str) -> Chart:
    return Chart(
        title="Equivalent lag damping over lag amplitude",
        description=description,
        x=Axis.of(LAG_AMPLITUDE, 0.0, line[-1][0]),
        y=Axis.of(LAG_DAMPING_OF_DAMPER, 0.0),
        marks=(Line(line, "equivalent", 1), Rule(given, "x", "given")),
    )
