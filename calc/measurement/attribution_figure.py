"""Attribution figure: measured peaks over the tolerance bands of the lines that are expected."""

from collections.abc import Sequence

from calc.chart import Axis, Band, Chart, Points, Stems
from calc.measurement.known_lines import (
    EXPLAINED,
    SHARED,
    STATE,
    UNEXPLAINED,
    KnownLine,
    seen_at,
)
from calc.measurement.peak_rows import Attribution, PeakRow
from calc.measurement.read_spectrum import ReadSpectrum
from calc.units import HERTZ

LOGARITHMIC = 20.0
"""Largest over smallest amplitude, from which on small peaks would not be seen side by side."""
ABOVE = 1.25
"""Room for the name of the highest peak."""
MOST_BANDS = 60
SHAPES = {EXPLAINED: "circle", SHARED: "square", UNEXPLAINED: "triangle"}


def measured_peaks_chart(
    found: Attribution, known: Sequence[KnownLine], spectrum: ReadSpectrum
) -> Chart:
    """Return the peaks, each by its state and with its source, and where lines are expected."""
    highest = ABOVE * max(row.frequency for row in found.peaks)
    bands = []
    for line in known:
        place = seen_at(line.frequency, spectrum.folded_at)
        reach = line.tolerance + spectrum.peak_tolerance
        if spectrum.reaches(line.frequency) and place - reach < highest:
            bands.append(Band(max(place - reach, 0.0), place + reach, "x", style=1))
    amplitudes = [row.amplitude for row in found.peaks]
    logarithmic = 0.0 < LOGARITHMIC * min(amplitudes) < max(amplitudes)
    return Chart(
        title="Measured peaks and expected lines",
        description="A stem for each measured peak, marked by how many sources can be it; the "
        "tinted bands are the expected lines, as wide as their tolerance.",
        x=Axis("Frequency", HERTZ, 0.0, highest),
        y=Axis("Amplitude", low=min(amplitudes) / 2.0 if logarithmic else 0.0, log=logarithmic),
        marks=(
            *bands[:MOST_BANDS],
            *(
                Stems(points, words, style)
                for style, (state, words) in enumerate(STATE.options.items(), 1)
                if (points := [(p.frequency, p.amplitude) for p in found.peaks if p.state == state])
            ),
            *(
                Points([(peak.frequency, peak.amplitude)], _named(peak), style, shape)
                for peak in found.peaks
                for style, (state, shape) in enumerate(SHAPES.items(), 1)
                if peak.state == state != UNEXPLAINED
            ),
        ),
    )


def _named(peak: PeakRow) -> str:
    """Return the nearest source of a peak, and that there are more."""
    nearest, *others = peak.sources.split("; ")
    return f"{nearest} or other" if others else nearest
