"""Whirl view: the rotor from above in slow motion, while the blades bunch and the hub whirls."""

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from calc.chart import Axis, Chart, Frames, Line, Points
from calc.ground.model.aircraft import Hub, Rotor
from calc.ground.model.motion import State, parts
from calc.ground.time_history import (
    FIRST_LAG,
    HEAVY_BLADE,
    OFFSET,
    REVOLUTIONS,
    ROTATING,
    STEPS_A_REVOLUTION,
    HeavyRotor,
    centre_of_mass,
    history,
)
from calc.quantity import Quantity
from calc.units import ANGLE, ONE

FRAMES_A_REVOLUTION = 12
SECONDS_A_REVOLUTION = 1.2
LAG_DRAWN = math.radians(28.0)  # largest lag angle in the drawing
SHIFT_DRAWN = 0.28  # largest hub displacement and offset in the drawing, in blade lengths
SIZE = 1.4  # half height of the drawing, in blade lengths
LEAD = Quantity(r"\varphi", "Angle by which the offset leads the hub, on average", ANGLE)


@dataclass(frozen=True, slots=True)
class Bunching:
    """How far the blades bunch in the last revolution, and where against the hub motion."""

    offset: Annotated[float, OFFSET]
    lead: Annotated[float, LEAD]


def bunching(
    rotor: HeavyRotor,
    hub: Hub,
    rotor_speed: Annotated[float, ROTATING],
    first_lag: Annotated[float, FIRST_LAG],
    revolutions: Annotated[int, REVOLUTIONS],
) -> Bunching:
    r"""Return how the blades bunch against the whirl of the hub.

    $$ \varphi = \arg \sum_t r(t) \, \overline{z(t)}, \qquad z = x + \mathrm{i} y, \qquad
    r = r_x + \mathrm{i} r_y \text{ in the fixed frame} $$

    The blades' centre of mass pulls the hub.  Where the pull leads the hub in the direction of
    rotation it does work on a hub that whirls with the rotation; the drive pays for it.  Averaged
    over the last revolution.

    Args:
        rotor: Blades and lag hinges.
        hub: Effective masses, stiffness and damping at the hub.
        rotor_speed: Constant speed of rotation; scalar, rad/s.
        first_lag: Lag angle of the first blade at the start; scalar, rad.
        revolutions: Length of the history in revolutions; scalar.

    Returns:
        The largest offset of the centre of mass and the angle by which it leads the hub.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Newton's equations of rigid bodies; derived here.

    Examples:
        >>> found = bunching(
        ...     Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2000.0),
        ...     Hub(3000.0, 1400.0, 600e3, 640e3, 6000.0, 4000.0), 27.0, 0.01, 12,
        ... )
        >>> 0.0 < found.lead < math.pi
        True
    """
    support = hub.support(rotor)
    HEAVY_BLADE.check(rotor.blade_mass)
    ROTATING.check(rotor_speed)
    FIRST_LAG.check(first_lag)
    REVOLUTIONS.check(revolutions)
    states = history(rotor, support, rotor_speed, first_lag, revolutions)
    offsets = _fixed_offsets(rotor, states)[-STEPS_A_REVOLUTION:]
    hubs = [complex(*parts(state).hub) for state in states[-STEPS_A_REVOLUTION:]]
    turned = sum(offset * hub.conjugate() for offset, hub in zip(offsets, hubs, strict=True))
    return Bunching(offset=max(map(abs, offsets)), lead=cmath.phase(turned))


def whirl_chart(rotor: Rotor, states: Sequence[State]) -> Chart:
    """Return the rotor from above in slow motion; lag angles and displacements drawn larger."""
    every = STEPS_A_REVOLUTION // FRAMES_A_REVOLUTION
    last = states[-8 * STEPS_A_REVOLUTION - 1 :: every]  # at most eight revolutions are drawn
    offsets = _fixed_offsets(rotor, states)[-8 * STEPS_A_REVOLUTION - 1 :: every]
    hubs = [complex(*parts(state).hub) for state in last]
    hub_scale = SHIFT_DRAWN / max(map(abs, hubs))
    lag_scale = LAG_DRAWN / max(abs(lag) for state in last for lag in parts(state).lags)
    offset_scale = SHIFT_DRAWN / max(map(abs, offsets))
    frames: list[Sequence[Line | Points]] = []
    for number, (state, place, offset) in enumerate(zip(last, hubs, offsets, strict=True)):
        azimuth = 2.0 * math.pi * number / FRAMES_A_REVOLUTION
        centre = hub_scale * place
        frames.append(
            [
                *_blades(centre, azimuth, [lag_scale * lag for lag in parts(state).lags]),
                Points([_place(centre)], "", 1, shape="circle"),
                Points([_place(centre + offset_scale * offset)], "", 2, shape="diamond"),
            ]
        )
    return Chart(
        title="Rotor from above",
        description="The blades lag by different angles and bunch to one side; their centre of "
        "mass, the diamond, leaves the shaft and the hub whirls.",
        x=Axis("Longitudinal, drawn larger", ONE, -1.75 * SIZE, 1.75 * SIZE, ticks=((0.0, "0"),)),
        y=Axis("Lateral, drawn larger", ONE, -SIZE, SIZE, ticks=((0.0, "0"),)),
        marks=(
            Frames(
                frames, SECONDS_A_REVOLUTION * len(frames) / FRAMES_A_REVOLUTION, len(frames) - 1
            ),
        ),
    )


def _blades(centre: complex, azimuth: float, lags: Sequence[float]) -> list[Line]:
    """Return the blades as lines from their lag hinges, each in its own colour and dash."""
    lines = []
    for number, lag in enumerate(lags):
        angle = azimuth + 2.0 * math.pi * number / len(lags)
        hinge = centre + 0.08 * complex(math.cos(angle), math.sin(angle))
        tip = hinge + complex(math.cos(angle + lag), math.sin(angle + lag))
        lines.append(Line([_place(hinge), _place(tip)], "", number % 6 + 1, dash=""))
    return lines


def _fixed_offsets(rotor: Rotor, states: Sequence[State]) -> list[complex]:
    """Return the blades' centre of mass from the shaft in the fixed frame, at each step."""
    return [
        complex(
            *centre_of_mass(rotor, 2.0 * math.pi * number / STEPS_A_REVOLUTION, parts(state).lags)
        )
        for number, state in enumerate(states)
    ]


def _place(point: complex) -> tuple[float, float]:
    return point.real, point.imag
