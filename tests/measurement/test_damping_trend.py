"""Damping trend against NumPy's least squares, single blades, and runs that end or do not."""

import math
import random
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from playwright.sync_api import Browser
from scipy.optimize import brentq

from calc.form.calculation import calculate, start
from calc.form.shown_in import ShownIn
from calc.ground.examples import PLOVER_ROTOR, PLOVER_SUPPORT
from calc.ground.model.aircraft import Hub, Rotor
from calc.ground.stability import unstable_bands
from calc.measurement.damping_trend import RunAdvice, damping_run, damping_run_chart
from calc.measurement.predicted_modes import predicted_modes
from calc.measurement.run_readings import READINGS, Reading, TrendRules, by_mode
from calc.measurement.trend import Fit, damping_trend
from calc.units import RPM
from tests.form.reader import Reader
from tests.ground.oracle import eigenvalues_of_single_blades

HUB = Hub(3000.0, 1400.0, 600e3, 640e3, 6000.0, 4000.0)
LATE, EARLY = "B", "A"


def run(*readings: Reading, prediction: str = "none", **rules: float) -> RunAdvice:
    """Return the advice on readings of the Plover."""
    return damping_run(readings, PLOVER_ROTOR, HUB, TrendRules(**rules), prediction)  # type: ignore[arg-type]


def mode(name: str, rows: dict[float, float], frequency: float = 2.5) -> list[Reading]:
    """Return readings of a mode by rotor speed in rpm, with an uncertainty of 0.1 %."""
    return [Reading(RPM.si(s), name, frequency, ratio, 0.001, 1.0) for s, ratio in rows.items()]


def up_to(speed: float) -> tuple[Reading, ...]:
    """Return the readings of the example up to a rotor speed in rpm."""
    return tuple(r for r in READINGS.example if r.rotor_speed <= RPM.si(speed) + 1e-9)


def test_published_worked_lines() -> None:
    """Damping of a regressing lag mode at 18 to 22 rad/s, worked by another program."""
    early = damping_trend([18.0, 19.0, 20.0], [0.05158, 0.04076, 0.03095], 1, 2.0, 0.01)
    late = damping_trend([19.0, 20.0, 21.0, 22.0], [0.04076, 0.03095, 0.02166, 0.01291], 1, 2, 0.01)

    assert early.zero_speed == pytest.approx(22.98417, abs=5e-6)
    assert early.stop_speed == pytest.approx(21.84726, abs=5e-6)
    assert early.standard_deviation == pytest.approx(4.1233e-4, abs=5e-9)
    assert late.zero_speed == pytest.approx(23.36191, abs=5e-6)
    assert late.stop_speed == pytest.approx(22.21099, abs=5e-6)


@pytest.mark.parametrize("degree", [1, 2])
def test_fit_and_its_error_by_numpy(degree: int) -> None:
    """NumPy's polynomial and its covariance give the fitted mean, its error and both speeds."""
    speeds = [15.0, 16.5, 17.0, 18.5, 19.0, 20.5]
    ratios = [0.081, 0.069, 0.068, 0.052, 0.049, 0.031]
    shares, covariance = np.polyfit(speeds, ratios, degree, cov=True)

    def error(speed: float) -> float:
        powers = speed ** np.arange(degree, -1, -1.0)
        return float(np.sqrt(powers @ covariance @ powers))

    fit, found = Fit(speeds, ratios, degree), damping_trend(speeds, ratios, degree, 1.5, 0.01)
    for speed in (15.0, 18.2, 24.0):
        assert fit.at(speed) == pytest.approx(np.polyval(shares, speed), rel=1e-9)
        assert fit.error(speed) == pytest.approx(error(speed), rel=1e-7)

    def room(speed: float) -> float:
        return float(np.polyval(shares, speed)) - 1.5 * error(speed) - 0.01

    zero = brentq(lambda speed: np.polyval(shares, speed), 20.5, 26.0)
    assert found.zero_speed == pytest.approx(zero, rel=1e-9)
    assert found.stop_speed == pytest.approx(brentq(room, 20.5, 26.0), rel=1e-7)


def test_stated_uncertainty_counts_where_the_scatter_is_small() -> None:
    """Three readings on a line have no scatter; their uncertainties make the error of the mean."""
    fit = Fit([10.0, 11.0, 12.0], [0.05, 0.04, 0.03])

    assert fit.error(11.0) == pytest.approx(0.0, abs=1e-12)
    assert fit.error(11.0, [0.003, 0.003, 0.003]) == pytest.approx(0.003 / math.sqrt(3.0))
    assert fit.error(12.0, [0.003] * 3) == pytest.approx(0.003 * math.sqrt(5.0 / 6.0))


def test_the_least_damped_mode_is_not_the_one_that_goes_unstable() -> None:
    """Two modes of the worked example at 18 to 20 rad/s: the lower one rises, the other falls."""
    rising = {18.0: 0.0278, 19.0: 0.0345, 20.0: 0.0421}
    falling = {18.0: 0.0516, 19.0: 0.0480, 20.0: 0.0440}
    rows = [
        Reading(speed, name, frequency, ratio, 0.001, 1.0)
        for name, frequency, ratios in (("low", 2.1, rising), ("high", 2.8, falling))
        for speed, ratio in ratios.items()
    ]
    found = run(*rows)

    assert found.least_damped == "low, 4.21 %"
    line, last_two = (
        damping_trend(speeds, [falling[speed] for speed in speeds]).zero_speed
        for speeds in ([18.0, 19.0, 20.0], [19.0, 20.0])
    )
    assert line is not None
    assert last_two is not None
    row = found.modes[1]
    assert row.zero_speed == pytest.approx(line)
    assert row.last_two_zero == pytest.approx(last_two)
    down = [math.floor(RPM.reading(speed) * 10.0) / 10.0 for speed in (last_two, line)]
    assert found.first_to_zero == (
        f"high, at {down[0]:.1f} rpm by its last two rotor speeds, by its line at "
        f"{down[1]:.1f} rpm; not low, the least damped now"
    )


@pytest.mark.parametrize(
    ("ratios", "why"),
    [
        (
            {150: 0.05, 160: 0.04, 170: 0.0115},
            "the reading at 170.0 rpm less its error has reached",
        ),
        ({140: 0.011, 150: 0.03, 160: 0.05, 170: 0.07}, "the reading at 140.0 rpm less its error"),
        ({150: 0.05, 160: 0.03, 170: -0.004}, "and the motion grows"),
        ({150: 0.06, 160: 0.045, 170: 0.03}, "falling damping leaves no step"),
    ],
)
def test_floor_and_fall_stop_the_run(ratios: dict[float, float], why: str) -> None:
    """A reading at the floor, now or before, growth, and no step left: no next speed is given."""
    other = mode("quiet", dict.fromkeys(ratios, 0.09), 4.0)
    found = run(*mode("x", ratios), *other)

    assert found.advice.startswith("STOP, by mode x: no rotor speed above 170.0 rpm")
    assert "no more excitation" in found.advice
    assert found.next_speed is None
    assert why in found.modes[0].said


def test_trend_at_the_floor_stops_the_run() -> None:
    """A last reading above the others' line does not hide that the line has reached the floor."""
    rows = mode("x", {150: 0.060, 160: 0.016, 170: 0.013}, 2.5)
    found = run(*(replace(row, uncertainty=0.0) for row in rows))

    assert "the trend less its error has reached the floor" in found.modes[0].said


@pytest.mark.parametrize(
    ("rows", "why"),
    [
        (mode("x", {160: 0.06, 170: 0.05}), "no trend yet, 2 of 3 rotor speeds"),
        (mode("x", {140: 0.06, 150: 0.07, 160: 0.08}), "not read at 170.0 rpm"),
        (mode("x", {150: 0.06, 160: 0.08, 170: 0.07}), "it turns down"),
        (
            mode("x", {150: 0.06, 160: 0.06}) + mode("x", {170: 0.06}, 3.2),
            "its frequency jumps at 170.0 rpm",
        ),
        (
            mode("x", {150: 0.052, 160: 0.045, 169.9: 0.040, 170: 0.041}),
            "are repeats of one",
        ),
        (mode("x", {150: 0.052, 169.0: 0.040, 169.5: 0.041, 170: 0.042}), "are repeats of one"),
        (
            mode("x", {150: 0.08, 170 - 1e-12: 0.08, 170: 0.08}),
            "are repeats of one",
        ),
        (mode("x", {150: 0.05, 160: 0.06, 170: 0.054}) * 6, "it turns down"),
    ],
)
def test_what_is_missing_holds_the_run(rows: list[Reading], why: str) -> None:
    """Too few speeds, out of sight, turning down, two modes under one name, repeats as speeds.

    Repeats make a fall surer: six readings at each speed hold the run as one at each does.
    """
    other = mode("quiet", {150: 0.09, 160: 0.09, 170: 0.09}, 4.0)
    found = run(*rows, *other)

    assert found.advice.startswith("HOLD, by mode x: no rotor speed above 170.0 rpm")
    assert found.next_speed is None
    assert why in next(row.said for row in found.modes if row.mode == "x")


def test_next_speed_is_the_least_of_all_limits() -> None:
    """Half of the way to zero, the stand-off, the floor and the largest step, by hand."""
    rows = mode("x", {100: 0.08, 110: 0.07, 120: 0.06})
    found = run(*rows, largest_step=RPM.si(100.0))
    row = found.modes[0]

    assert row.zero_speed == pytest.approx(RPM.si(180.0))
    assert row.next_speed == pytest.approx(RPM.si(150.0))
    assert found.next_speed == pytest.approx(RPM.si(150.0))
    clear = run(*rows, largest_step=RPM.si(100.0), keep_clear=0.3).next_speed
    assert clear == pytest.approx(0.7 * RPM.si(180.0))
    assert run(*rows).next_speed == pytest.approx(RPM.si(135.0))
    floor = run(*rows, largest_step=RPM.si(100.0), floor=0.04).next_speed
    assert floor is not None
    assert floor < RPM.si(140.0)


def test_small_steps_of_a_plan_are_no_stop() -> None:
    """A largest step below a hundredth of the rotor speed is a step; a prediction at hand stops."""
    rows = mode("x", {100: 0.08, 110: 0.07, 120: 0.06})
    fine = run(*rows, largest_step=RPM.si(0.5))
    ended = run(
        *(replace(r, damping_ratio=r.damping_ratio + 0.01) for r in up_to(200.0)),
        prediction="two_directions",
        keep_clear=0.11,
    )

    assert fine.next_speed == pytest.approx(RPM.si(120.5))
    assert fine.advice.startswith("No stop in these readings")
    assert ended.advice.startswith("STOP, by the prediction")
    assert ended.next_speed is None


def test_zero_is_named_by_the_line_that_gives_it() -> None:
    """A fall that eases reaches zero by its line first; one that begins late has no such zero."""
    easing = run(*mode("x", {100: 0.085, 110: 0.070, 120: 0.065}))
    late = run(*mode("x", {100: 0.060, 110: 0.075, 120: 0.0745}))

    assert easing.first_to_zero == "x, at 183.3 rpm by its line"
    young = run(*mode("x", {110: 0.070, 120: 0.065}))
    assert late.first_to_zero == "x, at 1610.0 rpm by its last two rotor speeds, by its line never"
    assert young.first_to_zero == (
        "x, at 250.0 rpm by its last two rotor speeds, without a line yet"
    )


def test_last_fall_counts_where_it_is_the_steeper_one() -> None:
    """Damping that falls faster reaches zero before its line: the earlier of the two is used."""
    rows = mode("x", {100: 0.085, 110: 0.080, 120: 0.065})
    row = run(*rows, largest_step=RPM.si(100.0), keep_clear=0.02).modes[0]
    last_two = 120.0 + 10.0 * 0.065 / 0.015

    assert row.zero_speed is not None
    assert row.zero_speed > RPM.si(last_two)
    assert row.next_speed == pytest.approx(RPM.si(0.5 * (120.0 + last_two)))
    assert "falls faster than its line" in row.said


def test_readings_that_are_not_as_predicted_stop_the_run() -> None:
    """Less damping than predicted, or another frequency; more damping does not."""
    rows = up_to(180.0)
    last = rows[-1]
    less, off, more = (
        damping_run((*rows[:-1], changed), PLOVER_ROTOR, HUB)
        for changed in (
            replace(last, damping_ratio=0.036),
            replace(last, frequency=3.2),
            replace(last, damping_ratio=0.05),
        )
    )

    assert "not as predicted: 4.57 % is predicted" in less.modes[1].said
    assert less.advice.startswith(f"STOP, by mode {LATE}")
    assert "not as predicted: the nearest predicted mode has 2.88 Hz" in off.modes[1].said
    assert more.next_speed is not None


def test_a_mode_that_nobody_read_holds_the_run() -> None:
    """Only the rising mode was read; the model has another one with as little damping beside it."""
    rising = [row for row in up_to(190.0) if row.mode == EARLY]
    found = run(*rising, prediction="two_directions")

    assert found.advice.startswith("HOLD: a predicted mode of 2.90 Hz and 3.72 % was not read.")
    assert found.next_speed is None
    assert run(*rising).next_speed is not None


def test_prediction_never_lengthens_a_step() -> None:
    """With the prediction beside them, readings of any scatter leave as much or less."""
    chance = random.Random(3)  # noqa: S311 - no secret
    both = 0
    for _ in range(40):
        rows = tuple(
            replace(row, damping_ratio=row.damping_ratio + chance.gauss(0.0, 0.002))
            for row in up_to(chance.choice([170.0, 180.0, 190.0, 200.0]))
        )
        beside = damping_run(rows, PLOVER_ROTOR, HUB).next_speed
        alone = damping_run(rows, PLOVER_ROTOR, HUB, prediction="none").next_speed
        assert beside is None or (alone is not None and beside <= alone)
        both += beside is not None
    assert both > 5


def test_predicted_modes_are_those_of_single_blades() -> None:
    """At each reading the mode beside it is an eigenvalue of single blades in fixed axes."""
    histories = by_mode(READINGS.example)
    for history, beside in zip(
        histories, predicted_modes(PLOVER_ROTOR, PLOVER_SUPPORT, histories), strict=True
    ):
        assert beside is not None
        for reading in history.readings:
            value = beside.at(reading.rotor_speed)
            assert value is not None
            all_of_them = eigenvalues_of_single_blades(
                PLOVER_ROTOR, PLOVER_SUPPORT, reading.rotor_speed
            )
            assert min(abs(all_of_them - value)) < 1e-6
            assert abs(value.imag / (2.0 * math.pi) - reading.frequency) < 0.03 * reading.frequency
            ratio = -value.real / abs(value)
            assert abs(reading.damping_ratio - ratio) < 3.0 * reading.uncertainty


def growing(rotor: Rotor, speed: float) -> list[tuple[float, complex]]:
    """Return modes A and B followed from 140 rpm by the nearest eigenvalue of single blades."""
    found: list[tuple[float, complex]] = []
    here = RPM.si(140.0)
    values = eigenvalues_of_single_blades(rotor, PLOVER_SUPPORT, here)
    light = sorted((v for v in values if v.imag > 5.0 and -v.real < 0.2 * abs(v)), key=abs)
    modes = [complex(m) for m in light[:2]]
    while here < speed:
        here = min(speed, here + RPM.si(0.5))
        values = eigenvalues_of_single_blades(rotor, PLOVER_SUPPORT, here)
        modes = [complex(values[np.argmin(abs(values - m))]) for m in modes]
        found = [(here, m) for m in modes]
    return found


@pytest.mark.parametrize("lag_damping", [1800.0, 2000.0, 2600.0])
def test_a_crew_that_takes_every_step_is_stopped_in_time(lag_damping: float) -> None:
    """Readings of single blades, each step as long as is allowed: the run ends in time."""
    rotor = replace(PLOVER_ROTOR, lag_damping=lag_damping)
    edge = unstable_bands(rotor, PLOVER_SUPPORT, RPM.si(40.0), RPM.si(400.0))[0][0]
    rows: list[Reading] = []
    speeds = [RPM.si(speed) for speed in (145.0, 150.0, 155.0)]
    while speeds:
        speed = speeds.pop(0)
        rows += [
            Reading(s, name, v.imag / (2.0 * math.pi), -v.real / abs(v), 5e-4, 1.0)
            for name, (s, v) in zip("AB", growing(rotor, speed), strict=True)
        ]
        found = damping_run(tuple(rows), rotor, HUB, TrendRules(floor=0.005), "none")
        if not speeds and found.next_speed is not None:
            speeds = [found.next_speed]

    assert found.advice.startswith("STOP")
    assert rows[-1].rotor_speed < 0.95 * edge
    assert rows[-1].rotor_speed > 0.8 * edge


def test_sentences_state_rotor_speeds_in_the_unit_that_was_chosen() -> None:
    """202.5 rpm is 21.206 rad/s: advice, first to zero and what follows of each mode."""
    name = "measurement.damping_trend.damping_run"
    found = calculate(name, start(name), ShownIn(results={"next_speed": "rad/s"}))
    said = {f.name: value for f, value in found.results}
    sentences = [said["advice"], said["first_to_zero"], *(row.said for row in said["modes"])]

    assert "no rotor speed above 21.206 rad/s and no more" in said["advice"]
    assert not any("rpm" in sentence for sentence in sentences)
    plain = {f.name: value for f, value in calculate(name, start(name)).results}
    assert plain["advice"] == damping_run(READINGS.example, PLOVER_ROTOR, HUB).advice


def test_order_of_rows_does_not_matter() -> None:
    """Rows are sorted by rotor speed, and repeats at one speed are averaged."""
    rows = list(up_to(190.0))
    mixed = rows[::-1]

    assert {row.said for row in run(*mixed).modes} == {row.said for row in run(*rows).modes}
    assert run(*mixed).next_speed == run(*rows).next_speed


def test_example_runs_up_to_its_stop() -> None:
    """The example goes as far as each advice allowed, and ends with a stop by the lateral mode."""
    speeds = sorted({row.rotor_speed for row in READINGS.example})
    for speed, after in pairwise(speeds[2:]):
        allowed = damping_run(up_to(RPM.reading(speed)), PLOVER_ROTOR, HUB).next_speed
        assert allowed is not None
        assert after <= allowed
    assert damping_run(READINGS.example, PLOVER_ROTOR, HUB).advice.startswith(
        f"STOP, by mode {LATE}"
    )


def test_amplitude_that_was_not_recorded_is_said() -> None:
    """Readings without amplitudes, as of old links, are a remark and no more."""
    rows = mode("x", {150: 0.09, 160: 0.085, 170: 0.08})
    found = run(*(replace(r, amplitude=0.0) for r in rows))

    assert "amplitude not recorded" in found.modes[0].said
    assert found.next_speed is not None


@pytest.mark.parametrize(
    ("place", "changed", "why"),
    [
        (3, {"uncertainty": 0.0}, "the reading at 170.0 rpm has no uncertainty"),
        (0, {"uncertainty": 0.0}, "the reading at 140.0 rpm has no uncertainty"),
        (3, {"amplitude": 2.01}, "amplitudes of its trend are more than a factor of two apart"),
        (1, {"amplitude": 0.49}, "amplitudes of its trend are more than a factor of two apart"),
    ],
)
def test_readings_that_make_no_trend_hold_the_run(
    place: int, changed: dict[str, float], why: str
) -> None:
    """A reading without an error, at any rotor speed, or an unlike stir in the trend."""
    rows = mode("x", {140: 0.095, 150: 0.09, 160: 0.085, 170: 0.08})
    assert run(*rows).next_speed is not None
    rows[place] = replace(rows[place], **changed)  # type: ignore[arg-type]
    found = run(*rows)

    assert found.advice.startswith("HOLD, by mode x: no rotor speed above 170.0 rpm")
    assert found.next_speed is None
    assert why in found.modes[0].said


def test_unlike_amplitudes_before_the_trend_hold_nothing() -> None:
    """A stir of three times the size at a rotor speed that the trend does not use."""
    rows = mode("x", {140: 0.095, 150: 0.09, 160: 0.085, 170: 0.08})
    rows[0] = replace(rows[0], amplitude=3.0)

    assert run(*rows).next_speed is not None


def test_trends_that_cannot_be_are_named() -> None:
    """Too few speeds, lists of two lengths, another degree, too many modes."""
    with pytest.raises(ValueError, match="A trend needs 2 different rotor speeds"):
        damping_trend([10.0, 10.0], [0.1, 0.2])
    with pytest.raises(ValueError, match="one damping ratio for each"):
        damping_trend([10.0, 11.0], [0.1])
    with pytest.raises(ValueError, match="must be 1 or 2"):
        damping_trend([10.0, 11.0], [0.1, 0.2], degree=3)
    with pytest.raises(ValueError, match="at most 6 modes"):
        run(*(mode(f"m{n}", {150: 0.05})[0] for n in range(7)))


def test_figure_shows_readings_trend_floor_and_prediction() -> None:
    """What is drawn has a column in the data of the figure."""
    histories = by_mode(READINGS.example)
    found = damping_run(READINGS.example, PLOVER_ROTOR, HUB)
    beside = predicted_modes(PLOVER_ROTOR, PLOVER_SUPPORT, histories)
    headings = " ".join(damping_run_chart(TrendRules(), found, histories, beside).table()[0])

    for word in ("floor", EARLY, LATE, "trend", "B, predicted"):
        assert word in headings


def test_a_low_reading_typed_in_is_seen_at_once(browser: Browser, served: str) -> None:
    """Who types a reading at the floor into the row of 200 rpm reads STOP and why."""
    page = browser.new_page()
    page.goto(f"{served}/measurement/damping_trend.html")
    reader = Reader(page, "measurement.damping_trend.damping_run")
    reader.type(reader.cell("readings", (11, 3)), "1.2 %")
    reader.leave()
    said = reader.result()
    page.close()

    assert "STOP, by mode B: no rotor speed above 202.5 rpm" in said
    assert "the reading at 200.0 rpm less its error has reached the floor" in said
