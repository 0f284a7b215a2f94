"""Look: the stretch of the record that a view looks at, in the quantity and measure asked for."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from calc.measurement import desk
from calc.measurement.reading.samples import Samples, array, bridged
from calc.measurement.reading.steadiness import speeds_of
from calc.measurement.record import Channel, Record
from calc.quantity import InputsError
from calc.record.expected import Expected, expected
from calc.units import METRE_PER_SECOND_SQUARED, ONE, Unit

MEASURES = {"peak": 1.0, "rms": math.sqrt(0.5), "peak_to_peak": 2.0}
"""A measure of a line over its peak amplitude."""
WORDS = {"peak": "peak", "rms": "rms", "peak_to_peak": "peak to peak"}
POWERS = {"acceleration": 2, "velocity": 1, "displacement": 0}
"""How often a displacement is differentiated."""


@dataclass(frozen=True, slots=True)
class Look:
    """What a view looks at; `begin` is the time of the first sample, `gaps` were bridged.

    `speed` is the mean rotor speed of the stretch, rad/s, and `drift` its highest less its lowest
    over the mean, both None without a tachometer or a rotor speed.
    """

    record: Record
    channel: Channel
    samples: Samples
    begin: float
    gaps: int
    mean: float
    speed: float | None
    drift: float | None
    expected: Expected
    values: Mapping[str, Any]

    @property
    def rate(self) -> float:
        """Sample rate; scalar, Hz."""
        return self.record.sample_rate

    @property
    def length(self) -> float:
        """Length of the stretch; scalar, s."""
        return len(self.samples) / self.rate

    def pulses(self) -> list[float]:
        """Return the times of the pulses, counted from the first sample of the stretch, in s.

        Raises:
            ValueError: If the record has no pulses and no rotor speed.
        """
        times = self.record.pulse_times
        if times is None or len(times) < 2:
            raise ValueError(
                "This needs a tachometer or a rotor speed: say which column it is, above"
            )
        return [time - self.begin for time in times]

    @property
    def notes(self) -> list[str]:
        """What a reader has to know of the stretch."""
        said = f"{self.gaps} missing samples were bridged by straight lines"
        if self.gaps == 1:
            said = "1 missing sample was bridged by a straight line"
        return [*([said] if self.gaps else []), *self.expected.notes]


def look(entries: Mapping[str, str], values: Mapping[str, Any], kept: Mapping[str, Any]) -> Look:
    """Return the stretch of a channel that is asked for.

    Args:
        entries: The entries of the page; of these the channel.
        values: The values of the fields, in SI units.
        kept: What the browser keeps of drive trains.

    Raises:
        ValueError: If there is no record, no such channel, or no sample in the stretch.
    """
    record = desk.the_record()
    channel = record.channel(entries.get("channel", ""))
    samples, first, gaps, mean = stretch_of(record, channel, values)
    at = record.start + first / record.sample_rate
    speed, drift = speed_of(record, at, at + len(samples) / record.sample_rate)
    measured = speed if values["speed"] == "measured" else None
    lines = expected(values["lines"], kept, measured)
    return Look(record, channel, samples, at, gaps, mean, speed, drift, lines, values)


def stretch_of(
    record: Record, channel: Channel, values: Mapping[str, Any]
) -> tuple[Samples, int, int, float]:
    """Return a channel's stretch: samples, index of the first, gaps bridged, and the mean.

    Raises:
        ValueError: If no sample lies in the stretch.
    """
    begin, end = values["start"], values["end"]
    if begin is not None and end is not None and begin >= end:
        raise InputsError(
            "The stretch must end after it begins: look at From and To", "start", "end"
        )
    raw, first = desk.stretch(record, channel.name, begin, end)
    gaps = sum(map(math.isnan, raw))
    samples = bridged(raw) if gaps else raw
    mean = math.fsum(samples) / len(samples)
    if values.get("mean") == "removed":
        samples = array("d", map((-mean).__add__, samples))
    return samples, first, gaps, mean


def unit_of(channel: Channel) -> Unit:
    """Return the unit of a channel, known or not."""
    return Unit(channel.unit, channel.unit, channel.unit) if channel.unit else ONE


def factor(channel: Channel, shown: str, frequency: float) -> float:
    """Return by how much the amplitude of a line grows where it is shown as another quantity.

    Raises:
        ValueError: If the channel has no unit of vibration.
    """
    if shown == "recorded":
        return 1.0
    if channel.quantity not in POWERS:
        raise ValueError(
            f"{channel.name} has no unit of vibration, and can be shown as recorded alone: give "
            "its column a unit, above"
        )
    power = POWERS[shown] - POWERS[channel.quantity]
    if power < 0 and frequency == 0.0:
        return 0.0  # a constant has no such amplitude
    scale = {"acceleration": 1.0, "velocity": 1e3, "displacement": 1e3}[shown]
    return float(scale * channel.size * (2.0 * math.pi * frequency) ** power)


def shown_unit(channel: Channel, shown: str, measure: str) -> Unit:
    """Return the unit of the lines, with the measure in it."""
    own = {
        "recorded": channel.unit,
        "acceleration": METRE_PER_SECOND_SQUARED.name,
        "velocity": "mm/s",
        "displacement": "mm",
    }[shown]
    name = f"{own} {WORDS[measure]}".strip()
    return Unit(name, name, name)


def speed_of(record: Record, begin: float, end: float) -> tuple[float | None, float | None]:
    """Return the mean rotor speed between two times, rad/s, and its drift over the mean."""
    times = [time for time in record.pulse_times or () if begin <= time <= end]
    if len(times) <= record.pulses_per_revolution:
        return None, None
    mean, speeds = speeds_of(times, record.pulses_per_revolution, record.sample_rate)
    return mean, (max(speeds) - min(speeds)) / mean
