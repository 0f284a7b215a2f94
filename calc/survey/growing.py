"""Growing: the cases of an answer about ground resonance that are unstable, or stable by little."""

import re
from typing import NamedTuple

from calc.form.calculation import Calculation
from calc.ground.search.case_verdict import LIGHTLY
from calc.sheet.layout import ASSESSMENT, MODES

NAMED = 6
"""How many cases of a kind are named in a warning."""

_NUMBER = re.compile(r"[\d.,]+")


class Case(NamedTuple):
    """A landing-gear state with a state of the lag dampers, and its least damped motion."""

    state: str
    dampers: str
    unstable: bool
    damping_ratio: float

    @property
    def words(self) -> str:
        """What the case is called."""
        return ", ".join(filter(None, (self.state, self.dampers)))

    @property
    def like(self) -> tuple[str, str]:
        """What the case is called on any sheet, whatever a degraded damper has left there."""
        return self.state, _NUMBER.sub("", self.dampers)


def cases(calculation: Calculation) -> list[Case]:
    """Return the cases of an answer about ground resonance; any other answer has none."""
    found = calculation.result
    if found is not None and calculation.name == MODES:
        return [
            Case(row.state, row.dampers, row.verdict == "unstable", row.damping_ratio)
            for row in found.cases
        ]
    if found is not None and calculation.name == ASSESSMENT:
        unstable = {band.name for band in found.bands}
        return [Case(row.name, "", row.name in unstable, row.damping_ratio) for row in found.states]
    return []


def growing(calculation: Calculation) -> list[str]:
    """Return the warnings about cases in which a disturbance grows or hardly decays."""
    found = cases(calculation)
    unstable = [case.words for case in found if case.unstable]
    light = [
        f"{case.words}, {100.0 * case.damping_ratio:.2g} %"
        for case in found
        if not case.unstable and case.damping_ratio < LIGHTLY
    ]
    said = [f"Unstable, a disturbance grows: {listed(unstable)}"] if unstable else []
    if light:
        said.append(f"Lightly damped, below {LIGHTLY:.0%} of critical: {listed(light)}")
    return said


def changes(before: Calculation, after: Calculation) -> list[str]:
    """Return which cases are unstable of the one answer alone, those that are new first."""
    old, new = (
        {case.like: case.words for case in cases(one) if case.unstable} for one in (before, after)
    )
    come = [words for like, words in new.items() if like not in old]
    gone = [words for like, words in old.items() if like not in new]
    said = [f"newly unstable: {listed(come)}"] if come else []
    return said + ([f"unstable no more: {listed(gone)}"] if gone else [])


def listed(names: list[str]) -> str:
    """Return names in a row, the first few where there are many."""
    more = len(names) - NAMED
    return "; ".join(names[:NAMED]) + (f"; and {more} more" if more > 0 else "")
