"""Decay: how fast rotor speed falls after a loss of power, and what energy the rotor holds."""

import math
from dataclasses import dataclass, replace
from typing import Annotated

from calc.chart import Axis, Chart, Line, Points, Rule
from calc.constants import STANDARD_GRAVITY
from calc.declaration import Choice
from calc.flight.quantities import MASS, RADIUS, ROTOR_SPEED
from calc.quantity import Quantity
from calc.units import (
    AUTOROTATION_INDEX,
    ENERGY,
    INERTIA,
    LENGTH,
    POWER,
    ROTATION_RATE,
    SECOND,
    SHARE,
    TIME,
)

SQUARE, CONSTANT_TORQUE, CONSTANT_POWER = "square", "constant_torque", "constant_power"
LAW = Choice(
    "Torque while rotor speed falls",
    {
        SQUARE: "with the square of rotor speed: pitch held, the aircraft sinks",
        CONSTANT_TORQUE: "constant",
        CONSTANT_POWER: "constant power: pitch raised to hold the lift",
    },
)
STEPS = 40

ROTOR_INERTIA = Quantity(
    "J", "Inertia of the rotor and all geared to it", INERTIA, above=0.0, example=8500.0
)
ROTOR_POWER_LOST = Quantity(
    "P",
    "Power before the loss, of the rotor and all geared to it",
    POWER,
    above=0.0,
    example=1_550_000.0,
)
HOVER_POWER = replace(
    ROTOR_POWER_LOST, symbol="P_h", label="Power in hover, of the rotor and all geared to it"
)
SPEED_RATIO = Quantity(
    "x",
    "Least rotor speed over rotor speed at the loss",
    SHARE,
    above=0.0,
    at_most=1.0,
    example=0.9,
)
TIME_CONSTANT = Quantity(r"\tau_0", "Time constant of the decay", TIME)
DECELERATION = Quantity(r"\dot\Omega_0", "Fall of rotor speed at first", ROTATION_RATE)
DECAY_TIME = Quantity("t_x", "Time to the least rotor speed", TIME)
ROTOR_ENERGY = Quantity("E", "Energy of rotation", ENERGY)
ENERGY_HEIGHT = Quantity("E/W", "Energy over weight", LENGTH)
INDEX = Quantity("AI", "Energy over weight and disc loading", AUTOROTATION_INDEX)
HOVER_TIME = Quantity("t_h", "Hover time of the energy above the least rotor speed", TIME)


@dataclass(frozen=True, slots=True)
class RotorDecay:
    """How rotor speed falls after the loss of all power."""

    deceleration: Annotated[float, DECELERATION]
    time_constant: Annotated[float, TIME_CONSTANT]
    decay_time: Annotated[float, DECAY_TIME]


@dataclass(frozen=True, slots=True)
class RotorEnergy:
    """The energy of a turning rotor, by itself and over what it has to carry."""

    energy: Annotated[float, ROTOR_ENERGY]
    energy_height: Annotated[float, ENERGY_HEIGHT]
    autorotation_index: Annotated[float, INDEX]
    hover_time: Annotated[float, HOVER_TIME]


def rotor_decay_time(
    inertia: Annotated[float, ROTOR_INERTIA],
    rotor_speed: Annotated[float, ROTOR_SPEED],
    power: Annotated[float, ROTOR_POWER_LOST],
    speed_ratio: Annotated[float, SPEED_RATIO] = 0.9,
    law: Annotated[str, LAW] = SQUARE,
) -> RotorDecay:
    r"""Return the time that rotor speed takes to fall to a share of itself without power.

    $$ J \dot\Omega = -Q, \qquad \tau_0 = \frac{J \Omega^2}{P} $$
    $$ t_x = \tau_0 \left(\frac{1}{x} - 1\right) \; (Q \sim \Omega^2), \qquad
    \tau_0 (1 - x) \; (Q \text{ constant}), \qquad
    \frac{\tau_0}{2} (1 - x^2) \; (Q \Omega \text{ constant}) $$

    All power is lost at once, and the rotor is free of the engines.  All three laws begin with the
    same fall of rotor speed.  The pilot does nothing: no pitch is taken off, no flare is flown.

    Args:
        inertia: Of the rotor and what stays geared to it, at rotor speed; scalar, kg·m².
        rotor_speed: Angular speed at the loss; scalar, rad/s.
        power: Taken just before the loss by all that the inertia counts; scalar, W.
        speed_ratio: Least rotor speed over that at the loss; scalar.
        law: How the torque changes as rotor speed falls; word.

    Returns:
        The fall of rotor speed at first, the time constant, and the time.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Angular momentum; integrated in closed form.

    Examples:
        >>> decay = rotor_decay_time(9000.0, 28.0, 900000.0, 0.8)
        >>> round(decay.time_constant, 2), round(decay.decay_time, 2)
        (7.84, 1.96)
    """
    ROTOR_INERTIA.check(inertia)
    ROTOR_SPEED.check(rotor_speed)
    ROTOR_POWER_LOST.check(power)
    SPEED_RATIO.check(speed_ratio)
    LAW.check(law)
    time_constant: Annotated[float, TIME_CONSTANT] = inertia * rotor_speed**2 / power
    if law == SQUARE:
        decay_time = time_constant * (1 / speed_ratio - 1)
    elif law == CONSTANT_TORQUE:
        decay_time = time_constant * (1 - speed_ratio)
    else:
        decay_time = time_constant / 2 * (1 - speed_ratio**2)
    return RotorDecay(
        deceleration=rotor_speed / time_constant,
        time_constant=time_constant,
        decay_time=decay_time,
    )


def rotor_energy(
    inertia: Annotated[float, ROTOR_INERTIA],
    rotor_speed: Annotated[float, ROTOR_SPEED],
    mass: Annotated[float, MASS],
    radius: Annotated[float, RADIUS],
    power: Annotated[float, HOVER_POWER],
    speed_ratio: Annotated[float, SPEED_RATIO] = 0.9,
) -> RotorEnergy:
    r"""Return the energy of a turning rotor, and what it is worth against weight and hover power.

    $$ E = \tfrac{1}{2} J \Omega^2, \qquad AI = \frac{E}{W \, W / (\pi R^2)}, \qquad
    t_h = \frac{E (1 - x^2)}{P_h}, \qquad W = m g $$

    Only what lies above the least rotor speed can be spent.  The index is a ratio for comparing
    rotorcraft; it knows nothing of the pilot's reaction, of height or of airspeed.

    Args:
        inertia: Of the rotor and what stays geared to it, at rotor speed; scalar, kg·m².
        rotor_speed: Angular speed; scalar, rad/s.
        mass: Mass of the rotorcraft; scalar, kg.
        radius: Shaft axis to blade tip; scalar, m.
        power: Taken in hover by all that the inertia counts; scalar, W.
        speed_ratio: Least rotor speed over this one; scalar.

    Returns:
        Energy, energy over weight, autorotation index, and hover time.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Kinetic energy of rotation.

    Examples:
        >>> found = rotor_energy(9000.0, 28.0, 6000.0, 7.5, 900000.0, 0.8)
        >>> round(found.energy_height, 3), round(found.autorotation_index, 6)
        (59.959, 0.180077)
    """
    ROTOR_INERTIA.check(inertia)
    ROTOR_SPEED.check(rotor_speed)
    MASS.check(mass)
    RADIUS.check(radius)
    HOVER_POWER.check(power)
    SPEED_RATIO.check(speed_ratio)
    energy: Annotated[float, ROTOR_ENERGY] = inertia * rotor_speed**2 / 2
    energy_height: Annotated[float, ENERGY_HEIGHT] = energy / (mass * STANDARD_GRAVITY)
    return RotorEnergy(
        energy=energy,
        energy_height=energy_height,
        autorotation_index=energy_height * math.pi * radius**2 / (mass * STANDARD_GRAVITY),
        hover_time=energy * (1 - speed_ratio**2) / power,
    )


def rotor_decay_chart(
    inertia: float, rotor_speed: float, power: float, speed_ratio: float, law: str
) -> Chart:
    """Return rotor speed over time by each of the three laws, down to the least rotor speed."""
    least = speed_ratio * rotor_speed
    slow = rotor_decay_time(inertia, rotor_speed, power, speed_ratio, SQUARE)
    end = 1.15 * slow.decay_time
    shares = [end / slow.time_constant * step / STEPS for step in range(STEPS + 1)]
    ratios = {
        "pitch held": [1.0 / (1.0 + share) for share in shares],
        "torque held": [1.0 - share for share in shares],
        "lift held": [math.sqrt(max(0.0, 1.0 - 2.0 * share)) for share in shares],
    }
    lines = [
        Line(
            [
                (share * slow.time_constant, max(0.0, ratio) * rotor_speed)
                for share, ratio in zip(shares, own, strict=True)
            ],
            label,
            style,
        )
        for style, (label, own) in enumerate(ratios.items(), 1)
    ]
    reached = rotor_decay_time(inertia, rotor_speed, power, speed_ratio, law).decay_time
    return Chart(
        title="Rotor speed after the loss of all power",
        description="Three falling lines from the same point with the same slope: torque with the "
        "square of rotor speed, constant torque, constant power. A dashed line is the least "
        "rotor speed.",
        x=Axis("Time", SECOND, 0.0, end or 1.0),
        y=Axis.of(ROTOR_SPEED),
        marks=(
            Rule(least, "y", "least rotor speed"),
            *lines,
            Points([(reached, least)], "this law", 0),
        ),
    )
