"""Peak notes: what else speaks for or against a source: speed, whole orders, modulation."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Annotated

from calc.digits import significant
from calc.harmonics.drive_train import BLADED, Part, turning
from calc.harmonics.sources import SourceLine
from calc.measurement.common_speed import CommonSpeed
from calc.measurement.known_lines import SHARED, UNEXPLAINED, Explanation, seen_at, within
from calc.measurement.read_spectrum import ReadSpectrum
from calc.quantity import Quantity
from calc.units import FREQUENCY

HIGHEST_ORDER = 20

PEAK_FREQUENCY = Quantity("f_p", "Frequency of the peak", FREQUENCY, above=0.0, example=24.0)
PEAK_AMPLITUDE = Quantity(
    "A_p", "Amplitude of the peak, in any one unit", at_least=0.0, example=0.1
)


@dataclass(frozen=True, slots=True)
class MeasuredPeak:
    """A peak as it was read from a spectrum."""

    frequency: Annotated[float, PEAK_FREQUENCY]
    amplitude: Annotated[float, PEAK_AMPLITUDE]


ENOUGH = 3
"""Peaks that must agree on a speed before a peak is held against it."""


class PeakNotes:
    """What is told beside a peak, from all that is known of the others."""

    def __init__(
        self,
        peaks: Sequence[MeasuredPeak],
        train: tuple[Part, ...],
        lines: Sequence[SourceLine],
        speeds: Sequence[CommonSpeed],
        spectrum: ReadSpectrum,
    ) -> None:
        """Take the peaks, the lines and what the peaks say of the speeds."""
        self._peaks, self._lines, self._spectrum = peaks, lines, spectrum
        agreed = [row for row in speeds if row.peaks >= ENOUGH]
        self._ratios = {row.shaft: 1.0 + row.correction for row in agreed}
        self._shafts = _shafts(train, self._ratios)

    def of(self, peak: MeasuredPeak, explained: Explanation) -> Iterator[str]:
        """Yield what is told beside a peak."""
        spectrum = self._spectrum
        tolerance = spectrum.peak_tolerance
        follows = {line.source: line for line in self._lines}
        named = [follows[name] for name in explained.names if name in follows]
        for line in named:
            if line.frequency > spectrum.sample_rate / 2.0 > 0.0:
                alias = f"alias of {significant(line.frequency, 4)} Hz"
                yield alias if explained.state != SHARED else f"{line.source} as an {alias}"
        off = [abs(peak.frequency - seen_at(self._at(x), spectrum.folded_at)) for x in named]
        wide = 2.0 * tolerance + peak.frequency * spectrum.speed_drift / 2.0
        if off and len(off) == len(explained.names) and min(off) > wide:
            yield f"{significant(min(off), 2)} Hz off at the speed that the other peaks agree on"
        if explained.state != UNEXPLAINED:
            return
        for line in self._lines:
            place = self._at(line)
            if place != line.frequency and within(place, peak.frequency, tolerance):
                yield f"{line.source} at the speed that the other peaks agree on"
        yield order_note(peak.frequency, self._shafts, spectrum.relative_tolerance, tolerance)
        yield modulation_note(peak, self._peaks, self._shafts, 2.0 * tolerance)

    def _at(self, line: SourceLine) -> float:
        """Return the frequency of a line at the speed that the peaks agree on."""
        return line.frequency * self._ratios.get(line.follows, 1.0)


def order_note(
    frequency: float, shafts: Mapping[str, float], relative: float, tolerance: float
) -> str:
    """Return of which whole order of a shaft a peak can be, or nothing.

    Args:
        frequency: Of the peak, Hz.
        shafts: Revolutions a second of each shaft.
        relative: How far the speed may be off, over the speed.
        tolerance: Of the peak, Hz.

    Returns:
        The lowest such order up to the twentieth, with its shaft.

    Source:
        Definition of an order.

    Examples:
        >>> order_note(18.03, {"Main rotor": 6.0}, 0.004, 0.025)
        '3/rev of Main rotor'
    """
    fits = [
        (order, name)
        for name, turns in shafts.items()
        for order in [round(frequency / turns)]
        if 1 <= order <= HIGHEST_ORDER
        and within(frequency, order * turns, order * turns * relative + tolerance)
    ]
    return "{}/rev of {}".format(*min(fits)) if fits else ""


def modulation_note(
    peak: MeasuredPeak,
    peaks: Sequence[MeasuredPeak],
    shafts: Mapping[str, float],
    tolerance: float,
) -> str:
    """Return about which stronger peak a peak is one of a pair of sidebands, or nothing.

    Args:
        peak: The peak that may be a sideband.
        peaks: All peaks.
        shafts: Revolutions a second of each shaft.
        tolerance: Of the distance between two peaks, Hz.

    Returns:
        The stronger peak, and the shaft whose revolutions are the spacing on both sides.

    Source:
        A line whose size varies once a revolution has two lines beside it.

    Examples:
        >>> three = [MeasuredPeak(18.0, 0.1), MeasuredPeak(24.0, 1.0), MeasuredPeak(30.0, 0.2)]
        >>> modulation_note(three[0], three, {"Main rotor": 6.0}, 0.05)
        'with 30.00 Hz one of a pair 1/rev of Main rotor about 24.00 Hz: modulation'
    """
    for strong in sorted(peaks, key=lambda other: -other.amplitude):
        if strong.amplitude <= peak.amplitude:
            break
        other_side = 2.0 * strong.frequency - peak.frequency
        for name, turns in shafts.items():
            if not within(abs(strong.frequency - peak.frequency), turns, tolerance):
                continue
            for twin in peaks:
                weaker = twin.amplitude < strong.amplitude
                if weaker and within(twin.frequency, other_side, 2.0 * tolerance):
                    return (
                        f"with {_hertz(twin.frequency)} one of a pair 1/rev of {name} "
                        f"about {_hertz(strong.frequency)}: modulation"
                    )
    return ""


def _hertz(frequency: float) -> str:
    return f"{significant(frequency, 4)} Hz"


def _shafts(train: tuple[Part, ...], ratios: Mapping[str, float]) -> dict[str, float]:
    """Return the revolutions a second of the shafts, of those that turn alike a bladed one."""
    turns = turning(train) if train else {}
    found: dict[float, str] = {}
    for part in sorted(train, key=lambda part: part.kind not in BLADED):
        turn = turns[part.name]
        rate = turn.speed * ratios.get(turn.follows, 1.0) / (2.0 * math.pi)
        found.setdefault(rate, part.name)
    return {name: rate for rate, name in found.items()}
