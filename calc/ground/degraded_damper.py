"""Degraded damper: one lag damper that has lost its damping, or has seized."""

from dataclasses import dataclass, replace
from typing import Annotated

from calc.chart import Axis, Band, Chart, Line, Rule
from calc.declaration import Nothing
from calc.ground import dissimilar
from calc.ground.aircraft import assembled
from calc.ground.critical_share import averaged_share, critical_share, harmonic_share
from calc.ground.quantities import (
    BLADE_MASS,
    DAMPING_X,
    DAMPING_Y,
    FIRST_MOMENT,
    GROWTH_RATE,
    HIGHEST_SPEED,
    HINGE_OFFSET,
    HUB_MASS,
    LAG_DAMPING,
    LAG_INERTIA,
    LAG_STIFFNESS,
    LOWEST_SPEED,
    MASS_X,
    MASS_Y,
    ROTOR_SPEED,
    STIFFNESS_X,
    STIFFNESS_Y,
    THREE_BLADES,
)
from calc.ground.stability import sampled_growth, worst_speed
from calc.ground.verdict import (
    BANDS,
    TIME_TO_DOUBLE,
    VERDICT,
    WORST_SPEED,
    UnstableBand,
    time_to_double,
    words,
)
from calc.quantity import Quantity
from calc.units import GROWTH, SHARE

WORKING_DAMPING = Quantity(
    LAG_DAMPING.symbol, LAG_DAMPING.label, LAG_DAMPING.units, above=0.0, example=5500.0
)
DAMPER_SHARE = Quantity(
    "d", "Damping left in one damper as a share of the others", SHARE, at_least=0.0, example=0.0
)
AVERAGED_GROWTH = Quantity(r"\sigma_{av}", "Growth rate if the loss is spread over all", GROWTH)
CRITICAL_SHARE = Quantity("d_{crit}", "Least share that is stable", SHARE)
AVERAGED_SHARE = Quantity("d_{av}", "The same if the loss is spread over all", SHARE)
HARMONIC_SHARE = Quantity("d_h", "The same from the harmonic mean", SHARE)


@dataclass(frozen=True, slots=True)
class OneDamper:
    """The verdict with one damper different, and what averaging would say."""

    verdict: Annotated[str, VERDICT]
    worst_speed: Annotated[float, WORST_SPEED]
    growth_rate: Annotated[float, GROWTH_RATE]
    time_to_double: Annotated[float, TIME_TO_DOUBLE]
    bands: Annotated[tuple[UnstableBand, ...], BANDS]
    averaged_growth: Annotated[float, AVERAGED_GROWTH]


@dataclass(frozen=True, slots=True)
class CriticalShare:
    """How much of one damper must be left, and two estimates."""

    critical_share: Annotated[float, CRITICAL_SHARE]
    averaged_share: Annotated[float, AVERAGED_SHARE]
    harmonic_share: Annotated[float, HARMONIC_SHARE]


def degraded_damper(
    blades: Annotated[int, THREE_BLADES],
    blade_mass: Annotated[float, BLADE_MASS],
    first_moment: Annotated[float, FIRST_MOMENT],
    lag_inertia: Annotated[float, LAG_INERTIA],
    hinge_offset: Annotated[float, HINGE_OFFSET],
    lag_stiffness: Annotated[float, LAG_STIFFNESS],
    lag_damping: Annotated[float, WORKING_DAMPING],
    mass_x: Annotated[float, MASS_X],
    mass_y: Annotated[float, MASS_Y],
    stiffness_x: Annotated[float, STIFFNESS_X],
    stiffness_y: Annotated[float, STIFFNESS_Y],
    damping_x: Annotated[float, DAMPING_X],
    damping_y: Annotated[float, DAMPING_Y],
    damper_share: Annotated[float, DAMPER_SHARE],
    lowest_speed: Annotated[float, LOWEST_SPEED],
    highest_speed: Annotated[float, HIGHEST_SPEED],
    hub_mass: Annotated[str, HUB_MASS] = "without_blades",
) -> OneDamper:
    r"""Return the verdict over rotor speed with one lag damper that differs from the others.

    $$ C_{\zeta,1} = d C_\zeta, \qquad C_{\zeta,2} = \dots = C_{\zeta,N} = C_\zeta $$

    A share of zero is a damper inoperative, a share of thousands one that has seized.  The
    blades are taken one by one: eigenvalues in the rotating frame on a hub alike in both
    directions, Floquet's theory on any other.  The last output is what eigenvalues would say with
    $\frac{N - 1 + d}{N} C_\zeta$ on every blade, which is not conservative for a weak damper.

    Args:
        blades: Number of blades; scalar.
        blade_mass: Mass of one blade outboard of its lag hinge; scalar, kg.
        first_moment: First moment of one blade about its lag hinge; scalar, kg·m.
        lag_inertia: Second moment of one blade about its lag hinge; scalar, kg·m².
        hinge_offset: Distance of the lag hinge from the shaft; scalar, m.
        lag_stiffness: Lag spring of one blade; scalar, N·m/rad.
        lag_damping: Lag damper of one blade; scalar, N·m·s/rad.
        mass_x: Effective hub mass in x; scalar, kg.
        mass_y: Effective hub mass in y; scalar, kg.
        stiffness_x: Effective hub stiffness in x; scalar, N/m.
        stiffness_y: Effective hub stiffness in y; scalar, N/m.
        damping_x: Effective hub damping in x; scalar, N·s/m.
        damping_y: Effective hub damping in y; scalar, N·s/m.
        damper_share: Damping of the first blade over that of the others; scalar.
        lowest_speed: Start of the sweep; scalar, rad/s.
        highest_speed: End of the sweep; scalar, rad/s.
        hub_mass: Whether the hub masses have the blades in them; word.

    Returns:
        The least stable motion, the unstable bands, and the growth rate that averaging gives.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Hammond (1974), the problem and the method; equations derived anew.

    Examples:
        >>> found = degraded_damper(
        ...     4, 50.0, 115.0, 350.0, 0.25, 0.0, 5500.0, 3000.0, 1400.0,
        ...     600e3, 640e3, 6000.0, 4000.0, 0.0, 4.0, 42.0,
        ... )
        >>> found.growth_rate > 0.0 > found.averaged_growth
        True
    """
    rotor, support = assembled(
        (blades, blade_mass, first_moment, lag_inertia, hinge_offset, lag_stiffness, lag_damping),
        (mass_x, mass_y),
        (stiffness_x, stiffness_y, damping_x, damping_y),
        hub_mass,
    )
    WORKING_DAMPING.check(lag_damping)
    DAMPER_SHARE.check(damper_share)
    dampings = (damper_share * lag_damping, *(lag_damping,) * (blades - 1))
    average = (blades - 1 + damper_share) / blades * lag_damping
    averaged = replace(rotor, lag_damping=average)
    worst = dissimilar.worst_speed(rotor, support, dampings, lowest_speed, highest_speed)
    bands = dissimilar.unstable_bands(rotor, support, dampings, lowest_speed, highest_speed)
    return OneDamper(
        verdict=words(bands),
        worst_speed=worst[0],
        growth_rate=worst[1],
        time_to_double=time_to_double(worst[1]),
        bands=tuple(UnstableBand(*band) for band in bands),
        averaged_growth=worst_speed(averaged, support, lowest_speed, highest_speed)[1],
    )


def degraded_damper_chart(
    blades: Annotated[int, THREE_BLADES],
    blade_mass: Annotated[float, BLADE_MASS],
    first_moment: Annotated[float, FIRST_MOMENT],
    lag_inertia: Annotated[float, LAG_INERTIA],
    hinge_offset: Annotated[float, HINGE_OFFSET],
    lag_stiffness: Annotated[float, LAG_STIFFNESS],
    lag_damping: Annotated[float, WORKING_DAMPING],
    mass_x: Annotated[float, MASS_X],
    mass_y: Annotated[float, MASS_Y],
    stiffness_x: Annotated[float, STIFFNESS_X],
    stiffness_y: Annotated[float, STIFFNESS_Y],
    damping_x: Annotated[float, DAMPING_X],
    damping_y: Annotated[float, DAMPING_Y],
    damper_share: Annotated[float, DAMPER_SHARE],
    lowest_speed: Annotated[float, LOWEST_SPEED],
    highest_speed: Annotated[float, HIGHEST_SPEED],
    hub_mass: Annotated[str, HUB_MASS] = "without_blades",
) -> Chart:
    """Return the growth rate over rotor speed by single blades, by averaging, and when whole."""
    rotor, support = assembled(
        (blades, blade_mass, first_moment, lag_inertia, hinge_offset, lag_stiffness, lag_damping),
        (mass_x, mass_y),
        (stiffness_x, stiffness_y, damping_x, damping_y),
        hub_mass,
    )
    dampings = (damper_share * lag_damping, *(lag_damping,) * (blades - 1))
    average = (blades - 1 + damper_share) / blades * lag_damping
    averaged = replace(rotor, lag_damping=average)
    bands = dissimilar.unstable_bands(rotor, support, dampings, lowest_speed, highest_speed)
    single = dissimilar.sampled_growth(rotor, support, dampings, lowest_speed, highest_speed)
    return Chart(
        title="Growth rate with one damper different",
        description="Averaging the dampers shows less growth than the blades taken one by one.",
        x=Axis.of(ROTOR_SPEED, lowest_speed, highest_speed),
        y=Axis.of(GROWTH_RATE),
        marks=(
            *(Band(low, high, "x", "unstable", hatched=True) for low, high in bands),
            Rule(0.0, "y", ""),
            Line(single, "blades one by one", 1),
            Line(sampled_growth(averaged, support, lowest_speed, highest_speed), "averaged", 2),
            Line(sampled_growth(rotor, support, lowest_speed, highest_speed), "all whole", 3),
        ),
    )


def critical_damper_share(
    blades: Annotated[int, THREE_BLADES],
    blade_mass: Annotated[float, BLADE_MASS],
    first_moment: Annotated[float, FIRST_MOMENT],
    lag_inertia: Annotated[float, LAG_INERTIA],
    hinge_offset: Annotated[float, HINGE_OFFSET],
    lag_stiffness: Annotated[float, LAG_STIFFNESS],
    lag_damping: Annotated[float, WORKING_DAMPING],
    mass_x: Annotated[float, MASS_X],
    mass_y: Annotated[float, MASS_Y],
    stiffness_x: Annotated[float, STIFFNESS_X],
    stiffness_y: Annotated[float, STIFFNESS_Y],
    damping_x: Annotated[float, DAMPING_X],
    damping_y: Annotated[float, DAMPING_Y],
    lowest_speed: Annotated[float, LOWEST_SPEED],
    highest_speed: Annotated[float, HIGHEST_SPEED],
    hub_mass: Annotated[str, HUB_MASS] = "without_blades",
) -> Annotated[CriticalShare | None, Nothing("Unstable even with every damper working")]:
    r"""Return how much of one lag damper must be left for the rotor to be stable.

    $$ \max_{\Omega} \sigma(\Omega; d_{crit} C_\zeta, C_\zeta, \dots) = 0, \qquad
    d_{av} = N \frac{C_{\zeta,req}}{C_\zeta} - (N - 1), \qquad
    \frac{1}{d_h} = N \frac{C_\zeta}{C_{\zeta,req}} - (N - 1) $$

    The first is by blades taken one by one.  The second spreads the loss over all dampers and is
    not conservative: a value below zero says that the damper could be missing.  The third puts
    the harmonic mean of the dampers in place of the mean, which is exact for weak coupling at
    coalescence and asks for too much otherwise.  $C_{\zeta,req}$ is the least damping with all
    dampers alike.

    Args:
        blades: Number of blades; scalar.
        blade_mass: Mass of one blade outboard of its lag hinge; scalar, kg.
        first_moment: First moment of one blade about its lag hinge; scalar, kg·m.
        lag_inertia: Second moment of one blade about its lag hinge; scalar, kg·m².
        hinge_offset: Distance of the lag hinge from the shaft; scalar, m.
        lag_stiffness: Lag spring of one blade; scalar, N·m/rad.
        lag_damping: Lag damper of one blade; scalar, N·m·s/rad.
        mass_x: Effective hub mass in x; scalar, kg.
        mass_y: Effective hub mass in y; scalar, kg.
        stiffness_x: Effective hub stiffness in x; scalar, N/m.
        stiffness_y: Effective hub stiffness in y; scalar, N/m.
        damping_x: Effective hub damping in x; scalar, N·s/m.
        damping_y: Effective hub damping in y; scalar, N·s/m.
        lowest_speed: Start of the sweep; scalar, rad/s.
        highest_speed: End of the sweep; scalar, rad/s.
        hub_mass: Whether the hub masses have the blades in them; word.

    Returns:
        The least share and two estimates, or None.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Hammond (1974), the problem and the method; harmonic mean derived here.

    Examples:
        >>> found = critical_damper_share(
        ...     4, 50.0, 115.0, 350.0, 0.25, 0.0, 5500.0, 3000.0, 1400.0,
        ...     600e3, 640e3, 6000.0, 4000.0, 4.0, 42.0,
        ... )
        >>> found.averaged_share < found.critical_share < found.harmonic_share
        True
    """
    rotor, support = assembled(
        (blades, blade_mass, first_moment, lag_inertia, hinge_offset, lag_stiffness, lag_damping),
        (mass_x, mass_y),
        (stiffness_x, stiffness_y, damping_x, damping_y),
        hub_mass,
    )
    WORKING_DAMPING.check(lag_damping)
    share = critical_share(rotor, support, lowest_speed, highest_speed)
    if share is None:
        return None
    return CriticalShare(
        critical_share=share,
        averaged_share=averaged_share(rotor, support, lowest_speed, highest_speed),
        harmonic_share=harmonic_share(rotor, support, lowest_speed, highest_speed),
    )
