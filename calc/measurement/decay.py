"""Decay: damping and its uncertainty from the peaks of a free motion."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from calc.chart import Axis, Chart, Line, Points, Rule
from calc.declaration import Name, Table
from calc.measurement.decrement import (
    DECREMENT,
    PEAK,
    PEAK_ERROR,
    RATIO,
    STANDARD_ERROR,
    DecrementFit,
    decrement_fit,
    decrement_standard_error,
    log_decrement,
)
from calc.quantity import Quantity
from calc.units import FREQUENCY, GROWTH, SHARE

NOISE = Quantity(
    "r", "Noise of the record, rms, in the unit of the peaks", at_least=0.0, example=0.3
)
MOTION_FREQUENCY = Quantity(
    "f_d",
    "Frequency of the free motion, for the data sheet; 0 where not known",
    FREQUENCY,
    at_least=0.0,
    example=0.0,
)
RATIO_ERROR = Quantity(r"u_\zeta", "Standard error of the damping ratio", SHARE, at_least=0.0)
GROWTH_RATE = Quantity(r"\sigma", "Growth rate, below zero for a decay", GROWTH, example=-0.5)
DAMPED_FREQUENCY = Quantity(
    "f_d", "Frequency of the free motion", FREQUENCY, above=0.0, example=3.0
)
ENDS_ONLY = Quantity(r"\delta_e", "Decrement by the first and last peak alone")
EARLY = Quantity(r"\zeta_1", "Damping ratio of the first half", SHARE)
LATE = Quantity(r"\zeta_2", "Damping ratio of the second half", SHARE)
USED = Quantity("m", "Peaks used", whole=True)
REMARK = Name("Remark")
CLEAR = 6.0
"""Peaks below this many times the noise rms are left out: they bend the line; no source."""
FEWEST = 3
BENT = 2.0  # standard errors between the halves that are said


@dataclass(frozen=True, slots=True)
class Peak:
    """A peak of a free motion, one full cycle after the one before."""

    amplitude: Annotated[float, PEAK]


PEAK_TABLE = Table(
    "Peaks of one sign, one a cycle, from the first clean one",
    Peak,
    tuple(Peak(a) for a in (10.0, 8.2, 6.7, 5.6, 4.5, 3.7)),
    at_least=FEWEST,
    at_most=200,
)


@dataclass(frozen=True, slots=True)
class PeaksDecay:
    """What the peaks of a decay tell, with the uncertainty."""

    damping_ratio: Annotated[float, RATIO]
    ratio_error: Annotated[float, RATIO_ERROR]
    decrement: Annotated[float, DECREMENT]
    standard_error: Annotated[float, STANDARD_ERROR]
    ends_only: Annotated[float, ENDS_ONLY]
    early_ratio: Annotated[float | None, EARLY]
    late_ratio: Annotated[float | None, LATE]
    used: Annotated[int, USED]
    remark: Annotated[str, REMARK]


@dataclass(frozen=True, slots=True)
class DecayMode:
    """A mode for a data sheet, its damping ratio within two standard errors."""

    frequency: float
    damping_ratio: float
    damping_ratio_error: float | None = None
    method: str = "peaks of a decay, two standard errors"


def damping_from_growth(
    growth_rate: Annotated[float, GROWTH_RATE],
    frequency: Annotated[float, DAMPED_FREQUENCY],
) -> Annotated[float, RATIO]:
    r"""Return the damping ratio of a free motion from its growth rate and its frequency.

    $$ \zeta = \frac{-\sigma}{\sqrt{\sigma^2 + (2 \pi f_d)^2}} $$

    A growth rate is the same in the airframe and in a blade, where the frequency is another one;
    so the damping ratio is another one too.

    Args:
        growth_rate: Of the amplitude, below zero for a decay; scalar, 1/s.
        frequency: Of the free motion, where it was measured; scalar, Hz.

    Returns:
        The damping ratio, below zero where the motion grows; scalar.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Definition of the damping ratio of an exponent; common knowledge.

    Examples:
        >>> round(damping_from_growth(-0.5, 3.0), 7)
        0.0265165
    """
    GROWTH_RATE.check(growth_rate)
    DAMPED_FREQUENCY.check(frequency)
    return -growth_rate / math.hypot(growth_rate, 2.0 * math.pi * frequency)


def peaks_decay(
    peaks: Annotated[tuple[Peak, ...], PEAK_TABLE],
    peak_error: Annotated[float, PEAK_ERROR] = PEAK_ERROR.example,
    noise: Annotated[float, NOISE] = NOISE.example,
    frequency: Annotated[float, MOTION_FREQUENCY] = 0.0,
) -> PeaksDecay:
    r"""Return the damping of a decay from a table of its peaks, with its uncertainty.

    $$ \ln A_n = c - n\, \delta, \qquad \zeta = \frac{\delta}{\sqrt{4 \pi^2 + \delta^2}}, \qquad
    u_\delta = s \sqrt{\frac{12}{n (n^2 - 1)}}, \qquad
    u_\zeta = \frac{4 \pi^2 u_\delta}{(4 \pi^2 + \delta^2)^{3/2}} $$

    One linear mode.  From the first peak that is below six times the noise on, peaks are left
    out: noise bends the line upward, and the damping reads low.  The standard error is that of the
    scatter or that of the stated uncertainty of a peak, whichever is larger.

    Args:
        peaks: Peaks of one sign, one a cycle; rows.
        peak_error: Standard uncertainty of a peak, a fraction of it; scalar.
        noise: Noise of the record, rms, in the unit of the peaks; scalar.
        frequency: Of the free motion, which the data sheet needs; scalar, Hz.

    Returns:
        Damping ratio and decrement with standard errors, the damping of both halves, and a remark.

    Raises:
        ValueError: If an argument breaks its limits or fewer than three peaks are above the noise.

    Source:
        Thomson, Theory of Vibration with Applications, section 2.7; least squares.

    Examples:
        >>> found = peaks_decay(tuple(map(Peak, (8.0, 4.0, 2.0, 1.0))), 0.01, 0.0)
        >>> round(found.decrement, 9), found.used
        (0.693147181, 4)
    """
    PEAK_TABLE.check(peaks)
    PEAK_ERROR.check(peak_error)
    NOISE.check(noise)
    MOTION_FREQUENCY.check(frequency)
    clear = _clear([peak.amplitude for peak in peaks], noise)
    fit = decrement_fit(clear)
    standard_error = max(fit.standard_error, decrement_standard_error(peak_error, len(clear)))
    early, late = _halves(clear)
    return PeaksDecay(
        damping_ratio=fit.damping_ratio,
        ratio_error=_ratio_error(fit.decrement, standard_error),
        decrement=fit.decrement,
        standard_error=standard_error,
        ends_only=log_decrement(clear[0], clear[-1], len(clear) - 1),
        early_ratio=early.damping_ratio if early else None,
        late_ratio=late.damping_ratio if late else None,
        used=len(clear),
        remark=_remark(fit, early, late, peak_error),
    )


def peaks_mode(frequency: float, found: PeaksDecay) -> tuple[DecayMode, ...]:
    """Return the mode for a data sheet; none without its frequency or where the motion grows."""
    ratio = found.damping_ratio
    if not (frequency and ratio > 0.0):
        return ()
    return (DecayMode(frequency / math.sqrt(1.0 - ratio**2), ratio, 2.0 * found.ratio_error),)


def growth_mode(growth_rate: float, frequency: float, found: float) -> tuple[DecayMode, ...]:
    """Return the mode for a data sheet; none where the motion grows."""
    if growth_rate >= 0.0:
        return ()
    natural = math.hypot(growth_rate, 2.0 * math.pi * frequency) / (2.0 * math.pi)
    return (DecayMode(natural, found, method="growth rate of a free motion"),)


def peaks_decay_chart(peaks: Sequence[Peak], noise: float, found: PeaksDecay) -> Chart:
    """Return the peaks over the number of cycles on a logarithmic scale, with the line."""
    clear = [peak.amplitude for peak in peaks[: found.used]]
    level = math.fsum(map(math.log, clear)) / found.used
    middle = 0.5 * (found.used - 1)
    line = [(float(n), math.exp(level - found.decrement * (n - middle))) for n in range(found.used)]
    floor = [Rule(CLEAR * noise, "y", "six times the noise")] if noise else []
    return Chart(
        title="Peaks of the decay",
        description=f"{found.remark}. A decay of one linear mode is a straight line on this scale.",
        x=Axis("Cycle", low=0.0),
        y=Axis(PEAK.label, log=True),
        marks=(
            *floor,
            Line(line, "fit", 1),
            Points([(float(n), peak.amplitude) for n, peak in enumerate(peaks)], "peaks", 2),
        ),
    )


def _clear(amplitudes: list[float], noise: float) -> list[float]:
    """Return the peaks before the first one that the noise bends."""
    drowned = (n for n, amplitude in enumerate(amplitudes) if amplitude < CLEAR * noise)
    clear = amplitudes[: next(drowned, len(amplitudes))]
    if len(clear) < FEWEST:
        raise ValueError(f"Fewer than {FEWEST} peaks stand above six times the noise")
    return clear


def _ratio_error(decrement: float, error: float) -> float:
    """Return the standard error of the damping ratio: that of the decrement times the slope."""
    return 4.0 * math.pi**2 * error / math.hypot(2.0 * math.pi, decrement) ** 3


def _halves(clear: Sequence[float]) -> tuple[DecrementFit | None, DecrementFit | None]:
    """Return the fits of the first and the second half, none if short."""
    half = (len(clear) + 1) // 2
    if half < FEWEST:
        return None, None
    return decrement_fit(clear[:half]), decrement_fit(clear[-half:])


def _remark(
    fit: DecrementFit, early: DecrementFit | None, late: DecrementFit | None, peak_error: float
) -> str:
    """Return whether the decay is a straight line, in words."""
    if early is None or late is None:
        return "Too few peaks to tell whether the decay is straight"
    half = decrement_standard_error(peak_error, FEWEST)
    apart = early.decrement - late.decrement
    if abs(apart) <= BENT * math.sqrt(2.0) * max(half, fit.standard_error):
        return "Straight within its uncertainty: one damping at these amplitudes"
    smaller = "small" if apart > 0.0 else "large"
    return f"Bent: less damping at {smaller} amplitudes, or noise, or two modes; take the lower one"
