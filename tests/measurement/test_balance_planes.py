"""Several planes and speeds: tables of names turned into coefficients, and back into weights."""

import math
from dataclasses import replace

import pytest

from calc.measurement.balance_planes import (
    ENOUGH,
    NOT_ENOUGH,
    READINGS,
    TRIAL_READINGS,
    TRIALS,
    Reading,
    Trial,
    TrialReading,
    several_planes,
    several_planes_chart,
)
from calc.measurement.counting import Counting
from tests.measurement.shaken import Mount

SENSORS = {
    "front": Mount(180.0, 15.0, 0.06, 1.1),
    "rear": Mount(240.0, 11.0, 0.08, 0.2),
}
SPEEDS = {"slow": 60.0, "fast": 110.0}
SHARES = {"front": {"hub": 1.0, "flange": 0.3}, "rear": {"hub": -0.4, "flange": 1.0}}
"""How much of a plane's force each sensor's mount feels: a rotor that also rocks."""

OWN = {"hub": (0.045, 2.3), "flange": (0.025, 5.1)}
RADIUS = 0.2


def shown(
    sensor: str, speed: str, weights: dict[str, list[tuple[float, float]]]
) -> tuple[float, float]:
    """Return amplitude and lag in radians of weights by plane, masses in kg."""
    felt = [
        (SHARES[sensor][plane] * mass * RADIUS, angle)
        for plane, put in weights.items()
        for mass, angle in put
    ]
    amplitude, lag = SENSORS[sensor].read(felt, SPEEDS[speed])
    return amplitude, math.radians(lag)


def test_weights_of_the_machine_are_found_at_four_readings() -> None:
    """Two sensors at two speeds, lags and angles with the rotation: nothing is left anywhere."""
    own = {plane: [weight] for plane, weight in OWN.items()}
    places = [(sensor, speed) for sensor in SENSORS for speed in SPEEDS]
    readings = tuple(Reading(f"{a} {b}", *shown(a, b, own)) for a, b in places)
    trials = (Trial("hub", 0.030, 0.5), Trial("flange", 0.020, 3.0))
    runs = tuple(
        TrialReading(
            f"{a} {b}",
            trial.plane,
            *shown(a, b, own | {trial.plane: [OWN[trial.plane], (trial.mass, trial.angle)]}),
        )
        for a, b in places
        for trial in trials
    )
    found = several_planes(Counting("lag", "with"), readings, trials, runs)

    assert found.fixed == ENOUGH
    assert found.rms_forecast < 1e-3 * found.rms_before
    for weight in found.weights:
        mass, angle = OWN[weight.plane]
        assert weight.mass == pytest.approx(mass, rel=1e-3)
        assert math.remainder(weight.angle - angle - math.pi, math.tau) == pytest.approx(
            0, abs=1e-3
        )


def test_importance_moves_the_residual() -> None:
    """A reading with a hundred times the weight keeps less than before; the others keep more."""
    given = READINGS.example, TRIALS.example, TRIAL_READINGS.example
    plain = several_planes(Counting("lag", "against"), *given)
    heavy = (replace(READINGS.example[0], weight=100.0), *READINGS.example[1:])
    leaning = several_planes(Counting("lag", "against"), heavy, *given[1:])

    assert leaning.forecasts[0].forecast < plain.forecasts[0].forecast
    assert leaning.forecasts[1].forecast > plain.forecasts[1].forecast


@pytest.mark.parametrize(("phases", "sign"), [("lead", 1.0), ("lag", -1.0)])
def test_forecast_has_the_phase_that_the_instrument_will_show(phases: str, sign: float) -> None:
    """By hand: the trial of 0.1 kg takes 2 of the 4 away, so that 0.2 kg goes on.

    A reading that does not count, j, had 0.5 added by the trial, and becomes 1 + j: 45 degrees.
    """
    right = sign * math.radians(90.0)
    readings = (Reading("one", 4.0, 0.0), Reading("other", 1.0, right, 0.0))
    runs = (
        TrialReading("one", "disc", 2.0, 0.0),
        TrialReading("other", "disc", math.hypot(1.0, 0.5), sign * math.atan2(1.0, 0.5)),
    )
    found = several_planes(Counting(phases, "with"), readings, (Trial("disc", 0.1, 0.0),), runs)
    row = found.forecasts[1]

    assert (row.reading, row.before) == ("other", 1.0)
    assert row.forecast == pytest.approx(math.sqrt(2.0))
    assert math.remainder(row.phase - sign * math.radians(45.0), math.tau) == pytest.approx(0.0)


def test_one_reading_does_not_fix_two_planes() -> None:
    """The form says that other weights serve as well."""
    runs = tuple(row for row in TRIAL_READINGS.example if row.reading == "rear fast")
    found = several_planes(Counting("lag", "against"), READINGS.example[2:], TRIALS.example, runs)

    assert found.fixed == NOT_ENOUGH
    assert found.rms_forecast == 0.0


@pytest.mark.parametrize(
    ("readings", "trials", "runs", "message"),
    [
        (READINGS.example, TRIALS.example, TRIAL_READINGS.example[1:], "“spinner” is missing"),
        (READINGS.example[1:], TRIALS.example, TRIAL_READINGS.example, "not in the tables above"),
        (READINGS.example * 2, TRIALS.example, TRIAL_READINGS.example, "stands twice"),
        (READINGS.example, TRIALS.example * 2, TRIAL_READINGS.example, "stands twice"),
        (READINGS.example, TRIALS.example, TRIAL_READINGS.example * 2, "stands twice"),
        (
            tuple(replace(row, weight=0.0) for row in READINGS.example),
            TRIALS.example,
            TRIAL_READINGS.example,
            "weight above 0",
        ),
    ],
)
def test_tables_that_do_not_fit_are_refused(
    readings: tuple[Reading, ...],
    trials: tuple[Trial, ...],
    runs: tuple[TrialReading, ...],
    message: str,
) -> None:
    """A missing, unknown or doubled name is said, and so are readings of no weight."""
    with pytest.raises(ValueError, match=message):
        several_planes(Counting("lag", "against"), readings, trials, runs)


def test_figure_has_each_reading_twice() -> None:
    """Before and forecast of each, under the names of the readings."""
    found = several_planes(
        Counting("lag", "against"), READINGS.example, TRIALS.example, TRIAL_READINGS.example
    )
    before, forecast = several_planes_chart(READINGS.example, found).arrows

    assert before.names == [row.reading for row in READINGS.example]
    assert [point[0] for point in forecast.points] == [row.forecast for row in found.forecasts]
