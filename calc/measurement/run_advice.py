"""Run advice: what the trends of all modes say together, in words."""

from collections.abc import Sequence

from calc.measurement.mode_trend import HOLD, STOP, ModeTrend
from calc.measurement.run_reasons import is_too_short, rpm


def advice(
    modes: Sequence[ModeTrend], last: float, limits: tuple[float, float], unread: str
) -> str:
    """Return the advice on the run, in words that leave no doubt what is not done.

    Args:
        modes: What follows from each mode.
        last: The last rotor speed; scalar, rad/s.
        limits: What modes and prediction leave, and what the largest step leaves, rad/s.
        unread: Which predicted mode was not read, in words; empty if none is missing.

    Returns:
        One or two sentences.
    """
    room, limit = limits
    stopping, holding = ([m.mode for m in modes if m.word == word] for word in (STOP, HOLD))
    end = (
        f"no rotor speed above {rpm(last)} and no more excitation; come down as the approved "
        "plan says"
    )
    if stopping:
        return f"{STOP}, by {_listed(stopping)}: {end}."
    if is_too_short(room, last):
        return f"{STOP}, by the prediction: {end}."
    if unread:
        return f"{HOLD}: {unread}. No rotor speed above {rpm(last)} until it is."
    if holding:
        return (
            f"{HOLD}, by {_listed(holding)}: no rotor speed above {rpm(last)} until the table of "
            "modes below has no HOLD left."
        )
    return (
        f"No stop in these readings. Next no faster than {rpm(limit)}, and only if the approved "
        "plan and those who answer for the run release it: this advice has no authority."
    )


def least_damped(modes: Sequence[ModeTrend], last: float) -> str:
    """Return the mode with the least damping at the last rotor speed, as far as it was read."""
    there = [mode for mode in modes if mode.last_speed == last]
    least = min(there, key=lambda mode: mode.damping_ratio)
    return f"{least.mode}, {100.0 * least.damping_ratio:.2f} %"


def first_to_zero(modes: Sequence[ModeTrend]) -> str:
    """Return the mode whose damping reaches zero first, where, and by which of two lines."""
    zeros = [
        (speed, mode)
        for mode in modes
        for speed in (mode.zero_speed, mode.last_two_zero)
        if speed is not None
    ]
    if not zeros:
        return "none: no trend falls, which proves nothing beyond the last reading"
    speed, first = min(zeros, key=lambda zero: zero[0])
    how = "its line"
    if speed != first.zero_speed:
        beside = "by its line never" if first.low_end is not None else "without a line yet"
        if first.zero_speed is not None:
            beside = f"by its line at {rpm(first.zero_speed)}"
        how = f"its last two rotor speeds, {beside}"
    least = min(modes, key=lambda mode: mode.damping_ratio).mode
    unlike = "" if first.mode == least else f"; not {least}, the least damped now"
    return f"{first.mode}, at {rpm(speed)} by {how}{unlike}"


def _listed(names: Sequence[str]) -> str:
    return " and ".join(f"mode {name}" for name in names)
