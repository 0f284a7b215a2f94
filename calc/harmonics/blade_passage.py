"""Blade passage: how often blades go by, and the multiples at which a rotor shakes its airframe."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.chart import Axis, Chart, Stems
from calc.declaration import Name, Table
from calc.harmonics.quantities import HARMONIC, MULTIPLE, PER_MINUTE, SOURCE_FREQUENCY
from calc.quantity import Quantity
from calc.rotor.quantities import BLADES, ROTOR_SPEED

COUNT = Quantity("k_1", "Number of multiples", at_least=1, at_most=50, whole=True, example=4)
CYCLES_PER_MINUTE = Quantity("60 f", "Cycles per minute")


@dataclass(frozen=True, slots=True)
class BladePassage:
    """One multiple of the blade passage frequency: its order by name, in hertz and in cpm."""

    order: Annotated[str, Name("Order")]
    blade_passage_frequency: Annotated[float, SOURCE_FREQUENCY]
    cycles_per_minute: Annotated[float, PER_MINUTE]


@dataclass(frozen=True, slots=True)
class Multiple:
    """One multiple of the blade passage frequency, in three units."""

    multiple: Annotated[int, MULTIPLE]
    harmonic: Annotated[int, HARMONIC]
    frequency: Annotated[float, SOURCE_FREQUENCY]
    cycles_per_minute: Annotated[float, CYCLES_PER_MINUTE]


MULTIPLES = Table("Multiples of the blade passage frequency", Multiple)


def blade_passage_frequency(
    blades: Annotated[int, BLADES],
    rotor_speed: Annotated[float, ROTOR_SPEED],
    multiple: Annotated[int, MULTIPLE] = 1,
) -> Annotated[float, SOURCE_FREQUENCY]:
    r"""Return the frequency at which the blades of a rotor pass a point, or a multiple of it.

    $$ f = \frac{k N_b \Omega}{2 \pi} $$

    Main rotor, tail rotor or propeller with identical blades, equally spaced, at constant speed.
    With one blade that differs, or uneven spacing, other multiples of the rotor speed appear too.

    Args:
        blades: Number of blades of this rotor; scalar.
        rotor_speed: Angular speed of this rotor's own shaft; scalar, rad/s.
        multiple: Which multiple of the blade passage; scalar.

    Returns:
        The frequency; scalar, Hz.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Department of the Army, TM 55-1520-240-T-1, page 146: examples.

    Examples:
        >>> round(blade_passage_frequency(3, 7.5 * math.pi), 6)
        11.25
    """
    BLADES.check(blades)
    ROTOR_SPEED.check(rotor_speed)
    MULTIPLE.check(multiple)
    return multiple * blades * rotor_speed / (2.0 * math.pi)


def blade_passage(
    blades: Annotated[int, BLADES],
    rotor_speed: Annotated[float, ROTOR_SPEED],
    multiple: Annotated[int, MULTIPLE] = 1,
) -> BladePassage:
    r"""Return a multiple of the blade passage by its order, in hertz and in cycles per minute.

    $$ f = \frac{k N_b \Omega}{2 \pi}, \qquad \text{order } k N_b \text{ per rev} $$

    Args:
        blades: Number of blades of this rotor; scalar.
        rotor_speed: Angular speed of this rotor's own shaft; scalar, rad/s.
        multiple: Which multiple of the blade passage; scalar.

    Returns:
        The order, such as 5/rev, and the frequency in hertz and in cycles per minute.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Department of the Army, TM 55-1520-240-T-1, page 146: examples.

    Examples:
        >>> blade_passage(5, 142.0 * math.pi / 30.0).order
        '5/rev, 1 × blade passage of 5 blades'
    """
    frequency = blade_passage_frequency(blades, rotor_speed, multiple)
    return BladePassage(
        order=f"{multiple * blades}/rev, {multiple} × blade passage of {blades} blades",
        blade_passage_frequency=frequency,
        cycles_per_minute=frequency,
    )


def multiples(
    blades: Annotated[int, BLADES],
    rotor_speed: Annotated[float, ROTOR_SPEED],
    count: Annotated[int, COUNT] = 4,
) -> Annotated[tuple[Multiple, ...], MULTIPLES]:
    r"""Return the first multiples of the blade passage frequency.

    $$ f_k = \frac{k N_b \Omega}{2 \pi}, \qquad k = 1, 2, \ldots $$

    Args:
        blades: Number of blades of this rotor; scalar.
        rotor_speed: Angular speed of this rotor's own shaft; scalar, rad/s.
        count: How many multiples; scalar.

    Returns:
        A row for each multiple: its number, the harmonic of the rotor speed, and the frequency
        in hertz and in cycles a minute.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Department of the Army, TM 55-1520-240-T-1, page 146: examples.

    Examples:
        >>> [row.harmonic for row in multiples(3, 7.5 * math.pi)]
        [3, 6, 9, 12]
    """
    COUNT.check(count)
    frequencies = (blade_passage_frequency(blades, rotor_speed, k) for k in range(1, count + 1))
    return tuple(
        Multiple(multiple=k, harmonic=k * blades, frequency=f, cycles_per_minute=60.0 * f)
        for k, f in enumerate(frequencies, start=1)
    )


def multiples_chart(blades: int, rotor_speed: float, count: int = 4) -> Chart:
    """Return where the multiples lie on the frequency axis."""
    rows = multiples(blades, rotor_speed, count)
    beyond = count + 0.5
    return Chart(
        title="Multiples of the blade passage frequency",
        description="Equally spaced lines; the height of each is the number of the multiple.",
        x=Axis.of(SOURCE_FREQUENCY, 0.0, beyond * rows[0].frequency),
        y=Axis("Multiple of the blade passage", low=0.0, high=beyond),
        marks=(Stems([(row.frequency, row.multiple) for row in rows], "blade passage", 1),),
    )
