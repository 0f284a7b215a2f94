"""Balance without phase: the cosine rule, a search of SciPy, and a rotor from Newton's law."""

import cmath
import math

import numpy as np
import pytest
from scipy.optimize import least_squares

from calc.measurement.four_runs import (
    Run,
    four_run_correction,
    without_phase,
    without_phase_chart,
)
from tests.measurement.shaken import Mount

THIRDS = [math.radians(turn) for turn in (0.0, 120.0, 240.0)]


def test_equal_thirds_by_hand() -> None:
    """With places 120 deg apart the sums of the squares are short: the formula of the method.

    b = 2/3 (A1^2 - (A2^2 + A3^2) / 2) and c = (A2^2 - A3^2) / sqrt(3), by hand.
    """
    first, second, third = 2.6, 7.8, 9.4
    b = (first**2 - (second**2 + third**2) / 2.0) * 2.0 / 3.0
    c = (second**2 - third**2) / math.sqrt(3.0)
    effect = math.hypot(b, c) / (2.0 * 6.0)
    found = four_run_correction(6.0, [first, second, third], 0.020, THIRDS)

    assert found.effect == pytest.approx(effect, rel=1e-12)
    assert abs(found.correction) == pytest.approx(0.020 * 6.0 / effect, rel=1e-12)
    assert math.remainder(
        cmath.phase(found.correction) - math.atan2(c, b) - math.pi, math.tau
    ) == pytest.approx(0.0, abs=1e-12)
    a = (first**2 + second**2 + third**2) / 3.0 - 36.0
    assert found.closure == pytest.approx((a - effect**2) / 36.0, rel=1e-12)


def test_weight_put_on_the_machine_leaves_nothing() -> None:
    """Amplitudes of a rotor from Newton's law at three uneven places; the weight stills it."""
    mount, speed, own = Mount(180.0, 15.0, 0.06, 1.1), 70.0, (0.011, 2.3)
    places = [0.3, 2.0, 4.4]
    original = mount.read([own], speed)[0]
    runs = [mount.read([own, (0.006, place)], speed)[0] for place in places]
    found = four_run_correction(original, runs, 0.006, places)
    weight = abs(found.correction), cmath.phase(found.correction)

    assert found.closure == pytest.approx(0.0, abs=1e-8)
    assert mount.read([own, weight], speed)[0] < 1e-6 * original


def test_more_runs_are_fitted() -> None:
    """Six scattered amplitudes: the same squares fitted by a search of SciPy."""
    places = np.linspace(0.0, 5.0, 6)
    amplitudes = np.abs(6.0 * np.exp(1j * 2.0) + 4.0 * np.exp(1j * places))
    amplitudes += np.random.default_rng(3).normal(0.0, 0.1, 6)
    found = four_run_correction(6.0, amplitudes.tolist(), 0.02, places.tolist())

    def left(x: np.ndarray) -> np.ndarray:
        fit = x[0] + x[1] * np.cos(places) + x[2] * np.sin(places)
        return np.asarray(fit - amplitudes**2 + 36.0)

    a, b, c = least_squares(left, np.zeros(3), xtol=1e-14, ftol=1e-14, gtol=1e-14).x
    assert found.effect == pytest.approx(math.hypot(b, c) / 12.0, rel=1e-7)
    assert found.closure == pytest.approx((a - found.effect**2) / 36.0, rel=1e-5)


def test_rotor_that_is_not_in_proportion_does_not_close() -> None:
    """A stop that halves what exceeds 7 leaves a closure of more than two per cent."""
    runs = [abs(6.0 * cmath.exp(3.5j) + 4.0 * cmath.exp(1j * place)) for place in THIRDS]
    softened = [min(run, 7.0 + (run - 7.0) / 2.0) for run in runs]

    assert abs(four_run_correction(6.0, runs, 0.02, THIRDS).closure) < 1e-12
    assert abs(four_run_correction(6.0, softened, 0.02, THIRDS).closure) > 0.02


@pytest.mark.parametrize(
    ("amplitudes", "places", "message"),
    [
        ([1.0, 2.0], [0.0, 1.0], "3 to 24"),
        ([1.0, 2.0, 3.0], [0.0, 1.0], "as many places"),
        ([1.0, 2.0, 3.0], [0.0, 1.0, 1.0 + 2.0 * math.pi], "three different places"),
        ([2.0, 2.0, 2.0], THIRDS, "must make a difference"),
        ([1.0, -2.0, 3.0], THIRDS, "Amplitude with it there"),
        ([1.0, 2.0, 3.0], [0.0, 1.0, math.nan], "finite"),
    ],
)
def test_runs_that_tell_nothing_are_refused(
    amplitudes: list[float], places: list[float], message: str
) -> None:
    """Too few places, the same place twice, and a weight whose place makes no difference."""
    with pytest.raises(ValueError, match=message):
        four_run_correction(2.0, amplitudes, 0.1, places)


def test_figure_passes_through_the_runs_and_is_lowest_at_the_weight() -> None:
    """The curve has the amplitudes of three runs, and its least where the weight belongs."""
    runs = tuple(map(Run, THIRDS, (2.6e-3, 7.8e-3, 9.4e-3)))
    found = without_phase(6.0e-3, 0.02, runs)
    curve = dict(without_phase_chart(6.0e-3, runs, found).marks[0].points)  # type: ignore[union-attr]

    for run in runs:
        assert curve[run.place] == pytest.approx(run.amplitude, rel=1e-9)
    assert min(curve, key=curve.__getitem__) == pytest.approx(found.angle, abs=math.radians(1.0))
