"""Rotating beam: natural frequencies of an elastic blade stiffened by its rotation."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated, TypedDict, Unpack

from calc.blades.beam_elements import Element
from calc.blades.beam_modes import Held, beam, frequencies
from calc.blades.quantities import (
    BLADE_LENGTH,
    CLAMPED,
    FLAP,
    MASS_DENSITY,
    MODES,
    PLANE,
    ROOT,
    ROOT_OFFSET,
    ROOT_STIFFNESS,
    ROTOR_SPEED,
    STIFFNESS,
    TIP_MASS,
)
from calc.blades.segments import Profile, segment_elements
from calc.quantity import Quantity

SPEED_PARAMETER = Quantity(
    r"\lambda", "Rotor speed parameter", at_least=0.0, at_most=200.0, example=4.0
)
OFFSET_RATIO = Quantity(
    r"\alpha", "Root radius over blade length", at_least=0.0, at_most=10.0, example=0.0
)
TIP_MASS_RATIO = Quantity(
    r"\bar{m}_t", "Tip mass over blade mass", at_least=0.0, at_most=100.0, example=0.0
)
SPRING_RATIO = Quantity(
    r"\kappa", "Root spring times length over bending stiffness", at_least=0.0, at_most=1e6
)
FREQUENCY_PARAMETERS = tuple(
    Quantity(rf"\mu_{number}", f"{name} frequency parameter", at_least=0.0)
    for number, name in enumerate(("First", "Second", "Third", "Fourth"), 1)
)


@dataclass(frozen=True, slots=True)
class BeamParameters:
    """The four lowest frequencies of a blade, nondimensional."""

    first: Annotated[float, FREQUENCY_PARAMETERS[0]]
    second: Annotated[float, FREQUENCY_PARAMETERS[1]]
    third: Annotated[float, FREQUENCY_PARAMETERS[2]]
    fourth: Annotated[float, FREQUENCY_PARAMETERS[3]]


class Options(TypedDict, total=False):
    """How a blade is held, what its tip carries, and which of its modes are wanted.

    root: `clamped`, unless given, or `hinged`; word.
    plane: `flap`, unless given, out of the plane of rotation, or `lag`, in it; word.
    root_stiffness: Spring about a hinged root, 0 unless given; scalar, N·m/rad.
    tip_mass: Point mass at the tip, 0 unless given; scalar, kg.
    modes: How many frequencies, 4 unless given; scalar.
    """

    root: str
    plane: str
    root_stiffness: float
    tip_mass: float
    modes: int


def beam_frequencies(
    length: float,
    hinge_offset: float,
    mass_per_length: Profile,
    bending_stiffness: Profile,
    rotor_speed: float,
    **options: Unpack[Options],
) -> tuple[float, ...]:
    r"""Return the lowest natural frequencies of a blade in segments.

    $$ (EI v'')'' - (T v')' - m \omega^2 v = 0, \qquad
       T = \Omega^2 \left[\int_x^L m (e + s) \mathrm{d}s + m_t (e + L)\right],
       \qquad \omega_{lag}^2 = \omega_{flap}^2 - \Omega^2 $$

    A slender beam at zero pitch, without twist, shear, rotary inertia, or coupling with stretch;
    mass axis, tension axis and bending axis coincide.  The stiffness is the one of the plane.

    Args:
        length: Root to tip; scalar, m.
        hinge_offset: Rotor axis to root, clamped or hinged; scalar, m.
        mass_per_length: A number, or (outer station in m from the root, value) pairs; kg/m.
        bending_stiffness: A number, or (outer station in m from the root, value) pairs; N·m².
        rotor_speed: Speed of rotation; scalar, rad/s.
        options: Any of `Options`.

    Returns:
        The frequencies, lowest first; shape (modes,), rad/s.

    Raises:
        ValueError: If an argument is not finite or breaks its limits, if stations do not rise to
            the tip, or if a clamped root is given a spring.

    Source:
        Equation as in Wright, Smith, Thresher and Wang (1982); solved by finite elements.

    Examples:
        >>> [round(frequency, 4) for frequency in beam_frequencies(1.0, 0.0, 1.0, 1.0, 4.0)]
        [5.585, 24.2733, 63.9668, 123.2615]
    """
    segments = segment_elements(length, mass_per_length, bending_stiffness)
    return _frequencies(segments, hinge_offset, rotor_speed, options)


def tapered_beam_frequencies(
    length: float,
    hinge_offset: float,
    mass_per_length: tuple[float, float],
    bending_stiffness: tuple[float, float],
    rotor_speed: float,
    **options: Unpack[Options],
) -> tuple[float, ...]:
    """Return the lowest natural frequencies of a blade whose properties vary linearly.

    As `beam_frequencies`, with mass and stiffness given as values at the root and at the tip.

    Args:
        length: Root to tip; scalar, m.
        hinge_offset: Rotor axis to root, clamped or hinged; scalar, m.
        mass_per_length: Values at the root and at the tip; shape (2,), kg/m.
        bending_stiffness: Values at the root and at the tip; shape (2,), N·m².
        rotor_speed: Speed of rotation; scalar, rad/s.
        options: Any of `Options`.

    Returns:
        The frequencies, lowest first; shape (modes,), rad/s.

    Raises:
        ValueError: If an argument is not finite or breaks its limits, or if a clamped root is
            given a spring.

    Source:
        Equation as in Wright, Smith, Thresher and Wang (1982); solved by finite elements.

    Examples:
        >>> even = tapered_beam_frequencies(1.0, 0.0, (1.0, 1.0), (1.0, 1.0), 0.0)
        >>> [round(frequency, 4) for frequency in even]
        [3.516, 22.0345, 61.6972, 120.9019]
    """
    BLADE_LENGTH.check(length)
    for value in mass_per_length:
        MASS_DENSITY.check(value)
    for value in bending_stiffness:
        STIFFNESS.check(value)
    whole = Element(0.0, length, mass_per_length, bending_stiffness)
    return _frequencies([whole], hinge_offset, rotor_speed, options)


def uniform_beam(
    speed_parameter: Annotated[float, SPEED_PARAMETER],
    offset_ratio: Annotated[float, OFFSET_RATIO] = 0.0,
    root: Annotated[str, ROOT] = CLAMPED,
    plane: Annotated[str, PLANE] = FLAP,
    tip_mass_ratio: Annotated[float, TIP_MASS_RATIO] = 0.0,
    spring_ratio: Annotated[float, SPRING_RATIO] = 0.0,
) -> BeamParameters:
    r"""Return the lowest frequencies of a uniform rotating blade, nondimensional.

    $$ v'''' - \lambda^2 \left[\left(\alpha (1 - z) + \frac{1 - z^2}{2}
       + \bar{m}_t (1 + \alpha)\right) v'\right]'
       - \mu^2 v = 0, \quad \lambda = \Omega \sqrt{\frac{m L^4}{EI}}, \quad
       \mu = \omega \sqrt{\frac{m L^4}{EI}}, \quad \alpha = \frac{e}{L} $$

    As printed tables give it: $z$ is the station over the length, $\bar{m}_t = m_t / m L$ the tip
    mass and $\kappa = k L / EI$ the spring of a hinged root.  In lag,
    $\mu_{lag}^2 = \mu_{flap}^2 - \lambda^2$.

    Args:
        speed_parameter: Rotor speed times the square root of m L⁴ / EI; scalar.
        offset_ratio: Root radius over blade length; scalar.
        root: How the blade is held; word.
        plane: Flap is out of the plane of rotation, lag is in it; word.
        tip_mass_ratio: Tip mass over the mass of the blade; scalar.
        spring_ratio: Spring of a hinged root times L / EI; scalar.

    Returns:
        The four lowest frequencies times the square root of m L⁴ / EI.

    Raises:
        ValueError: If an argument is not finite or breaks its limits, or if a clamped root is
            given a spring.

    Source:
        Equation as in Wright, Smith, Thresher and Wang (1982); solved by finite elements.

    Examples:
        >>> round(uniform_beam(12.0).first, 4)
        13.1702
    """
    SPEED_PARAMETER.check(speed_parameter)
    OFFSET_RATIO.check(offset_ratio)
    TIP_MASS_RATIO.check(tip_mass_ratio)
    SPRING_RATIO.check(spring_ratio)
    parameters = beam_frequencies(
        1.0,
        offset_ratio,
        1.0,
        1.0,
        speed_parameter,
        root=root,
        plane=plane,
        root_stiffness=spring_ratio,
        tip_mass=tip_mass_ratio,
    )
    return BeamParameters(*parameters)


def _frequencies(
    segments: Sequence[Element], root_radius: float, rotor_speed: float, options: Options
) -> tuple[float, ...]:
    """Return the frequencies of a blade after the checks that all blades share."""
    plane = options.get("plane", FLAP)
    modes = options.get("modes", 4)
    held = Held(
        root_radius,
        options.get("root", CLAMPED),
        options.get("root_stiffness", 0.0),
        options.get("tip_mass", 0.0),
    )
    ROOT_OFFSET.check(held.root_radius)
    ROOT.check(held.root)
    ROOT_STIFFNESS.check(held.root_stiffness)
    TIP_MASS.check(held.tip_mass)
    ROTOR_SPEED.check(rotor_speed)
    PLANE.check(plane)
    MODES.check(modes)
    return tuple(frequencies(beam(segments, held), rotor_speed, plane, modes))
