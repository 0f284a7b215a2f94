"""Source response: how a mode answers a rotor harmonic over a range of rotor speed."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.airframe.quantities import MODAL_MASS, NATURAL_FREQUENCY
from calc.airframe.single_mode import VIBRATION, mode_response
from calc.airframe.swept_mode import DAMPED
from calc.chart import Axis, Chart, Line, Rule
from calc.declaration import Choice
from calc.quantity import Quantity
from calc.units import FORCE, PER_REV, ROTATION, RPM

MULTIPLE = Quantity("k", "Cycles per revolution", (PER_REV,), above=0.0, example=4.0)
NOMINAL_SPEED = Quantity(
    r"\Omega_0", "Speed at which the force is known", ROTATION, above=0.0, example=258.0 * RPM.size
)
NOMINAL_FORCE = Quantity("F_0", "Force at that speed", FORCE, at_least=0.0, example=500.0)
LOWEST = Quantity(r"\Omega_1", "Lowest rotor speed", ROTATION, above=0.0, example=150.0 * RPM.size)
HIGHEST = Quantity(
    r"\Omega_2", "Highest rotor speed", ROTATION, above=0.0, example=290.0 * RPM.size
)
SPEED_RANGE = Quantity("s", "Highest less lowest rotor speed", ROTATION, above=0.0)
GROWTH = Choice(
    "The force",
    {"square": "grows as the square of speed, as imbalance does", "constant": "is constant"},
)
CRITICAL_SPEED = Quantity(r"\Omega_c", "Speed at which the source meets the mode", ROTATION)
WORST_SPEED = Quantity(r"\Omega_w", "Speed of the largest response in the range", ROTATION)
WORST = Quantity("a_w", "Largest acceleration in the range", VIBRATION.units)
NOMINAL = Quantity("a_0", "Acceleration at the speed of the known force", VIBRATION.units)
STEPS = 400  # of the range of speed


@dataclass(frozen=True, slots=True)
class SourceResponse:
    """Where a source meets a mode, and the largest response in a range of speed."""

    critical_speed: Annotated[float, CRITICAL_SPEED]
    worst_speed: Annotated[float, WORST_SPEED]
    worst_acceleration: Annotated[float, WORST]
    nominal_acceleration: Annotated[float, NOMINAL]


def source_response(
    multiple: Annotated[float, MULTIPLE],
    nominal_force: Annotated[float, NOMINAL_FORCE],
    nominal_speed: Annotated[float, NOMINAL_SPEED],
    modal_mass: Annotated[float, MODAL_MASS],
    natural_frequency: Annotated[float, NATURAL_FREQUENCY],
    damping_ratio: Annotated[float, DAMPED],
    lowest_speed: Annotated[float, LOWEST],
    highest_speed: Annotated[float, HIGHEST],
    growth: Annotated[str, GROWTH] = "square",
) -> SourceResponse:
    r"""Return how one mode answers one harmonic of a rotor over a range of speed.

    $$ f = \frac{k \Omega}{2 \pi}, \quad a = \frac{F D}{m} \left(\frac{f}{f_n}\right)^2, \quad
       F = F_0 \left(\frac{\Omega}{\Omega_0}\right)^2 \ \mathrm{or} \ F_0, \quad
       \Omega_c = \frac{2 \pi f_n}{k} $$

    At each speed the response is the steady one; a run through the range builds up less.

    Args:
        multiple: Cycles of the source in a revolution; scalar, /rev.
        nominal_force: Amplitude of the force at the nominal speed; scalar, N.
        nominal_speed: Rotor speed at which the force is known; scalar, rad/s.
        modal_mass: Mass of the mode, for a shape of one at the force; scalar, kg.
        natural_frequency: Undamped natural frequency; scalar, Hz.
        damping_ratio: Damping over critical damping; scalar.
        lowest_speed: Lower end of the range; scalar, rad/s.
        highest_speed: Upper end of the range; scalar, rad/s.
        growth: How the force changes with speed; word.

    Returns:
        The speed at which source and mode meet, the largest response and that at the nominal
        speed.

    Raises:
        ValueError: If an argument is not finite or breaks its limits, or the range does not rise.

    Source:
        Steady solution of a mass on a spring with a damper.

    Examples:
        >>> two_pi = 2.0 * math.pi
        >>> found = source_response(2.0, 1.0, two_pi, 1.0, 4.0, 0.01, two_pi, 3.0 * two_pi)
        >>> round(found.critical_speed / two_pi, 9), round(found.worst_speed / two_pi, 2)
        (2.0, 2.0)
    """
    MULTIPLE.check(multiple)
    NOMINAL_FORCE.check(nominal_force)
    NOMINAL_SPEED.check(nominal_speed)
    LOWEST.check(lowest_speed)
    HIGHEST.check(highest_speed)
    GROWTH.check(growth)
    SPEED_RANGE.check(highest_speed - lowest_speed)
    mode = (modal_mass, natural_frequency, damping_ratio)
    source = (multiple, nominal_force, nominal_speed, growth)
    DAMPED.check(damping_ratio)
    worst = _worst(mode, source, lowest_speed, highest_speed)
    return SourceResponse(
        critical_speed=2.0 * math.pi * natural_frequency / multiple,
        worst_speed=worst,
        worst_acceleration=_acceleration(mode, source, worst),
        nominal_acceleration=_acceleration(mode, source, nominal_speed),
    )


def source_response_chart(
    multiple: Annotated[float, MULTIPLE],
    nominal_force: Annotated[float, NOMINAL_FORCE],
    nominal_speed: Annotated[float, NOMINAL_SPEED],
    modal_mass: Annotated[float, MODAL_MASS],
    natural_frequency: Annotated[float, NATURAL_FREQUENCY],
    damping_ratio: Annotated[float, DAMPED],
    lowest_speed: Annotated[float, LOWEST],
    highest_speed: Annotated[float, HIGHEST],
    growth: Annotated[str, GROWTH] = "square",
) -> Chart:
    """Return the acceleration over rotor speed."""
    mode = (modal_mass, natural_frequency, damping_ratio)
    source = (multiple, nominal_force, nominal_speed, growth)
    speeds = _speeds(mode, source, lowest_speed, highest_speed)
    points = [(speed, _acceleration(mode, source, speed)) for speed in speeds]
    return Chart(
        title="Response of the mode over rotor speed",
        description="The acceleration peaks where the harmonic of the rotor meets the mode.",
        x=Axis("Rotor speed", RPM, lowest_speed, highest_speed),
        y=Axis.of(VIBRATION),
        marks=(
            Line(points, f"{multiple:g}/rev", 1),
            Rule(2.0 * math.pi * natural_frequency / multiple, "x", "source meets mode"),
        ),
    )


_Mode = tuple[float, float, float]
_Source = tuple[float, float, float, str]


def _acceleration(mode: _Mode, source: _Source, speed: float) -> float:
    multiple, nominal_force, nominal_speed, growth = source
    force = nominal_force * (speed / nominal_speed) ** 2 if growth == "square" else nominal_force
    return mode_response(force, *mode, multiple * speed / (2.0 * math.pi)).acceleration


def _speeds(mode: _Mode, source: _Source, lowest: float, highest: float) -> list[float]:
    """Return speeds through the range, close together about the one where source meets mode."""
    _, natural_frequency, damping_ratio = mode
    critical = 2.0 * math.pi * natural_frequency / source[0]
    even = [lowest + (highest - lowest) * step / STEPS for step in range(STEPS + 1)]
    near = [critical * (1.0 + damping_ratio * step / 40.0) for step in range(-200, 201)]
    return sorted(even + [speed for speed in near if lowest < speed < highest])


def _worst(mode: _Mode, source: _Source, lowest: float, highest: float) -> float:
    """Return the speed of the largest response, by a search that closes in on the best speed."""
    speeds = _speeds(mode, source, lowest, highest)
    best = max(range(len(speeds)), key=lambda i: _acceleration(mode, source, speeds[i]))
    low, high = speeds[max(best - 1, 0)], speeds[min(best + 1, len(speeds) - 1)]
    golden = (math.sqrt(5.0) - 1.0) / 2.0
    while high - low > 1e-9 * high:
        left, right = high - golden * (high - low), low + golden * (high - low)
        if _acceleration(mode, source, left) < _acceleration(mode, source, right):
            low = left
        else:
            high = right
    return (low + high) / 2.0
