"""Corrections by influence coefficients: worked examples, other solvers, and the usual mistakes.

Sources of the worked examples:
    Drawn: a public how-to on balancing whose author was not recorded, read: 0.36 in/s at 18 deg,
    50 g at 180 deg, then 0.26 in/s at 121 deg; it draws 34.6 g, which is 6 % off.
    Wheel: a textbook problem on a page of homework, read; the answer printed there, 6.491 at
    18.672 deg, does not null the reading.
    Two planes: S. S. Rao, Mechanical Vibrations, the two-plane example, from memory: 10.0561 and
    5.8774 oz, at 145.555 and 248.256 deg, which are the places of the unbalance.
"""

import cmath
import math

import numpy as np
import pytest
from scipy.optimize import least_squares

from calc.measurement.balance import (
    blade_adjustments,
    influence_coefficient,
    several_plane_correction,
    single_plane_correction,
)


def at(amplitude: float, degrees: float) -> complex:
    """Return a vector by its amplitude and its angle in degrees."""
    return cmath.rect(amplitude, math.radians(degrees))


def test_drawn_example() -> None:
    """Arithmetic gives what was drawn to within the drawing, and the opposite is not it."""
    found = single_plane_correction(at(0.36, 18.0), at(0.26, 121.0), at(50.0, 180.0))

    assert abs(found) == pytest.approx(34.6, rel=0.07)
    assert 180.0 < math.degrees(cmath.phase(found)) % 360.0 < 225.0


def test_printed_answer_that_nulls_nothing() -> None:
    """What the homework page prints would leave 0.19 mm of 0.165; ours leaves none of it."""
    before, after, trial = at(0.165, -15.0), at(0.225, 35.0), at(50.0, 45.0)
    effect = (after - before) / trial
    found = single_plane_correction(before, after, trial)

    assert abs(before + effect * found) < 1e-12
    assert abs(before + effect * at(6.491, 18.672)) > 0.8 * abs(before)


@pytest.mark.parametrize("trial_left", [False, True])
def test_correction_nulls_the_reading(trial_left: bool) -> None:  # noqa: FBT001  a choice of the formula
    """On a rotor whose effect is known nothing is left, with the trial weight off or on."""
    effect, own, trial = at(0.2, 77.0), at(31.0, 140.0), at(12.0, 250.0)
    found = single_plane_correction(effect * own, effect * (own + trial), trial, trial_left)
    on = own + found + (trial if trial_left else 0.0)

    assert abs(on) < 1e-12
    assert abs(found) > 10.0


def two_planes() -> tuple[list[complex], list[list[complex]]]:
    """Return the readings and the influence coefficients of the textbook, remembered."""
    before = [at(8.5, 60.0), at(6.5, 205.0)]
    left = [at(6.0, 125.0), at(4.5, 230.0)]
    right = [at(6.0, 35.0), at(10.5, 160.0)]
    influences = [
        [
            influence_coefficient(before[sensor], left[sensor], at(10.0, 270.0)),
            influence_coefficient(before[sensor], right[sensor], at(12.0, 180.0)),
        ]
        for sensor in range(2)
    ]
    return before, influences


def test_two_planes_of_the_textbook() -> None:
    """The masses are those remembered, the places opposite to the unbalance remembered."""
    found = several_plane_correction(*two_planes()).corrections

    assert [abs(weight) for weight in found] == pytest.approx([10.0561, 5.8774], abs=5e-5)
    for weight, unbalance in zip(found, (145.555, 248.256), strict=True):
        turn = math.degrees(cmath.phase(weight)) - unbalance - 180.0
        assert math.remainder(turn, 360.0) == pytest.approx(0.0, abs=5e-4)


def test_rows_are_readings() -> None:
    """A transposed matrix is another rotor: its weights leave a fifth of a reading."""
    before, influences = two_planes()
    swapped = several_plane_correction(before, [list(row) for row in zip(*influences, strict=True)])
    left = [
        reading + sum(a * w for a, w in zip(row, swapped.corrections, strict=True))
        for reading, row in zip(before, influences, strict=True)
    ]

    assert max(map(abs, several_plane_correction(before, influences).residuals)) == 0.0
    assert max(map(abs, left)) > 0.2 * abs(before[1])


def random_case(
    readings: int, unknowns: int, seed: int
) -> tuple[list[complex], list[list[complex]], list[float]]:
    """Return readings, coefficients and weights of no particular rotor."""
    dice = np.random.default_rng(seed)

    def complexes(*shape: int) -> np.ndarray:
        return dice.normal(size=shape) + 1j * dice.normal(size=shape)

    return (
        complexes(readings).tolist(),
        complexes(readings, unknowns).tolist(),
        dice.uniform(0.2, 3.0, readings).tolist(),
    )


def test_several_planes_by_the_normal_equations_of_numpy() -> None:
    """Conjugate transposes and weights as the formula prints them, solved by NumPy."""
    before, influences, weights = random_case(7, 3, 1)
    found = several_plane_correction(before, influences, weights)
    a, d, v = np.array(influences), np.diag(weights), np.array(before)
    expected = -np.linalg.solve(a.conj().T @ d @ a, a.conj().T @ d @ v)

    assert np.array(found.corrections) == pytest.approx(expected, rel=1e-9)
    assert np.array(found.residuals) == pytest.approx(v + a @ expected, rel=1e-9)


def test_blades_by_a_search_of_scipy() -> None:
    """Real amounts found by `scipy.optimize.least_squares` leave as little, and are the same."""
    before, influences, weights = random_case(5, 4, 2)
    found = blade_adjustments(before, influences, weights)
    root = np.sqrt(weights)

    def left(amounts: np.ndarray) -> np.ndarray:
        rest = root * (np.array(before) + np.array(influences) @ amounts)
        return np.concatenate([rest.real, rest.imag])

    searched = least_squares(left, np.zeros(4), xtol=1e-14, ftol=1e-14, gtol=1e-14)
    assert np.array(found.amounts) == pytest.approx(searched.x, rel=1e-6)


def test_one_reading_fixes_two_amounts() -> None:
    """Of four blades two numbers fix two; equal amounts on all do nothing and are not asked for."""
    effects = [at(0.16, 35.0 + 90.0 * blade) for blade in range(4)]
    found = blade_adjustments([at(8.0, 77.0)], [effects])

    assert found.rank == 2
    assert abs(found.residuals[0]) == 0.0
    assert math.fsum(found.amounts) == pytest.approx(0.0, abs=1e-9)
    assert np.array(found.amounts) == pytest.approx(
        -np.linalg.pinv(np.array([np.real(effects), np.imag(effects)]))
        @ [at(8.0, 77.0).real, at(8.0, 77.0).imag],
        rel=1e-9,
    )


def test_planes_that_cannot_be_told_apart_share_the_weight() -> None:
    """Two planes that act alike get half each, and the rank says that a weight is not fixed."""
    found = several_plane_correction([2.0 + 0.0j, 1.0j], [[1.0, 1.0], [0.5j, 0.5j]])

    assert found.rank == 2
    assert found.corrections == pytest.approx((-1.0, -1.0))


@pytest.mark.parametrize(
    ("before", "influences", "weights", "message"),
    [
        ([], [], None, "row of influence coefficients"),
        ([1.0], [[1.0], [1.0]], None, "row of influence coefficients"),
        ([1.0, 1.0], [[1.0], [1.0, 2.0]], None, "for each weight"),
        ([complex(math.nan, 0.0)], [[1.0]], None, "finite"),
        ([1.0], [[1.0]], [-1.0], "at least 0"),
        ([1.0], [[1.0]], [1.0, 1.0], "at least 0"),
        ([1.0], [[1.0] * 201], None, "at most 200"),
    ],
)
def test_what_does_not_fit_is_refused(
    before: list[complex], influences: list[list[complex]], weights: list[float], message: str
) -> None:
    """Shapes and numbers that cannot be are named, for planes and for blades."""
    for formula in (several_plane_correction, blade_adjustments):
        with pytest.raises(ValueError, match=message):
            formula(before, influences, weights)


def test_trial_weight_that_tells_nothing_is_refused() -> None:
    """No weight, no change, no number."""
    with pytest.raises(ValueError, match="must not be zero"):
        single_plane_correction(1.0, 2.0, 0.0)
    with pytest.raises(ValueError, match="must change the reading"):
        single_plane_correction(1.0, 1.0, 1.0)
    with pytest.raises(ValueError, match="finite"):
        influence_coefficient(math.inf, 1.0, 1.0)
