"""Rotor on modes: a rotor with any lag dampers on measured modes, asked at any rotor speed."""

import cmath
import math
from dataclasses import dataclass, replace
from functools import lru_cache

from calc.ground.modal_support import SupportMode, support_of_modes
from calc.ground.model import floquet
from calc.ground.model.aircraft import Rotor
from calc.ground.model.creep import creep_rates, in_rotation, is_creep
from calc.ground.model.general_support import (
    GeneralSupport,
    check,
    coalescences,
    natural_frequencies,
)
from calc.ground.model.spectrum import spectrum
from calc.ground.quantities import HIGHEST_SPEED, LAG_DAMPING, LOWEST_SPEED, ROTOR_SPEED
from calc.ground.search import sweep
from calc.numeric.peaks import Curve, Sample


@dataclass(frozen=True, slots=True)
class RotorOnModes:
    """A rotor with its dampers on its support, whose motion can be asked for at any speed."""

    rotor: Rotor
    support: GeneralSupport
    lag_dampings: tuple[float, ...]
    reach: float = floquet.REACH

    @property
    def is_alike(self) -> bool:
        """Whether multiblade coordinates have constant coefficients."""
        first = self.lag_dampings[0]
        same = all(damping == first for damping in self.lag_dampings)
        return self.rotor.blades > 2 and same and first < math.inf

    def growth_rate(self, rotor_speed: float) -> float:
        """Return the growth rate of the least stable motion, 1/s."""
        ROTOR_SPEED.check(rotor_speed)
        if self.is_alike:
            return max(value.real for value in self._eigenvalues(rotor_speed))
        return floquet.growth_rates(
            self.rotor, self.support, rotor_speed, self.lag_dampings, reach=self.reach
        )[0]

    def swinging_rate(self, rotor_speed: float) -> float:
        """Return the highest growth rate of the motions that swing, or that grow, 1/s."""
        if self.is_alike:
            return self._swinging(rotor_speed).real
        return floquet.swinging_rate(
            self.rotor, self.support, rotor_speed, self.lag_dampings, self.reach
        )

    def least_stable(self, rotor_speed: float) -> complex:
        """Return growth rate, 1/s, and frequency, rad/s, of the least stable of these motions."""
        if self.is_alike:
            found = self._swinging(rotor_speed)
            return complex(found.real, abs(found.imag))
        return floquet.least_stable(self.rotor, self.support, rotor_speed, self.lag_dampings)

    def sampled(
        self,
        lowest_speed: float,
        highest_speed: float,
        rate: Curve | None = None,
        points: int = sweep.POINTS,
    ) -> list[Sample]:
        """Return a growth rate over a sweep, at support frequencies and at coalescence too."""
        LOWEST_SPEED.check(lowest_speed)
        HIGHEST_SPEED.check(highest_speed)
        curve = rate or self.growth_rate
        known = self._known_speeds()
        return sweep.samples(curve, lowest_speed, highest_speed, known, points, self.look_ahead)

    def speeds(self, lowest_speed: float, highest_speed: float, points: int) -> list[float]:
        """Return the rotor speeds of `sampled`."""
        return sweep.speeds_of(lowest_speed, highest_speed, self._known_speeds(), points)

    def look_ahead(self, rotor_speeds: list[float]) -> None:
        """Find at once what will be asked for at rotor speeds."""
        if self.is_alike:
            spectrum(self._alike, self.support).along(rotor_speeds)
        else:
            floquet.look_ahead(
                self.rotor, self.support, rotor_speeds, self.lag_dampings, reach=self.reach
            )

    def _known_speeds(self) -> list[float]:
        resonances = natural_frequencies(self.rotor, self.support)
        return [*resonances, *coalescences(self.rotor, self.support)]

    def unstable_bands(
        self, samples: list[Sample], tolerance: float = 1e-10
    ) -> tuple[tuple[float, float], ...]:
        """Return the bands in which a disturbance grows, from samples of either growth rate."""
        modal = [row[number] for number, row in enumerate(self.support.damping)]
        level = 0.0 if all((*self.lag_dampings, *modal)) else sweep.NOISE
        return sweep.unstable_bands(self.swinging_rate, samples, level, tolerance)

    def _swinging(self, rotor_speed: float) -> complex:
        """Return the least stable eigenvalue of the motions that swing, or that grow."""
        *hub, alone = self._eigenvalues(rotor_speed)
        creeps = creep_rates(self.rotor, rotor_speed, self.lag_dampings)
        seen = [(value, in_rotation(value, rotor_speed)) for value in hub] + [(alone, alone)]
        swinging = [value for value, rotating in seen if not is_creep(rotating, creeps)]
        return max(swinging or [*hub, alone], key=lambda value: value.real)

    def _eigenvalues(self, rotor_speed: float) -> list[complex]:
        """Return the eigenvalues of hub and cyclic lag, and last that of a blade alone."""
        rotor = self._alike
        half = 0.5 * rotor.lag_damping / rotor.lag_inertia
        root = cmath.sqrt(half**2 - rotor.lag_frequency(rotor_speed) ** 2)
        return [*spectrum(rotor, self.support).at(rotor_speed), root - half]

    @property
    def _alike(self) -> Rotor:
        """The rotor with the damper of its first blade in every place."""
        damping = self.lag_dampings[0]
        return (
            self.rotor
            if damping == self.rotor.lag_damping
            else replace(self.rotor, lag_damping=damping)
        )


@lru_cache(maxsize=64)
def rotor_on_modes(
    rotor: Rotor, modes: tuple[SupportMode, ...], lag_dampings: tuple[float, ...]
) -> RotorOnModes:
    """Return a rotor on its modes, or refuse what cannot exist."""
    if len(lag_dampings) != rotor.blades:
        raise ValueError(f"There must be one lag damper for each of {rotor.blades} blades")
    for damping in lag_dampings:
        LAG_DAMPING.check(0.0 if damping == math.inf else damping)
    support = support_of_modes(modes)
    check(rotor, support)
    return RotorOnModes(rotor, support, lag_dampings)
