"""Mode trend: what the readings of one mode say about the next rotor speed, erring to stop."""

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Annotated

from calc.declaration import Name, Table
from calc.ground.plan.state_plan import HALF_WAY
from calc.ground.search.least_damped import ratio
from calc.measurement.predicted_modes import PredictedMode
from calc.measurement.run_readings import (
    MODE,
    READING_FREQUENCY,
    History,
    Reading,
    TrendRules,
)
from calc.measurement.trend import Fit
from calc.quantity import Quantity
from calc.units import PER_CENT, ROTATION, RPM

STOP, HOLD, STEP = "STOP", "HOLD", "STEP"
FEWEST = 3  # rotor speeds that make a trend
SMALLEST = 0.01  # step worth taking, of rotor speed; common practice, no source
STEEPER = 1.25  # a last fall this much steeper than the line is said; no source
STEEPEST = 2.0  # change of a frequency with rotor speed that is still one mode
READ = 0.03  # of a frequency, by which reading it may be off
ALIKE = 0.002  # of rotor speed, within which two readings are repeats at one; no source
UNLIKE = 2.0  # amplitudes further apart than this are no one trend; no source

LAST_SPEED = Quantity(r"\Omega_n", "Last read at", ROTATION)
LAST_RATIO = Quantity(r"\zeta_n", "Lowest reading there", PER_CENT)
LOW_END = Quantity(r"\zeta_{low}", "Line there, less its error", PER_CENT)
ZERO_SPEED = Quantity(r"\Omega_{line}", "Line reaches zero at", ROTATION)
LAST_TWO = Quantity(r"\Omega_{two}", "Last two rotor speeds reach zero at", ROTATION)
STOP_SPEED = Quantity(r"\Omega_s", "Line less its error reaches the floor at", ROTATION)
PARABOLA = Quantity(r"\Omega_{0,2}", "Zero of a parabola, compared only", ROTATION)
NEXT_SPEED = Quantity(r"\Omega_{n+1}", "Next rotor speed, at most", ROTATION)
PREDICTED_THERE = Quantity(r"\zeta_p", "Predicted there", PER_CENT)
SAID = Name("What follows", states=(NEXT_SPEED, READING_FREQUENCY))


@dataclass(frozen=True, slots=True)
class ModeTrend:
    """One mode: its last reading, its trend, and what follows from both.

    A speed is None where there is none; the next speed is None where the mode stops the run.
    Zero comes at the earlier of two speeds: that of the line, and that of the last two readings.
    """

    mode: Annotated[str, MODE]
    last_speed: Annotated[float, LAST_SPEED]
    damping_ratio: Annotated[float, LAST_RATIO]
    predicted_ratio: Annotated[float | None, PREDICTED_THERE]
    low_end: Annotated[float | None, LOW_END]
    zero_speed: Annotated[float | None, ZERO_SPEED]
    last_two_zero: Annotated[float | None, LAST_TWO]
    stop_speed: Annotated[float | None, STOP_SPEED]
    parabola_zero: Annotated[float | None, PARABOLA]
    next_speed: Annotated[float | None, NEXT_SPEED]
    said: Annotated[str, SAID]

    @property
    def word(self) -> str:
        """The advice as one word."""
        return self.said.partition(":")[0]


MODE_TRENDS = Table("Modes, each by its own trend", ModeTrend)


def mode_trend(
    history: History, rules: TrendRules, run_speed: float, predicted: PredictedMode | None
) -> ModeTrend:
    """Return what the readings of a mode say about the next rotor speed.

    Args:
        history: Readings of the mode.
        rules: Floor, coverage, steps.
        run_speed: Highest rotor speed of the run; scalar, rad/s.
        predicted: The predicted mode beside it, if there is one.

    Returns:
        A row of the answer.

    Source:
        Devised here; its rules are common practice without a source.
    """
    last, worst = history.speeds[-1], history.lowest(rules.coverage)
    used = history.lately(rules.points)
    errors = [reading.uncertainty for reading in used]
    line = _fit(used, 1) if len(history.speeds) >= FEWEST else None
    is_apart = _repeats_apart(history.speeds[-rules.points :])
    parabola = _fit(used, 2) if line and not is_apart else None
    zero = line.zero() if line else None
    stop = line.stop(rules.coverage, rules.floor, errors) if line else None
    low_end = line.at(last) - rules.coverage * line.error(last, errors) if line else None
    last_two = _last_two_zero(history)
    earliest = min((s for s in (zero, last_two) if s is not None), default=None)
    limit = _limit(last, earliest, stop, rules)
    stops = _stops(history, rules, low_end, limit)
    stops += _not_as_predicted(worst, rules, predicted)
    holds = [*_holds(history, run_speed, rules), *_unequal(history, used)]
    beside = predicted.at(last) if predicted else None
    return ModeTrend(
        mode=history.mode,
        last_speed=last,
        damping_ratio=worst.damping_ratio,
        predicted_ratio=None if beside is None else ratio(beside),
        low_end=low_end,
        zero_speed=zero,
        last_two_zero=last_two,
        stop_speed=stop,
        parabola_zero=parabola.zero() if parabola else None,
        next_speed=None if stops or holds or limit == math.inf else limit,
        said=_said(stops, holds, _remarks(history, used, line), limit, falls=earliest is not None),
    )


def _last_two_zero(history: History) -> float | None:
    """Return where the straight line through the last two rotor speeds reaches zero, rad/s."""
    if len(history.speeds) < 2:
        return None
    before, last = history.speeds[-2:]
    ratio_before, ratio_last = history.mean(before), history.mean(last)
    if ratio_last <= 0.0:
        return last
    fall = (ratio_before - ratio_last) / (last - before)
    return last + ratio_last / fall if fall > 0.0 else None


def is_too_short(limit: float, last: float) -> bool:
    """Return whether what a limit leaves beyond the last rotor speed is no step worth taking."""
    return limit < (1.0 + SMALLEST) * last


def rpm(speed: float) -> str:
    """Return a rotor speed for a sentence, never above what it is."""
    return f"{math.floor(10.0 * RPM.reading(speed) + 1e-6) / 10.0:.1f} rpm"


def _fit(used: tuple[Reading, ...], degree: int) -> Fit:
    return Fit([r.rotor_speed for r in used], [r.damping_ratio for r in used], degree)


def _limit(last: float, earliest: float | None, stop: float | None, rules: TrendRules) -> float:
    """Return the rotor speed that a mode does not let the next step pass; infinite if it has none.

    Half of the way to zero damping, clear of it by the stand-off, and before the floor.
    """
    limits = [] if stop is None else [stop]
    if earliest is not None:
        limits += [last + HALF_WAY * (earliest - last), (1.0 - rules.keep_clear) * earliest]
    return min(limits, default=math.inf)


def _stops(history: History, rules: TrendRules, low_end: float | None, limit: float) -> list[str]:
    """Return why a mode ends the run, each as part of a sentence."""
    found = []
    low = [
        reading
        for reading in history.readings
        if reading.damping_ratio - rules.coverage * reading.uncertainty <= rules.floor
    ]
    if low:
        worst = min(low, key=lambda reading: reading.damping_ratio)
        grows = " and the motion grows" if worst.damping_ratio <= 0.0 else ""
        found.append(
            f"the reading at {rpm(worst.rotor_speed)} less its error has reached the floor{grows}"
        )
    if low_end is not None and low_end <= rules.floor:
        found.append("the trend less its error has reached the floor")
    last = history.speeds[-1]
    if not found and is_too_short(limit, last):
        found.append("falling damping leaves no step that is worth taking")
    return found


def _not_as_predicted(
    worst: Reading, rules: TrendRules, predicted: PredictedMode | None
) -> list[str]:
    """Return how the last reading of a mode differs from the prediction, if it does too much."""
    beside = predicted.at(worst.rotor_speed) if predicted else None
    if beside is None:
        return []
    found = []
    frequency = beside.imag / (2.0 * math.pi)
    if abs(worst.frequency - frequency) > rules.frequency_off * frequency:
        found.append(f"not as predicted: the nearest predicted mode has {frequency:.2f} Hz")
    elif worst.damping_ratio - worst.uncertainty < (1.0 - rules.shortfall) * ratio(beside):
        found.append(f"not as predicted: {100.0 * ratio(beside):.2f} % is predicted")
    return found


def _holds(history: History, run_speed: float, rules: TrendRules) -> list[str]:
    """Return why a mode lets no step be taken before more is measured."""
    speeds, found = history.speeds, []
    if speeds[-1] < run_speed:
        found.append(f"not read at {rpm(run_speed)}; a mode out of sight is not a safe one")
    if len(speeds) < FEWEST:
        found.append(
            f"no trend yet, {len(speeds)} of {FEWEST} rotor speeds: take what is missing below "
            f"{rpm(speeds[-1])}"
        )
    if _repeats_apart(speeds[-rules.points :]):
        found.append(
            "rotor speeds of its trend are repeats of one: enter repeats at one and the same rotor "
            "speed, and take a trend over more than a hundredth of it"
        )
    if _turns_down(history, rules):
        found.append(
            "it turns down, which a line through the rise does not see. Read it between the last "
            "rotor speeds until as many as the trend has show the fall"
        )
    for before, after in pairwise(history.readings):
        step = (after.rotor_speed - before.rotor_speed) / (2.0 * math.pi)
        if abs(after.frequency - before.frequency) > STEEPEST * step + READ * before.frequency:
            found.append(
                f"its frequency jumps at {rpm(after.rotor_speed)}: two modes under one name"
            )
            break
    return found


def _unequal(history: History, used: tuple[Reading, ...]) -> list[str]:
    """Return which readings do not make one trend: those without an error, or unlike stirs."""
    found = []
    unsure = [reading.rotor_speed for reading in history.readings if not reading.uncertainty]
    if unsure:
        found.append(
            f"the reading at {rpm(unsure[-1])} has no uncertainty: take it from repeats, since "
            "nothing is taken off that reading without it"
        )
    amplitudes = [reading.amplitude for reading in used if reading.amplitude]
    if amplitudes and max(amplitudes) > UNLIKE * min(amplitudes):
        found.append(
            "amplitudes of its trend are more than a factor of two apart, and damping belongs to "
            "its amplitude: read it again with the same stir"
        )
    return found


def _repeats_apart(speeds: list[float]) -> bool:
    """Return whether a trend stands on rotor speeds that differ by no more than repeats do.

    Scatter over a short range would make a slope of its own and hide a fall.
    """
    near = any(after < (1.0 + ALIKE) * before for before, after in pairwise(speeds))
    return near or (len(speeds) >= FEWEST and is_too_short(speeds[-1], speeds[0]))


def _turns_down(history: History, rules: TrendRules) -> bool:
    """Return whether damping rose and now falls, by more than its error, in the trend."""
    speeds = history.speeds[-rules.points :]
    levels = [history.mean(speed) for speed in speeds]
    rises = any(after > before for before, after in pairwise(levels))
    pair = [history.mean_error(speed) for speed in speeds[-2:]]
    return rises and levels[-2] - levels[-1] > rules.coverage * math.hypot(*pair)


def _remarks(history: History, used: tuple[Reading, ...], line: Fit | None) -> list[str]:
    """Return what a reader should know of a trend."""
    found = []
    if line:
        before, last = history.speeds[-2:]
        fall = history.mean(before) - history.mean(last)
        drop = line.at(before) - line.at(last)
        if fall > 0.0 >= drop:
            found.append("its last reading falls, its line does not: read it again before a step")
        elif fall > STEEPER * drop > 0.0:
            found.append("it falls faster than its line: zero comes before the line says")
    if not all(reading.amplitude for reading in used):
        found.append("amplitude not recorded")
    return found


def _said(
    stops: list[str], holds: list[str], remarks: list[str], limit: float, *, falls: bool
) -> str:
    """Return the advice on a mode as a sentence that begins with its word."""
    more = "".join(f"; {remark}" for remark in remarks)
    if stops:
        return f"{STOP}: {'; '.join(stops)}{more}"
    if holds:
        return f"{HOLD}: {'; '.join(holds)}{more}"
    if limit == math.inf:
        return f"{STEP}: no fall in its trend, which limits no step and permits none{more}"
    if not falls:
        return f"{STEP}: no fall in its trend; its error leaves {rpm(limit)} at most{more}"
    return f"{STEP}: falling, no faster than {rpm(limit)} next{more}"
