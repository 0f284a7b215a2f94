"""Shake test: modes measured with the rotor at rest become hub data without the blades."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Annotated

from calc import linalg
from calc.declaration import Table
from calc.ground.body_on_gear import DAMPING_COUPLING
from calc.ground.modal_support import MODES, SupportMode
from calc.ground.model.aircraft import LagRotor
from calc.ground.model.blades_at_rest import BLADES_FITTED, OnHub, on_hub
from calc.ground.quantities import SUPPORT_DAMPING, SUPPORT_MASS, SUPPORT_STIFFNESS
from calc.quantity import InputsError, Quantity
from calc.units import DAMPING, FREQUENCY, MASS
from calc.vocabulary import DAMPING_RATIO

DUMMY_MASS = Quantity("m_d", "One dummy mass", MASS, at_least=0.0, example=50.0)
FREQUENCY_MEASURED = Quantity("f_1", "Frequency as measured", FREQUENCY, above=0.0, example=3.40)
FREQUENCY_WITH_MASS = Quantity(
    "f_2", "Frequency with the added mass", FREQUENCY, above=0.0, example=3.18
)
ADDED_MASS = Quantity(r"\Delta m", "Mass added at the hub", MASS, above=0.0, example=200.0)
BARE_FREQUENCY = Quantity("f", "Frequency", FREQUENCY)
BARE_RATIO = replace(DAMPING_RATIO, at_least=0.0)
DIRECTION_X = Quantity("n_x", "Hub motion, longitudinal part")
DIRECTION_Y = Quantity("n_y", "Hub motion, lateral part")
MASS_FELT = Quantity("m_a", "Mass that the hub felt of all blades", MASS)
DAMPING_FELT = Quantity("c_a", "Damping that it felt of them", DAMPING)


@dataclass(frozen=True, slots=True)
class BareMode:
    """A mode without the blades, on the scale at which the hub moves by one."""

    frequency: Annotated[float, BARE_FREQUENCY]
    damping_ratio: Annotated[float, BARE_RATIO]
    hub_mass: Annotated[float, SUPPORT_MASS]
    hub_stiffness: Annotated[float, SUPPORT_STIFFNESS]
    hub_damping: Annotated[float, SUPPORT_DAMPING]
    direction_x: Annotated[float, DIRECTION_X]
    direction_y: Annotated[float, DIRECTION_Y]

    @property
    def support_mode(self) -> SupportMode:
        """The mode as the other formulas take it."""
        return SupportMode(
            self.frequency, self.damping_ratio, self.hub_mass, self.direction_x, self.direction_y
        )


@dataclass(frozen=True, slots=True)
class Felt:
    """What the blades were to the hub at the frequency of a mode as it was measured."""

    frequency: Annotated[float, FREQUENCY_MEASURED]
    mass: Annotated[float, MASS_FELT]
    damping: Annotated[float, DAMPING_FELT]


TESTED_MODES = replace(
    MODES,
    label="Modes as measured",
    example=(
        SupportMode(2.18, 0.069, 3200.0, 1.0, 0.0),
        SupportMode(3.18, 0.137, 1562.0, 0.0, 1.0),
        SupportMode(6.01, 0.050, 7840.0, 0.16, 0.99),
    ),
)
BARE_MODES = Table("Modes without the blades, hub motion of one", BareMode)
FELT = Table("What the blades were to the hub in the test", Felt)


@dataclass(frozen=True, slots=True)
class HubData:
    """Modes without the blades, and what was taken out of the measured ones."""

    modes: Annotated[tuple[BareMode, ...], BARE_MODES]
    felt: Annotated[tuple[Felt, ...], FELT]
    damping_coupling: Annotated[float, DAMPING_COUPLING]


def hub_data(
    rotor: LagRotor,
    modes: Annotated[tuple[SupportMode, ...], TESTED_MODES],
    blades_fitted: Annotated[str, BLADES_FITTED],
    dummy_mass: Annotated[float, DUMMY_MASS],
) -> HubData:
    r"""Return the modes of an aircraft without its blades from modes measured with them.

    $$ m(s) = N_b m_b - \frac{N_b}{2} \frac{S_\xi^2 s^2}{I_\xi s^2 + C_\xi s + K_\xi}, \qquad
    m = N_b m_b \text{ (locked)}, \qquad
    m = N_b \left(m_b - \frac{S_\xi^2}{2 I_\xi}\right) \text{ (free)} $$
    $$ D(s) = M s^2 + C s + K + \phi^2 s^2 m(s), \qquad D(s_1) = 0, \qquad
    |D'(s_1)| = 2 M_1 \operatorname{Im} s_1, \qquad
    s_1 = 2 \pi f_1 (-\zeta_1 + \mathrm{i} \sqrt{1 - \zeta_1^2}) $$

    A free blade follows the hub with its lag angle and takes part of its mass off; a connected
    damper resists that, which a test shows as damping of the landing gear.  Each measured mode is
    freed of both at its own frequency; what remains of all of them at the hub together is solved
    for its modes.  Exact for masses, for locked and for free blades, and for damped blades where
    the modes move the hub in directions at right angles.

    Args:
        rotor: Blades and lag hinges, as they are in the test.
        modes: Modes as measured, with the modal mass that belongs to the shape given; rows.
        blades_fitted: What was on the hub in the test; word.
        dummy_mass: Mass of one dummy, where there were any; scalar, kg.

    Returns:
        The modes on the scale at which the hub moves by one, and what the blades were to it.

    Raises:
        ValueError: If an argument breaks its limits, or less is left than nothing once the blades
            are taken out.

    Source:
        Newton's equations of a blade on a moving hinge; derived here.

    Examples:
        >>> from calc.ground.model.aircraft import Rotor
        >>> rotor = Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2000.0)
        >>> measured = (SupportMode(3.2, 0.06, 1600.0, 0.0, 1.0),)
        >>> (mode,) = hub_data(rotor, measured, "locked", 0.0).modes
        >>> round(mode.hub_mass, 6)
        1400.0
    """
    BLADES_FITTED.check(blades_fitted)
    DUMMY_MASS.check(dummy_mass)
    TESTED_MODES.check(modes)
    carried = on_hub(rotor, blades_fitted, dummy_mass)
    bare = [_bare(mode, carried) for mode in modes]
    found, coupling = _modes(modes, bare, carried)
    return HubData(
        modes=found,
        felt=tuple(
            Felt(mode.frequency, *carried.felt(2.0 * math.pi * mode.frequency)) for mode in modes
        ),
        damping_coupling=coupling,
    )


def hub_modes(found: HubData) -> tuple[SupportMode, ...]:
    """Return the modes without the blades as a data sheet takes them."""
    return tuple(mode.support_mode for mode in found.modes)


def added_mass(
    added_mass: Annotated[float, ADDED_MASS],
    frequency: Annotated[float, FREQUENCY_MEASURED],
    frequency_with_mass: Annotated[float, FREQUENCY_WITH_MASS],
) -> Annotated[float, SUPPORT_MASS]:
    r"""Return the effective hub mass of a mode from the frequency that a known mass takes off.

    $$ M = \Delta m \frac{f_2^2}{f_1^2 - f_2^2} $$

    The mass is fixed at the hub and moves with it, and the stiffness stays as it was.

    Args:
        added_mass: Mass added at the hub; scalar, kg.
        frequency: Natural frequency before; scalar, Hz.
        frequency_with_mass: Natural frequency after; scalar, Hz.

    Returns:
        The effective hub mass before the mass was added; scalar, kg.

    Raises:
        ValueError: If an argument breaks its limits or the frequency does not fall.

    Source:
        Two frequencies of one spring with two masses; common knowledge.

    Examples:
        >>> round(added_mass(300.0, 2.0, 1.0), 6)
        100.0
    """
    ADDED_MASS.check(added_mass)
    FREQUENCY_MEASURED.check(frequency)
    FREQUENCY_WITH_MASS.check(frequency_with_mass)
    if frequency_with_mass >= frequency:
        raise InputsError(
            "The frequency must fall when a mass is added", "frequency", "frequency_with_mass"
        )
    return added_mass * frequency_with_mass**2 / (frequency**2 - frequency_with_mass**2)


def _bare(mode: SupportMode, carried: OnHub) -> tuple[float, float, float]:
    """Return mass, damping and stiffness of a measured mode alone, freed of what was on the hub."""
    pulse, ratio = 2.0 * math.pi * mode.frequency, mode.damping_ratio
    s = pulse * complex(-ratio, math.sqrt(1.0 - ratio**2))
    scale = mode.shape_x**2 + mode.shape_y**2
    force, change = (scale * part for part in carried.pull(s))
    offset = change - force.imag / s.imag
    square = (2.0 * mode.modal_mass * s.imag) ** 2 - offset.real**2
    mass = (math.sqrt(max(square, 0.0)) - offset.imag) / (2.0 * s.imag)
    damping = 2.0 * mass * ratio * pulse - force.imag / s.imag
    stiffness = -(mass * s**2 + damping * s + force).real
    if not (mass > 0.0 and stiffness > 0.0):
        raise ValueError("The measured modal mass is less than what the blades are to the hub")
    if damping < -1e-9 * mass * pulse:
        raise ValueError("The lag dampers alone give more damping than was measured")
    return mass, max(damping, 0.0), stiffness


def _modes(
    measured: Sequence[SupportMode], bare: Sequence[tuple[float, float, float]], carried: OnHub
) -> tuple[tuple[BareMode, ...], float]:
    """Return the modes of what is left, and how far damping couples them."""
    size = range(len(measured))
    mass, damping, stiffness = (
        [[bare[i][part] if i == j else 0.0 for j in size] for i in size] for part in range(3)
    )
    for i in size:
        for j in range(i):
            shared = measured[i].shape_x * measured[j].shape_x
            shared += measured[i].shape_y * measured[j].shape_y
            pulse = math.pi * (measured[i].frequency + measured[j].frequency)
            felt = carried.felt(pulse)
            mass[i][j] = mass[j][i] = -shared * felt[0]
            damping[i][j] = damping[j][i] = -shared * felt[1]
    squares, columns = linalg.generalized_symmetric_eigen(stiffness, mass)
    shapes = list(zip(*columns, strict=True))
    modal = [
        [sum(a[i] * damping[i][j] * b[j] for i in size for j in size) for b in shapes]
        for a in shapes
    ]
    found = []
    for number, (square, shape) in enumerate(zip(squares, shapes, strict=True)):
        x = sum(m.shape_x * part for m, part in zip(measured, shape, strict=True))
        y = sum(m.shape_y * part for m, part in zip(measured, shape, strict=True))
        motion = math.hypot(x, y)
        if not motion:
            raise ValueError("Each mode must move the hub")
        found.append(
            BareMode(
                frequency=math.sqrt(square) / (2.0 * math.pi),
                damping_ratio=modal[number][number] / (2.0 * math.sqrt(square)),
                hub_mass=1.0 / motion**2,
                hub_stiffness=square / motion**2,
                hub_damping=modal[number][number] / motion**2,
                direction_x=x / motion,
                direction_y=y / motion,
            )
        )
    coupling = [
        abs(modal[i][j]) / math.sqrt(modal[i][i] * modal[j][j])
        for i in size
        for j in range(i)
        if modal[i][i] * modal[j][j] > 0.0
    ]
    return tuple(found), max(coupling, default=0.0)
