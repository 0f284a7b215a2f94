"""Run reasons: why the readings of one mode end a run, hold it, or need a remark."""

import math
from itertools import pairwise

from calc.ground.search.least_damped import ratio
from calc.measurement.predicted_modes import PredictedMode
from calc.measurement.run_readings import History, Reading, TrendRules
from calc.measurement.trend import Fit
from calc.units import RPM

FEWEST = 3  # rotor speeds that make a trend
SMALLEST = 0.01  # step worth taking, of rotor speed; common practice, no source
STEEPER = 1.25  # a last fall this much steeper than the line is said; no source
STEEPEST = 2.0  # change of a frequency with rotor speed that is still one mode
READ = 0.03  # of a frequency, by which reading it may be off
ALIKE = 0.002  # of rotor speed, within which two readings are repeats at one; no source
UNLIKE = 2.0  # amplitudes further apart than this are no one trend; no source


def is_too_short(limit: float, last: float) -> bool:
    """Return whether what a limit leaves beyond the last rotor speed is no step worth taking."""
    return limit < (1.0 + SMALLEST) * last


def rpm(speed: float) -> str:
    """Return a rotor speed for a sentence, never above what it is."""
    return f"{math.floor(10.0 * RPM.reading(speed) + 1e-6) / 10.0:.1f} rpm"


def reasons_to_stop(
    history: History, rules: TrendRules, low_end: float | None, limit: float
) -> list[str]:
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


def not_as_predicted(
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


def reasons_to_hold(
    history: History, used: tuple[Reading, ...], run_speed: float, rules: TrendRules
) -> list[str]:
    """Return why a mode lets no step be taken before more is measured."""
    speeds, found = history.speeds, []
    if speeds[-1] < run_speed:
        found.append(f"not read at {rpm(run_speed)}; a mode out of sight is not a safe one")
    if len(speeds) < FEWEST:
        found.append(
            f"no trend yet, {len(speeds)} of {FEWEST} rotor speeds: take what is missing below "
            f"{rpm(speeds[-1])}"
        )
    if is_repeated(speeds[-rules.points :]):
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
    return found + _unequal(history, used)


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


def is_repeated(speeds: list[float]) -> bool:
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


def remarks_on(history: History, used: tuple[Reading, ...], line: Fit | None) -> list[str]:
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
