"""Spectra: the lines of a stretch with its peaks, and what they cannot tell apart."""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from itertools import pairwise

from calc.digits import significant
from calc.measurement.spectrum import equivalent_averages, random_error
from calc.measurement.windows import window_properties
from calc.record.figures import spectrum_chart
from calc.record.lines import Lines, Pair, band_of, lines_of, many, peaks_of, thinned
from calc.record.look import MEASURES, Look, factor, shown_unit
from calc.record.shown import Seen
from calc.survey.report.blocks import Block, Grid, Words
from calc.units import RPM

DRAWN = 1500
"""Steps across a figure; each shows its largest line."""
MOST_PAIRS = 12
SMEARED = 2.0
"""Lines over which a drift may spread a line before it is said; common practice, no source."""
WORDS_OF_MEAN = {"removed": "The mean is taken out", "kept": "The mean is left in"}


def spectrum(look: Look) -> Seen:
    """Return the spectrum of a stretch with its peaks, and what it cannot tell apart."""
    values = look.values
    lines = lines_of(look)
    shown, measure = values["shown"], values["measure"]
    scale = MEASURES[measure]
    low, high = band_of(look)
    unit = shown_unit(look.channel, shown, measure)
    first = bisect_left(lines.frequencies, low)
    last = bisect_right(lines.frequencies, high)
    if last - first < 2:
        raise ValueError("No two lines of the spectrum lie between these frequencies")

    def as_shown(pair: Pair) -> Pair:
        frequency, amplitude = pair
        return frequency, scale * factor(look.channel, shown, frequency) * amplitude

    pairs = zip(lines.frequencies[first:last], lines.amplitudes[first:last], strict=True)
    seen = list(pairs if shown == "recorded" else map(as_shown, pairs))
    drawn = thinned(seen, DRAWN)
    if shown == "recorded":
        drawn = list(map(as_shown, drawn))
    found = peaks_of(look, lines)
    peaks = [as_shown(peak) for peak in found if low <= peak[0] <= high]
    chart = spectrum_chart(
        look.channel.name,
        unit,
        drawn,
        peaks,
        look.expected.lines,
        logarithmic=values["scale"] == "log",
    )
    said = (*_resolution(look, lines), *many(found), *look.notes)
    blocks: list[Block] = [Words(f"{text}.") for text in said]
    blocks += [_peak_table(look, peaks, unit.name), *_not_apart(look, lines, low, high)]

    def numbers() -> list[list[str]]:
        told = map(as_shown, seen) if shown == "recorded" else seen
        heads = ["Frequency (Hz)", f"Amplitude ({unit.name})"]
        return [heads, *([repr(x), repr(y)] for x, y in told)]

    return Seen(
        f"Spectrum of {look.channel.name}", _sentence(peaks, unit.name), blocks, chart, numbers
    )


def _resolution(look: Look, lines: Lines) -> list[str]:
    """Return what the length of a block can tell apart, and what averaging leaves."""
    window = look.values["window"]
    apart = window_properties(window).half_amplitude_width * lines.spacing
    rpm = RPM.reading(2.0 * math.pi * apart)
    said = [f"{WORDS_OF_MEAN[look.values['mean']]}; lines every {significant(lines.spacing, 3)} Hz"]
    said[0] += f": two lines less than {significant(apart, 3)} Hz apart are seen as one, at 1/rev "
    said[0] += f"two rotor speeds less than {significant(rpm, 3)} rpm apart"
    if lines.blocks > 1:
        averages = equivalent_averages(lines.blocks, look.values["overlap"], window)
        said.append(
            f"{lines.blocks} blocks count as {significant(averages, 3)} independent ones: the "
            f"density of noise scatters by {significant(100.0 * random_error(averages), 2)} %, "
            f"the amplitude of a line in it by about half; a steady line has no such error"
        )
    if look.drift and (highest := SMEARED * lines.spacing / look.drift) < 0.5 * look.rate:
        said.append(
            f"The rotor speed drifts by {significant(100.0 * look.drift, 2)} % in the stretch: "
            f"above {significant(highest, 3)} Hz its lines may smear over more than two lines of "
            "this spectrum and read wrong; orders do not"
        )
    return said


def _peak_table(look: Look, found: Sequence[Pair], unit: str) -> Grid:
    """Return the peaks with their order of the rotor."""
    heads = ["Peak (Hz)", f"Amplitude ({unit})"]
    rows = [[significant(x, 5), significant(y)] for x, y in found]
    if look.speed:
        turns = look.speed / (2.0 * math.pi)
        heads.append("Order of the rotor (/rev)")
        rows = [[*row, significant(x / turns)] for row, (x, _) in zip(rows, found, strict=True)]
    return Grid("Peaks", heads, rows)


def _not_apart(look: Look, lines: Lines, low: float, high: float) -> list[Block]:
    """Return the expected lines that are too near to one another for this spectrum."""
    apart = window_properties(look.values["window"]).half_amplitude_width * lines.spacing
    inside = [line for line in look.expected.lines if low <= line.frequency <= high]
    pairs = [
        [one.source, other.source, significant(other.frequency - one.frequency, 3)]
        for one, other in pairwise(inside)
        if 0.0 < other.frequency - one.frequency < apart
    ]
    if not pairs:
        return []
    caption = "Expected lines that this spectrum cannot tell apart"
    return [Grid(caption, ["Line", "and", "Apart by (Hz)"], pairs[:MOST_PAIRS])]


def _sentence(found: Sequence[Pair], unit: str) -> str:
    if not found:
        return "No peak above the threshold"
    frequency, amplitude = max(found, key=lambda pair: pair[1])
    told = f"{significant(amplitude)} {unit} at {significant(frequency, 5)} Hz"
    return f"{len(found)} {'peak' if len(found) == 1 else 'peaks'}, the largest {told}"
