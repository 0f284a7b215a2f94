"""A rotor on a flexible mount, from Newton's law and a stopwatch: what instruments would show.

Nothing of `calc` is used and no complex number: the mount answers each rotating force by the
textbook solution of a mass on a spring, the signal is sampled over one turn, and the lag is how
far the rotor turns from the pulse until the highest sample.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

SAMPLES = 72_000

Weight = tuple[float, float]
"""Mass times radius in kg·m, and the angle on the rotor in the direction of rotation, rad."""


@dataclass(frozen=True)
class Mount:
    """One direction of a mount, as a sensor there feels it."""

    mass: float
    frequency: float
    damping_ratio: float
    sensor: float
    """Where the sensor looks, counted from where the mark passes at the pulse, with rotation."""

    def signal(self, weights: Sequence[Weight], speed: float) -> np.ndarray:
        """Return one turn of velocity, from the pulse on."""
        natural = 2.0 * math.pi * self.frequency
        turn = np.arange(SAMPLES) * 2.0 * math.pi / SAMPLES
        total = np.zeros(SAMPLES)
        for unbalance, angle in weights:
            force = unbalance * speed**2 / self.mass
            spring = natural**2 - speed**2
            drag = 2.0 * self.damping_ratio * natural * speed
            late = math.atan2(drag, spring)
            size = force / math.hypot(spring, drag)
            # displacement size * cos(turn + angle - sensor - late), so the velocity:
            total -= speed * size * np.sin(turn + angle - self.sensor - late)
        return total

    def read(self, weights: Sequence[Weight], speed: float) -> tuple[float, float]:
        """Return the amplitude and the lag in degrees, as read from the signal."""
        signal = self.signal(weights, speed)
        highest = int(signal.argmax())
        return float(signal[highest]), highest * 360.0 / SAMPLES
