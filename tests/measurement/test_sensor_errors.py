"""Sensor errors: oscillator, filter and converter against SciPy and NumPy."""

import cmath
import math

import numpy as np
import pytest
from scipy import signal

from calc.measurement.sensor_errors import (
    ac_coupling,
    high_pass_gain,
    high_pass_phase,
    loaded_frequency,
    quantisation,
    quantisation_rms,
    sensor_amplitude_error,
)

RATIOS = (0.05, 0.2, 0.5, 0.9, 1.3, 3.0)


@pytest.mark.parametrize("ratio", RATIOS)
@pytest.mark.parametrize("damping", [0.0, 0.02, 0.6])
def test_error_is_that_of_an_oscillator(ratio: float, damping: float) -> None:
    """SciPy: a mass on a spring against its base, over the acceleration of the base."""
    pulse = 2.0 * math.pi * 900.0
    system = [pulse**2], [1.0, 2.0 * damping * pulse, pulse**2]
    _, (response,) = signal.freqs(*system, worN=[ratio * pulse])

    found = sensor_amplitude_error(ratio * 900.0, 900.0, damping)
    assert found == pytest.approx(abs(response) - 1.0, rel=1e-9, abs=1e-12)


def test_undamped_sensor_at_its_resonance_is_refused() -> None:
    """It has no finite amplitude; with damping it has."""
    with pytest.raises(ValueError, match="resonance"):
        sensor_amplitude_error(500.0, 500.0)
    assert sensor_amplitude_error(500.0, 500.0, 0.05) == pytest.approx(9.0)


@pytest.mark.parametrize("line", [0.3, 1.0, 6.0, 24.0])
def test_coupling_is_a_first_order_filter(line: float) -> None:
    """SciPy's high-pass filter of the first order: size, and a lead, not a lag."""
    corner = 0.7
    numerator, denominator = signal.butter(1, 2.0 * math.pi * corner, "highpass", analog=True)
    _, (response,) = signal.freqs(numerator, denominator, worN=[2.0 * math.pi * line])

    assert high_pass_gain(line, corner) == pytest.approx(abs(response), rel=1e-9)
    assert high_pass_phase(line, corner) == pytest.approx(cmath.phase(response), rel=1e-9)
    assert high_pass_phase(line, corner) > 0.0


def test_filtered_vector_leaves_a_part_of_the_unbalance() -> None:
    """A correction by a vector that went through the filter, with an effect that did not."""
    effect, unbalance = cmath.rect(0.16, 0.6), cmath.rect(0.05, -1.1)
    found = ac_coupling(5.0, 1.0)
    seen = effect * unbalance * found.gain * cmath.exp(1j * found.phase)
    left = unbalance - seen / effect

    assert found.residual == pytest.approx(abs(left) / abs(unbalance), rel=1e-12)


def test_rounding_of_a_random_signal_has_the_noise() -> None:
    """NumPy: a signal over a thousand steps, rounded; 0.5 % is three times its sampling error."""
    step = quantisation(4.0, 10).step
    values = np.random.default_rng(3).uniform(-2.0, 2.0, 200_000)
    errors = np.round(values / step) * step - values

    assert quantisation_rms(4.0, 10) == pytest.approx(errors.std(), rel=0.005)
    assert step == pytest.approx(4.0 / 1024, rel=1e-15)


def test_sensor_lowers_a_frequency_as_mass_does() -> None:
    """The spring of the part with both masses on it; no mass changes nothing."""
    spring = 2.0 * (2.0 * math.pi * 60.0) ** 2

    found = loaded_frequency(60.0, 2.0, 0.05)
    assert (2.0 * math.pi * found) ** 2 * 2.05 == pytest.approx(spring, rel=1e-12)
    assert loaded_frequency(60.0, 2.0, 0.0) == 60.0
