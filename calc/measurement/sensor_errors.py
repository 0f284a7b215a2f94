"""Sensor errors: what sensor, cable and converter do to an amplitude and a phase."""

import math
from dataclasses import dataclass, replace
from typing import Annotated

from calc.chart import Axis, Chart, Line, Points
from calc.measurement.coupling import (
    ac_coupling,
    coupling_chart,
    high_pass_gain,
    high_pass_phase,
)
from calc.quantity import InputsError, Quantity
from calc.units import ACCELERATION, FREQUENCY, MASS, SHARE
from calc.vocabulary import DAMPING_RATIO

__all__ = [
    "ac_coupling",
    "coupling_chart",
    "high_pass_gain",
    "high_pass_phase",
    "loaded_frequency",
    "quantisation",
    "quantisation_rms",
    "sensor_amplitude_error",
    "sensor_chart",
]

LINE = Quantity("f", "Frequency of the line", FREQUENCY, above=0.0, example=400.0)
RESONANCE = Quantity(
    "f_r",
    "Resonance of the sensor as mounted",
    FREQUENCY,
    above=0.0,
    example=4_000.0,
)
SENSOR_DAMPING = replace(DAMPING_RATIO, label="Damping ratio of the mounted sensor", example=0.0)
AMPLITUDE_ERROR = Quantity(r"\epsilon_a", "Error of the amplitude, fraction", SHARE)
UNLOADED = Quantity("f_0", "Frequency without the sensor", FREQUENCY, above=0.0, example=60.0)
PART_MASS = Quantity("m", "Modal mass where the sensor stands", MASS, above=0.0, example=2.0)
ADDED_MASS = Quantity(
    r"\Delta m", "Mass of sensor, block and cable", MASS, at_least=0.0, example=0.05
)
LOADED = Quantity("f", "Frequency with the sensor", FREQUENCY)
FULL_RANGE = Quantity(
    "R", "Range of the converter, from end to end", ACCELERATION, above=0.0, example=98.0665
)
BITS = Quantity("n_b", "Bits", at_least=1, at_most=64, whole=True, example=16)
STEP = Quantity("q_b", "One step of the converter", ACCELERATION)
QUANTISATION = Quantity("u_q", "Rms of the rounding to steps", ACCELERATION)
DRAWN = 100  # points of a line in a figure


@dataclass(frozen=True, slots=True)
class Quantisation:
    """Step and noise of an ideal converter."""

    step: Annotated[float, STEP]
    noise: Annotated[float, QUANTISATION]


def sensor_amplitude_error(
    frequency: Annotated[float, LINE],
    resonance: Annotated[float, RESONANCE],
    damping_ratio: Annotated[float, SENSOR_DAMPING] = 0.0,
) -> Annotated[float, AMPLITUDE_ERROR]:
    r"""Return how far a sensor reads too high because of its resonance as mounted.

    $$ \epsilon_a = \frac{1}{\sqrt{(1 - r^2)^2 + (2 \zeta r)^2}} - 1, \qquad
    r = \frac{f}{f_r} $$

    The sensor is one mass on one spring, on its mounting; above its resonance it reads too low.

    Args:
        frequency: Frequency of the line; scalar, Hz.
        resonance: Resonance of the sensor as it is mounted; scalar, Hz.
        damping_ratio: Its damping over critical damping; scalar.

    Returns:
        The error as a fraction of the true amplitude, positive where it reads too high; scalar.

    Raises:
        ValueError: If an argument breaks its limits, or an undamped sensor is at its resonance.

    Source:
        An oscillator on a moving base; derived here.

    Examples:
        >>> round(sensor_amplitude_error(1.0, 5.0), 4)
        0.0417
    """
    LINE.check(frequency)
    RESONANCE.check(resonance)
    SENSOR_DAMPING.check(damping_ratio)
    ratio = frequency / resonance
    size = math.hypot(1.0 - ratio**2, 2.0 * damping_ratio * ratio)
    if size == 0.0:
        raise InputsError(
            "Without damping a line at the resonance has no amplitude that is finite",
            "frequency",
            "resonance",
            "damping_ratio",
        )
    return 1.0 / size - 1.0


def loaded_frequency(
    frequency: Annotated[float, UNLOADED],
    modal_mass: Annotated[float, PART_MASS],
    added_mass: Annotated[float, ADDED_MASS],
) -> Annotated[float, LOADED]:
    r"""Return the frequency of a part once a sensor stands on it.

    $$ f = f_0 \sqrt{\frac{m}{m + \Delta m}} $$

    The sensor moves with the part and adds no stiffness.

    Args:
        frequency: Natural frequency without the sensor; scalar, Hz.
        modal_mass: Modal mass for a shape of one where the sensor stands; scalar, kg.
        added_mass: Mass that is added there; scalar, kg.

    Returns:
        The natural frequency with the sensor; scalar, Hz.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        One spring with two masses; common knowledge.

    Examples:
        >>> loaded_frequency(10.0, 3.0, 1.0)
        8.660254037844386
    """
    UNLOADED.check(frequency)
    PART_MASS.check(modal_mass)
    ADDED_MASS.check(added_mass)
    return frequency * math.sqrt(modal_mass / (modal_mass + added_mass))


def quantisation_rms(
    full_range: Annotated[float, FULL_RANGE],
    bits: Annotated[int, BITS],
) -> Annotated[float, QUANTISATION]:
    r"""Return the rms noise of rounding to the steps of a converter.

    $$ u_q = \frac{R}{2^{n_b} \sqrt{12}} $$

    The signal crosses many steps, so that the error is spread evenly over one of them.

    Args:
        full_range: Largest minus smallest reading; scalar, m/s².
        bits: Bits of the converter; scalar.

    Returns:
        The rms of the rounding error; scalar, m/s².

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        The variance of an even distribution; common knowledge.

    Examples:
        >>> round(quantisation_rms(2.0, 1), 6)
        0.288675
    """
    FULL_RANGE.check(full_range)
    BITS.check(bits)
    return full_range / 2.0**bits / math.sqrt(12.0)


def quantisation(
    full_range: Annotated[float, FULL_RANGE],
    bits: Annotated[int, BITS],
) -> Quantisation:
    r"""Return one step of a converter, and the rms noise of rounding to its steps.

    $$ q_b = \frac{R}{2^{n_b}}, \qquad u_q = \frac{q_b}{\sqrt{12}} $$

    Args:
        full_range: Largest minus smallest reading; scalar, m/s².
        bits: Bits of the converter; scalar.

    Returns:
        The step and the rms of the rounding error.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        The variance of an even distribution; common knowledge.

    Examples:
        >>> quantisation(2.0, 1).step
        1.0
    """
    noise = quantisation_rms(full_range, bits)
    step = noise * math.sqrt(12.0)
    return Quantisation(step=step, noise=noise)


def sensor_chart(frequency: float, resonance: float, damping_ratio: float = 0.0) -> Chart:
    """Return the error of the amplitude up to half the resonance, with the line asked for."""
    ends = 0.5 * resonance
    places = [ends * step / DRAWN for step in range(1, DRAWN + 1)]

    def error(place: float) -> float:
        return sensor_amplitude_error(place, resonance, damping_ratio)

    own = [(frequency, error(frequency))] if frequency <= ends else []
    return Chart(
        title="Error of a mounted accelerometer against frequency",
        description="The error of the amplitude grows from zero with the square of the frequency.",
        x=Axis.of(LINE, 0.0),
        y=Axis.of(AMPLITUDE_ERROR),
        marks=(
            Line([(place, error(place)) for place in places], "error", 1),
            Points(own, "the line" if own else "", 2),
        ),
    )
