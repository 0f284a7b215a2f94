"""Averages: how many independent ones overlapping blocks are worth, and the error that is left."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.chart import Axis, Chart, Line, Points
from calc.declaration import Method
from calc.measurement.quantities import OVERLAP, WINDOW
from calc.measurement.windows import overlap_correlation
from calc.quantity import Quantity
from calc.units import PER_CENT

BLOCKS = Quantity("K", "Number of blocks", at_least=1, at_most=1e6, whole=True, example=31)
AVERAGES = Quantity("n", "Independent averages", at_least=1.0, example=100.0)
COHERENCE = Quantity(r"\gamma^2", "Coherence", above=0.0, at_most=1.0, example=0.8)
EQUIVALENT = Quantity("n_e", "Equivalent independent averages", at_least=1.0)
LENGTHS = Quantity("", "Length of the record, in blocks")
DENSITY_ERROR = Quantity(r"\varepsilon", "Random error of the power density", PER_CENT)
NOISE_ERROR = Quantity(
    r"\varepsilon_a", "Random error of an amplitude taken from it, noise alone", PER_CENT
)
RESPONSE_ERROR = Quantity(
    r"\varepsilon_H", "Random error of the amplitude, and of the phase in radians", PER_CENT
)

MOST_DRAWN = 0.9
"""Overlap up to which the figure is drawn."""


@dataclass(frozen=True, slots=True)
class Averages:
    """What overlapping blocks are worth, and the random error of noise that they leave."""

    equivalent_averages: Annotated[float, EQUIVALENT]
    record_in_blocks: Annotated[float, LENGTHS]
    density_error: Annotated[float, DENSITY_ERROR]
    amplitude_error: Annotated[float, NOISE_ERROR]


def equivalent_averages(
    blocks: Annotated[float, BLOCKS],
    overlap: Annotated[float, OVERLAP],
    window: Annotated[str, WINDOW] = "hann",
) -> Annotated[float, EQUIVALENT]:
    r"""Return how many independent averages a mean over overlapping blocks of noise is worth.

    $$ n_e = \frac{K}{1 + 2 \sum_{m=1}^{K-1} \left( 1 - \frac{m}{K} \right) \rho_m^2} $$

    with the correlation $\rho_m$ of blocks $m$ steps apart, zero where they do not overlap.

    Args:
        blocks: Number of blocks $K$; scalar.
        overlap: Share of a block that the next one shares with it; scalar.
        window: The window; word.

    Returns:
        The equivalent number of independent averages; scalar.

    Raises:
        ValueError: If a number breaks its limits, or there is no such window.

    Source:
        Welch (1967), the form, from memory.

    Examples:
        >>> round(equivalent_averages(10, 0.5), 3)
        9.524
    """
    BLOCKS.check(blocks)
    OVERLAP.check(overlap)
    WINDOW.check(window)
    return _worth(blocks, overlap, window)


def averaged_blocks(
    blocks: Annotated[float, BLOCKS],
    overlap: Annotated[float, OVERLAP],
    window: Annotated[str, WINDOW] = "hann",
) -> Averages:
    r"""Return what a mean over overlapping blocks of noise is worth, and the error it leaves.

    $$ n_e = \frac{K}{1 + 2 \sum_{m=1}^{K-1} \left( 1 - \frac{m}{K} \right) \rho_m^2}, \quad
       \varepsilon = \frac{1}{\sqrt{n_e}}, \quad \varepsilon_a = \frac{\varepsilon}{2} $$

    Of noise alone: a steady line has no random error that averages could lower.

    Args:
        blocks: Number of blocks $K$; scalar.
        overlap: Share of a block that the next one shares with it; scalar.
        window: The window; word.

    Returns:
        Equivalent averages, the length of the record in blocks, and the random errors.

    Raises:
        ValueError: If a number breaks its limits, or there is no such window.

    Source:
        Welch (1967), the form, from memory.

    Examples:
        >>> round(averaged_blocks(100, 0.0).density_error, 6)
        0.1
    """
    BLOCKS.check(blocks)
    OVERLAP.check(overlap)
    WINDOW.check(window)
    count: Annotated[float, EQUIVALENT] = _worth(blocks, overlap, window)
    error: Annotated[float, DENSITY_ERROR] = 1.0 / math.sqrt(count)
    return Averages(
        equivalent_averages=count,
        record_in_blocks=1.0 + (blocks - 1.0) * (1.0 - overlap),
        density_error=error,
        amplitude_error=0.5 * error,
    )


def random_error(averages: Annotated[float, AVERAGES]) -> Annotated[float, DENSITY_ERROR]:
    r"""Return the random error of a power density, its standard deviation over its mean.

    $$ \varepsilon = \frac{1}{\sqrt{n}} $$

    Of noise alone: a steady line has no random error that averages could lower.

    Args:
        averages: Number of independent averages $n$; scalar.

    Returns:
        The random error, a share of the density; scalar.

    Raises:
        ValueError: If there is less than one average.

    Source:
        The squared line of Gaussian noise has a standard deviation as large as its mean.

    Examples:
        >>> random_error(100.0)
        0.1
    """
    AVERAGES.check(averages)
    return 1.0 / math.sqrt(averages)


def frf_random_error(
    coherence: Annotated[float, COHERENCE], averages: Annotated[float, AVERAGES]
) -> Annotated[float, RESPONSE_ERROR]:
    r"""Return the random error of a measured frequency response, of its amplitude and its phase.

    $$ \varepsilon_H = \sqrt{\frac{1 - \gamma^2}{2 \gamma^2 n}} $$

    The same number is a share of the amplitude and the phase in radians.

    Args:
        coherence: Coherence $\gamma^2$ of force and response; scalar.
        averages: Number of independent averages $n$; scalar.

    Returns:
        The random error; scalar.

    Raises:
        ValueError: If the coherence is not above zero and at most one, or there is less than one
            average.

    Source:
        Bendat and Piersol, Random Data, 2nd ed., page 317, read in a work that quotes it.

    Examples:
        >>> frf_random_error(0.5, 50.0)
        0.1
    """
    COHERENCE.check(coherence)
    AVERAGES.check(averages)
    return math.sqrt((1.0 - coherence) / (2.0 * coherence * averages))


def averages_chart(blocks: float, overlap: float, window: str = "hann") -> Chart:
    """Return what the same record is worth with more and less overlap of its blocks."""
    length = 1.0 + (blocks - 1.0) * (1.0 - overlap)
    counts = sorted({max(2, math.ceil(length * 10.0 ** (step / 50.0))) for step in range(51)})
    cuts = [(1.0 - (length - 1.0) / (count - 1.0), count) for count in counts]
    worth = [
        (share, equivalent_averages(count, share, window))
        for share, count in cuts
        if share <= MOST_DRAWN and count <= BLOCKS.at_most
    ]
    return Chart(
        title="Equivalent averages of one record against overlap",
        description="More overlap makes more of the same record up to a point, then no more.",
        x=Axis.of(OVERLAP, 0.0, 1.0),
        y=Axis.of(EQUIVALENT, 0.0),
        marks=(
            Line(worth, "", 1),
            Points([(overlap, equivalent_averages(blocks, overlap, window))], "", 2),
        ),
    )


def _worth(
    blocks: float, overlap: float, window: str
) -> Annotated[float, EQUIVALENT, Method("summed over the blocks that overlap")]:
    """Return how many independent averages overlapping blocks are worth."""
    excess = 0.0
    step = 1
    while step < blocks and (shared := 1.0 - step * (1.0 - overlap)) > 0.0:
        excess += (1.0 - step / blocks) * overlap_correlation(window, shared) ** 2
        step += 1
    return blocks / (1.0 + 2.0 * excess)
