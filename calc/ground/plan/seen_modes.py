"""Seen modes: the modes at a rotor speed that a crew can excite and measure at the airframe."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from calc.ground.model.aircraft import Rotor, Support
from calc.ground.model.creep import swinging
from calc.ground.model.spectrum import spectrum
from calc.ground.search.least_damped import ratio

_STILL = 1e-6  # rad/s, and of the rotor speed: rounding makes motion of this size of rest


@dataclass(frozen=True, slots=True)
class SeenMode:
    """A mode at a rotor speed, as the airframe shows it.

    Attributes:
        damping_ratio: Damping ratio in the fixed frame, below zero where motion grows; scalar.
        frequency: Frequency in the fixed frame; scalar, rad/s.
    """

    damping_ratio: float
    frequency: float


def seen_modes(rotor: Rotor, support: Support, rotor_speed: float) -> tuple[SeenMode, ...]:
    r"""Return the modes that can be excited and measured, the least damped first.

    $$ \zeta_j = \frac{-\operatorname{Re} s_j}{|s_j|} $$

    A damping ratio is below zero where, and only where, the mode grows.  Creep of heavily damped
    blades, which the airframe shows at about once per revolution, is left out unless it grows.

    Args:
        rotor: Three or more identical blades.
        support: Hub mass without blades, stiffness and damping in two directions.
        rotor_speed: Constant speed of rotation; scalar, rad/s.

    Returns:
        Damping ratio and frequency of each mode in the fixed frame.

    Raises:
        ValueError: If an input cannot exist.

    Source:
        Definition of the damping ratio of an eigenvalue; common knowledge.

    Examples:
        >>> rotor = Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2500.0)
        >>> support = Support(3000.0, 1400.0, 600e3, 640e3, 6000.0, 4000.0)
        >>> seen_modes(rotor, support, 27.0)[0].damping_ratio < 0.0
        True
    """
    values = _seen(rotor, rotor_speed, spectrum(rotor, support).at(rotor_speed))
    found = [SeenMode(ratio(value), value.imag) for value in values]
    return tuple(sorted(found, key=lambda mode: (mode.damping_ratio, mode.frequency)))


def least_ratio(rotor: Rotor, rotor_speed: float, values: Iterable[complex]) -> float:
    """Return the least damping ratio of the modes that are seen, from all eigenvalues."""
    return min(map(ratio, _seen(rotor, rotor_speed, values)))


class LeastDamping:
    """The least damping ratio of one aircraft, kept by rotor speed."""

    def __init__(self, rotor: Rotor, support: Support) -> None:
        """Begin with no rotor speed."""
        self._rotor = rotor
        self._spectrum = spectrum(rotor, support)
        self._known: dict[float, float] = {}

    def at(self, rotor_speed: float) -> float:
        """Return the least damping ratio at a rotor speed in rad/s."""
        found = self._known.get(rotor_speed)
        if found is None:
            found = least_ratio(self._rotor, rotor_speed, self._spectrum.at(rotor_speed))
            self._known[rotor_speed] = found
        return found

    def along(self, rotor_speeds: Iterable[float]) -> list[float]:
        """Return the least damping ratio at many rotor speeds, all found at once."""
        speeds = list(rotor_speeds)
        self._spectrum.along(speed for speed in speeds if speed not in self._known)
        return [self.at(speed) for speed in speeds]


@lru_cache(maxsize=256)
def least_damping_of(rotor: Rotor, support: Support) -> LeastDamping:
    """Return what is known of the least damping ratio of an aircraft."""
    return LeastDamping(rotor, support)


def _seen(rotor: Rotor, rotor_speed: float, values: Iterable[complex]) -> list[complex]:
    smallest = _STILL * max(rotor_speed, 1.0)
    found = swinging(rotor, rotor_speed, values)
    return [value for value in found if value.imag >= 0.0 and abs(value) > smallest]
