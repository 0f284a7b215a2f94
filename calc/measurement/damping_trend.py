"""Damping trend: when a run ends, by the damping of each mode against rotor speed."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from calc.chart import Axis, Chart, Line, Points, Rule
from calc.declaration import Choice, Name
from calc.ground.model.aircraft import Hub, LagRotor, Rotor, Support
from calc.ground.model.spectrum import spectrum
from calc.ground.search.least_damped import ratio
from calc.measurement.mode_trend import (
    HOLD,
    MODE_TRENDS,
    NEXT_SPEED,
    STOP,
    ModeTrend,
    mode_trend,
)
from calc.measurement.predicted_modes import (
    PredictedMode,
    predicted_floor,
    predicted_modes,
    unread_mode,
)
from calc.measurement.run_advice import advice, first_to_zero, least_damped
from calc.measurement.run_readings import (
    READING_FREQUENCY,
    READING_RATIO,
    READING_SPEED,
    READINGS,
    History,
    Reading,
    TrendRules,
    by_mode,
)
from calc.measurement.run_reasons import is_too_short
from calc.measurement.trend import Fit, damping_trend
from calc.quantity import Quantity
from calc.units import PERCENT, ROTATION

__all__ = ["TrendRules", "damping_run", "damping_run_chart", "damping_trend"]

MOST_MODES = 6
NEAR = 2.0  # of the least damping read, within which a mode must be read; as in a ground-run plan
PREDICTION = Choice(
    "Prediction beside the readings",
    {"two_directions": "of the rotor and the hub below", "none": "none"},
)
ADVICE = Name("Advice", states=(NEXT_SPEED, READING_FREQUENCY))
LEAST_DAMPED = Name("Least damped at the last rotor speed")
FIRST_TO_ZERO = Name("First to reach zero", states=(NEXT_SPEED,))
PREDICTED_END = Quantity(r"\Omega_p", "Predicted limit of the next rotor speed", ROTATION)


@dataclass(frozen=True, slots=True)
class RunAdvice:
    """What the readings of a run say, mode by mode, and when it ends."""

    advice: Annotated[str, ADVICE]
    next_speed: Annotated[float | None, NEXT_SPEED]
    least_damped: Annotated[str, LEAST_DAMPED]
    first_to_zero: Annotated[str, FIRST_TO_ZERO]
    predicted_end: Annotated[float | None, PREDICTED_END]
    modes: Annotated[tuple[ModeTrend, ...], MODE_TRENDS]


def damping_run(
    readings: Annotated[tuple[Reading, ...], READINGS],
    rotor: LagRotor,
    hub: Hub,
    rules: TrendRules = TrendRules(),  # noqa: B008 - a record that cannot change
    prediction: Annotated[str, PREDICTION] = "two_directions",
) -> RunAdvice:
    r"""Return whether a run ends, from the damping of each mode against rotor speed.

    $$ \hat{\zeta}(\Omega) = a + b\, \Omega, \qquad \hat{\zeta}(\Omega_{line}) = 0, \qquad
    \Omega_0 = \min(\Omega_{line}, \Omega_{two}), \qquad
    \hat{\zeta}(\Omega_s) - k\, u_{\hat{\zeta}}(\Omega_s) = \zeta_{stop}, \qquad
    \Omega_{n+1} \le \min\left(\tfrac{1}{2} (\Omega_n + \Omega_0),
    (1 - \epsilon)\, \Omega_0, \Omega_s, \Omega_n + \Delta\Omega\right) $$

    Each mode has its own straight line through its last readings, which reaches zero at
    $\Omega_{line}$; the line through the last two rotor speeds alone does so at $\Omega_{two}$.
    The prediction, the eigenvalues of identical blades on a hub with two directions, can end a run
    and shorten a step; it never lengthens one.  An aid for those who release the next step, never
    a release.

    Args:
        readings: Damping of each mode at each rotor speed; rows.
        rotor: Blades and lag hinges, for the prediction.
        hub: Effective masses, stiffness and damping at the hub, for the prediction.
        rules: Floor, coverage, steps and what counts as predicted.
        prediction: Whether the readings stand beside a prediction; word.

    Returns:
        The advice, the most that is left for the next rotor speed, the mode that is least damped
        and the one that reaches zero first, and a row for each mode.

    Raises:
        ValueError: If an argument is not finite or breaks its limits, or there are more modes
            than can be followed.

    Source:
        Rules devised here from common practice without a source; prediction by Coleman and
        Feingold (1958), equations derived anew.

    Examples:
        >>> from calc.ground.model.aircraft import Rotor
        >>> found = damping_run(
        ...     READINGS.example,
        ...     Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2000.0),
        ...     Hub(3000.0, 1400.0, 600e3, 640e3, 6000.0, 4000.0),
        ... )
        >>> found.advice[:4], found.next_speed
        ('STOP', None)
    """
    READINGS.check(readings)
    PREDICTION.check(prediction)
    histories = by_mode(readings)
    if len(histories) > MOST_MODES:
        raise ValueError(f"There must be at most {MOST_MODES} modes, not {len(histories)}")
    support = hub.support(rotor)
    is_beside = prediction == "two_directions"
    predicted = (
        predicted_modes(rotor, support, histories) if is_beside else (None,) * len(histories)
    )
    end = _predicted_end(rotor, support, histories, rules) if is_beside else None
    last = max(reading.rotor_speed for reading in readings)
    modes = tuple(
        mode_trend(history, rules, last, beside)
        for history, beside in zip(histories, predicted, strict=True)
    )
    unread = _unread(rotor, support, predicted, modes, last) if is_beside else ""
    room = _room(modes, end)
    limit = min(room, last + rules.largest_step)
    is_held = unread or any(mode.word in (STOP, HOLD) for mode in modes)
    return RunAdvice(
        advice=advice(modes, last, (room, limit), unread),
        next_speed=None if is_held or is_too_short(room, last) else limit,
        least_damped=least_damped(modes, last),
        first_to_zero=first_to_zero(modes),
        predicted_end=end,
        modes=modes,
    )


def damping_run_chart(
    rules: TrendRules,
    found: RunAdvice,
    histories: Sequence[History],
    predicted: Sequence[PredictedMode | None],
) -> Chart:
    """Return the readings of each mode with its trend, the floor and the prediction."""
    marks: list[Line | Points | Rule] = [Rule(rules.floor, "y", "floor")]
    if found.next_speed is not None:
        marks.append(Rule(found.next_speed, "x", "next, at most"))
    stops = [mode.stop_speed for mode in found.modes if mode.stop_speed is not None]
    first, last = (
        pick(speed for history in histories for speed in history.speeds) for pick in (min, max)
    )
    reach = 1.12 * last
    if stops and min(stops) < reach:
        marks.append(Rule(min(stops), "x", "trend at the floor"))
    for style, (history, beside) in enumerate(zip(histories, predicted, strict=True), 1):
        marks += _marks_of(history, rules, reach, style)
        if beside:
            points = [point for point in beside.ratios if point[0] <= reach]
            marks.append(Line(points, f"{history.mode}, predicted", style, "2 3"))
    return Chart(
        title="Damping ratio of each mode against rotor speed",
        description=f"{found.advice} Points are readings with their error, straight lines their "
        "trends, dotted lines the predicted modes beside them.",
        x=Axis.of(READING_SPEED, first, reach),
        y=Axis.of(READING_RATIO, unit=PERCENT),
        marks=marks,
    )


def _marks_of(
    history: History, rules: TrendRules, reach: float, style: int
) -> list[Line | Points | Rule]:
    """Return the readings of a mode with their errors, and its trend."""
    errors: list[tuple[float, float]] = []
    for reading in history.readings:
        half = rules.coverage * reading.uncertainty
        errors += [
            (reading.rotor_speed, reading.damping_ratio - half),
            (reading.rotor_speed, reading.damping_ratio + half),
            (reading.rotor_speed, math.nan),
        ]
    marks: list[Line | Points | Rule] = [
        Line(errors, "", style, ""),
        Points([(r.rotor_speed, r.damping_ratio) for r in history.readings], history.mode, style),
    ]
    used = history.lately(rules.points)
    if len(history.speeds) >= 3:
        fit = Fit([r.rotor_speed for r in used], [r.damping_ratio for r in used])
        ends = (used[0].rotor_speed, reach)
        marks.append(Line([(speed, fit.at(speed)) for speed in ends], "trend", style, ""))
    return marks


def _predicted_end(
    rotor: Rotor, support: Support, histories: Sequence[History], rules: TrendRules
) -> float | None:
    """Return the rotor speed that the prediction does not let the next step pass."""
    zero = predicted_floor(rotor, support, histories, 0.0)
    floor = predicted_floor(rotor, support, histories, rules.floor)
    clear = None if zero is None else (1.0 - rules.keep_clear) * zero
    return min((speed for speed in (clear, floor) if speed is not None), default=None)


def _room(modes: Sequence[ModeTrend], end: float | None) -> float:
    """Return the rotor speed that no mode and no prediction lets a step pass; may be infinite."""
    limits = [mode.next_speed for mode in modes if mode.next_speed is not None]
    return min(limits if end is None else [*limits, end], default=math.inf)


def _unread(
    rotor: Rotor,
    support: Support,
    predicted: Sequence[PredictedMode | None],
    modes: Sequence[ModeTrend],
    last: float,
) -> str:
    """Return which predicted mode has little damping and no reading, in words, or nothing.

    Little is no more than twice the least that was read, as in a ground-run plan.
    """
    mode = unread_mode(rotor, last, predicted, spectrum(rotor, support).at(last))
    least = min(mode.damping_ratio for mode in modes)
    if mode is None or ratio(mode) > NEAR * least:
        return ""
    frequency = mode.imag / (2.0 * math.pi)
    return f"a predicted mode of {frequency:.2f} Hz and {100.0 * ratio(mode):.2f} % was not read"
