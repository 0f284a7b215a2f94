"""Damper failure: what one failed lag damper would do over the rotor speeds of a ground run.

As the rest of a plan, it is told of the aircraft at the bad end of its uncertainties.
"""

import math
from dataclasses import dataclass
from typing import Annotated, NamedTuple

from calc.declaration import Name, Table
from calc.ground.model.gear_state import STATE
from calc.ground.model.general_support import two_directions
from calc.ground.plan.outlook import Outlook
from calc.ground.plan.run_rules import RunRules
from calc.ground.plan.state_plan import LAST
from calc.ground.plan.variation import Case, varied
from calc.ground.search import sweep
from calc.ground.search.least_damped import ratio
from calc.ground.search.rotor_on_modes import RotorOnModes
from calc.numeric.peaks import Sample
from calc.quantity import Quantity
from calc.units import ROTATION, RPM

POINTS = 24  # evenly spaced rotor speeds of a sweep
AT_ONCE = 8  # rotor speeds that are found together
REACH = 1.2  # rad: longer steps than for a single speed, as in a survey of measured modes
PEAK = 1e-3  # how closely the least stable speed is found, as a share of it
EDGE = 1e-4  # width of the last bracket of an edge, as a share of its rotor speed
OUT_FROM = Quantity(r"\Omega_{1o}", "Unstable from, one damper out", ROTATION)
SEIZED_FROM = Quantity(r"\Omega_{1s}", "Unstable from, one damper seized", ROTATION)
OUT = Name("With one damper out")
SEIZED = Name("With one damper seized")


@dataclass(frozen=True, slots=True)
class DamperFailure:
    """What one failed damper would do in a state of the plan; a speed is None where there is none.

    The aircraft is the worst of those at the bad ends of its uncertainties that are looked at.
    """

    name: Annotated[str, STATE]
    last_speed: Annotated[float, LAST]
    out_from: Annotated[float | None, OUT_FROM]
    out: Annotated[str, OUT]
    seized_from: Annotated[float | None, SEIZED_FROM]
    seized: Annotated[str, SEIZED]


DAMPER_FAILURES = Table(
    "Before each run: what one lag damper that fails would do, at the bad end", DamperFailure
)


def damper_failure(seen: Outlook, name: str, last_speed: float) -> DamperFailure:
    """Return what one damper out or seized would do from the start of a state to its last step.

    Args:
        seen: What is predicted in the state with every damper in order.
        name: What the state is called.
        last_speed: Last step of the state; scalar, rad/s.

    Returns:
        A row of the plan.

    Source:
        Hammond (1974), the problem and the method; equations derived anew.
    """
    span = (seen.speeds[0], seen.speeds[-1])
    out, seized = (_found(seen, damping, span) for damping in (0.0, math.inf))
    return DamperFailure(
        name=name,
        last_speed=last_speed,
        out_from=out.unstable_from,
        out=_words(seen, out, last_speed),
        seized_from=seized.unstable_from,
        seized=_words(seen, seized, last_speed),
    )


class _Found(NamedTuple):
    """Where motion begins to grow, if it does; else the least stable motion that swings."""

    unstable_from: float | None
    damping_ratio: float = math.nan
    rotor_speed: float = math.nan


def _found(seen: Outlook, damping: float, span: tuple[float, float]) -> _Found:
    """Return what the rotor does with another lag damping of one blade, at the bad ends.

    Those with the other lag dampers weak come first: motion grows with them at the lowest speeds.
    Those with strong ones are looked at where none of them grows.
    """
    low, peaks = span[0], []
    for wide in (-seen.rules.damping_uncertainty, seen.rules.damping_uncertainty):
        first = span[1]
        for rotor, support in _bad_ends(seen.cases[0], seen.rules, 1.0 + wide):
            dampings = (damping, *(rotor.lag_damping,) * (rotor.blades - 1))
            known = RotorOnModes(rotor, two_directions(support), dampings, REACH)
            samples = _up_to_growth(known, (low, first))
            if bands := known.unstable_bands(samples, EDGE):
                first = bands[0][0]
                if first <= low:
                    return _Found(first)
            else:
                peaks.append((max(rate for _, rate in samples), known, samples))
        if first < span[1]:
            return _Found(first)
    _, known, samples = max(peaks, key=lambda found: found[0])
    worst, _ = sweep.peak(known.swinging_rate, samples, PEAK)
    return _Found(None, ratio(known.least_stable(worst)), worst)


def _bad_ends(given: Case, rules: RunRules, lag: float) -> list[Case]:
    """Return the aircraft with its airframe damping low and one or both frequencies low."""
    low, high = 1.0 - rules.frequency_uncertainty, 1.0 + rules.frequency_uncertainty
    less = 1.0 - rules.damping_uncertainty
    frequencies = dict.fromkeys([(low, low), (high, low), (low, high)])
    return [varied(*given, (x, y, less, less, lag)) for x, y in frequencies]


def _up_to_growth(known: RotorOnModes, span: tuple[float, float]) -> list[Sample]:
    """Return growth rates over a range of rotor speed, up to the first that is above zero."""
    found: list[Sample] = []
    speeds = known.speeds(*span, POINTS)
    for number, speed in enumerate(speeds):
        if number % AT_ONCE == 0:
            known.look_ahead(speeds[number : number + AT_ONCE])
        found.append((speed, known.swinging_rate(speed)))
        if found[-1][1] > sweep.NOISE:
            break
    return found


def _words(seen: Outlook, found: _Found, last_speed: float) -> str:
    """Return whether a run keeps clear of the bands, as a sentence."""
    if found.unstable_from is None:
        least = seen.rules.least_damping
        short = f", below the least of {least:.1%}: the run needs every damper"
        return (
            f"stable up to {_rpm(seen.speeds[-1])}; {found.damping_ratio:.1%} of critical "
            f"at {_rpm(found.rotor_speed)}{short if found.damping_ratio < least else ''}"
        )
    low = found.unstable_from
    if low <= last_speed:
        return f"unstable within the run from {_rpm(low)}: the run needs every damper"
    clear = low / last_speed - 1.0
    near = " and within the stand-off" if seen.rules.closed(low, low)[0] < last_speed else ""
    return f"unstable from {_rpm(low)}, {clear:.0%} above the last step{near}"


def _rpm(speed: float) -> str:
    return f"{RPM.reading(speed):.0f} rpm"
