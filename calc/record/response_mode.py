"""Response mode: frequency and damping of the mode in a band of a response, and doubts of it."""

import math
from collections.abc import Sequence
from typing import NamedTuple

from calc.digits import significant
from calc.measurement.apparent_bandwidth import (
    response_bandwidth_ratio,
    true_bandwidth_time,
    true_circle_bandwidth,
)
from calc.measurement.circle import FEWEST
from calc.measurement.half_power import half_power_damping, half_power_frequency
from calc.measurement.response import GOOD_CIRCLE, ResponsePoint, circle_of_points
from calc.measurement.transfer import FrequencyResponse, half_power_points
from calc.quantity import InputsError
from calc.record.figures import LEAST_COHERENCE
from calc.record.look import POWERS, Look
from calc.record.offer import mode_offer
from calc.survey.report.blocks import Block, Grid, Words

KINDS = {"acceleration": "accelerance", "velocity": "mobility", "displacement": "receptance"}
"""The response over a force, by what the channel measures."""
FEWEST_LINES = 10
"""Lines of a band that holds one mode; common practice, no source."""
FEWEST_INSIDE = 3.0
"""Lines inside the half-power width, below which the window makes much of it; chosen here."""
APART = 0.2
"""Difference of two readings of a damping, over the larger, from which it is said."""

HEADS = ["Read by", "Frequency (Hz)", "Damping ratio"]
WITHOUT_WINDOW = "The same, width of the window taken off"
METHOD = "half power of a response"
WITHHELD = "Because of the warnings above the mode is not offered to the data sheet."


class HalfPowerRead(NamedTuple):
    """The half-power frequencies, Hz, the mode as read, and its ratio without the window."""

    lower: float
    upper: float
    frequency: float
    ratio: float
    resolved: float | None


class CircleRead(NamedTuple):
    """The mode as its circle gives it, Hz and ratio, a remark, and its ratio without the window."""

    frequency: float
    ratio: float
    remark: str
    resolved: float | None


def mode_read(
    look: Look, found: FrequencyResponse, spacing: float, said: list[str]
) -> tuple[list[Block], tuple[float, ...]]:
    """Return the mode in the band that was asked for, by half power and by its circle.

    Args:
        look: What is looked at; its window made the response.
        found: The response of its channel.
        spacing: Of the lines; scalar, Hz.
        said: What is doubtful so far; doubts of the mode are added.

    Returns:
        The table, with the offer of the mode where nothing is doubtful, else a sentence that it is
        withheld; and the half-power frequencies in Hz.

    Raises:
        ValueError: If the band is not whole or too narrow, or the channel has no unit of vibration.
    """
    if look.values["band_low"] is None and look.values["band_high"] is None:
        return [], ()
    inside = _band(look, found)
    if len(inside) < FEWEST_LINES:
        said.append(f"The band holds {len(inside)} lines: fewer than {FEWEST_LINES} are too few")
    frequencies = [found.frequencies[n] for n in inside]
    responses = [found.responses[n] for n in inside]
    half = circle = None
    try:
        half = _half_power(look, frequencies, responses, spacing)
    except ValueError as error:
        said.append(f"No half-power points: {error}")
    try:
        circle = _circle(look, frequencies, responses, spacing)
    except ValueError as error:
        said.append(f"No circle: {error}")
    said += _doubts(half, circle, found, spacing)
    rows = _rows(half, circle)
    blocks: list[Block] = [Grid("Mode in the band", HEADS, rows)] if rows else []
    if half and circle and half.resolved is not None and not said:
        beside = circle.ratio if circle.resolved is None else circle.resolved
        apart = max(abs(half.resolved - beside), half.ratio - half.resolved)
        blocks.append(mode_offer(look, METHOD, half.frequency, half.resolved, apart))
    else:
        blocks.append(Words(WITHHELD))
    return blocks, (half.lower, half.upper) if half else ()


def _rows(half: HalfPowerRead | None, circle: CircleRead | None) -> list[list[str]]:
    """Return the readings of the mode."""
    rows = []
    for way, read in (("Half-power points, as read", half), ("Circle, as read", circle)):
        if read:
            rows.append(_row(way, read.frequency, read.ratio))
        if read and read.resolved is not None:
            rows.append(_row(WITHOUT_WINDOW, read.frequency, read.resolved))
    return rows


def _doubts(
    half: HalfPowerRead | None,
    circle: CircleRead | None,
    found: FrequencyResponse,
    spacing: float,
) -> list[str]:
    """Return what is doubtful of the readings of the mode."""
    said = _doubts_of_half_power(half, found, spacing) if half else []
    if circle and circle.remark != GOOD_CIRCLE:
        said.append(circle.remark)
    if half and circle:
        ratios = half.ratio, circle.ratio
        if half.resolved is not None and circle.resolved is not None:
            ratios = half.resolved, circle.resolved
        if abs(ratios[0] - ratios[1]) > APART * max(ratios):
            said.append(
                "Half power and circle differ by more than a fifth: two modes, noise, or a "
                "stimulus that is not in phase with the force. Neither is a damping to go on with"
            )
    return said


def _band(look: Look, found: FrequencyResponse) -> list[int]:
    """Return the numbers of the lines in the band of the mode."""
    low, high = look.values["band_low"], look.values["band_high"]
    if low is None or high is None or low >= high:
        raise InputsError(
            "Enter both ends of the band of the mode, the lower one first", "band_low", "band_high"
        )
    if look.channel.quantity not in KINDS:
        raise ValueError(
            f"{look.channel.name} has no unit of vibration, so that no damping can be read: give "
            "its column a unit, above, or leave the band of the mode empty"
        )
    inside = [n for n, frequency in enumerate(found.frequencies) if low <= frequency <= high]
    if len(inside) < FEWEST:
        raise ValueError(f"The band of the mode holds {len(inside)} lines, and must hold {FEWEST}")
    return inside


def _half_power(
    look: Look, frequencies: Sequence[float], responses: Sequence[complex], spacing: float
) -> HalfPowerRead:
    """Return the mode from the half-power points of its receptance."""
    power = POWERS[look.channel.quantity]
    receptances = [
        value / (2j * math.pi * frequency) ** power
        for frequency, value in zip(frequencies, responses, strict=True)
    ]
    lower, upper = half_power_points(frequencies, receptances)
    ratio, lines = half_power_damping(lower, upper), (upper - lower) / spacing
    free = true_bandwidth_time(lines, look.values["window"], response_bandwidth_ratio)
    resolved = None if free is None else ratio * free / lines
    return HalfPowerRead(lower, upper, half_power_frequency(lower, upper), ratio, resolved)


def _doubts_of_half_power(
    half: HalfPowerRead, found: FrequencyResponse, spacing: float
) -> list[str]:
    """Return what is doubtful of half-power points: too few lines, or too little coherence."""
    said = []
    lines = (half.upper - half.lower) / spacing
    if half.resolved is None or lines < FEWEST_INSIDE:
        said.append(
            f"Only {significant(lines, 2)} lines stand between the half-power points: the window "
            "makes much of the width. Take longer blocks"
        )
    least = min(
        coherence
        for frequency, coherence in zip(found.frequencies, found.coherences, strict=True)
        if half.lower - spacing < frequency < half.upper + spacing
    )
    if least < LEAST_COHERENCE:
        said.append(
            f"The coherence falls to {significant(least, 2)} in the peak: noise, another source, "
            "leakage of a short block, or damping that is not linear"
        )
    return said


def _circle(
    look: Look, frequencies: Sequence[float], responses: Sequence[complex], spacing: float
) -> CircleRead:
    """Return the mode from the circle of a response."""
    points = zip(frequencies, responses, strict=True)
    found = circle_of_points(
        tuple(ResponsePoint(f, h.real, h.imag) for f, h in points), KINDS[look.channel.quantity]
    )
    middle, lines = found.frequency / spacing, [f / spacing for f in frequencies]
    seen = 2.0 * found.damping_ratio * middle
    free = true_circle_bandwidth(seen, look.values["window"], middle, lines)
    resolved = None if free is None else found.damping_ratio * free / seen
    return CircleRead(found.frequency, found.damping_ratio, found.remark, resolved)


def _row(way: str, frequency: float, ratio: float) -> list[str]:
    return [way, significant(frequency), significant(ratio, 3)]
