"""Settling: how long a dwell waits for a mode, and how fast a sweep past it may be."""

import math
from dataclasses import dataclass, replace
from typing import Annotated

from calc.airframe.swept_mode import RESPONSE_RATIO, SWEEP_RATE, swept_share
from calc.chart import Axis, Chart, Line, Points
from calc.measurement.half_power import NATURAL
from calc.quantity import Quantity
from calc.units import SHARE, TIME
from calc.vocabulary import DAMPING_RATIO

REMAINDER = Quantity(
    r"\epsilon", "Remainder of the transient, fraction", SHARE, above=0.0, below=1.0, example=0.05
)
SETTLING = Quantity("t_s", "Settling time", TIME)
SEVERITY = Quantity(
    "s^*", "Sweep rate over the squared half-power bandwidth", at_least=0.0, example=0.225
)
MOST_SEVERE = Quantity(
    "s^*_{max}",
    "Allowed sweep rate over the squared half-power bandwidth",
    above=0.0,
    example=0.225,
)
SWEEP_LIMIT = replace(SWEEP_RATE, symbol="s_{max}", label="Fastest sweep allowed")
TESTED_RATIO = replace(DAMPING_RATIO, above=0.0, at_least=-math.inf, example=0.02)
RATE = replace(SWEEP_RATE, example=0.003)


@dataclass(frozen=True, slots=True)
class DwellAndSweep:
    """How long a dwell waits and how fast a sweep may be."""

    settling_time: Annotated[float, SETTLING]
    severity: Annotated[float, SEVERITY]
    peak_ratio: Annotated[float, RESPONSE_RATIO]
    sweep_limit: Annotated[float, SWEEP_LIMIT]


def settling_time(
    frequency: Annotated[float, NATURAL],
    damping_ratio: Annotated[float, TESTED_RATIO],
    remainder: Annotated[float, REMAINDER] = REMAINDER.example,
) -> Annotated[float, SETTLING]:
    r"""Return how long a transient takes to fall to a fraction of what it was.

    $$ t_s = \frac{\ln(1 / \epsilon)}{2 \pi \zeta f_n} $$

    Args:
        frequency: Natural frequency of the mode; scalar, Hz.
        damping_ratio: Damping over critical damping; scalar.
        remainder: What may be left of the transient, a fraction; scalar.

    Returns:
        The time; scalar, s.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Envelope of a free motion; common knowledge.

    Examples:
        >>> round(settling_time(3.0, 0.005, 0.05), 1)
        31.8
    """
    NATURAL.check(frequency)
    TESTED_RATIO.check(damping_ratio)
    REMAINDER.check(remainder)
    return math.log(1.0 / remainder) / (2.0 * math.pi * damping_ratio * frequency)


def sweep_parameter(
    sweep_rate: Annotated[float, RATE],
    frequency: Annotated[float, NATURAL],
    damping_ratio: Annotated[float, TESTED_RATIO],
) -> Annotated[float, SEVERITY]:
    r"""Return the sweep rate over the squared half-power bandwidth.

    $$ s^* = \frac{s}{4 \zeta^2 f_n^2} $$

    Args:
        sweep_rate: Change of the force's frequency in a second; scalar, Hz/s.
        frequency: Natural frequency of the mode; scalar, Hz.
        damping_ratio: Damping over critical damping; scalar.

    Returns:
        The parameter; scalar.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Slowly varying amplitude of a mode, as in `swept_share`.

    Examples:
        >>> round(sweep_parameter(0.144, 10.0, 0.02), 9)
        0.9
    """
    RATE.check(sweep_rate)
    NATURAL.check(frequency)
    TESTED_RATIO.check(damping_ratio)
    return sweep_rate / (2.0 * damping_ratio * frequency) ** 2


def sweep_rate_limit(
    frequency: Annotated[float, NATURAL],
    damping_ratio: Annotated[float, TESTED_RATIO],
    parameter: Annotated[float, MOST_SEVERE],
) -> Annotated[float, SWEEP_LIMIT]:
    r"""Return the sweep rate of a parameter.

    $$ s_{max} = 4 s^* \zeta^2 f_n^2 $$

    Args:
        frequency: Natural frequency of the mode; scalar, Hz.
        damping_ratio: Damping over critical damping; scalar.
        parameter: Sweep rate over the squared half-power bandwidth; scalar.

    Returns:
        The sweep rate; scalar, Hz/s.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        As `sweep_parameter`.

    Examples:
        >>> round(sweep_rate_limit(10.0, 0.02, 0.9), 9)
        0.144
    """
    NATURAL.check(frequency)
    TESTED_RATIO.check(damping_ratio)
    MOST_SEVERE.check(parameter)
    return parameter * (2.0 * damping_ratio * frequency) ** 2


def swept_peak_ratio(parameter: Annotated[float, SEVERITY]) -> Annotated[float, RESPONSE_RATIO]:
    """Return the peak of a swept response over that of a dwell, by the sweep parameter.

    Args:
        parameter: Sweep rate over the squared half-power bandwidth; scalar.

    Returns:
        The fraction; scalar.

    Raises:
        ValueError: If the parameter is not finite or below zero.

    Source:
        `swept_share`, light damping.

    Examples:
        >>> round(swept_peak_ratio(0.9), 3)
        0.945
    """
    SEVERITY.check(parameter)
    return swept_share(1.0, 0.5, parameter)


def dwell_and_sweep(
    frequency: Annotated[float, NATURAL],
    damping_ratio: Annotated[float, TESTED_RATIO],
    sweep_rate: Annotated[float, RATE],
    remainder: Annotated[float, REMAINDER] = REMAINDER.example,
    parameter: Annotated[float, MOST_SEVERE] = MOST_SEVERE.example,
) -> DwellAndSweep:
    r"""Return how long a dwell waits for a mode and how fast a sweep past it may be.

    $$ t_s = \frac{\ln(1 / \epsilon)}{2 \pi \zeta f_n}, \qquad
    s^* = \frac{s}{4 \zeta^2 f_n^2}, \qquad s_{max} = 4 s^*_{max} \zeta^2 f_n^2 $$

    Take the least damping that is expected: near a stability limit both grow without bound.

    Args:
        frequency: Natural frequency of the mode; scalar, Hz.
        damping_ratio: Damping over critical damping; scalar.
        sweep_rate: Change of the force's frequency in a second; scalar, Hz/s.
        remainder: What may be left of the transient, a fraction; scalar.
        parameter: Sweep rate over the squared half-power bandwidth that is allowed; scalar.

    Returns:
        The settling time, the parameter of the sweep, the fraction of the peak it reaches, and the
        fastest sweep allowed.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Envelope of a free motion; `swept_share`.

    Examples:
        >>> round(dwell_and_sweep(3.0, 0.02, 0.003).settling_time, 1)
        7.9
    """
    severity: Annotated[float, SEVERITY] = sweep_parameter(sweep_rate, frequency, damping_ratio)
    return DwellAndSweep(
        settling_time=settling_time(frequency, damping_ratio, remainder),
        severity=severity,
        peak_ratio=swept_peak_ratio(severity),
        sweep_limit=sweep_rate_limit(frequency, damping_ratio, parameter),
    )


def dwell_and_sweep_chart(
    frequency: float, damping_ratio: float, remainder: float, found: DwellAndSweep
) -> Chart:
    """Return the settling time over the damping ratio, with that of the form."""
    ratios = [damping_ratio * 10.0 ** (step / 20.0 - 1.0) for step in range(41)]
    curve = [(ratio, settling_time(frequency, ratio, remainder)) for ratio in ratios if ratio < 1.0]
    return Chart(
        title="Settling time over damping ratio",
        description="The lighter the damping, the longer a transient lasts; the point is the mode "
        "of the form.",
        x=replace(Axis.of(TESTED_RATIO), log=True),
        y=replace(Axis.of(SETTLING), log=True),
        marks=(
            Line(curve, "", 1),
            Points([(damping_ratio, found.settling_time)], "this mode", 2),
        ),
    )
