"""Modal sum: how a structure with several modes responds to a steady force."""

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from calc.airframe.quantities import (
    DAMPED,
    DISPLACEMENT,
    FORCE_AMPLITUDE,
    FORCING_FREQUENCY,
    MODAL_MASS,
    NATURAL_FREQUENCY,
    PHASE,
    VELOCITY,
    VIBRATION,
)
from calc.chart import Axis, Chart, Line, Rule
from calc.declaration import Name, Table
from calc.quantity import Quantity

MODE_NAME = Name("Mode", "first vertical")
AT_FORCE = Quantity(r"\phi_k", "Shape at the drive point", example=1.0)
AT_POINT = Quantity(r"\phi_j", "Shape at the response point", example=1.0)
STEPS = 400  # of the frequency axis


@dataclass(frozen=True, slots=True)
class Mode:
    """A mode: its frequency, damping and mass, and its shape at two points."""

    name: Annotated[str, MODE_NAME]
    natural_frequency: Annotated[float, NATURAL_FREQUENCY]
    damping_ratio: Annotated[float, DAMPED]
    modal_mass: Annotated[float, MODAL_MASS]
    at_force: Annotated[float, AT_FORCE]
    at_point: Annotated[float, AT_POINT]


MODES = Table(
    "Modes",
    Mode,
    (
        Mode("first lateral", 7.6, 0.03, 900.0, 1.0, 0.4),
        Mode("first vertical", 12.5, 0.02, 800.0, 1.0, -0.7),
        Mode("second vertical", 22.6, 0.02, 700.0, 0.8, 0.9),
    ),
    at_least=1,
    at_most=40,
)


@dataclass(frozen=True, slots=True)
class Contribution:
    """What one mode adds to the displacement."""

    mode: Annotated[str, MODE_NAME]
    displacement: Annotated[float, DISPLACEMENT]
    phase: Annotated[float, PHASE]


@dataclass(frozen=True, slots=True)
class ModalResponse:
    """Steady vibration at the response point, and what each mode adds to it."""

    displacement: Annotated[float, DISPLACEMENT]
    velocity: Annotated[float, VELOCITY]
    acceleration: Annotated[float, VIBRATION]
    phase: Annotated[float, PHASE]
    contributions: Annotated[tuple[Contribution, ...], Table("Contributions", Contribution)]


def modal_sum(
    modes: Annotated[tuple[Mode, ...], MODES],
    force: Annotated[float, FORCE_AMPLITUDE],
    forcing_frequency: Annotated[float, FORCING_FREQUENCY],
) -> ModalResponse:
    r"""Return the steady vibration of a structure as the sum over its modes.

    $$ x_j = F \sum_i \frac{\phi_{ji} \phi_{ki}}
       {m_i (\omega_i^2 - \omega^2 + 2 \mathrm{i} \zeta_i \omega_i \omega)} $$

    The structure is linear and each mode has its own viscous damping.  Modes left out above the
    frequency of interest would add some stiffness, those at rest some mass.

    Args:
        modes: Frequency, damping, mass and shape of each mode; rows.
        force: Amplitude of the force at the drive point; scalar, N.
        forcing_frequency: Frequency of the force; scalar, Hz.

    Returns:
        Amplitudes and phase at the response point, and what each mode adds.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Modal superposition.

    Examples:
        >>> one = (Mode("mode", 1.0 / (2.0 * math.pi), 0.05, 1.0, 1.0, 1.0),)
        >>> round(modal_sum(one, 1.0, 1.0 / (2.0 * math.pi)).displacement, 9)
        10.0
    """
    MODES.check(modes)
    FORCE_AMPLITUDE.check(force)
    FORCING_FREQUENCY.check(forcing_frequency)
    parts = [force * part for part in _receptances(modes, forcing_frequency)]
    total = sum(parts, 0j)
    omega = 2.0 * math.pi * forcing_frequency
    return ModalResponse(
        displacement=abs(total),
        velocity=omega * abs(total),
        acceleration=omega**2 * abs(total),
        phase=cmath.phase(total),
        contributions=tuple(
            Contribution(mode.name, abs(part), cmath.phase(part))
            for mode, part in zip(modes, parts, strict=True)
        ),
    )


def modal_sum_chart(
    modes: tuple[Mode, ...],
    force: float,
    forcing_frequency: float,
) -> Chart:
    """Return the acceleration at the response point over the forcing frequency."""
    highest = 1.3 * max(forcing_frequency, *(mode.natural_frequency for mode in modes))
    frequencies = {highest * step / STEPS for step in range(1, STEPS + 1)}
    frequencies |= {mode.natural_frequency for mode in modes}
    points = []
    for frequency in sorted(frequencies):
        total = force * sum(_receptances(modes, frequency), 0j)
        points.append((frequency, (2.0 * math.pi * frequency) ** 2 * abs(total)))
    return Chart(
        title="Acceleration at the response point",
        description="Acceleration over forcing frequency, with a peak near each natural frequency "
        "and, between them, antiresonances where modes cancel.",
        x=Axis.of(FORCING_FREQUENCY, 0.0, highest),
        y=Axis.of(VIBRATION),
        marks=(
            Line(points, "sum of the modes", 1),
            Rule(forcing_frequency, "x", "forcing frequency"),
        ),
    )


def _receptances(modes: Sequence[Mode], forcing_frequency: float) -> list[complex]:
    """Return the displacement per force that each mode adds, with its phase."""
    omega = 2.0 * math.pi * forcing_frequency
    found = []
    for mode in modes:
        own = 2.0 * math.pi * mode.natural_frequency
        stiffness = mode.modal_mass * (own**2 - omega**2 + 2j * mode.damping_ratio * own * omega)
        found.append(mode.at_force * mode.at_point / stiffness)
    return found
