"""Case verdict: what a sweep of one case found, as a row and in words."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor, pi
from typing import Annotated

from calc.declaration import Name, Table
from calc.ground.model.gear_state import STATE
from calc.ground.quantities import GROWTH_RATE
from calc.ground.search.least_damped import LEAST_STABLE_FREQUENCY, PERCENT_CRITICAL, ratio
from calc.ground.search.mode_survey import Case, SpeedRange
from calc.ground.search.verdict import LOWER_SPEED, UPPER_SPEED, VERDICT, WORST_SPEED
from calc.quantity import Quantity
from calc.units import ONE, PERCENT, RPM

LIGHTLY = 0.01
"""A stable case with less of critical damping is said to be lightly damped; no source."""

DAMPERS = Name("Lag dampers", "all nominal")

BAND_MARGIN = Quantity("m", "Operating range to nearest band", (PERCENT, ONE), at_least=0.0)
ALL_BANDS = Name("Every unstable band of the sweep")


@dataclass(frozen=True, slots=True)
class CaseVerdict:
    """The least stable motion of one case, and the unstable band that is nearest to operation."""

    state: Annotated[str, STATE]
    dampers: Annotated[str, DAMPERS]
    verdict: Annotated[str, VERDICT]
    worst_speed: Annotated[float, WORST_SPEED]
    growth_rate: Annotated[float, GROWTH_RATE]
    damping_ratio: Annotated[float, PERCENT_CRITICAL]
    frequency: Annotated[float, LEAST_STABLE_FREQUENCY]
    lower_speed: Annotated[float | None, LOWER_SPEED]
    upper_speed: Annotated[float | None, UPPER_SPEED]
    margin: Annotated[float | None, BAND_MARGIN]
    bands: Annotated[str, ALL_BANDS]


CASES = Table("Every landing-gear state with every state of the dampers", CaseVerdict)


def case_verdict(case: Case, speeds: SpeedRange) -> CaseVerdict:
    """Return the row of a case."""
    nearest = min(case.bands, key=speeds.margin, default=None)
    return CaseVerdict(
        state=case.state,
        dampers=case.dampers,
        verdict=_verdict(case),
        worst_speed=case.worst_speed,
        growth_rate=case.exponent.real,
        damping_ratio=ratio(case.exponent),
        frequency=case.exponent.imag / (2.0 * pi),
        lower_speed=nearest[0] if nearest else None,
        upper_speed=nearest[1] if nearest else None,
        margin=speeds.margin(nearest) if nearest else None,
        bands=_in_words(case) or "none",
    )


def _verdict(case: Case) -> str:
    """Return whether a case is stable, by how little, and whether the sweep ends too early."""
    if case.bands:
        return "unstable"
    at_an_end = case.worst_speed in {case.samples[0][0], case.samples[-1][0]}
    lightly = f", lightly damped: below {LIGHTLY:.0%} of critical" if _is_light(case) else ""
    return f"stable{lightly}{'; least damped at an end of the sweep' if at_an_end else ''}"


def _is_light(case: Case) -> bool:
    return not case.bands and ratio(case.exponent) < LIGHTLY


def _in_words(case: Case) -> str:
    """Return every unstable band, rounded outward; where the sweep cuts one off it says so."""
    lowest, highest = case.samples[0][0], case.samples[-1][0]
    return "; ".join(
        ("start of the sweep" if low == lowest else f"{floor(RPM.reading(low))} rpm")
        + " to "
        + ("end of the sweep" if high == highest else f"{ceil(RPM.reading(high))} rpm")
        for low, high in case.bands
    )


def sentence(swept: Sequence[Case]) -> str:
    """Return in how many landing-gear states something is unstable."""
    unstable = [case for case in swept if case.bands]
    any_damper = len({case.state for case in unstable})
    nominal = len({case.state for case in unstable if case.dampers == swept[0].dampers})
    states = len({case.state for case in swept})
    light = sum(_is_light(case) for case in swept)
    lightly = f"; of the stable cases {light} lightly damped" if light else ""
    said = (
        f"Unstable in {nominal} of {states} landing-gear states with all lag dampers nominal, in "
        f"{any_damper} with one degraded, out or seized"
        if unstable
        else f"Stable in {states} landing-gear states, with one lag damper out or seized too"
    )
    return said + lightly
