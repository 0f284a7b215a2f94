"""Mode tracks: the four modes of lag and hub motion, followed over rotor speed by their shapes."""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.ground.model.aircraft import Rotor, Support, support_frequencies, total_masses
from calc.ground.model.multiblade import state_matrix
from calc.ground.model.spectrum import spectrum
from calc.numeric.matrix import null_vector

LABELS = ("regressing lag", "progressing lag", "support x", "support y")
CONTINUITY = 0.5  # weight of the shape at the speed before against that of the uncoupled mode

Shape = list[complex]


@dataclass(frozen=True, slots=True)
class ModePoint:
    """A mode at a rotor speed: eigenvalue, shape, and where its kinetic energy is.

    The parts of the shape are cosine lag, sine lag, x and y, scaled to a kinetic energy of one.
    """

    label: str
    eigenvalue: complex
    shape: tuple[complex, ...]

    @property
    def frequency(self) -> float:
        """Frequency in the fixed frame, negative for a whirl against the rotation, rad/s."""
        against = (
            self.label in LABELS[:2] and (self.shape[0].conjugate() * self.shape[1]).imag > 0.0
        )
        return -self.eigenvalue.imag if against else self.eigenvalue.imag

    @property
    def lag_share(self) -> float:
        """Share of the kinetic energy that is in the lag motion, not in the hub."""
        return abs(self.shape[0]) ** 2 + abs(self.shape[1]) ** 2


def mode_tracks(
    rotor: Rotor, support: Support, rotor_speeds: Sequence[float]
) -> list[list[ModePoint]]:
    """Return the four modes at each rotor speed, in the order of the labels.

    A mode takes the label whose uncoupled shape and frequency it is nearest to, and whose shape
    at the speed before; so a label runs straight on where two frequencies cross or veer.

    Args:
        rotor: Three or more identical blades.
        support: Hub mass without blades, stiffness and damping in two directions.
        rotor_speeds: Rotor speeds in ascending order; shape (n,), rad/s.

    Returns:
        Four points for each rotor speed; shape (n, 4).

    Source:
        Labels as in Coleman diagrams; assignment devised here.
    """
    tracks: list[list[ModePoint]] = []
    spectra = spectrum(rotor, support).along(rotor_speeds)
    for speed, values in zip(rotor_speeds, spectra, strict=True):
        found = [(value, _shape(rotor, support, speed, value)) for value in _modes(values)]
        uncoupled = _uncoupled(rotor, support, speed)
        scale = 1.0 / (speed + max(frequency for frequency, _ in uncoupled))
        costs = [
            [
                2.0
                - _likeness(shape, reference)
                - CONTINUITY * _before(tracks, number, shape)
                + scale * abs(value.imag - frequency)
                for value, shape in found
            ]
            for number, (frequency, reference) in enumerate(uncoupled)
        ]
        best = min(
            itertools.permutations(range(4)),
            key=lambda order: sum(costs[number][place] for number, place in enumerate(order)),
        )
        tracks.append(
            [
                ModePoint(label, found[place][0], tuple(found[place][1]))
                for label, place in zip(LABELS, best, strict=True)
            ]
        )
    return tracks


def _modes(values: Sequence[complex]) -> list[complex]:
    """Return one eigenvalue of each of the four modes, that with a frequency above zero."""
    scale = max(map(abs, values)) or 1.0
    turning = [value for value in values if value.imag > 1e-9 * scale]
    still = sorted((value for value in values if abs(value.imag) <= 1e-9 * scale), key=_real)
    return [*turning, *still[1::2]]


def _real(value: complex) -> float:
    return value.real


def _uncoupled(rotor: Rotor, support: Support, speed: float) -> list[tuple[float, Shape]]:
    """Return the frequency and the shape of each mode as if lag and hub did not feel each other."""
    rate = 0.5 * rotor.lag_damping / rotor.lag_inertia
    lag = math.sqrt(max(rotor.lag_frequency(speed) ** 2 - rate**2, 0.0))
    half = math.sqrt(0.5)
    forward: Shape = [half, -half * 1j, 0.0, 0.0]
    backward = [part.conjugate() for part in forward]
    frequency_x, frequency_y = support_frequencies(rotor, support)
    return [
        (abs(speed - lag), forward if speed >= lag else backward),
        (speed + lag, forward),
        (frequency_x, [0.0, 0.0, 1.0, 0.0]),
        (frequency_y, [0.0, 0.0, 0.0, 1.0]),
    ]


def _shape(rotor: Rotor, support: Support, speed: float, value: complex) -> Shape:
    """Return the shape that belongs to an eigenvalue, scaled to a kinetic energy of one."""
    matrix = state_matrix(rotor, support, speed)
    rows = [
        [
            matrix[i + 4][j] + value * matrix[i + 4][j + 4] - (value**2 if i == j else 0.0)
            for j in range(4)
        ]
        for i in range(4)
    ]
    lag = math.sqrt(0.5 * rotor.blades * rotor.lag_inertia)
    weights = [lag, lag, *map(math.sqrt, total_masses(rotor, support))]
    shape = [part * weight for part, weight in zip(null_vector(rows), weights, strict=True)]
    size = math.sqrt(math.fsum(abs(part) ** 2 for part in shape))
    return [part / size for part in shape]


def _likeness(shape: Sequence[complex], other: Sequence[complex]) -> float:
    """Return one for the same shape and zero for shapes with nothing in common."""
    return abs(sum(a.conjugate() * b for a, b in zip(other, shape, strict=True))) ** 2


def _before(tracks: list[list[ModePoint]], number: int, shape: Shape) -> float:
    return _likeness(shape, tracks[-1][number].shape) if tracks else 0.0
