"""Units of vibration against sampled sines, printed levels and the units of the trade.

Sources:
    ANSI/ASA S1.1, term 3.24, annotations, read on 2026-11-26 in the society's public listing:
    a level over 10 um/s2 is 20 dB less than over 1 um/s2; 10 um/s2 is within 2 % of 1 ug.
    A primer of machinery vibration, a vendor's, read on 2026-11-26: at 100 Hz, 1 g is 120 AdB,
    124 VdB and 2.8 mil peak to peak, and the scales of dB meet at 159.2 Hz.
"""

import math

import numpy as np
import pytest

from calc.measurement.levels import (
    acceleration_at_level,
    acceleration_line,
    convert_vibration,
    crossover_frequency,
    displacement_line,
    level,
    value_at_level,
    velocity_at_level,
    velocity_line,
)
from calc.units import MIL, STANDARD_GRAVITY

QUANTITIES = ("displacement", "velocity", "acceleration")
G = STANDARD_GRAVITY.si(1.0)


def measured(signal: np.ndarray, measure: str) -> float:
    """Return what a meter of a kind would read of a signal."""
    return float(
        {
            "peak": np.abs(signal).max(),
            "rms": math.sqrt(np.mean(signal**2)),
            "peak_to_peak": signal.max() - signal.min(),
            "average": np.abs(signal).mean(),
        }[measure]
    )


@pytest.mark.parametrize("measure", ["peak", "rms", "peak_to_peak", "average"])
@pytest.mark.parametrize("quantity", QUANTITIES)
def test_one_sine_read_by_every_meter(quantity: str, measure: str) -> None:
    """A sine of 7 Hz sampled over one cycle, differentiated by hand, and read by meters.

    A hundred thousand samples a cycle miss a peak by less than 1e-8.
    """
    rate = 2.0 * math.pi * 7.0
    phase = np.arange(100_000) * 2.0 * math.pi / 100_000
    signals = {
        "displacement": 3e-4 * np.sin(phase),
        "velocity": 3e-4 * rate * np.cos(phase),
        "acceleration": -3e-4 * rate**2 * np.sin(phase),
    }
    given = measured(signals[quantity], measure)
    for other in QUANTITIES:
        for wanted in ("peak", "rms", "peak_to_peak", "average"):
            found = convert_vibration(given, 7.0, quantity, measure, other, wanted)
            assert found == pytest.approx(measured(signals[other], wanted), rel=1e-8)


def test_printed_rule_of_thumb() -> None:
    """1 g at 100 Hz: 120 AdB, 124 VdB, 2.8 mil peak to peak, where the g is rms.

    Read as a peak it would be 121 VdB and 2.0 mil: rms taken for peak is caught here.
    """
    moved = convert_vibration(G, 100.0, "acceleration", "rms", "displacement", "peak_to_peak")
    speed = convert_vibration(G, 100.0, "acceleration", "rms", "velocity", "rms")

    assert level(G, 1e-6 * G) == pytest.approx(120.0, abs=0.5)
    assert level(speed, 1e-8) == pytest.approx(124.0, abs=0.5)
    assert MIL.reading(moved) == pytest.approx(2.8, abs=0.05)


def test_scales_of_decibels_meet_where_it_is_printed() -> None:
    """At 159.2 Hz, 1000 rad/s, the three ISO scales of one line agree, to half a last digit.

    The primer's own references differ from those of ISO by 10 alike.
    """
    levels = {row.reference: row.level for row in acceleration_line(1.0, "rms", 159.2).levels}
    iso = [value for name, value in levels.items() if "ISO" in name]

    assert len(iso) == 3
    assert max(iso) - min(iso) == pytest.approx(0.0, abs=0.01)


def test_references_of_acceleration() -> None:
    """ANSI/ASA S1.1: 20 dB less over 10 um/s2, which is 1 ug within 2 %, less than 0.18 dB."""
    rows = {row.reference: row.level for row in acceleration_line(1.0, "rms", 10.0).levels}
    one, ten, micro = (
        rows["1 µm/s² (ISO 1683)"],
        rows["10 µm/s² (ANSI S1.8-1969)"],
        rows["1 µg (AdB)"],
    )

    assert one - ten == pytest.approx(20.0, rel=1e-12)
    assert ten - micro == pytest.approx(0.0, abs=0.18)


@pytest.mark.parametrize(
    ("start", "value"), [(displacement_line, 1e-4), (velocity_line, 5e-3), (acceleration_line, 2.0)]
)
def test_forms_agree_with_one_another(start, value: float) -> None:  # type: ignore[no-untyped-def]  # noqa: ANN001  three forms of unlike parameters
    """What one form says of a line, the others say of what it says."""
    said = start(value, "peak_to_peak", 23.0)
    rms = said.measures[1]

    assert displacement_line(rms.displacement, "rms", 23.0).measures[2].velocity == pytest.approx(
        said.measures[2].velocity
    )
    assert acceleration_line(rms.acceleration, "rms", 23.0).levels == tuple(
        row.__class__(row.of, row.reference, pytest.approx(row.level)) for row in said.levels
    )


def test_level_and_back() -> None:
    """A level has its value, over any reference; a doubling is 6.02 dB."""
    assert value_at_level(level(0.37, 1e-9), 1e-9) == pytest.approx(0.37, rel=1e-12)
    assert level(2.0, 1.0) == pytest.approx(6.0206, abs=5e-5)
    assert velocity_at_level(100.0, 1e-8) == pytest.approx(1e-3, rel=1e-12)
    assert acceleration_at_level(100.0, 1e-5) == pytest.approx(1.0, rel=1e-12)


def test_no_vibration_has_no_level() -> None:
    """The logarithm of nothing is not shown."""
    assert velocity_line(0.0, "peak", 10.0).levels == ()


def test_limits_meet_at_the_crossover() -> None:
    """At that frequency the displacement limit has the acceleration limit."""
    frequency = crossover_frequency(5e-4, 2.0 * G)
    found = convert_vibration(5e-4, frequency, "displacement", "peak", "acceleration", "peak")

    assert found == pytest.approx(2.0 * G, rel=1e-12)


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        ((-1.0, 10.0, "velocity", "peak", "velocity", "rms"), "at least 0"),
        ((1.0, 0.0, "velocity", "peak", "velocity", "rms"), "Frequency of the line"),
        ((1.0, 10.0, "speed", "peak", "velocity", "rms"), "quantity must be one of"),
        ((1.0, 10.0, "velocity", "peak", "velocity", "p-p"), "measure must be one of"),
    ],
)
def test_what_cannot_be_converted_is_refused(
    arguments: tuple[float, float, str, str, str, str], message: str
) -> None:
    """Words and numbers that mean nothing are named."""
    with pytest.raises(ValueError, match=message):
        convert_vibration(*arguments)


def test_level_needs_a_reference() -> None:
    """Neither value nor reference may be zero, and no level is beyond 400 dB."""
    for value, reference in ((0.0, 1.0), (1.0, 0.0), (math.inf, 1.0)):
        with pytest.raises(ValueError, match="above 0"):
            level(value, reference)
    with pytest.raises(ValueError, match="above 0"):
        value_at_level(1.0, 0.0)
    with pytest.raises(ValueError, match="Level must be"):
        value_at_level(500.0, 1.0)
