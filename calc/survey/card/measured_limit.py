"""Measured limit: how far the measured modes of a sheet let a ground run go in each state.

The steps of a run are planned on two directions of the hub.  Modes that were measured in the same
state can show a third one, and where they say that a run ends earlier, it does.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from calc.catalogue import formula
from calc.declaration import inputs
from calc.form.reading import checked
from calc.ground.modal_support import SupportMode, support_of_modes
from calc.ground.model.aircraft import Rotor
from calc.ground.model.general_support import check
from calc.ground.plan.plan_step import PlanStep
from calc.ground.plan.run_rules import RunRules
from calc.ground.search.least_damped import ratio
from calc.ground.search.mode_survey import MeasuredMode
from calc.ground.search.rotor_on_modes import RotorOnModes
from calc.sheet.layout import MODES
from calc.sheet.sheet import Sheet
from calc.survey.ground import ground
from calc.units import RPM

POINTS = 60  # evenly spaced rotor speeds of a sweep


class MeasuredLimit(NamedTuple):
    """Where a run in a state ends by its measured modes: first speed that is shut, and why."""

    speed: float
    why: str


class Measured(NamedTuple):
    """The measured modes of a sheet by state; empty where there are none or they cannot be used."""

    modes: dict[str, tuple[MeasuredMode, ...]]
    hub_mass: str = ""
    lacks: tuple[str, ...] = ()


def measured(sheet: Sheet) -> Measured:
    """Return the measured modes of a sheet, or what it lacks so that they can be used."""
    asked = next(asked for asked in ground(sheet))
    if asked.formula != MODES:
        return Measured({})
    if asked.missing:
        return Measured({}, "", asked.missing)
    fields = {f.name: f for f in inputs(formula(MODES))}
    try:
        rows = checked(fields["modes"].declaration, asked.entries["modes"]).value
    except ValueError as error:
        return Measured({}, "", (str(error),))
    states = dict.fromkeys(row.state for row in rows)
    modes = {state: tuple(row for row in rows if row.state == state) for state in states}
    return Measured(modes, asked.entries.get("hub_mass", "without_blades"))


def measured_limit(
    found: Measured, rotor: Rotor, rules: RunRules, steps: Sequence[PlanStep], start: float
) -> MeasuredLimit | None:
    """Return where a run ends by the measured modes of its state, or None if they let it go on.

    The modes are taken at the bad end: frequencies as given, all low and all high, modal damping
    low, lag damping low and high.

    Args:
        found: The measured modes.
        rotor: Blades and lag hinges.
        rules: Margins and uncertainties of the run.
        steps: Steps of the state in ascending order of rotor speed.
        start: Rotor speed at which the state is entered, zero for a run-up from rest; rad/s.

    Raises:
        ValueError: If the modes are too light for the blades.
    """
    modes = found.modes.get(steps[0].state)
    if modes is None:
        return None
    low = max(start, 0.1 * steps[0].rotor_speed)
    high = rules.closed(steps[-1].rotor_speed, steps[-1].rotor_speed)[1] * (1.0 + 1e-6)
    limits = [
        limit
        for known in _bad_ends(modes, found.hub_mass, rotor, rules)
        if (limit := _limit(known, rules, steps, (low, high)))
    ]
    return min(limits, default=None)


def _limit(
    known: RotorOnModes, rules: RunRules, steps: Sequence[PlanStep], span: tuple[float, float]
) -> MeasuredLimit | None:
    samples = known.sampled(*span, known.swinging_rate, POINTS)
    for low, high in known.unstable_bands(samples):
        shut = rules.closed(low, high)[0]
        if steps[-1].rotor_speed > shut:
            return MeasuredLimit(
                shut, f"{rules.keep_clear:.0%} before a band from {RPM.reading(low):.0f} rpm"
            )
    for step in steps:
        if ratio(known.least_stable(step.rotor_speed)) < rules.least_damping:
            return MeasuredLimit(
                step.rotor_speed,
                f"damping below {rules.least_damping:.1%} at {RPM.reading(step.rotor_speed):.0f} "
                "rpm",
            )
    return None


def _bad_ends(
    modes: Sequence[MeasuredMode], hub_mass: str, rotor: Rotor, rules: RunRules
) -> Iterator[RotorOnModes]:
    blades = 0.0 if hub_mass == "without_blades" else rotor.blades * rotor.blade_mass
    less, more = 1.0 - rules.damping_uncertainty, 1.0 + rules.damping_uncertainty
    off = rules.frequency_uncertainty
    for factor in (1.0 - off, 1.0, 1.0 + off):
        support = support_of_modes(
            tuple(
                SupportMode(
                    factor * mode.frequency,
                    less * mode.damping_ratio,
                    mode.modal_mass,
                    mode.shape_x,
                    mode.shape_y,
                )
                for mode in modes
            ),
            blades,
        )
        check(rotor, support)
        for lag in (less, more):
            varied = replace(rotor, lag_damping=lag * rotor.lag_damping)
            yield RotorOnModes(varied, support, (varied.lag_damping,) * rotor.blades)
