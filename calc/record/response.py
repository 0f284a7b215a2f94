"""Response: a channel over a stimulus, with coherence, random error and the mode in a band."""

import cmath
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from operator import itemgetter

from calc.digits import significant
from calc.measurement.spectrum import equivalent_averages, frf_random_error
from calc.measurement.transfer import DRIVEN, dwells, frequency_response
from calc.record.figures import LEAST_COHERENCE, response_chart
from calc.record.lines import Pair, band_of, thinned
from calc.record.look import Look, stretch_of
from calc.record.response_mode import mode_read
from calc.record.shown import Seen
from calc.record.spectra import DRAWN
from calc.survey.report.blocks import Block, Words
from calc.units import DEGREE, Unit

FEWEST_AVERAGES = 5.0
"""Independent averages below which a coherence near 1 proves little; chosen here."""

Line = tuple[float, float, float, float | None, bool]
"""Amplitude, frequency in Hz, coherence, random error, and whether the stimulus drives it."""
NO_LINE: Line = (0.0, 0.0, 0.0, None, False)


def response(look: Look) -> Seen:
    """Return a channel over a stimulus, with its coherence, and the damping of a mode in it."""
    values = look.values
    if values["stimulus"] is None:
        raise ValueError("Choose the stimulus: the channel of a stick position or a force")
    stimulus = look.record.channel(values["stimulus"])
    if stimulus.name == look.channel.name:
        raise ValueError("Choose a stimulus that is another channel than the one looked at")
    samples, _, gaps, _ = stretch_of(look.record, stimulus, values)
    block = max(2, round(values["block"] * look.rate))
    spacing = look.rate / block
    window, overlap = values["window"], values["overlap"]
    found = frequency_response(samples, look.samples, look.rate, block, window, overlap)
    averages = equivalent_averages(found.averages, overlap, window)
    low, high = band_of(look)
    first, last = bisect_left(found.frequencies, low), bisect_right(found.frequencies, high)
    if last - first < 2:
        raise ValueError("No two lines of the response lie between these frequencies")
    frequencies, coherences = found.frequencies[first:last], found.coherences[first:last]
    sizes = list(map(abs, found.responses[first:last]))
    errors = [_error(coherence, averages) for coherence in coherences]
    unrelated = significant(1.0 / averages, 2)
    lines = list(zip(sizes, frequencies, coherences, errors, found.driven[first:last], strict=True))
    said = _warnings(averages, unrelated, is_dwelling=dwells(samples, block, window))
    mode, halves = mode_read(look, found, spacing, said)
    unit = _unit(look.channel.unit, stimulus.unit)
    blocks: list[Block] = [Words(f"{text}.", "warning") for text in said]
    blocks += mode
    about = f"{found.averages} blocks count as {significant(averages, 3)} independent ones, lines "
    about += f"every {significant(spacing, 3)} Hz; with so many, noise alone has a coherence of "
    about += f"about {unrelated}"
    notes = [about, *_left_out(lines), *look.notes]
    if gaps:
        notes.append(f"{gaps} missing samples of the stimulus were bridged by straight lines")
    blocks += [Words(f"{text}.") for text in notes]
    heads = ["Frequency (Hz)", f"Amplitude ({unit.name})", "Phase, a lead (deg)", "Coherence"]
    heads.append("Random error of the amplitude")

    def numbers() -> list[list[str]]:
        phases = [DEGREE.reading(cmath.phase(h)) for h in found.responses[first:last]]
        columns = (frequencies, sizes, phases, coherences, errors)
        rows = [list(map(repr, row)) for row in zip(*columns, strict=True)]
        return [heads, *([*row[:4], "" if row[4] == "None" else row[4]] for row in rows)]

    name = f"{look.channel.name} to {stimulus.name}"
    return Seen(
        f"Response of {name}",
        _sentence(lines, unit, unrelated),
        blocks,
        response_chart(
            name,
            unit,
            thinned(list(zip(frequencies, sizes, strict=True)), DRAWN),
            _lowest(list(zip(frequencies, coherences, strict=True))),
            halves,
        ),
        numbers,
    )


def _warnings(averages: float, unrelated: str, *, is_dwelling: bool) -> list[str]:
    """Return why damping or coherence are doubtful."""
    said = []
    if is_dwelling:
        said.append(
            "The stimulus is at one frequency after another: within a block nearly all of it lies "
            "in a few lines. Then the width of the window does not add as it is taken off here, "
            "and the damping as read counts, which errs to the large side"
        )
    if averages < FEWEST_AVERAGES:
        said.append(
            f"So few blocks, {significant(averages, 3)} independent ones, make the coherence look "
            f"better than it is: signals that have nothing to do with one another have one of "
            f"about {unrelated}, and one near 1 proves little"
        )
    return said


def _sentence(lines: Sequence[Line], unit: Unit, unrelated: str) -> str:
    """Return the largest amplitude among lines that the stimulus drives and that are coherent."""
    size, frequency, coherence, error, _ = max(
        (line for line in lines if line[4] and line[2] >= LEAST_COHERENCE), default=NO_LINE
    )
    if error is None:
        return f"No line that the stimulus drives has a coherence of {LEAST_COHERENCE} or more"
    return (
        f"The largest that the stimulus drives, with a coherence of {LEAST_COHERENCE} or more: "
        f"{significant(size)} {unit.name} at {significant(frequency, 5)} Hz, coherence "
        f"{significant(coherence, 3)} where unrelated signals have about {unrelated}, "
        f"random error {significant(100.0 * error, 2)} %"
    )


def _left_out(lines: Sequence[Line]) -> list[str]:
    """Return that the largest amplitude stands where the stimulus has next to nothing, if so."""
    _, frequency, _, _, driven = max(lines, key=itemgetter(0))
    if driven:
        return []
    said = f"The largest amplitude of all, at {significant(frequency, 5)} Hz, is passed over: the "
    said += (
        f"stimulus has less than {significant(100.0 * DRIVEN, 1)} % of the power of its largest "
    )
    said += "line there, so that noise or another source makes the response, whatever its coherence"
    return [said]


def _lowest(points: Sequence[Pair]) -> list[Pair]:
    """Return the points that a figure draws: of each step the lowest."""
    return [(x, -y) for x, y in thinned([(x, -y) for x, y in points], DRAWN)]


def _error(coherence: float, averages: float) -> float | None:
    """Return the random error of the amplitude, None where there is no coherence."""
    return frf_random_error(coherence, averages) if coherence > 0.0 else None


def _unit(above: str, below: str) -> Unit:
    """Return the unit of a response over a stimulus, of which either may be unknown."""
    name = f"{above or '1'}/({below})" if below else above
    return Unit(name, name, name)
