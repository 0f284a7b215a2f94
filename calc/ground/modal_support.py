"""Modal support: any number of airframe-on-gear modes, from mass, frequency, damping and shape."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Annotated

from calc.chart import Chart, Line
from calc.declaration import Method, Table
from calc.ground.model.aircraft import LagRotor, Rotor
from calc.ground.model.general_support import (
    GeneralSupport,
    Matrix,
    at_hub,
    check,
    coalescences,
)
from calc.ground.model.spectrum import spectrum
from calc.ground.quantities import (
    HIGHEST_SPEED,
    HUB_MASS,
    LOWEST_SPEED,
)
from calc.ground.search import sweep
from calc.ground.search.growth_chart import growth_chart, unstable
from calc.ground.search.least_damped import least_damped
from calc.ground.search.verdict import Verdict, verdict
from calc.ground.stability import EIGENVALUES
from calc.numeric.peaks import Sample
from calc.quantity import Quantity
from calc.units import FREQUENCY, MASS
from calc.vocabulary import DAMPING_RATIO

MODE_FREQUENCY = Quantity("f", "Frequency", FREQUENCY, above=0.0, example=3.2)
MODE_DAMPING = replace(DAMPING_RATIO, example=0.06)
MODAL_MASS = Quantity("M", "Modal mass of this shape", MASS, above=0.0, example=1500.0)
SHAPE_X = Quantity(r"\phi_x", "Hub motion, longitudinal, in the mode shape", example=0.0)
SHAPE_Y = Quantity(r"\phi_y", "Hub motion, lateral, in the mode shape", example=1.0)


@dataclass(frozen=True, slots=True)
class SupportMode:
    """A mode of the aircraft on its undercarriage; the modal mass belongs to the shape given."""

    frequency: Annotated[float, MODE_FREQUENCY]
    damping_ratio: Annotated[float, MODE_DAMPING]
    modal_mass: Annotated[float, MODAL_MASS]
    shape_x: Annotated[float, SHAPE_X]
    shape_y: Annotated[float, SHAPE_Y]


MODES = Table(
    "Airframe-on-gear modes",
    SupportMode,
    example=(
        SupportMode(2.3, 0.07, 3000.0, 1.0, 0.0),
        SupportMode(3.4, 0.06, 1400.0, 0.0, 1.0),
        SupportMode(6.1, 0.05, 2600.0, 0.1, 0.7),
    ),
    at_least=1,
    at_most=8,
)


def modal_support(
    rotor: LagRotor,
    modes: Annotated[tuple[SupportMode, ...], MODES],
    lowest_speed: Annotated[float, LOWEST_SPEED],
    highest_speed: Annotated[float, HIGHEST_SPEED],
    hub_mass: Annotated[str, HUB_MASS] = "without_blades",
) -> Verdict:
    r"""Return the verdict over rotor speed of a rotor on any number of support modes.

    $$ M \ddot{q} + C \dot{q} + K q = 0, \qquad x = \sum \phi_x q, \qquad y = \sum \phi_y q,
    \qquad K_{jj} = M_{jj} \omega_j^2, \qquad C_{jj} = 2 \zeta_j M_{jj} \omega_j $$
    $$ M_{ij} \rightarrow M_{ij} + N_b m_b (\phi_{x,i} \phi_{x,j} + \phi_{y,i} \phi_{y,j})
    \quad \text{if the modes are without the blades} $$

    A mode normalised to one at the hub has the effective hub mass as its modal mass.  Take the
    modes from a shake test with the blades off and dummy masses off, or say that the blades were
    on.  Damping that couples modes is left out; with close modes use the matrices themselves.

    Args:
        rotor: Blades and lag hinges.
        modes: Modes of the aircraft on its undercarriage; rows.
        lowest_speed: Start of the sweep; scalar, rad/s.
        highest_speed: End of the sweep; scalar, rad/s.
        hub_mass: Whether the modes have the blades in them; word.

    Returns:
        The least stable motion and the unstable bands.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Coleman and Feingold (1958), the theory; equations derived anew.

    Examples:
        >>> found = modal_support(
        ...     Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2000.0), MODES.example, 5.0, 45.0
        ... )
        >>> found.verdict
        'Unstable in one band of rotor speed'
    """
    LOWEST_SPEED.check(lowest_speed)
    HIGHEST_SPEED.check(highest_speed)
    HUB_MASS.check(hub_mass)
    support = support_of_modes(
        modes, 0.0 if hub_mass == "without_blades" else rotor.blades * rotor.blade_mass
    )
    samples, found = sweep_of(  # noqa: RUF059  the chart draws the samples
        rotor, support, lowest_speed, highest_speed
    )
    return found


def modal_support_chart(
    found: Verdict, samples: Sequence[Sample], lowest_speed: float, highest_speed: float
) -> Chart:
    """Return the growth rate over rotor speed, with unstable bands hatched."""
    return growth_chart(
        "Growth rate on all airframe-on-gear modes",
        f"{found.verdict}. Above zero a disturbance grows.",
        (lowest_speed, highest_speed),
        unstable((band.lower_speed, band.upper_speed) for band in found.bands),
        [Line(samples, "least stable mode", 1)],
    )


def support_of_modes(modes: Sequence[SupportMode], blade_mass: float = 0.0) -> GeneralSupport:
    """Return the matrices of modes, less the mass of blades that were on when they were found."""
    MODES.check(tuple(modes))
    rates = [2.0 * math.pi * mode.frequency for mode in modes]
    masses = [mode.modal_mass for mode in modes]
    support = GeneralSupport(
        _diagonal(masses),
        _diagonal(
            2.0 * mode.damping_ratio * mode.modal_mass * rate
            for mode, rate in zip(modes, rates, strict=True)
        ),
        _diagonal(mass * rate**2 for mass, rate in zip(masses, rates, strict=True)),
        tuple(mode.shape_x for mode in modes),
        tuple(mode.shape_y for mode in modes),
    )
    mass = tuple(
        tuple(a - b for a, b in zip(row, less, strict=True))
        for row, less in zip(support.mass, at_hub(support, blade_mass), strict=True)
    )
    return replace(support, mass=mass)


def _diagonal(numbers: Iterable[float]) -> Matrix:
    found = list(numbers)
    return tuple(
        tuple(number if row == column else 0.0 for column in range(len(found)))
        for row, number in enumerate(found)
    )


def sweep_of(
    rotor: Rotor, support: GeneralSupport, lowest_speed: float, highest_speed: float
) -> Annotated[tuple[list[Sample], Verdict], Method(EIGENVALUES)]:
    """Return the growth rates of a sweep over rotor speed and the verdict on them."""
    check(rotor, support)

    known = spectrum(rotor, support)

    def growth(speed: float) -> float:
        return max(value.real for value in known.at(speed))

    meetings = coalescences(rotor, support)
    samples = sweep.samples(growth, lowest_speed, highest_speed, meetings, ahead=known.along)
    is_damped = rotor.lag_damping > 0.0 and all(
        support.damping[i][i] > 0.0 for i in range(len(support.damping))
    )
    bands = sweep.unstable_bands(growth, samples, 0.0 if is_damped else sweep.NOISE)
    least = least_damped(rotor, known.at, [speed for speed, _ in samples])
    swept = (lowest_speed, highest_speed)
    return samples, verdict(sweep.peak(growth, samples), bands, least, swept)
