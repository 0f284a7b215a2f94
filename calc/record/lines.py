"""Lines: the spectrum of a stretch, of one block or averaged over some, and its peaks."""

import math
from collections.abc import Sequence
from operator import itemgetter
from typing import NamedTuple

from calc.measurement.lines import AmplitudeSpectrum
from calc.measurement.peaks import peaks_in
from calc.measurement.spectrum import amplitude_spectrum, power_density
from calc.measurement.windows import window_properties
from calc.quantity import InputsError
from calc.record.look import Look

MOST_PEAKS = 60

Pair = tuple[float, float]


class Lines(NamedTuple):
    """The lines of a spectrum: Hz and peak amplitude as recorded, spacing, number of blocks.

    `whole` is the spectrum with its phases where there is one block.
    """

    frequencies: Sequence[float]
    amplitudes: Sequence[float]
    spacing: float
    blocks: int
    whole: AmplitudeSpectrum | None = None


def lines_of(look: Look) -> Lines:
    """Return the lines of the whole stretch, or of its blocks averaged in power."""
    window = look.values["window"]
    block = round((look.values.get("block") or look.length) * look.rate)
    if block >= len(look.samples):
        found = amplitude_spectrum(look.samples, look.rate, window)
        return Lines(found.frequencies, found.amplitudes, look.rate / len(look.samples), 1, found)
    density = power_density(look.samples, look.rate, block, window, look.values["overlap"])
    spacing = look.rate / block
    share = window_properties(window).noise_bandwidth * spacing
    amplitudes = [math.sqrt(2.0 * share * value) for value in density.densities]
    amplitudes[0] *= math.sqrt(0.5)
    if block % 2 == 0:
        amplitudes[-1] *= math.sqrt(0.5)
    return Lines(density.frequencies, amplitudes, spacing, density.blocks)


def peaks_of(look: Look, lines: Lines) -> list[Pair]:
    """Return the peaks of a spectrum above the threshold: frequency in Hz and peak amplitude.

    Those of one block lie between its lines, as `pick_peaks` finds them; those of averaged blocks
    are the largest lines.
    """
    inside = lines.amplitudes[3:] or lines.amplitudes
    threshold = look.values["threshold"] * max(inside)
    if threshold <= 0.0:
        return []
    window = look.values["window"]
    if lines.whole is not None:
        found = peaks_in(lines.whole, len(look.samples), threshold, window)
        pairs = [(peak.frequency, peak.amplitude) for peak in found]
    else:
        reach = math.ceil(0.5 * window_properties(window).half_power_width)
        pairs = [
            (lines.frequencies[n], lines.amplitudes[n])
            for n in range(1, len(lines.amplitudes))
            if lines.amplitudes[n] >= threshold
            and lines.amplitudes[n] >= max(lines.amplitudes[max(n - reach, 0) : n + reach + 1])
        ]
    largest = sorted(pairs, key=lambda pair: -pair[1])[:MOST_PEAKS]
    return sorted(largest)


def many(found: Sequence[Pair]) -> list[str]:
    """Return what to think of so many peaks that the smallest are left out, or nothing."""
    if len(found) < MOST_PEAKS:
        return []
    said = (
        f"No more than {MOST_PEAKS} peaks are listed, the largest. Where many stand side by side "
    )
    said += "they are noise, or a mode that is shaken at random, and no lines: average over blocks"
    return [said]


def band_of(look: Look) -> Pair:
    """Return the lowest and the highest frequency that a view shows, Hz."""
    low, high = look.values["low"] or 0.0, look.values["high"] or 0.5 * look.rate
    if low >= high:
        raise InputsError("The lowest frequency must be below the highest one", "low", "high")
    return low, high


def thinned(points: Sequence[Pair], most: int) -> list[Pair]:
    """Return at most so many points: of each step the one that is the highest."""
    step = math.ceil(len(points) / most)
    if step == 1:
        return list(points)
    return [
        max(points[first : first + step], key=itemgetter(1))
        for first in range(0, len(points), step)
    ]
