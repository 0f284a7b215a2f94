"""Balance in one plane: a rotor from Newton's law, its weights put on, and nothing left."""

import cmath
import math

import numpy as np
import pytest

from calc.form.calculation import calculate, start
from calc.measurement.balance import (
    NO_GAIN,
    SMALL_TRIAL,
    TOO_LARGE,
    TRUSTED,
    SinglePlane,
    TrialRun,
    single_plane,
    single_plane_chart,
    single_plane_correction,
)
from calc.measurement.counting import Counting, turned
from calc.units import GRAM
from tests.measurement.shaken import Mount

MOUNT = Mount(mass=180.0, frequency=15.0, damping_ratio=0.06, sensor=1.1)
SPEED = 120.0
RADIUS = 0.2
OWN = (0.055 * RADIUS, 2.3)
TRIAL_MASS, TRIAL_PLACE = 0.030, 0.7


def found_on_the_machine(phase_shown: str, angle_counted: str, trial_left: str) -> SinglePlane:
    """Return the correction from what an instrument shows of the machine, marked either way."""

    def shown(amplitude: float, lag: float) -> tuple[float, float]:
        return amplitude, math.radians(lag if phase_shown == "lag" else 360.0 - lag)

    before = shown(*MOUNT.read([OWN], SPEED))
    after = shown(*MOUNT.read([OWN, (TRIAL_MASS * RADIUS, TRIAL_PLACE)], SPEED))
    marked = TRIAL_PLACE if angle_counted == "with" else -TRIAL_PLACE
    run = TrialRun(*before, TRIAL_MASS, marked, *after)
    return single_plane(Counting(phase_shown, angle_counted), run, trial_left, 1e-4, 0.5)


@pytest.mark.parametrize("phase_shown", ["lag", "lead"])
@pytest.mark.parametrize("angle_counted", ["with", "against"])
@pytest.mark.parametrize("trial_left", ["removed", "left"])
def test_weight_put_on_the_machine_leaves_nothing(
    phase_shown: str, angle_counted: str, trial_left: str
) -> None:
    """However phases and angles are counted, the machine is still with the weight on.

    The lag is read off samples 0.005 deg apart, so a little is left of what there was.
    """
    found = found_on_the_machine(phase_shown, angle_counted, trial_left)
    place = found.correction_angle if angle_counted == "with" else -found.correction_angle
    weights = [OWN, (found.correction_mass * RADIUS, place)]
    if trial_left == "left":
        weights.append((TRIAL_MASS * RADIUS, TRIAL_PLACE))

    assert MOUNT.read(weights, SPEED)[0] < 2e-4 * MOUNT.read([OWN], SPEED)[0]


def test_mirror_image_does_not_balance() -> None:
    """Counted the wrong way, the same readings give a weight that makes it worse."""
    found = found_on_the_machine("lag", "against", "removed")
    wrong = [OWN, (found.correction_mass * RADIUS, found.correction_angle)]

    assert MOUNT.read(wrong, SPEED)[0] > 0.5 * MOUNT.read([OWN], SPEED)[0]


def test_amounts_and_angles_are_those_of_complex_numbers() -> None:
    """The form's real arithmetic is the vector formula, in both senses."""
    run = TrialRun(8.4e-3, 1.08, 0.04, 0.3, 5.9e-3, 1.88)
    for phase_shown, angle_counted in (("lag", "against"), ("lag", "with"), ("lead", "against")):
        counting = Counting(phase_shown, angle_counted)
        for trial_left in ("removed", "left"):
            found = single_plane(counting, run, trial_left, 1e-4, 0.5)
            weight = single_plane_correction(
                counting.vector(run.before_amplitude, run.before_phase),
                counting.vector(run.after_amplitude, run.after_phase),
                counting.weight(run.trial_mass, run.trial_angle),
                trial_left == "left",
            )
            assert found.correction_mass == pytest.approx(abs(weight), rel=1e-12)
            assert found.correction_angle == pytest.approx(counting.angle(weight), rel=1e-12)


def test_expected_residual_by_throwing_dice() -> None:
    """Scattered readings, each followed by its own correction: the rms of what is left.

    30 000 throws leave an error of about half a per cent; the formula drops what is of second
    order in the scatter, here one per cent.
    """
    dice = np.random.default_rng(11)
    effect, own, trial = cmath.rect(0.15, 0.4), cmath.rect(60.0, 2.0), cmath.rect(40.0, 0.1)
    before, after, scatter = effect * own, effect * (own + trial), 0.25
    throws = dice.normal(0.0, scatter / math.sqrt(2.0), (30_000, 4))
    left = []
    for a, b, c, d in throws.tolist():
        weight = single_plane_correction(before + complex(a, b), after + complex(c, d), trial)
        left.append(abs(before + effect * weight) ** 2)
    run = TrialRun(abs(before), cmath.phase(before), 40.0, 0.1, abs(after), cmath.phase(after))
    found = single_plane(Counting("lead", "with"), run, "removed", scatter, 1e3)

    assert math.sqrt(np.mean(left)) == pytest.approx(found.residual, rel=0.02)


def test_readings_typed_as_an_instrument_shows_them() -> None:
    """The drawn example of `test_correction` typed into the form: within the drawing's 7 %."""
    name = "measurement.balance.single_plane"
    typed = {
        "before_amplitude": "0,36 ips",
        "before_phase": "18°",
        "trial_mass": "50 grams",
        "trial_angle": "180",
        "after_amplitude": ".26 in/s",
        "after_phase": "121",
    }
    found = calculate(name, start(name) | typed)

    assert found.problems == ()
    assert GRAM.reading(found.result.correction_mass) == pytest.approx(34.6, rel=0.07)
    assert 180.0 < math.degrees(found.result.correction_angle) < 225.0


@pytest.mark.parametrize(
    ("run", "scatter", "limit", "trust"),
    [
        (TrialRun(8e-3, 0.0, 0.04, 0.0, 5e-3, 0.1), 1e-4, 0.5, TRUSTED),
        (TrialRun(8e-3, 6.2, 0.04, 0.0, 7e-3, 0.1), 1e-4, 0.5, SMALL_TRIAL),
        (TrialRun(8e-3, 0.0, 0.04, 0.0, 5e-3, 0.1), 1e-4, 0.05, TOO_LARGE),
        (TrialRun(8e-3, 0.0, 0.04, 0.0, 5e-3, 0.1), 4e-3, 0.5, NO_GAIN),
    ],
)
def test_readings_that_are_not_to_be_trusted(
    run: TrialRun, scatter: float, limit: float, trust: str
) -> None:
    """A weight beyond the procedure is a fault; phases across 360 deg are near each other."""
    assert single_plane(Counting("lag", "against"), run, "removed", scatter, limit).trust == trust


def test_a_trial_weight_that_stays_counts_against_the_limit() -> None:
    """40 g of 8 to 5 mm/s stay: 67 g more are within 80 g, both together are 107 g by vectors."""
    run = TrialRun(8e-3, 0.0, 0.04, 0.0, 5e-3, 0.0)
    stays, larger = (
        single_plane(Counting("lead", "with"), run, "left", 1e-4, limit) for limit in (0.08, 0.11)
    )

    assert stays.correction_mass == pytest.approx(0.04 * 5.0 / 3.0)
    assert stays.trust == TOO_LARGE
    assert larger.trust == TRUSTED


def test_trial_weight_without_effect_is_refused() -> None:
    """Two equal readings tell nothing."""
    with pytest.raises(ValueError, match="must change the reading"):
        single_plane(
            Counting("lag", "with"), TrialRun(1.0, 0.5, 0.1, 0.0, 1.0, 0.5), "removed", 0.1, 1.0
        )


def test_place_is_given_within_one_turn() -> None:
    """Zero for a hair below a turn, and never a negative angle."""
    assert turned(-1e-12) == 0.0
    assert turned(-math.pi / 2.0) == pytest.approx(1.5 * math.pi)
    assert turned(2.0 * math.pi) == 0.0


def test_figure_closes_the_triangle() -> None:
    """Without, plus what the trial weight added, is with."""
    run = TrialRun(8.4e-3, 1.08, 0.04, 0.3, 5.9e-3, 1.88)
    found = single_plane(Counting("lag", "against"), run, "removed", 2e-4, 0.5)
    change = cmath.rect(5.9e-3, 1.88) - cmath.rect(8.4e-3, 1.08)
    drawn = single_plane_chart(run, found.change, cmath.phase(change), found.residual)
    without, with_trial, added = (arrows.points[0] for arrows in drawn.arrows)

    assert cmath.rect(*without) + cmath.rect(*added) == pytest.approx(cmath.rect(*with_trial))
    assert drawn.ring == found.residual
