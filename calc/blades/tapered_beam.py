"""Tapered beam: natural frequencies of a rotating blade that tapers linearly."""

from typing import Annotated

from calc.blades.quantities import (
    CLAMPED,
    FLAP,
    PLANE,
    ROOT,
)
from calc.blades.rotating_beam import (
    OFFSET_RATIO,
    SPEED_PARAMETER,
    BeamParameters,
    tapered_beam_frequencies,
)
from calc.quantity import Quantity

MASS_AT_TIP = Quantity(
    "m_1/m_0",
    "Mass per length at the tip over that at the root",
    above=0.0,
    at_most=10.0,
    example=0.5,
)
STIFFNESS_AT_TIP = Quantity(
    "EI_1/EI_0",
    "Bending stiffness at the tip over that at the root",
    above=0.0,
    at_most=10.0,
    example=0.5,
)


def tapered_beam(
    speed_parameter: Annotated[float, SPEED_PARAMETER],
    mass_at_tip: Annotated[float, MASS_AT_TIP],
    stiffness_at_tip: Annotated[float, STIFFNESS_AT_TIP],
    offset_ratio: Annotated[float, OFFSET_RATIO] = 0.0,
    root: Annotated[str, ROOT] = CLAMPED,
    plane: Annotated[str, PLANE] = FLAP,
) -> BeamParameters:
    r"""Return the lowest frequencies of a rotating blade that tapers linearly, nondimensional.

    $$ m = m_0 + (m_1 - m_0) z, \quad EI = EI_0 + (EI_1 - EI_0) z, \quad
       \lambda = \Omega \sqrt{\frac{m_0 L^4}{EI_0}}, \quad
       \mu = \omega \sqrt{\frac{m_0 L^4}{EI_0}} $$

    $z$ is the station over the length.  Mass and stiffness fall in proportion where the chord
    tapers and the thickness does not.

    Args:
        speed_parameter: Rotor speed times the square root of m₀ L⁴ / EI₀; scalar.
        mass_at_tip: Mass per length at the tip over that at the root; scalar.
        stiffness_at_tip: Bending stiffness at the tip over that at the root; scalar.
        offset_ratio: Root radius over blade length; scalar.
        root: How the blade is held; word.
        plane: Flap is out of the plane of rotation, lag is in it; word.

    Returns:
        The four lowest frequencies times the square root of m₀ L⁴ / EI₀.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Equation as in Wright, Smith, Thresher and Wang (1982); solved by finite elements.

    Examples:
        >>> round(tapered_beam(0.0, 0.5, 0.5).first, 4)
        4.3152
    """
    SPEED_PARAMETER.check(speed_parameter)
    MASS_AT_TIP.check(mass_at_tip)
    STIFFNESS_AT_TIP.check(stiffness_at_tip)
    OFFSET_RATIO.check(offset_ratio)
    parameters = tapered_beam_frequencies(
        1.0,
        offset_ratio,
        (1.0, mass_at_tip),
        (1.0, stiffness_at_tip),
        speed_parameter,
        root=root,
        plane=plane,
    )
    return BeamParameters(*parameters)
