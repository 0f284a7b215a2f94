"""Windows: weights that a block of samples is multiplied by before its spectrum is taken."""

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Annotated

from calc import linalg
from calc.chart import Axis, Chart, Line, Points
from calc.declaration import Method, Name
from calc.measurement import cosine_sum
from calc.measurement.quantities import OVERLAP, WINDOW, WINDOWS
from calc.quantity import Quantity
from calc.units import LEVEL

if TYPE_CHECKING:
    from array import array

COEFFICIENTS: dict[str, tuple[float, ...]] = {
    "hann": (0.5, 0.5),
    "rectangular": (1.0,),
    "hamming": (0.54, 0.46),
    "blackman": (0.42, 0.5, 0.08),
    "blackman_harris": (0.35875, 0.48829, 0.14128, 0.01168),
    "flat_top": (0.21557895, 0.41663158, 0.277263158, 0.083578947, 0.006947368),
}
"""The sizes of the cosines of each window, the mean first; common practice, no source."""

SAMPLES = Quantity("N", "Number of samples", at_least=1, whole=True, example=1024)
BINS = Quantity(
    "b", "Distance of the tone from the line, in lines", at_least=-1e6, at_most=1e6, example=4.5
)
COHERENT_GAIN = Quantity("a_0", "Coherent gain, the mean of the window")
NOISE_BANDWIDTH = Quantity(r"B_n", "Equivalent noise bandwidth, in lines")
SCALLOPING_LOSS = Quantity("", "Scalloping loss, midway between two lines", LEVEL)
LOWEST_READING = Quantity("", "Lowest reading of the nearest line, of an amplitude of one")
HALF_POWER_WIDTH = Quantity("b_3", "Half-power width of the main lobe, in lines")
HALF_AMPLITUDE_WIDTH = Quantity("b_6", "Half-amplitude width of the main lobe, in lines")
SIDE_LOBE = Quantity("", "Highest side lobe", LEVEL)
TERMS = Name("Coefficients", symbol=r"a_k", longest=200)
LEAKAGE = Quantity("W(b)/W(0)", "Reading on the line, of an amplitude of one")
CORRELATION = Quantity(r"\rho", "Correlation of overlapping blocks")
IN_DECIBELS = Quantity("", "Reading on the line", LEVEL)

LOWEST_DRAWN = -120.0
"""Decibels below which the figure of leakage is not drawn."""


@dataclass(frozen=True, slots=True)
class WindowProperties:
    """What a window does to a line, to noise, and to two lines beside each other."""

    coherent_gain: Annotated[float, COHERENT_GAIN]
    noise_bandwidth: Annotated[float, NOISE_BANDWIDTH]
    scalloping_loss: Annotated[float, SCALLOPING_LOSS]
    lowest_reading: Annotated[float, LOWEST_READING]
    half_power_width: Annotated[float, HALF_POWER_WIDTH]
    half_amplitude_width: Annotated[float, HALF_AMPLITUDE_WIDTH]
    side_lobe: Annotated[float, SIDE_LOBE]
    coefficients: Annotated[str, TERMS]


def window(name: str, samples: int) -> list[float]:
    r"""Return the weights of a window, periodic: the next one would begin again with the first.

    $$ w_n = \sum_k (-1)^k a_k \cos(2 \pi k n / N) $$

    Args:
        name: One of `quantities.WINDOWS`; word.
        samples: Number of samples $N$; scalar.

    Returns:
        The weights; shape (N,).

    Raises:
        ValueError: If there is no such window, or no whole number of samples above zero.

    Source:
        Coefficients are common practice, no source.

    Examples:
        >>> [round(weight, 9) for weight in window("hann", 4)]
        [0.0, 0.5, 1.0, 0.5]
    """
    return weights(name, samples).tolist()


def window_properties(name: Annotated[str, WINDOW]) -> WindowProperties:
    r"""Return what a window does to a line, to noise, and to two lines beside each other.

    $$ \frac{W(b)}{W(0)} = \frac{1}{a_0} \left[ a_0 \operatorname{sinc} b + \frac{1}{2} \sum_k a_k
       \left( \operatorname{sinc}(b - k) + \operatorname{sinc}(b + k) \right) \right],
       \quad B_n = \frac{a_0^2 + \frac{1}{2} \sum_k a_k^2}{a_0^2} $$

    Exact for many samples.  The half-power width is taken where the power is a half, which is
    3.01 dB down, and the half-amplitude width where the amplitude is a half, 6.02 dB down.

    Args:
        name: The window; word.

    Returns:
        Coherent gain, noise bandwidth in lines, scalloping loss in dB, the amplitude that is left
        of one there, widths in lines, the highest side lobe in dB, and the coefficients.

    Raises:
        ValueError: If there is no such window.

    Source:
        Heinzel, Rüdiger and Schilling (2002), the definitions.

    Examples:
        >>> round(window_properties("hann").noise_bandwidth, 6)
        1.5
    """
    WINDOW.check(name)
    return _properties(name)


def leakage(
    name: Annotated[str, WINDOW], bins: Annotated[float, BINS]
) -> Annotated[float, LEAKAGE]:
    r"""Return what a line reads of a tone of amplitude one that lies some lines away.

    $$ \left| \frac{W(b)}{W(0)} \right| = \frac{1}{a_0} \left| a_0 \operatorname{sinc} b
       + \frac{1}{2} \sum_k a_k \left( \operatorname{sinc}(b - k) + \operatorname{sinc}(b + k)
       \right) \right| $$

    Holds for many samples and far from 0 Hz and half the sample rate.

    Args:
        name: The window; word.
        bins: Distance $b$ of the tone from the line, in lines; scalar.

    Returns:
        The reading; scalar.

    Raises:
        ValueError: If there is no such window, or the distance is not finite.

    Source:
        The Fourier transform of a sum of cosines.

    Examples:
        >>> round(leakage("hann", 0.5), 4)
        0.8488
    """
    WINDOW.check(name)
    BINS.check(bins)
    return abs(cosine_sum.response(COEFFICIENTS[name], bins))


def overlap_correlation(
    name: Annotated[str, WINDOW], overlap: Annotated[float, OVERLAP]
) -> Annotated[float, CORRELATION]:
    r"""Return the correlation of two blocks of noise that overlap by a share of their length.

    $$ \rho(o) = \frac{\int_0^{o} w(t) \, w(t + 1 - o) \, dt}{\int_0^1 w^2(t) \, dt} $$

    The time is counted in block lengths.  Holds for white noise and many samples.

    Args:
        name: The window; word.
        overlap: Share $o$ of a block that the next one shares with it; scalar.

    Returns:
        The correlation; scalar.

    Raises:
        ValueError: If there is no such window, or the overlap is not a share below one.

    Source:
        Heinzel, Rüdiger and Schilling (2002), the definition, for a sum of cosines in closed form.

    Examples:
        >>> round(overlap_correlation("hann", 0.5), 6)
        0.166667
    """
    WINDOW.check(name)
    OVERLAP.check(overlap)
    return cosine_sum.correlation(COEFFICIENTS[name], overlap)


def half_amplitude_width(
    name: str,
) -> Annotated[
    float, HALF_AMPLITUDE_WIDTH, Method("twice the distance at which a line reads a half")
]:
    """Return the half-amplitude width of a window, in lines."""
    WINDOW.check(name)
    return _properties(name).half_amplitude_width


@lru_cache(maxsize=4)
def weights(name: str, samples: int) -> "array[float]":
    """Return the weights of `window` as an array, which nobody changes."""
    WINDOW.check(name)
    SAMPLES.check(samples)
    signed = [size * (-1.0) ** number for number, size in enumerate(COEFFICIENTS[name])]
    return linalg.cosine_series(signed, samples)


@lru_cache(maxsize=4)
def total(name: str, samples: int) -> float:
    """Return the sum of the weights of a window."""
    return math.fsum(weights(name, samples))


def window_chart(name: str) -> Chart:
    """Return what a line reads of a tone at a distance, in decibels, beside no window at all."""

    def level(one: str, bins: float) -> float:
        return max(20.0 * math.log10(max(leakage(one, bins), 1e-9)), LOWEST_DRAWN)

    places = [step / 20.0 for step in range(241)]
    return Chart(
        title="Leakage of a window",
        description="The reading falls from 0 dB on the line to side lobes that end in dips.",
        x=Axis.of(BINS, 0.0, 12.0),
        y=Axis.of(IN_DECIBELS, LOWEST_DRAWN, 10.0),
        marks=(
            Line([(b, level("rectangular", b)) for b in places], "rectangular", 0),
            Line([(b, level(name, b)) for b in places], WINDOWS[name], 1),
        ),
    )


def correlation_chart(name: str, overlap: float) -> Chart:
    """Return the correlation of overlapping blocks against their overlap."""
    shares = [step / 100.0 for step in range(100)]
    return Chart(
        title="Correlation of overlapping blocks",
        description="The correlation rises from zero to one as the blocks come to lie on another.",
        x=Axis.of(OVERLAP, 0.0, 1.0),
        y=Axis.of(CORRELATION, 0.0, 1.0),
        marks=(
            Line([(o, overlap_correlation(name, o)) for o in shares], WINDOWS[name], 1),
            Points([(overlap, overlap_correlation(name, overlap))], "", 2),
        ),
    )


@lru_cache
def _properties(name: str) -> WindowProperties:
    terms = COEFFICIENTS[name]
    midway = cosine_sum.response(terms, 0.5)
    return WindowProperties(
        coherent_gain=terms[0],
        noise_bandwidth=cosine_sum.noise_bandwidth(terms),
        scalloping_loss=-20.0 * math.log10(midway),
        lowest_reading=midway,
        half_power_width=cosine_sum.width(terms, math.sqrt(0.5)),
        half_amplitude_width=cosine_sum.width(terms, 0.5),
        side_lobe=20.0 * math.log10(cosine_sum.side_lobe(terms)),
        coefficients=", ".join(map(repr, terms)),
    )
