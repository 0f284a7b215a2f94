"""Mode trend: what the readings of one mode say about the next rotor speed, erring to stop."""

import math
from dataclasses import dataclass
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
from calc.measurement.run_reasons import (
    FEWEST,
    is_repeated,
    not_as_predicted,
    reasons_to_hold,
    reasons_to_stop,
    remarks_on,
    rpm,
)
from calc.measurement.trend import Fit
from calc.quantity import Quantity
from calc.units import PER_CENT, ROTATION

__all__ = ["HOLD", "MODE_TRENDS", "NEXT_SPEED", "STEP", "STOP", "ModeTrend", "mode_trend"]

STOP, HOLD, STEP = "STOP", "HOLD", "STEP"

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
    is_apart = is_repeated(history.speeds[-rules.points :])
    parabola = _fit(used, 2) if line and not is_apart else None
    zero = line.zero() if line else None
    stop = line.stop(rules.coverage, rules.floor, errors) if line else None
    low_end = line.at(last) - rules.coverage * line.error(last, errors) if line else None
    last_two = _last_two_zero(history)
    earliest = min((s for s in (zero, last_two) if s is not None), default=None)
    limit = _limit(last, earliest, stop, rules)
    stops = reasons_to_stop(history, rules, low_end, limit)
    stops += not_as_predicted(worst, rules, predicted)
    holds = reasons_to_hold(history, used, run_speed, rules)
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
        said=_said(
            stops, holds, remarks_on(history, used, line), limit, falls=earliest is not None
        ),
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
