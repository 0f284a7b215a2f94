"""Fixed frame against the Fourier lines of blades that really turn."""

import math

import numpy as np
import pytest

from calc.blades.fixed_frame import fixed_frame


@pytest.mark.parametrize("blades", [3, 4, 5])
@pytest.mark.parametrize("wave", [0, 1, -1])
def test_lines_of_turning_blades(blades: int, wave: int) -> None:
    """Blades that lag one after another shake the hub at the sum or at the difference.

    Each blade lags by a cosine whose phase runs round the rotor with the wave; the hub is pushed
    along its own axis by blades to the side of it, and twisted by all together.
    """
    frequency, turns, span = 4.0, 6.5, 4.0
    time = np.arange(4096) * span / 4096
    push = np.zeros(4096)
    twist = np.zeros(4096)
    for k in range(blades):
        phase = 2.0 * math.pi * k / blades
        lag = np.cos(2.0 * math.pi * frequency * time + wave * phase)
        push += lag * np.sin(2.0 * math.pi * turns * time + phase)
        twist += lag
    found = fixed_frame(frequency, 2.0 * math.pi * turns)
    heard = twist if wave == 0 else push
    expected = {0: found.collective, 1: found.regressive, -1: found.progressive}[wave]

    line = float(np.argmax(np.abs(np.fft.rfft(heard)))) / span

    assert line == pytest.approx(expected)


def test_impossible_blades_are_named() -> None:
    """A rotor at rest has no turning frame."""
    with pytest.raises(ValueError, match="Rotor speed must be above 0 rpm"):
        fixed_frame(4.0, 0.0)
