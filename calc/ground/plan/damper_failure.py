"""Damper failure: what one failed lag damper would do over the rotor speeds of a ground run."""

import math
from dataclasses import dataclass
from typing import Annotated, NamedTuple

from calc.declaration import Name, Table
from calc.ground.model.aircraft import Rotor, Support
from calc.ground.model.gear_state import STATE
from calc.ground.model.general_support import two_directions
from calc.ground.plan.outlook import Outlook
from calc.ground.plan.state_plan import LAST
from calc.ground.search import sweep
from calc.ground.search.least_damped import ratio
from calc.ground.search.rotor_on_modes import RotorOnModes
from calc.quantity import Quantity
from calc.units import ROTATION, RPM

POINTS = 40  # evenly spaced rotor speeds of a sweep
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

    The aircraft is as given, without its uncertainties.
    """

    name: Annotated[str, STATE]
    last_speed: Annotated[float, LAST]
    out_from: Annotated[float | None, OUT_FROM]
    out: Annotated[str, OUT]
    seized_from: Annotated[float | None, SEIZED_FROM]
    seized: Annotated[str, SEIZED]


DAMPER_FAILURES = Table(
    "Before each run: what one lag damper that fails would do, as given", DamperFailure
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
    rotor, support = seen.cases[0]
    span = (seen.speeds[0], seen.speeds[-1])
    out, seized = (_found(rotor, support, damping, span) for damping in (0.0, math.inf))
    return DamperFailure(
        name=name,
        last_speed=last_speed,
        out_from=out.bands[0][0] if out.bands else None,
        out=_words(seen, out, last_speed),
        seized_from=seized.bands[0][0] if seized.bands else None,
        seized=_words(seen, seized, last_speed),
    )


class _Found(NamedTuple):
    """Unstable bands, and damping ratio and rotor speed of the least stable motion that swings."""

    bands: tuple[tuple[float, float], ...]
    damping_ratio: float
    rotor_speed: float


def _found(rotor: Rotor, support: Support, damping: float, span: tuple[float, float]) -> _Found:
    """Return what the rotor does with another lag damping of one blade."""
    dampings = (damping, *(rotor.lag_damping,) * (rotor.blades - 1))
    known = RotorOnModes(rotor, two_directions(support), dampings, REACH)
    samples = known.sampled(*span, known.swinging_rate, POINTS)
    worst, _ = sweep.peak(known.swinging_rate, samples, PEAK)
    return _Found(known.unstable_bands(samples, EDGE), ratio(known.least_stable(worst)), worst)


def _words(seen: Outlook, found: _Found, last_speed: float) -> str:
    """Return whether a run keeps clear of the bands, as a sentence."""
    if not found.bands:
        least = seen.rules.least_damping
        short = f", below the least of {least:.1%}: the run needs every damper"
        return (
            f"stable up to {_rpm(seen.speeds[-1])}; {found.damping_ratio:.1%} of critical "
            f"at {_rpm(found.rotor_speed)}{short if found.damping_ratio < least else ''}"
        )
    low = found.bands[0][0]
    if low <= last_speed:
        return f"unstable within the run from {_rpm(low)}: the run needs every damper"
    clear = low / last_speed - 1.0
    near = " and within the stand-off" if seen.rules.closed(low, low)[0] < last_speed else ""
    return f"unstable from {_rpm(low)}, {clear:.0%} above the last step{near}"


def _rpm(speed: float) -> str:
    return f"{RPM.reading(speed):.0f} rpm"
