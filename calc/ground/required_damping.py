"""Required damping: what lag dampers or undercarriage must give, by eigenvalues over a sweep."""

from dataclasses import dataclass
from typing import Annotated

from calc.chart import Chart
from calc.declaration import Nothing
from calc.ground.model.aircraft import Hub, LagRotor
from calc.ground.quantities import (
    HIGHEST_SPEED,
    LOWEST_SPEED,
    REQUIRED_LAG_DAMPING,
)
from calc.ground.search.damping_map import damping_map
from calc.ground.search.needed_damping import FACTOR, minimum_lag_damping, minimum_support_damping
from calc.quantity import Quantity
from calc.units import DAMPING

MARGIN = Quantity("m", "Available over required damping")
NEEDED_X = Quantity("C_{x,req}", "Required hub damping, longitudinal", DAMPING)
NEEDED_Y = Quantity("C_{y,req}", "Required hub damping, lateral", DAMPING)


@dataclass(frozen=True, slots=True)
class LagDamping:
    """The least lag damping and how much more there is."""

    required_lag_damping: Annotated[float, REQUIRED_LAG_DAMPING]
    margin: Annotated[float, MARGIN]


@dataclass(frozen=True, slots=True)
class SupportDamping:
    """The least hub damping, both directions in proportion, and how much more there is."""

    required_damping_x: Annotated[float, NEEDED_X]
    required_damping_y: Annotated[float, NEEDED_Y]
    margin: Annotated[float, MARGIN]


def required_lag_damping(
    rotor: LagRotor,
    hub: Hub,
    lowest_speed: Annotated[float, LOWEST_SPEED],
    highest_speed: Annotated[float, HIGHEST_SPEED],
) -> Annotated[LagDamping | None, Nothing("No lag damping is enough with this hub damping")]:
    r"""Return the least lag damping of each blade that is stable at every rotor speed of a sweep.

    $$ \max_{\Omega} \max_j \operatorname{Re} s_j(\Omega; C_{\xi,req}) = 0, \qquad
    m = C_\xi / C_{\xi,req} $$

    By eigenvalues, so that support modes near each other and heavy damping are covered.  With a
    stable aircraft the margin is above one.

    Args:
        rotor: Blades and lag hinges.
        hub: Effective masses, stiffness and damping at the hub.
        lowest_speed: Start of the sweep; scalar, rad/s.
        highest_speed: End of the sweep; scalar, rad/s.

    Returns:
        The damping of one blade and the margin, or None.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Coleman and Feingold (1958), the theory; equations derived anew.

    Examples:
        >>> from calc.ground.model.aircraft import Rotor
        >>> found = required_lag_damping(
        ...     Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2000.0),
        ...     Hub(3000.0, 1400.0, 600e3, 640e3, 6000.0, 4000.0), 4.0, 42.0,
        ... )
        >>> 0.0 < found.margin < 1.0
        True
    """
    support = hub.support(rotor)
    required = minimum_lag_damping(rotor, support, lowest_speed, highest_speed)
    if required is None:
        return None
    margin = rotor.lag_damping / required if required else float("inf")
    return LagDamping(required_lag_damping=required, margin=margin)


def required_support_damping(
    rotor: LagRotor,
    hub: Hub,
    lowest_speed: Annotated[float, LOWEST_SPEED],
    highest_speed: Annotated[float, HIGHEST_SPEED],
) -> Annotated[SupportDamping | None, Nothing("No hub damping is enough with this lag damping")]:
    r"""Return the least hub damping that is stable at every rotor speed of a sweep.

    $$ \max_{\Omega} \max_j \operatorname{Re} s_j(\Omega; C_{x,req}, C_{y,req}) = 0, \qquad
    \frac{C_{x,req}}{C_x} = \frac{C_{y,req}}{C_y} = \frac{1}{m} $$

    Both directions change in the proportion that they are given in.

    Args:
        rotor: Blades and lag hinges.
        hub: Effective masses, stiffness and damping at the hub.
        lowest_speed: Start of the sweep; scalar, rad/s.
        highest_speed: End of the sweep; scalar, rad/s.

    Returns:
        The damping of both directions and the margin, or None.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Coleman and Feingold (1958), the theory; equations derived anew.

    Examples:
        >>> from calc.ground.model.aircraft import Rotor
        >>> found = required_support_damping(
        ...     Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2000.0),
        ...     Hub(3000.0, 1400.0, 600e3, 640e3, 6000.0, 4000.0), 4.0, 42.0,
        ... )
        >>> 0.0 < found.margin < 1.0
        True
    """
    support = hub.support(rotor)
    factor: Annotated[float | None, FACTOR] = minimum_support_damping(
        rotor, support, lowest_speed, highest_speed
    )
    if factor is None:
        return None
    return SupportDamping(
        required_damping_x=factor * hub.damping_x,
        required_damping_y=factor * hub.damping_y,
        margin=1.0 / factor if factor else float("inf"),
    )


def required_lag_damping_chart(
    rotor: LagRotor,
    hub: Hub,
    lowest_speed: float,
    highest_speed: float,
) -> Chart:
    """Return the stability map: lag damping needed against hub damping, with the hyperbola."""
    support = hub.support(rotor)
    return damping_map(rotor, support, lowest_speed, highest_speed)
