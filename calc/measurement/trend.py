"""Trend: a polynomial through damping ratios over rotor speed, and where it reaches zero."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from calc.numeric.matrix import inverse
from calc.numeric.roots import crossing

FINE = 50  # steps of a search in the range of the readings
WIDER = 1.1  # how much wider each further step is
MOST_STEPS = 100
DEGREES = (1, 2)


@dataclass(frozen=True, slots=True)
class Trend:
    """Where a trend reaches zero, where the run ends by it, and the scatter about it."""

    zero_speed: float | None
    stop_speed: float | None
    standard_deviation: float


class Fit:
    """A polynomial through readings by ordinary least squares."""

    def __init__(self, speeds: Sequence[float], ratios: Sequence[float], degree: int = 1) -> None:
        """Fit the polynomial.

        Args:
            speeds: Rotor speeds; shape (n,), rad/s.
            ratios: Damping ratio at each; shape (n,).
            degree: 1 for a straight line, 2 for a parabola.

        Raises:
            ValueError: If the lists differ in length, a number is not finite, or there are too few
                different rotor speeds.
        """
        if degree not in DEGREES:
            raise ValueError("The degree of a trend must be 1 or 2")
        if len(speeds) != len(ratios):
            raise ValueError("There must be one damping ratio for each rotor speed")
        if not all(map(math.isfinite, (*speeds, *ratios))):
            raise ValueError("Rotor speeds and damping ratios must be finite numbers")
        if len(set(speeds)) <= degree:
            raise ValueError(f"A trend needs {degree + 1} different rotor speeds")
        self.last, self.span = max(speeds), max(speeds) - min(speeds)
        self._degree, self._ratios = degree, list(ratios)
        self._middle = math.fsum(speeds) / len(speeds)
        self._rows = [self._powers(speed) for speed in speeds]
        size = range(degree + 1)
        self._inverse = inverse(
            [[math.fsum(row[i] * row[j] for row in self._rows) for j in size] for i in size]
        )
        free = len(speeds) - degree - 1
        squares = math.fsum(
            (ratio - self.at(speed)) ** 2 for speed, ratio in zip(speeds, ratios, strict=True)
        )
        self.standard_deviation = math.sqrt(squares / free) if free else 0.0

    def at(self, speed: float) -> float:
        """Return the fitted damping ratio at a rotor speed."""
        weights = self._weights(speed)
        return math.fsum(w * ratio for w, ratio in zip(weights, self._ratios, strict=True))

    def error(self, speed: float, uncertainties: Sequence[float] = ()) -> float:
        """Return the standard error of the fitted damping ratio at a rotor speed.

        It is that of the scatter about the trend, or what the uncertainties of the readings make
        of it, whichever is larger.
        """
        weights = self._weights(speed)
        scatter = self.standard_deviation * math.hypot(*weights)
        if not uncertainties:
            return scatter
        stated = [w * u for w, u in zip(weights, uncertainties, strict=True)]
        return max(scatter, math.hypot(*stated))

    def zero(self) -> float | None:
        """Return the first rotor speed, at or beyond the last reading, where the trend is zero."""
        return first_fall(self.at, self.last, self.span)

    def stop(
        self, coverage: float, floor: float, uncertainties: Sequence[float] = ()
    ) -> float | None:
        """Return the first such rotor speed where the trend less its error is at a floor."""

        def room(speed: float) -> float:
            return self.at(speed) - coverage * self.error(speed, uncertainties) - floor

        return first_fall(room, self.last, self.span)

    def _powers(self, speed: float) -> list[float]:
        place = (speed - self._middle) / self.span
        return [place**power for power in range(self._degree + 1)]

    def _weights(self, speed: float) -> list[float]:
        """Return how much each reading counts in the fitted value at a rotor speed."""
        powers = self._powers(speed)
        shares = [
            math.fsum(a * b for a, b in zip(column, powers, strict=True))
            for column in self._inverse
        ]
        return [math.fsum(a * b for a, b in zip(shares, row, strict=True)) for row in self._rows]


def damping_trend(
    rotor_speeds: Sequence[float],
    damping_ratios: Sequence[float],
    degree: int = 1,
    coverage: float = 2.0,
    floor: float = 0.0,
) -> Trend:
    r"""Return where the damping of one mode reaches zero and a floor, by its trend.

    $$ \hat{\zeta}(\Omega_0) = 0, \qquad
    \hat{\zeta}(\Omega_s) - k\, s \sqrt{h(\Omega_s)} = \zeta_{stop}, \qquad
    h = p^\mathsf{T} (X^\mathsf{T} X)^{-1} p $$

    Ordinary least squares through readings of one identified mode.  $s$ is the standard deviation
    about the trend with n - degree - 1 degrees of freedom, zero where none is left.  A straight
    line misses damping that falls faster from step to step; a parabola can bend away from zero and
    stands beside the line only.  A planning aid, never an approval.

    Args:
        rotor_speeds: Speeds of the readings; shape (n,), rad/s.
        damping_ratios: Damping ratio of the mode at each; shape (n,).
        degree: 1, or 2 for comparison; scalar.
        coverage: Standard errors of the fitted mean that are taken off; scalar.
        floor: Damping ratio at which the run ends; scalar.

    Returns:
        Zero speed and stop speed at or beyond the last reading, rad/s, None where the trend
        reaches none, and the standard deviation.

    Raises:
        ValueError: If the readings do not make a trend or the coverage is below zero.

    Source:
        Draper and Smith, Applied Regression Analysis, the standard error of a fitted mean; from
        memory.

    Examples:
        >>> round(damping_trend([10.0, 11.0, 12.0], [0.03, 0.02, 0.01]).zero_speed, 9)
        13.0
    """
    if not coverage >= 0.0:
        raise ValueError("The coverage must be at least 0")
    fit = Fit(rotor_speeds, damping_ratios, degree)
    return Trend(fit.zero(), fit.stop(coverage, floor), fit.standard_deviation)


def first_fall(curve: Callable[[float], float], start: float, span: float) -> float | None:
    """Return the first place at or beyond a start where a curve is not above zero, if any.

    The steps begin fine and grow; a straight line less its error falls once and is never missed.
    """
    place, step = start, span / FINE
    if curve(place) <= 0.0:
        return place
    for _ in range(MOST_STEPS):
        ahead = place + step
        if curve(ahead) <= 0.0:
            return crossing(curve, place, ahead)
        place, step = ahead, WIDER * step
    return None
