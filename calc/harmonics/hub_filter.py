"""Hub load transfer: which loads of the rotating blades reach the airframe, at what frequency."""

import cmath
import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Annotated

from calc.chart import Axis, Cells, Chart, Rule
from calc.declaration import Name
from calc.harmonics.hub_loads import (
    BLADE_ROWS,
    HUB_HARMONICS,
    IN_PLANE,
    VERTICAL,
    Blade,
    HubHarmonic,
    loads_of,
)
from calc.quantity import Quantity
from calc.units import SHARE

BLADES = Quantity("N_b", "Number of blades", at_least=1, at_most=16, whole=True, example=4)
HARMONIC = Quantity(
    "n", "Harmonic of the blade load", at_least=0, at_most=100, whole=True, example=3
)
DIFFERENCE = Quantity(
    r"\epsilon",
    "Blade-to-blade dissimilarity: load of one blade",
    SHARE,
    at_least=-1.0,
    example=0.05,
)


@dataclass(frozen=True, slots=True)
class HubFilter:
    """What a rotor transfers to the airframe, in words and as a table."""

    verdict: Annotated[str, Name("Hub load transfer")]
    loads: Annotated[tuple[HubHarmonic, ...], HUB_HARMONICS]


def hub_harmonics(
    blades: Annotated[int, BLADES], harmonic: Annotated[int, HARMONIC]
) -> Annotated[tuple[HubHarmonic, ...], HUB_HARMONICS]:
    r"""Return what one harmonic of equal loads on equal blades becomes in the airframe.

    $$ F_z = \sum_{k=1}^{N_b} \cos n \psi_k, \quad F_x = \sum_{k=1}^{N_b} \cos n \psi_k \cos \psi_k,
       \quad \psi_k = \psi + \frac{2 \pi k}{N_b} $$

    Vertical shear and torque are left only where $n$ is a multiple of the number of blades, with
    the factor $N_b$.  In-plane force and hub moment are left only where $n - 1$ or $n + 1$ is, at
    that multiple, with $N_b / 2$ along each axis.  Everything else cancels at the hub.

    Args:
        blades: Number of equal, equally spaced blades; scalar.
        harmonic: Cycles of the load per revolution, in the rotating blade; scalar.

    Returns:
        The loads that do not cancel; rows.

    Raises:
        ValueError: If an argument is not a whole number or breaks its limits.

    Source:
        The sum of equally spaced unit vectors; for blades that differ, Morduchow and Muzyka
        (1958).

    Examples:
        >>> [(load.multiple, load.factor) for load in hub_harmonics(4, 3)]
        [(4, 2.0)]
        >>> hub_harmonics(4, 2)
        ()
    """
    BLADES.check(blades)
    HARMONIC.check(harmonic)
    sums = {
        multiple: complex(blades) if multiple % blades == 0 else 0j
        for multiple in range(harmonic - 1, harmonic + 2)
    }
    return loads_of(sums, harmonic)


def hub_filter(
    blades: Annotated[int, BLADES],
    harmonic: Annotated[int, HARMONIC],
    load_difference: Annotated[float, DIFFERENCE] = 0.0,
) -> HubFilter:
    r"""Return what one harmonic of blade load becomes in the airframe, one blade being different.

    $$ S_m = \sum_{k=1}^{N_b} w_k \mathrm{e}^{2 \pi \mathrm{i} m (k - 1) / N_b},
       \quad w_1 = 1 + \epsilon, \quad w_2 = \ldots = w_{N_b} = 1 $$

    The vertical shear is $S_n$ at $n$ per revolution.  The in-plane force is $S_{n \pm 1} / 2$
    along each axis at $n \pm 1$: that at $n + 1$ turns with the rotor, that at $n - 1$ against it.
    The phase is that of the sum.  With $\epsilon = 0$ only multiples of the number of blades are
    left; the odd blade adds $\epsilon$ to every vertical and $\epsilon / 2$ to every in-plane
    harmonic.

    Args:
        blades: Number of equally spaced blades; scalar.
        harmonic: Cycles of the load per revolution, in the rotating blade; scalar.
        load_difference: Load on one blade over that on the others, less one; scalar.

    Returns:
        The loads that do not cancel, in words and as rows.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Sum over the blades; the same theory in Morduchow and Muzyka (1958).

    Examples:
        >>> hub_filter(4, 3).verdict
        '3/rev in each of 4 blades becomes 4/rev in-plane force and hub moment in the airframe'
        >>> [(load.multiple, round(load.factor, 3)) for load in hub_filter(4, 2, 0.05).loads]
        [(2, 0.05), (1, 0.025), (3, 0.025)]
    """
    BLADES.check(blades)
    HARMONIC.check(harmonic)
    DIFFERENCE.check(load_difference)
    rotor = _one_odd_blade(blades, load_difference)
    loads = uneven_hub_harmonics(rotor, harmonic)
    return HubFilter(_verdict(blades, harmonic, loads), loads)


def uneven_hub_harmonics(
    blades: Annotated[tuple[Blade, ...], BLADE_ROWS], harmonic: Annotated[int, HARMONIC]
) -> Annotated[tuple[HubHarmonic, ...], HUB_HARMONICS]:
    r"""Return what a harmonic becomes in the airframe when blades differ in place or in load.

    $$ S_m = \sum_k w_k \mathrm{e}^{\mathrm{i} m \psi_k} $$

    Each blade meets the same load at the same azimuth.  The vertical shear is $S_n$ at $n$ per
    revolution, the in-plane force $S_{n \pm 1} / 2$ along each axis at $n \pm 1$.

    Args:
        blades: Place on the hub and load of each blade; rows.
        harmonic: Cycles of the load per revolution, in the rotating blade; scalar.

    Returns:
        The loads that do not cancel; rows.

    Raises:
        ValueError: If a blade or the harmonic is not finite or breaks its limits.

    Source:
        Sum over the blades; the same theory in Morduchow and Muzyka (1958).

    Examples:
        >>> pair = (Blade(0.0), Blade(math.pi))
        >>> [(load.multiple, round(load.factor, 3)) for load in uneven_hub_harmonics(pair, 1)]
        [(0, 1.0), (2, 1.0)]
    """
    BLADE_ROWS.check(blades)
    HARMONIC.check(harmonic)
    sums = {
        multiple: sum(blade.strength * cmath.exp(1j * multiple * blade.azimuth) for blade in blades)
        for multiple in range(harmonic - 1, harmonic + 2)
    }
    return loads_of(sums, harmonic)


def hub_filter_chart(
    blades: int,
    harmonic: int,
    load_difference: float = 0.0,
) -> Chart:
    """Return a map of what every harmonic of the blade load becomes in the airframe."""
    rotor = _one_odd_blade(blades, load_difference)
    span = range(max(harmonic, 2 * blades) + 2)
    classes = {VERTICAL: 1, IN_PLANE: 2}
    rows = [[0] * len(span) for _ in range(len(span) + 1)]
    for column in span:
        for load in uneven_hub_harmonics(rotor, column):
            rows[load.multiple][column] = classes[load.component]
    return Chart(
        title=f"Hub load transfer of {blades} blades",
        description="Each column is a harmonic of the blade load, each row a multiple of rotor "
        "speed in the airframe; a filled cell is a load that does not cancel at the hub.",
        x=Axis("Harmonic in the rotating blade, per rev", low=-0.5, high=len(span) - 0.5),
        y=Axis("Multiple in the airframe, per rev", low=-0.5, high=len(rows) - 0.5),
        marks=(
            Cells(
                [column - 0.5 for column in range(len(span) + 1)],
                [row - 0.5 for row in range(len(rows) + 1)],
                rows,
                ("cancels at the hub", VERTICAL, IN_PLANE),
            ),
            Rule(float(harmonic), "x", f"{harmonic}/rev"),
        ),
    )


def _one_odd_blade(blades: int, difference: float) -> tuple[Blade, ...]:
    """Return equally spaced blades of which the first is loaded differently."""
    return tuple(
        Blade(2.0 * math.pi * k / blades, 1.0 if k else 1.0 + difference) for k in range(blades)
    )


def _verdict(blades: int, harmonic: int, loads: Iterable[HubHarmonic]) -> str:
    """Return in words what reaches the airframe."""
    named = [f"{_per_rev(load.multiple)} {load.component}" for load in loads]
    if not named:
        return (
            f"{_per_rev(harmonic)} in each of {blades} blades cancels at the hub and is not "
            "transmitted to the airframe"
        )
    became = " and ".join(named)
    return f"{_per_rev(harmonic)} in each of {blades} blades becomes {became} in the airframe"


def _per_rev(multiple: int) -> str:
    return f"{multiple}/rev" if multiple else "steady"
