"""Fixed frame against the Fourier lines of blades that really rotate."""

import math
from typing import NamedTuple

import numpy as np
import pytest

from calc.blades.fixed_frame import Pattern, fixed_frame

FREQUENCY, SPAN, COUNT = 4.0, 4.0, 4096


class Hub(NamedTuple):
    """What the hub feels over time: forces along its own two axes, and a torque."""

    push_x: np.ndarray
    push_y: np.ndarray
    torque: np.ndarray


def _hub(blades: int, phase_step: float, turns: float) -> Hub:
    """Return the hub loads of blades that vibrate one after another.

    Blade k vibrates as a cosine whose phase is k steps ahead; it pushes across itself, at its
    azimuth, and twists the hub.
    """
    time = np.arange(COUNT) * SPAN / COUNT
    hub = Hub(*(np.zeros(COUNT) for _ in range(3)))
    for k in range(blades):
        azimuth = 2.0 * math.pi * turns * time + 2.0 * math.pi * k / blades
        motion = np.cos(2.0 * math.pi * FREQUENCY * time + k * phase_step)
        hub.push_x[:] -= motion * np.sin(azimuth)
        hub.push_y[:] += motion * np.cos(azimuth)
        hub.torque[:] += motion
    return hub


def _line(signal: np.ndarray) -> float:
    """Return the frequency of the largest line of a signal."""
    return float(np.argmax(np.abs(np.fft.rfft(signal)))) / SPAN


@pytest.mark.parametrize("turns", [2.5, 6.5])
@pytest.mark.parametrize("blades", [3, 4, 5, 6, 7])
def test_every_pattern_of_rotating_blades(blades: int, turns: float) -> None:
    """Each pattern shakes the hub at the frequency listed, whirls as listed, or not at all."""
    found = fixed_frame(FREQUENCY, 2.0 * math.pi * turns, blades)

    assert len(found.patterns) == blades
    assert len(
        {round(p.phase_step / (2.0 * math.pi / blades)) % blades for p in found.patterns}
    ) == (blades)
    for pattern in found.patterns:
        _check(pattern, _hub(blades, pattern.phase_step, turns))


def _check(pattern: Pattern, hub: Hub) -> None:
    in_plane = np.hypot(hub.push_x, hub.push_y)
    if pattern.frequency is None:
        assert np.max(in_plane) < 1e-9
        assert np.max(np.abs(hub.torque)) < 1e-9
    elif pattern.pattern == "collective":
        assert _line(hub.torque) == pytest.approx(pattern.frequency)
        assert np.max(in_plane) < 1e-9
    else:
        assert _line(hub.push_y) == pytest.approx(pattern.frequency)
        assert np.max(np.abs(hub.torque)) < 1e-9
        turned = np.diff(np.unwrap(np.arctan2(hub.push_y, hub.push_x)))
        assert (np.mean(turned) > 0.0) == (pattern.whirl == "with rotation")


def test_differential_pattern_needs_an_even_number_of_blades() -> None:
    """Three blades have no reactionless pattern, four have one, five a pair, six both."""
    names = {
        blades: [p.pattern for p in fixed_frame(1.0, 40.0, blades).patterns][3:]
        for blades in (3, 4, 5, 6)
    }

    assert names == {
        3: [],
        4: ["reactionless, differential"],
        5: ["reactionless", "reactionless"],
        6: ["reactionless", "reactionless", "reactionless, differential"],
    }


def test_named_frequencies_are_those_of_the_patterns() -> None:
    """The three results are the first three rows."""
    found = fixed_frame(1.72, 37.7)
    rows = [pattern.frequency for pattern in found.patterns[:3]]

    assert rows == [found.collective, found.regressive, found.progressive]


def test_impossible_rotors_are_named() -> None:
    """A rotor at rest has no rotating frame, and two blades need another treatment."""
    with pytest.raises(ValueError, match="Rotor speed must be above 0 rpm"):
        fixed_frame(4.0, 0.0)
    with pytest.raises(ValueError, match="Number of blades must be at least 3"):
        fixed_frame(4.0, 40.0, 2)
