"""Peaks of a spectrum: frequency, amplitude and phase of a tone that lies between two lines."""

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.measurement import cosine_sum
from calc.measurement.lines import AmplitudeSpectrum, amplitude_spectrum
from calc.measurement.windows import COEFFICIENTS, window_properties
from calc.numeric.roots import crossing

MOST_PEAKS = 1000
"""So many peaks are looked at; a threshold in the noise would find thousands."""

ROUNDS = 12
"""So often the image of a tone at negative frequency is taken out anew; three are usual."""

FLAT = 0.95
"""A window that still reads so much between lines says little of where: lines farther out do."""

FARTHEST = 0.75
"""Lines that a tone can be from its largest one; a little over a half, for its image and noise."""


@dataclass(frozen=True, slots=True)
class Peak:
    """A tone: frequency in Hz, peak amplitude, and phase in rad at the first sample."""

    frequency: float
    amplitude: float
    phase: float


def peak_near(
    record: Sequence[float], sample_rate: float, frequency: float, window: str = "hann"
) -> Peak:
    r"""Return the tone whose line is the largest within two lines of a frequency.

    $$ \frac{A_{k \pm 1}}{A_k} = \left| \frac{W(1 - \delta)}{W(\delta)} \right|, \quad
       f = (k \pm \delta) \Delta f, \quad A e^{i \varphi} = A_k e^{i \varphi_k} \frac{W(0)}
       {W(\pm \delta)} $$

    From the largest line and its larger neighbour, with the kernel $W$ of the window for the
    samples there are; what the mean and the tone's image at negative frequency add is taken out.
    A flat-top window is read two lines to either side instead.  Holds for one steady tone that is
    alone within the main lobe of the window.  At 0 Hz there is no tone.

    Args:
        record: Samples at equal intervals; shape (N,).
        sample_rate: Sample rate; scalar, Hz.
        frequency: Where to look; scalar, Hz.
        window: One of `quantities.WINDOWS`; word.

    Returns:
        Frequency in Hz, amplitude in the unit of the record, phase in rad.

    Raises:
        ValueError: As `amplitude_spectrum`; if there is no line within two lines of the frequency.

    Source:
        The Fourier transform of a windowed cosine, solved for its frequency.

    Examples:
        >>> record = [3.0 * math.cos(2.0 * math.pi * 10.3 * n / 64 + 1.0) for n in range(64)]
        >>> found = peak_near(record, 64.0, 10.0)
        >>> round(found.frequency, 6), round(found.amplitude, 6), round(found.phase, 6)
        (10.3, 3.0, 1.0)
    """
    spectrum = amplitude_spectrum(record, sample_rate, window)
    place = frequency * len(record) / sample_rate
    if not math.isfinite(place):
        raise ValueError("The frequency to look near must be finite")
    first = max(1, math.ceil(place - 2.0))
    near = range(first, min(len(record) // 2, math.floor(place + 2.0)) + 1)
    if not near:
        raise ValueError("No line of the spectrum lies within two lines of the frequency")
    best = max(near, key=_compared(spectrum, len(record), window).__getitem__)
    return _peak(spectrum, best, len(record), window)


def pick_peaks(
    record: Sequence[float], sample_rate: float, threshold: float, window: str = "hann"
) -> list[Peak]:
    r"""Return the tones of a record whose amplitude reaches a threshold, by frequency.

    A peak is a line that is the largest as far as half of the half-power width of the window on
    either side; its amplitude is that of `peak_near`, so that one between two lines is not missed.

    Args:
        record: Samples at equal intervals; shape (N,).
        sample_rate: Sample rate; scalar, Hz.
        threshold: Lowest amplitude of a peak; scalar, in the unit of the record, above zero.
        window: One of `quantities.WINDOWS`; word.

    Returns:
        The peaks, by frequency.

    Raises:
        ValueError: As `amplitude_spectrum`; if the threshold is not above zero, or so low that
            more than `MOST_PEAKS` peaks reach it.

    Source:
        Common practice, no source.

    Examples:
        >>> record = [math.cos(2.0 * math.pi * 10.5 * n / 64) for n in range(64)]
        >>> [round(peak.frequency, 6) for peak in pick_peaks(record, 64.0, 0.9)]
        [10.5]
    """
    spectrum = amplitude_spectrum(record, sample_rate, window)
    return peaks_in(spectrum, len(record), threshold, window)


def peaks_in(
    spectrum: AmplitudeSpectrum, samples: int, threshold: float, window: str = "hann"
) -> list[Peak]:
    """Return the tones of a record as `pick_peaks` does, from its spectrum.

    Args:
        spectrum: As `amplitude_spectrum` returns it, with the same window.
        samples: Number of samples of the record; scalar.
        threshold: Lowest amplitude of a peak; scalar, in the unit of the record, above zero.
        window: One of `quantities.WINDOWS`; word.

    Raises:
        ValueError: If the threshold is not above zero, or so low that too many peaks reach it.
    """
    if not 0.0 < threshold < math.inf:
        raise ValueError("The threshold must be above zero")
    properties = window_properties(window)
    reach = max(1, math.ceil(0.5 * properties.half_power_width))
    lines = _compared(spectrum, samples, window)
    least = 0.98 * min(properties.lowest_reading, 1.0) * threshold
    places = []
    for place in range(1, len(lines)):
        if lines[place] < least:
            continue
        before, after = lines[max(1, place - reach) : place], lines[place + 1 : place + reach + 1]
        if lines[place] > max(before, default=0.0) and lines[place] >= max(after, default=0.0):
            places.append(place)
    if len(places) > MOST_PEAKS:
        raise ValueError(f"More than {MOST_PEAKS} peaks reach the threshold: raise it")
    found = [_peak(spectrum, place, samples, window) for place in places]
    return sorted(
        (peak for peak in found if peak.amplitude >= threshold), key=lambda peak: peak.frequency
    )


def _compared(spectrum: AmplitudeSpectrum, samples: int, window: str) -> list[float]:
    """Return the amplitudes of lines as they are compared with one another.

    The first are without what the window spreads of the mean onto them; one at half the sample
    rate counts with its twin, as the line before it does.
    """
    terms, found = COEFFICIENTS[window], list(spectrum.amplitudes)
    mean = cmath.rect(found[0], spectrum.phases[0]).real
    sign = -1.0
    for place, size in enumerate(terms[1:], 1):
        if place < len(found):
            spread = sign * mean * size / terms[0]
            found[place] = abs(cmath.rect(found[place], spectrum.phases[place]) - spread)
        sign = -sign
    if samples % 2 == 0:
        found[-1] *= 2.0
    return found


def _peak(spectrum: AmplitudeSpectrum, best: int, samples: int, window: str) -> Peak:
    """Return the tone about a line."""
    if 2 * best == samples:
        return Peak(spectrum.frequencies[best], spectrum.amplitudes[best], spectrum.phases[best])
    terms = COEFFICIENTS[window]
    is_flat = window_properties(window).lowest_reading > FLAT
    reach, turn = (2, 1.0) if is_flat else (1, -1.0)

    def line(place: int) -> complex:
        """Return a line as half of the tone, also beyond the ends of the spectrum."""
        if place < 0 or 2 * place > samples:
            return line(-place if place < 0 else samples - place).conjugate()
        size = spectrum.amplitudes[place]
        whole = 2.0 if place == 0 or 2 * place == samples else 1.0
        return cmath.rect(whole * size, spectrum.phases[place])

    def shown(place: float) -> complex:
        return cosine_sum.kernel(terms, place, samples)

    at, tone = float(best), line(best)
    for _ in range(ROUNDS):
        mean = (line(0) - tone * shown(at) - tone.conjugate() * shown(-at)).real
        below, middle, above = (
            line(place) - tone.conjugate() * shown(-at - place) - mean * shown(-place)
            for place in (best - reach, best, best + reach)
        )
        right, left = (_signed(turn * one / middle) for one in (above, below))
        if is_flat:
            least = min(right, left)
            ratio = max(right, left) / least if least > 0.0 else math.inf
            offset = _offset(terms, samples, ratio, (2.0, 2.0))
        else:
            offset = _offset(terms, samples, max(right, left), (1.0, 0.0))
        offset = offset if right >= left else -offset
        before, at = at, best + offset
        tone = middle / shown(offset)
        if abs(at - before) < 1e-10:
            break
    return Peak(at * spectrum.frequencies[1], abs(tone), cmath.phase(tone))


def _offset(
    terms: cosine_sum.Coefficients, samples: int, ratio: float, places: tuple[float, float]
) -> float:
    """Return how far a tone lies from its largest line, in lines towards the larger neighbour.

    The ratio is that of a line so far ahead of the largest one and a line so far behind it,
    positive within the main lobe and negative in the first side lobe.
    """
    ahead, behind = places

    def excess(offset: float) -> float:
        larger, smaller = (
            abs(cosine_sum.kernel(terms, b, samples)) for b in (ahead - offset, behind + offset)
        )
        return larger - ratio * smaller

    if excess(0.0) >= 0.0:
        return 0.0
    return crossing(excess, 0.0, FARTHEST, 1e-13) if excess(FARTHEST) > 0.0 else FARTHEST


def _signed(ratio: complex) -> float:
    """Return the size of the ratio of two lines with the sign of its real part."""
    return math.copysign(abs(ratio), ratio.real)
