"""Spectrum: the eigenvalues of a rotor on its support over rotor speed, each found once."""

from collections.abc import Iterable
from functools import lru_cache

from calc.ground.model import general_support, multiblade
from calc.ground.model.aircraft import Rotor, Support
from calc.ground.model.general_support import GeneralSupport
from calc.ground.quantities import ROTOR_SPEED
from calc.linalg import Sums

MOST_KEPT = 3000
"""More rotor speeds than this are not kept."""


class Spectrum:
    """Eigenvalues in the fixed frame of one rotor on one support, kept by rotor speed."""

    def __init__(self, rotor: Rotor, support: Support | GeneralSupport) -> None:
        """Take the parts of the matrix of the equations of motion.

        Raises:
            ValueError: As `state_matrix` of the support.
        """
        if isinstance(support, Support):
            parts = multiblade.matrix_parts(rotor, support)
        else:
            parts = general_support.matrix_parts(rotor, support)
        self._matrices = Sums(parts)
        self._known: dict[float, tuple[complex, ...]] = {}

    def at(self, rotor_speed: float) -> tuple[complex, ...]:
        """Return the eigenvalues at a rotor speed, by imaginary part, then by real part."""
        found = self._known.get(rotor_speed)
        return self.along([rotor_speed])[0] if found is None else found

    def along(self, rotor_speeds: Iterable[float]) -> list[tuple[complex, ...]]:
        """Return the eigenvalues at many rotor speeds, those not known yet all at once."""
        speeds = list(rotor_speeds)
        known = self._known
        missing = [speed for speed in dict.fromkeys(speeds) if speed not in known]
        if missing:
            for speed in missing:
                ROTOR_SPEED.check(speed)
            shares = [(1.0, speed, speed**2) for speed in missing]
            found = self._matrices.eigenvalues(shares)
            if len(known) + len(missing) > MOST_KEPT:
                known = {speed: known[speed] for speed in speeds if speed in known}
            known = self._known = known | dict(zip(missing, map(tuple, found), strict=True))
        return [known[speed] for speed in speeds]


@lru_cache(maxsize=256)
def spectrum(rotor: Rotor, support: Support | GeneralSupport) -> Spectrum:
    """Return what is known of the eigenvalues of a rotor on a support."""
    return Spectrum(rotor, support)
