"""Degraded damper: one lag damper that has lost its damping, or has seized."""

import math
from dataclasses import dataclass, replace
from typing import Annotated

from calc.chart import Chart, Line
from calc.declaration import Nothing
from calc.ground import dissimilar
from calc.ground.examples import PLOVER_DAMPED_SUPPORT
from calc.ground.model import floquet
from calc.ground.model.aircraft import Hub, LagRotor, Rotor
from calc.ground.model.general_support import two_directions
from calc.ground.quantities import (
    DAMPING_Y,
    GROWTH_RATE,
    HIGHEST_SPEED,
    LAG_DAMPING,
    LOWEST_SPEED,
)
from calc.ground.search.critical_share import averaged_share, critical_share, harmonic_share
from calc.ground.search.growth_chart import growth_chart, unstable
from calc.ground.search.least_damped import LEAST_STABLE_FREQUENCY, PERCENT_CRITICAL, ratio
from calc.ground.search.verdict import (
    BANDS,
    TIME_TO_DOUBLE,
    VERDICT,
    WORST_SPEED,
    UnstableBand,
    time_to_double,
    words,
)
from calc.ground.stability import sampled_growth, worst_speed
from calc.quantity import Quantity
from calc.units import GROWTH, SHARE

WORKING_DAMPING = replace(LAG_DAMPING, at_least=-math.inf, above=0.0)
DAMPER_SHARE = Quantity(
    "d", "Damping left in one damper, fraction of the others", SHARE, at_least=0.0, example=0.0
)
AVERAGED_GROWTH = Quantity(r"\sigma_{av}", "Growth rate if the loss is spread over all", GROWTH)
CRITICAL_SHARE = Quantity("d_{crit}", "Least fraction that is stable", SHARE, precision=1e-5)
"""Its search ends within that."""
AVERAGED_SHARE = Quantity("d_{av}", "The same if the loss is spread over all", SHARE)
HARMONIC_SHARE = Quantity("d_h", "The same from the harmonic mean", SHARE)


DampedRotor = Annotated[LagRotor, {"lag_damping": WORKING_DAMPING}]
StableHub = Annotated[
    Hub, {"damping_y": replace(DAMPING_Y, example=PLOVER_DAMPED_SUPPORT.damping_y)}
]


@dataclass(frozen=True, slots=True)
class OneDamper:
    """The verdict with one damper different, and what averaging would say."""

    verdict: Annotated[str, VERDICT]
    worst_speed: Annotated[float, WORST_SPEED]
    growth_rate: Annotated[float, GROWTH_RATE]
    time_to_double: Annotated[float, TIME_TO_DOUBLE]
    damping_ratio: Annotated[float, PERCENT_CRITICAL]
    frequency: Annotated[float, LEAST_STABLE_FREQUENCY]
    bands: Annotated[tuple[UnstableBand, ...], BANDS]
    averaged_growth: Annotated[float, AVERAGED_GROWTH]


@dataclass(frozen=True, slots=True)
class CriticalShare:
    """How much of one damper must be left, and two estimates."""

    critical_share: Annotated[float, CRITICAL_SHARE]
    averaged_share: Annotated[float, AVERAGED_SHARE]
    harmonic_share: Annotated[float, HARMONIC_SHARE]


def degraded_damper(
    rotor: DampedRotor,
    hub: StableHub,
    damper_share: Annotated[float, DAMPER_SHARE],
    lowest_speed: Annotated[float, LOWEST_SPEED],
    highest_speed: Annotated[float, HIGHEST_SPEED],
) -> OneDamper:
    r"""Return the verdict over rotor speed with one lag damper that differs from the others.

    $$ C_{\xi,1} = d C_\xi, \qquad C_{\xi,2} = \dots = C_{\xi,N_b} = C_\xi $$

    A share of zero is a damper inoperative, a share of thousands one that has seized.  The
    blades are taken one by one: eigenvalues in the rotating frame on a hub alike in both
    directions, Floquet's theory on any other.  The last output is what eigenvalues would say with
    $\frac{N_b - 1 + d}{N_b} C_\xi$ on every blade, which is not conservative for a weak damper.

    Args:
        rotor: Blades and lag hinges.
        hub: Effective masses, stiffness and damping at the hub.
        damper_share: Damping of the first blade over that of the others; scalar.
        lowest_speed: Start of the sweep; scalar, rad/s.
        highest_speed: End of the sweep; scalar, rad/s.

    Returns:
        The least stable motion, the unstable bands, and the growth rate that averaging gives.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Hammond (1974), the problem and the method; equations derived anew.

    Examples:
        >>> found = degraded_damper(
        ...     Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2000.0),
        ...     Hub(3000.0, 1400.0, 600e3, 640e3, 6000.0, 8800.0), 0.0, 4.0, 42.0,
        ... )
        >>> found.growth_rate > 0.0 > found.averaged_growth
        True
    """
    support = hub.support(rotor)
    WORKING_DAMPING.check(rotor.lag_damping)
    DAMPER_SHARE.check(damper_share)
    dampings = _one_differs(rotor, damper_share)
    average = (rotor.blades - 1 + damper_share) / rotor.blades * rotor.lag_damping
    averaged = replace(rotor, lag_damping=average)
    worst = dissimilar.worst_speed(rotor, support, dampings, lowest_speed, highest_speed)
    bands = dissimilar.unstable_bands(rotor, support, dampings, lowest_speed, highest_speed)
    motion = floquet.least_stable(rotor, two_directions(support), worst[0], dampings)
    return OneDamper(
        verdict=words(bands, worst[0], (lowest_speed, highest_speed)),
        worst_speed=worst[0],
        growth_rate=worst[1],
        time_to_double=time_to_double(worst[1]),
        damping_ratio=ratio(motion),
        frequency=motion.imag / (2.0 * math.pi),
        bands=tuple(UnstableBand(*band) for band in bands),
        averaged_growth=worst_speed(averaged, support, lowest_speed, highest_speed)[1],
    )


def degraded_damper_chart(
    rotor: DampedRotor,
    hub: StableHub,
    damper_share: float,
    lowest_speed: float,
    highest_speed: float,
) -> Chart:
    """Return the growth rate over rotor speed by single blades, by averaging, and when whole."""
    support = hub.support(rotor)
    dampings = _one_differs(rotor, damper_share)
    averaged = replace(rotor, lag_damping=sum(dampings) / rotor.blades)
    bands = dissimilar.unstable_bands(rotor, support, dampings, lowest_speed, highest_speed)
    single = dissimilar.sampled_growth(rotor, support, dampings, lowest_speed, highest_speed)
    return growth_chart(
        "Growth rate with one damper different",
        "Averaging the dampers shows less growth than the blades taken one by one.",
        (lowest_speed, highest_speed),
        unstable(bands),
        (
            Line(single, "blades one by one", 1),
            Line(sampled_growth(averaged, support, lowest_speed, highest_speed), "averaged", 2),
            Line(sampled_growth(rotor, support, lowest_speed, highest_speed), "all whole", 3),
        ),
    )


def critical_damper_share(
    rotor: DampedRotor,
    hub: StableHub,
    lowest_speed: Annotated[float, LOWEST_SPEED],
    highest_speed: Annotated[float, HIGHEST_SPEED],
) -> Annotated[CriticalShare | None, Nothing("Unstable even with every damper working")]:
    r"""Return how much of one lag damper must be left for the rotor to be stable.

    $$ \max_{\Omega} \sigma(\Omega; d_{crit} C_\xi, C_\xi, \dots) = 0, \qquad
    d_{av} = N_b \frac{C_{\xi,req}}{C_\xi} - (N_b - 1), \qquad
    \frac{1}{d_h} = N_b \frac{C_\xi}{C_{\xi,req}} - (N_b - 1) $$

    The first is by blades taken one by one.  The second spreads the loss over all dampers and is
    not conservative: a value below zero says that the damper could be missing.  The third puts
    the harmonic mean of the dampers in place of the mean, which is exact for weak coupling at
    coalescence and asks for too much otherwise.  $C_{\xi,req}$ is the least damping with all
    dampers alike.

    Args:
        rotor: Blades and lag hinges.
        hub: Effective masses, stiffness and damping at the hub.
        lowest_speed: Start of the sweep; scalar, rad/s.
        highest_speed: End of the sweep; scalar, rad/s.

    Returns:
        The least share and two estimates, or None.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Hammond (1974), the problem and the method; harmonic mean derived here.

    Examples:
        >>> found = critical_damper_share(
        ...     Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2000.0),
        ...     Hub(3000.0, 1400.0, 600e3, 640e3, 6000.0, 8800.0), 4.0, 42.0,
        ... )
        >>> found.averaged_share < found.critical_share < found.harmonic_share
        True
    """
    support = hub.support(rotor)
    WORKING_DAMPING.check(rotor.lag_damping)
    share = critical_share(rotor, support, lowest_speed, highest_speed)
    if share is None:
        return None
    return CriticalShare(
        critical_share=share,
        averaged_share=averaged_share(rotor, support, lowest_speed, highest_speed),
        harmonic_share=harmonic_share(rotor, support, lowest_speed, highest_speed),
    )


def _one_differs(rotor: Rotor, share: float) -> tuple[float, ...]:
    """Return the lag damper of each blade, of which the first is a share of the others."""
    return (share * rotor.lag_damping, *(rotor.lag_damping,) * (rotor.blades - 1))
