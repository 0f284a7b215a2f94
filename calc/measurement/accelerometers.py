"""Accelerometers: which motions of mast and gearbox a plan of channels separates."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from calc import linalg
from calc.declaration import Choice, Name, Table
from calc.quantity import Quantity
from calc.units import LENGTH

DIRECTIONS = {
    "fore_and_aft": "fore-and-aft",
    "lateral": "lateral",
    "vertical": "vertical",
}
MOTIONS = (
    *("fore-and-aft translation", "lateral translation", "vertical translation"),
    *("roll", "pitch", "yaw"),
)
"""Motions of a rigid part at the point that places are counted from: aft, starboard, up."""

LEAST = 1e-9
"""Eigenvalue, over the largest, below which the channels do not see a combination of motions."""

CHANNEL = Name("Channel", "mast")
AFT = Quantity("x", "Aft of the hub", LENGTH, at_least=-100.0, at_most=100.0, example=0.0)
STARBOARD = Quantity("y", "To starboard", LENGTH, at_least=-100.0, at_most=100.0, example=0.0)
UP = Quantity("z", "Above the hub", LENGTH, at_least=-100.0, at_most=100.0, example=-0.3)
DIRECTION = Choice("Direction", DIRECTIONS)
ARM = Quantity("r", "Arm at which rotations are told", LENGTH, above=0.0, example=1.0)
NOISE_GAIN = Quantity("", "Noise of the motion over that of a channel")
SPARE = Quantity("", "Channels more than are needed", whole=True)
MOTION = Name("Motion")
STATE = Name("State")


@dataclass(frozen=True, slots=True)
class Channel:
    """One accelerometer: its place, counted from the hub, and the direction that it measures."""

    name: Annotated[str, CHANNEL]
    aft: Annotated[float, AFT]
    starboard: Annotated[float, STARBOARD]
    up: Annotated[float, UP]
    direction: Annotated[str, DIRECTION]


CHANNELS = Table(
    "Channels on the mast and the gearbox",
    Channel,
    example=(
        Channel("mast", 0.0, 0.0, -0.3, "fore_and_aft"),
        Channel("mast", 0.0, 0.0, -0.3, "lateral"),
        Channel("right foot", 0.4, 0.35, -1.3, "fore_and_aft"),
        Channel("right foot", 0.4, 0.35, -1.3, "lateral"),
        Channel("right foot", 0.4, 0.35, -1.3, "vertical"),
        Channel("left foot", 0.4, -0.35, -1.3, "vertical"),
        Channel("front foot", -0.4, 0.35, -1.3, "lateral"),
    ),
    at_least=1,
    at_most=30,
)


@dataclass(frozen=True, slots=True)
class SeenMotion:
    """A motion of the part, whether the channels separate it, and how much noise it carries."""

    motion: Annotated[str, MOTION]
    state: Annotated[str, STATE]
    noise_gain: Annotated[float | None, NOISE_GAIN]


@dataclass(frozen=True, slots=True)
class ChannelPlan:
    """What a plan of channels can tell apart."""

    verdict: Annotated[str, Name("Motions")]
    spare: Annotated[int, SPARE]
    motions: Annotated[tuple[SeenMotion, ...], Table("Motions at the hub", SeenMotion)]


def channel_plan(
    channels: Annotated[tuple[Channel, ...], CHANNELS],
    arm: Annotated[float, ARM] = 1.0,
) -> ChannelPlan:
    r"""Return which motions of a rigid part, told at the hub, a plan of channels separates.

    $$ a_j = d_j \cdot (t + \omega \times p_j) = A_j \begin{pmatrix} t \\ r \omega \end{pmatrix},
    \qquad A_j = \left( d_j, \frac{p_j \times d_j}{r} \right), \qquad
    g_i = \sqrt{\left[ (A^\mathsf{T} A)^{-1} \right]_{ii}} $$

    Mast and gearbox move as one rigid part, channels have equal and independent noise, and motion
    is small.  A motion is separated where no other combination of motions looks the same to all
    channels.

    Args:
        channels: Place and direction of each channel, counted from the hub; rows.
        arm: Distance at which a rotation is told as a translation; scalar, m.

    Returns:
        A sentence, the channels that are spare, and for each of the six motions its state and the
        noise of the motion over that of one channel; nothing for one that is not separated.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Small motions of a rigid body, and least squares; derived here.

    Examples:
        >>> plan = channel_plan((Channel("mast", 0.0, 0.0, -0.3, "lateral"),))
        >>> plan.motions[1].state
        'mixed with roll'
    """
    CHANNELS.check(channels)
    ARM.check(arm)
    rows = [_seen(channel, arm) for channel in channels]
    size = range(len(MOTIONS))
    gram = [[sum(row[i] * row[j] for row in rows) for j in size] for i in size]
    values, vectors = linalg.symmetric_eigen(gram)
    blind = [k for k in size if values[k] <= LEAST * values[-1]]
    motions = tuple(_motion(i, values, vectors, blind) for i in size)
    separated = [one.motion for one in motions if one.state == "separated"]
    words = {0: "None is separated", len(MOTIONS): "All six are separated"}
    return ChannelPlan(
        verdict=words.get(len(separated), f"Separated: {', '.join(separated)}"),
        spare=len(rows) - len(MOTIONS) + len(blind),
        motions=motions,
    )


def _seen(channel: Channel, arm: float) -> list[float]:
    """Return what a channel reads of each motion of one, rotations told at the arm."""
    place = channel.aft, channel.starboard, channel.up
    axis = list(DIRECTIONS).index(channel.direction)
    unit = [float(axis == i) for i in range(3)]
    turned = (
        place[1] * unit[2] - place[2] * unit[1],
        place[2] * unit[0] - place[0] * unit[2],
        place[0] * unit[1] - place[1] * unit[0],
    )
    return [*unit, *(part / arm for part in turned)]


def _motion(
    number: int,
    values: Sequence[float],
    vectors: Sequence[Sequence[float]],
    blind: Sequence[int],
) -> SeenMotion:
    """Return the state of a motion: separated, not seen, or which motions look the same."""
    size = range(len(MOTIONS))
    shared = [sum(vectors[number][k] * vectors[other][k] for k in blind) for other in size]
    if shared[number] < LEAST:
        gain = sum(vectors[number][k] ** 2 / values[k] for k in size if k not in blind)
        return SeenMotion(MOTIONS[number], "separated", math.sqrt(gain))
    others = [MOTIONS[other] for other in size if other != number and abs(shared[other]) > LEAST]
    state = f"mixed with {', '.join(others)}" if others else "not seen"
    return SeenMotion(MOTIONS[number], state, None)
