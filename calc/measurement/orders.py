"""Orders: amplitude and phase at multiples of a shaft's speed, from pulses of its tachometer."""

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass
from operator import mul
from typing import TYPE_CHECKING

from calc.linalg import resampled
from calc.measurement.order_errors import (
    comb_gain,
    comb_gain_chart,
    interpolation_chart,
    linear_interpolation_gain,
    timing_phase_error,
)
from calc.measurement.pulses import (
    PulseFault,
    check_pulses,
    pulse_cubics,
    pulse_faults,
    refuse_faults,
    shaft_angle,
)
from calc.measurement.quantities import SAMPLE_RATE
from calc.measurement.smear import smear_chart, smear_gain, smear_lines, smear_of_line

if TYPE_CHECKING:
    from array import array

__all__ = [
    "OrderComponent",
    "PulseFault",
    "SpeedStep",
    "angle_record",
    "comb_gain",
    "comb_gain_chart",
    "interpolation_chart",
    "linear_interpolation_gain",
    "order_components",
    "order_track",
    "pulse_faults",
    "shaft_angle",
    "smear_chart",
    "smear_gain",
    "smear_lines",
    "smear_of_line",
    "synchronous_average",
    "timing_phase_error",
]

MOST_READINGS = 2
"""Readings over angle for each sample over time, at most: a slow start of a run-up is cut short."""


@dataclass(frozen=True, slots=True)
class OrderComponent:
    """A multiple of the shaft's speed: its order, its peak amplitude and its phase, a lead, rad."""

    order: float
    amplitude: float
    phase: float


@dataclass(frozen=True, slots=True)
class SpeedStep:
    """Orders over some revolutions: time at their middle, s, mean speed, rad/s, and components."""

    time: float
    speed: float
    components: list[OrderComponent]


def order_components(
    record: Sequence[float],
    sample_rate: float,
    pulse_times: Sequence[float],
    orders: Sequence[float],
    pulses_per_revolution: int = 1,
) -> list[OrderComponent]:
    r"""Return amplitude and phase at multiples of a shaft's speed, whether it is steady or not.

    $$ A e^{i \varphi} = \frac{2}{n} \sum_{j=0}^{n-1} x(\psi_j) e^{-i k \psi_j} $$

    The record is read at equal steps of shaft angle over the whole revolutions from the first pulse
    to the last.  A cubic through four pulses gives the time of an angle.

    Args:
        record: Samples, the first at a time of zero; shape (n,).
        sample_rate: Samples a second; scalar, Hz.
        pulse_times: Times of the pulses, rising; shape (m,), s.  The first inside the record is
            at a shaft angle of zero.
        orders: Multiples wanted, above zero, whole or not; shape (k,).
        pulses_per_revolution: Pulses in a revolution; scalar.

    Returns:
        The components in the order asked for: peak amplitude in the unit of the record, and phase,
        a lead, from -π to π, rad.

    Raises:
        ValueError: If the pulses do not rise, are unlike their neighbours or do not hold one whole
            revolution; if an order is not above zero or passes half the sample rate.

    Source:
        Fyfe and Munck (1997), the method; the sum is Fourier's.

    Examples:
        >>> record = [math.cos(2.0 * math.tau * n / 50.0 + 0.3) for n in range(201)]
        >>> found = order_components(record, 50.0, [0.0, 1.0, 2.0, 3.0, 4.0], [2.0])
        >>> round(found[0].amplitude, 4), round(found[0].phase, 4)
        (1.0, 0.3)
    """
    used = _inside(record, sample_rate, pulse_times, pulses_per_revolution)
    steps = _steps(len(record), sample_rate, used, orders, pulses_per_revolution)
    readings = _readings(record, sample_rate, used, steps, pulses_per_revolution)
    return _components(readings, steps, orders)


def order_track(
    record: Sequence[float],
    sample_rate: float,
    pulse_times: Sequence[float],
    orders: Sequence[float],
    revolutions: int,
    pulses_per_revolution: int = 1,
) -> list[SpeedStep]:
    """Return the components of orders over a run-up or run-down, some revolutions at a time.

    Args:
        record: Samples, the first at a time of zero; shape (n,).
        sample_rate: Samples a second; scalar, Hz.
        pulse_times: Times of the pulses, rising; shape (m,), s.
        orders: Multiples wanted, above zero; shape (k,).
        revolutions: So many at a time, each block beginning where the one before ends; scalar.
        pulses_per_revolution: Pulses in a revolution; scalar.

    Returns:
        A step for each whole block of revolutions, with time and mean speed.

    Raises:
        ValueError: As `order_components`.

    Source:
        `order_components` of each block.

    Examples:
        >>> record = [math.cos(math.tau * n / 50.0) for n in range(201)]
        >>> found = order_track(record, 50.0, [0.0, 1.0, 2.0, 3.0, 4.0], [1.0], 2)
        >>> [(step.time, round(step.components[0].amplitude, 4)) for step in found]
        [(1.0, 1.0), (3.0, 1.0)]
    """
    if revolutions < 1:
        raise ValueError("Revolutions at a time must be at least 1")
    used = _inside(record, sample_rate, pulse_times, pulses_per_revolution)
    steps = _steps(len(record), sample_rate, used, orders, pulses_per_revolution)
    readings = _readings(record, sample_rate, used, steps, pulses_per_revolution)
    found = []
    for block in range(len(readings) // (steps * revolutions)):
        first, last = block * revolutions, (block + 1) * revolutions
        start, end = used[first * pulses_per_revolution], used[last * pulses_per_revolution]
        part = readings[first * steps : last * steps]
        speed = math.tau * revolutions / (end - start)
        found.append(SpeedStep((start + end) / 2.0, speed, _components(part, steps, orders)))
    return found


def synchronous_average(
    record: Sequence[float],
    sample_rate: float,
    pulse_times: Sequence[float],
    samples_per_revolution: int,
    pulses_per_revolution: int = 1,
) -> list[float]:
    r"""Return the mean revolution of a shaft.

    $$ \bar x(\psi_s) = \frac{1}{M} \sum_{m=0}^{M-1} x(\psi_s + 2 \pi m) $$

    What is no multiple of the shaft's speed falls as `comb_gain` says, noise as one over the square
    root of the number of revolutions.

    Args:
        record: Samples, the first at a time of zero; shape (n,).
        sample_rate: Samples a second; scalar, Hz.
        pulse_times: Times of the pulses, rising; shape (m,), s.
        samples_per_revolution: Readings of the mean revolution, at least two; scalar.
        pulses_per_revolution: Pulses in a revolution; scalar.

    Returns:
        The mean revolution from a shaft angle of zero; shape (samples_per_revolution,).

    Raises:
        ValueError: As `order_components`; if fewer than two readings are asked for.

    Source:
        Definition of the mean.

    Examples:
        >>> record = [math.cos(math.tau * n / 50.0) for n in range(201)]
        >>> found = synchronous_average(record, 50.0, [0.0, 1.0, 2.0, 3.0, 4.0], 4)
        >>> [round(value, 3) + 0.0 for value in found]
        [1.0, 0.0, -1.0, 0.0]
    """
    readings = angle_record(
        record, sample_rate, pulse_times, samples_per_revolution, pulses_per_revolution
    )
    return _mean_revolution(readings, samples_per_revolution)


def angle_record(
    record: Sequence[float],
    sample_rate: float,
    pulse_times: Sequence[float],
    samples_per_revolution: int,
    pulses_per_revolution: int = 1,
) -> "array[float]":
    """Return a record over shaft angle: read at equal steps of angle over whole revolutions.

    A spectrum of it has orders for frequencies, with the samples per revolution as sample rate.

    Args:
        record: Samples, the first at a time of zero; shape (n,).
        sample_rate: Samples a second; scalar, Hz.
        pulse_times: Times of the pulses, rising; shape (m,), s.
        samples_per_revolution: Readings a revolution, at least two; scalar.
        pulses_per_revolution: Pulses in a revolution; scalar.

    Returns:
        The readings from a shaft angle of zero on; shape (revolutions × samples_per_revolution,).

    Raises:
        ValueError: As `synchronous_average`.

    Source:
        Fyfe and Munck (1997), the method.

    Examples:
        >>> record = [float(n) for n in range(201)]
        >>> [round(x, 6) for x in angle_record(record, 50.0, [0.4, 1.4, 2.4], 2)]
        [20.0, 45.0, 70.0, 95.0]
    """
    if samples_per_revolution < 2 or samples_per_revolution != int(samples_per_revolution):
        raise ValueError("Samples per revolution must be a whole number of at least 2")
    used = _inside(record, sample_rate, pulse_times, pulses_per_revolution)
    return _readings(record, sample_rate, used, samples_per_revolution, pulses_per_revolution)


def _inside(
    record: Sequence[float], sample_rate: float, pulse_times: Sequence[float], per_turn: int
) -> list[float]:
    """Return the pulses of whole revolutions inside a record, its first at an angle of zero.

    What is left out before it are whole revolutions.
    """
    SAMPLE_RATE.check(sample_rate)
    check_pulses(pulse_times, per_turn)
    refuse_faults(pulse_times)
    end = (len(record) - 1) / sample_rate
    first = next((n for n in range(0, len(pulse_times), per_turn) if pulse_times[n] >= 0.0), 0)
    used = [time for time in pulse_times[first:] if 0.0 <= time <= end * (1.0 + 1e-12)]
    whole = (len(used) - 1) // per_turn
    if whole < 1:
        raise ValueError("The record must hold the pulses of at least one whole revolution")
    return used[: whole * per_turn + 1]


def _steps(
    samples: int, sample_rate: float, used: Sequence[float], orders: Sequence[float], per_turn: int
) -> int:
    """Return how many readings a revolution leave no alias on the orders wanted."""
    turns = [
        after - before
        for before, after in zip(used[:-per_turn:per_turn], used[per_turn::per_turn], strict=True)
    ]
    slowest, fastest = max(turns), min(turns)
    for order in orders:
        if not (math.isfinite(order) and order > 0.0):
            raise ValueError(f"Order must be above 0 /rev, not {order:g} /rev")
        if order / fastest >= sample_rate / 2.0:
            raise ValueError(
                f"Order {order:g} reaches {order / fastest:.4g} Hz, half the sample rate or more"
            )
    highest = max(orders, default=1.0)
    most = MOST_READINGS * samples // len(turns)
    wanted = math.ceil(highest + sample_rate * slowest / 2.0) + 1
    return max(min(wanted, most), math.ceil(2.0 * highest) + 2)


def _readings(
    record: Sequence[float], sample_rate: float, used: Sequence[float], steps: int, per_turn: int
) -> "array[float]":
    cubics = pulse_cubics([time * sample_rate for time in used])
    return resampled(record, cubics, (len(used) - 1) // per_turn * steps)


def _mean_revolution(readings: "array[float]", steps: int) -> list[float]:
    revolutions = len(readings) // steps
    return [sum(readings[step::steps]) / revolutions for step in range(steps)]


def _components(
    readings: "array[float]", steps: int, orders: Sequence[float]
) -> list[OrderComponent]:
    """Return the sums of Fourier; whole orders need the mean revolution alone."""
    mean = _mean_revolution(readings, steps)
    revolutions = len(readings) // steps
    found = []
    for order in orders:
        waves = [cmath.exp(-1j * math.tau * order * step / steps) for step in range(steps)]
        cosines, sines = [wave.real for wave in waves], [wave.imag for wave in waves]
        if order == int(order):
            total = complex(sum(map(mul, mean, cosines)), sum(map(mul, mean, sines)))
        else:
            total = 0j
            for turn in range(revolutions):
                part = readings[turn * steps : (turn + 1) * steps]
                own = complex(sum(map(mul, part, cosines)), sum(map(mul, part, sines)))
                total += own * cmath.exp(-1j * math.tau * order * turn)
            total /= revolutions
        vector = 2.0 * total / steps
        found.append(OrderComponent(order, abs(vector), cmath.phase(vector)))
    return found
