"""Hub whirl: both circles and the sense of the whirl, against sampled motions."""

import cmath
import math

import numpy as np
import pytest

from calc.measurement.hub_whirl import whirl, whirl_components

SAMPLES, LINE = 240, 7


@pytest.mark.parametrize("seed", range(12))
def test_circles_are_the_lines_of_the_complex_motion(seed: int) -> None:
    """NumPy: x + i y has the forward circle at plus the frequency, the backward one at minus."""
    dice = np.random.default_rng(seed)
    sizes, phases = dice.uniform(0.1, 3.0, 2), dice.uniform(-math.pi, math.pi, 2)
    angle = 2.0 * math.pi * LINE * np.arange(SAMPLES) / SAMPLES
    x, y = (size * np.cos(angle + phase) for size, phase in zip(sizes, phases, strict=True))
    lines = np.fft.fft(x + 1j * y) / SAMPLES
    found = whirl_components(*(cmath.rect(*one) for one in zip(sizes, phases, strict=True)))
    told = whirl(sizes[0], phases[0], sizes[1], phases[1])

    assert found.forward == pytest.approx(complex(lines[LINE]), abs=1e-12)
    assert found.backward == pytest.approx(complex(lines[-LINE]), abs=1e-12)
    assert told.forward == pytest.approx(abs(lines[LINE]), rel=1e-9, abs=1e-12)
    assert told.backward == pytest.approx(abs(lines[-LINE]), rel=1e-9, abs=1e-12)
    dense = np.linspace(0.0, 2.0 * math.pi, 20_001)
    way = np.hypot(*(s * np.cos(dense + p) for s, p in zip(sizes, phases, strict=True)))
    assert told.major == pytest.approx(way.max(), rel=1e-6)
    assert told.minor == pytest.approx(way.min(), rel=1e-3, abs=1e-4)  # grid about a sharp minimum


@pytest.mark.parametrize(
    ("phase", "words"),
    [(-90.0, "Forward, from x to y: 100 %"), (90.0, "Backward, from y to x: 100 %")],
)
def test_circle_has_a_sense(phase: float, words: str) -> None:
    """A lateral motion that lags by a quarter turns from x to y: x first, y a quarter later."""
    assert whirl(1.0, 0.0, 1.0, math.radians(phase)).verdict.startswith(words)


def test_motion_in_a_line_has_none() -> None:
    """In phase, both circles are alike, whatever the phases of the record."""
    found = whirl(1.0, 0.4, 2.0, 0.4)

    assert found.verdict.startswith("Nearly in a line")
    assert found.backward_share == pytest.approx(0.5)
    assert whirl(0.0, 0.0, 0.0, 0.0).verdict == "No motion"


def test_amplitude_that_is_not_finite_is_refused() -> None:
    """A reading that failed makes no whirl."""
    with pytest.raises(ValueError, match="finite"):
        whirl_components(complex(math.nan, 0.0), 1.0)
