"""Synthetic records: the generator by its printed constants, and the formulas by other means."""

import math

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from calc.measurement.record import Reader, Record
from calc.measurement.synthetic import (
    CABIN,
    EXAMPLES,
    MAST,
    MODE_DAMPING,
    MODE_FREQUENCY,
    STEADY_NOISE,
    amplification,
    example,
    noise,
    uniform,
)
from calc.units import STANDARD_GRAVITY


def record(name: str) -> Record:
    """Return an example as it is read from its text."""
    reader = Reader()
    reader.feed(example(name))
    return reader.finish()


def test_generator_gives_the_values_of_its_recipe() -> None:
    """By hand in whole numbers: the second state is 1664525 × 1015568748 + 1013904223 mod 2³²."""
    states = [1015568748, 1586005467, 2165703038]

    assert uniform(3) == [(state + 0.5) / 2**32 for state in states]
    assert states[1] == (1664525 * states[0] + 1013904223) % 2**32


def test_noise_is_nearly_normal() -> None:
    """Sums of twelve have the rms asked for and the kurtosis 2.9 of their distribution."""
    values = np.array(noise(20_000, 0.25))

    assert values.mean() == pytest.approx(0.0, abs=0.25 * 4.0 / math.sqrt(20_000))
    assert values.std() == pytest.approx(0.25, rel=0.02)
    assert (values**4).mean() / values.var() ** 2 == pytest.approx(2.9, abs=0.1)


def test_steady_record_holds_what_it_says() -> None:
    """Least squares on the frequencies of its parts leaves the noise alone."""
    found = record("plover_steady")
    time = np.arange(len(found)) / found.sample_rate
    for channel, parts in zip(found.channels, (MAST, CABIN), strict=False):
        waves = [np.exp(2j * math.pi * part.frequency * time) for part in parts]
        matrix = np.column_stack([c for wave in waves for c in (wave.real, -wave.imag)])
        values = channel.size * np.array(channel.samples)
        shares, *_ = np.linalg.lstsq(matrix, values, rcond=None)
        for part, (cosine, sine) in zip(parts, shares.reshape(-1, 2), strict=True):
            expected = part.amplitude * np.exp(1j * part.phase)
            assert abs(complex(cosine, sine) - expected) < 4.0 * STEADY_NOISE / math.sqrt(len(time))
        assert (values - matrix @ shares).std() == pytest.approx(STEADY_NOISE, rel=0.05)
    assert found.channels[1].size == STANDARD_GRAVITY.size


@pytest.mark.parametrize("share", [0.3, 0.98, 1.0, 1.4])
def test_mode_of_the_run_up_is_an_oscillator(share: float) -> None:
    """The steady state of the equation of motion, marched by SciPy, has this size and this lag."""
    natural, drive = 2.0 * math.pi * MODE_FREQUENCY, 2.0 * math.pi * MODE_FREQUENCY * share
    gain, lag = amplification(share * MODE_FREQUENCY)
    start = [gain * math.cos(-lag), -gain * drive * math.sin(-lag)]
    marched = solve_ivp(
        lambda t, y: [
            y[1],
            natural**2 * (math.cos(drive * t) - y[0]) - 2 * MODE_DAMPING * natural * y[1],
        ],
        (0.0, 3.3),
        start,
        rtol=1e-9,
        atol=1e-9,
    )

    assert marched.y[0][-1] == pytest.approx(gain * math.cos(drive * 3.3 - lag), abs=1e-5 * gain)


def test_examples_are_read_without_a_problem() -> None:
    """No example is damaged, and each says what it is: rate, pulses and speed."""
    found = {name: record(name) for name in EXAMPLES}

    assert all(not one.problems for one in found.values())
    assert [one.sample_rate for one in found.values()] == [200.0, 100.0, 100.0]
    assert [one.has_angle for one in found.values()] == [True, False, False]
    with pytest.raises(ValueError, match="no example record"):
        example("other")
