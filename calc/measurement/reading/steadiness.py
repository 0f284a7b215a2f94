"""Steadiness: how far rotor speed runs during a record, and what that does to a spectrum."""

import math
from collections.abc import Sequence

from calc.measurement.pulses import pulse_faults
from calc.units import RPM

DRIFT = 0.01
"""From this share of the mean speed a range of speeds is named."""
KNOWN = 0.002
"""Share of a stretch that one sample may be; chosen here."""
SHARE = 0.1
"""Largest share of the time that a stretch may be, and of pulses that are faults; chosen here."""
OUTSIDE = 0.02
"""So large a share of the intervals at either end is left out: single pulses are jagged."""


def speeds_of(
    pulse_times: Sequence[float], pulses_per_revolution: int, sample_rate: float
) -> tuple[float, list[float]]:
    """Return the mean rotor speed and that of short stretches, over even pulses alone, rad/s.

    A pulse is known to a sample, which may be several hundredths of a revolution; a stretch is so
    long that this is no drift, but no longer than a tenth of the time.  Intervals in which a pulse
    is missed or too many count for nothing.

    Args:
        pulse_times: Times of the pulses, rising; shape (n,), n of at least two, s.
        pulses_per_revolution: Pulses in a revolution; scalar.
        sample_rate: Sample rate at which the pulses were taken; scalar, Hz.
    """
    turn = 2.0 * math.pi / pulses_per_revolution
    broken = broken_intervals(pulse_times)
    even = [n for n in range(len(pulse_times) - 1) if n not in broken] or [0]
    mean = math.fsum(pulse_times[n + 1] - pulse_times[n] for n in even) / len(even)
    length = min(1.0 / (KNOWN * sample_rate), SHARE * (pulse_times[-1] - pulse_times[0]))
    turns = max(1, round(length / (mean * pulses_per_revolution)))
    step = min(turns * pulses_per_revolution, len(pulse_times) - 1)
    found = []
    clean = 0
    for number in range(len(pulse_times) - 1):
        clean = 0 if number in broken else clean + 1
        if clean >= step:
            end = number + 1
            found.append(turn * step / (pulse_times[end] - pulse_times[end - step]))
    return turn / mean, found or [turn / mean]


def broken_intervals(pulse_times: Sequence[float]) -> set[int]:
    """Return the numbers, from 0, of the intervals in which a pulse is missed or too many."""
    broken = {fault.interval for fault in pulse_faults(pulse_times)}
    if len(broken) > SHARE * len(pulse_times):
        return set()  # marks that are unevenly spaced: whole revolutions are even
    return broken


def unsteady(speeds: Sequence[float]) -> str:
    """Return in words over which range rotor speed runs, or nothing where it is steady.

    Args:
        speeds: Rotor speeds through the record; shape (n,), rad/s.
    """
    ordered = sorted(speeds)
    out = int(OUTSIDE * len(ordered))
    low, high = ordered[out], ordered[-1 - out]
    if high - low <= DRIFT * 0.5 * (high + low):
        return ""
    return (
        f"Rotor speed runs from {RPM.reading(low):.4g} to {RPM.reading(high):.4g} rpm: its lines "
        "are smeared in a spectrum of the whole record. Look at orders, or at a waterfall."
    )
