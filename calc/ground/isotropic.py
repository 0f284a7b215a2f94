"""Isotropic support: the unstable band without any damping, from three numbers."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.chart import Axis, Chart, Line, Region
from calc.declaration import Method, Nothing
from calc.ground.quantities import COUPLING
from calc.numeric.roots import crossing
from calc.quantity import Quantity

OFFSET_RATIO = Quantity(
    r"\Lambda_1", "Offset ratio e S / I", at_least=0.0, at_most=2.0, example=0.08
)
SPRING_RATIO = Quantity(
    r"\Lambda_2",
    "Spring ratio K / (I times the square of the support frequency)",
    at_least=0.0,
    example=0.0,
)
COUPLING_RATIO = Quantity(r"\Lambda", "Coupling parameter", above=0.0, below=1.0, example=0.04)
SPEED_RATIO = Quantity(
    r"\Omega/\omega_x", "Rotor speed over support frequency", at_least=0.0, example=1.4
)
LOWER_EDGE = Quantity(r"\Omega_1/\omega_x", "Lower edge over support frequency")
UPPER_EDGE = Quantity(r"\Omega_2/\omega_x", "Upper edge over support frequency")
COALESCENCE_RATIO = Quantity(r"\Omega^*/\omega_x", "Coalescence over support frequency")
DISCRIMINANT = Quantity(r"\Delta", "Discriminant of the quartic")


@dataclass(frozen=True, slots=True)
class Band:
    """The unstable band of an undamped rotor on an isotropic support."""

    lower_edge: Annotated[float, LOWER_EDGE]
    coalescence: Annotated[float, COALESCENCE_RATIO]
    upper_edge: Annotated[float, UPPER_EDGE]


def discriminant(
    speed_ratio: Annotated[float, SPEED_RATIO],
    offset_ratio: Annotated[float, OFFSET_RATIO],
    spring_ratio: Annotated[float, SPRING_RATIO],
    coupling_parameter: Annotated[float, COUPLING_RATIO],
) -> Annotated[float, DISCRIMINANT]:
    r"""Return the discriminant of the quartic of an undamped rotor; below zero is unstable.

    In units of the support frequency, $\omega_x = 1$, with whirl $e^{\mathrm{i} \omega t}$:

    $$ (1 - \Lambda_3) \omega^4 - 2 \Omega \omega^3
    + (\Omega^2 - \omega_\xi^2 - 1) \omega^2 + 2 \Omega \omega
    + \omega_\xi^2 - \Omega^2 = 0, \qquad \omega_\xi^2 = \Lambda_2 + \Lambda_1 \Omega^2 $$
    $$ 27 \Delta = 4 P^3 - Q^2, \qquad P = c^2 - 3 b d + 12 a e, \qquad
    Q = 2 c^3 - 9 b c d + 27 a d^2 + 27 b^2 e - 72 a c e $$

    $a$ to $e$ are the coefficients from the highest power down.  A negative discriminant means
    two real roots and a complex pair, one of which grows.  Three or more blades, no damping.

    Args:
        speed_ratio: Rotor speed over support frequency; scalar.
        offset_ratio: Hinge offset times first moment over second moment; scalar.
        spring_ratio: Lag spring over second moment and support frequency squared; scalar.
        coupling_parameter: N_b S² over twice second moment times hub mass with blades; scalar.

    Returns:
        The discriminant; scalar.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Coleman and Feingold (1958), the three numbers; quartic derived anew.

    Examples:
        >>> discriminant(1.4, 0.08, 0.0, 0.04) < 0.0 < discriminant(0.5, 0.08, 0.0, 0.04)
        True
    """
    SPEED_RATIO.check(speed_ratio)
    OFFSET_RATIO.check(offset_ratio)
    SPRING_RATIO.check(spring_ratio)
    COUPLING_RATIO.check(coupling_parameter)
    lag = spring_ratio + offset_ratio * speed_ratio**2
    a = 1.0 - coupling_parameter
    b = -2.0 * speed_ratio
    c = speed_ratio**2 - lag - 1.0
    d = 2.0 * speed_ratio
    e = lag - speed_ratio**2
    p = c**2 - 3.0 * b * d + 12.0 * a * e
    q = 2.0 * c**3 - 9.0 * b * c * d + 27.0 * a * d**2 + 27.0 * b**2 * e - 72.0 * a * c * e
    return (4.0 * p**3 - q**2) / 27.0


def undamped_band(
    offset_ratio: Annotated[float, OFFSET_RATIO],
    spring_ratio: Annotated[float, SPRING_RATIO],
    coupling_parameter: Annotated[float, COUPLING_RATIO],
) -> Annotated[
    Band | None, Nothing("The lag frequency is above the rotor speed at every speed: no band")
]:
    r"""Return the unstable band of an undamped rotor on a hub alike in both directions.

    $$ \Delta(\Omega_1) = \Delta(\Omega_2) = 0, \qquad
    \Omega^* - \sqrt{\Lambda_2 + \Lambda_1 \Omega^{*2}} = 1 $$

    There is one band and it contains the coalescence speed.  Three or more blades.

    Args:
        offset_ratio: Hinge offset times first moment over second moment; scalar.
        spring_ratio: Lag spring over second moment and support frequency squared; scalar.
        coupling_parameter: N_b S² over twice second moment times hub mass with blades; scalar.

    Returns:
        Edges and coalescence speed over the support frequency, or None.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Coleman and Feingold (1958), the three numbers; quartic derived anew.

    Examples:
        >>> band = undamped_band(0.08, 0.0, 0.04)
        >>> round(band.lower_edge, 5), round(band.upper_edge, 5)
        (0.97679, 1.83947)
    """
    OFFSET_RATIO.check(offset_ratio)
    SPRING_RATIO.check(spring_ratio)
    COUPLING_RATIO.check(coupling_parameter)
    if offset_ratio >= 1.0:
        return None
    root = math.sqrt(offset_ratio + (1.0 - offset_ratio) * spring_ratio)
    coalescence = (1.0 + root) / (1.0 - offset_ratio)
    lower_edge = _edge(offset_ratio, spring_ratio, coupling_parameter, coalescence, 1.0 / 1.05)
    upper_edge = _edge(offset_ratio, spring_ratio, coupling_parameter, coalescence, 1.05)
    return Band(lower_edge=lower_edge, coalescence=coalescence, upper_edge=upper_edge)


def band_chart(
    offset_ratio: float,
    spring_ratio: float,
    coupling_parameter: float,
) -> Chart:
    """Return how the band widens with the coupling parameter, for one hinge offset and spring."""
    largest = max(0.1, 1.5 * coupling_parameter)
    couplings = [largest * (number / 40.0) ** 2 for number in range(1, 41)]
    bands = [undamped_band(offset_ratio, spring_ratio, min(c, 0.99)) for c in couplings]
    lower = [(c, b.lower_edge) for c, b in zip(couplings, bands, strict=True) if b]
    upper = [(c, b.upper_edge) for c, b in zip(couplings, bands, strict=True) if b]
    middle = [(c, b.coalescence) for c, b in zip(couplings, bands, strict=True) if b]
    return Chart(
        title="Unstable band against coupling",
        description="The band of unstable rotor speeds opens from the coalescence speed "
        "and widens with the coupling parameter.",
        x=Axis.of(COUPLING, 0.0, largest),
        y=Axis("Rotor speed over support frequency", SPEED_RATIO.units[0], 0.0),
        marks=(
            Region((*lower, *reversed(upper)), "unstable", hatched=True),
            Line(lower, "lower edge", 1),
            Line(upper, "upper edge", 2),
            Line(middle, "coalescence", 3),
        ),
    )


def _edge(
    offset: float, spring: float, coupling: float, inside: float, factor: float
) -> Annotated[
    float, Method("where the discriminant of the quartic is zero, by steps from coalescence")
]:
    """Return where the discriminant turns positive, going from inside the band by a factor."""
    outside = inside * factor
    while discriminant(outside, offset, spring, coupling) < 0.0:
        inside, outside = outside, outside * factor
        if outside < 1e-3:
            return 0.0
    low, high = sorted((inside, outside))
    return crossing(lambda ratio: discriminant(ratio, offset, spring, coupling), low, high)
