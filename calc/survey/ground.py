"""Ground: ground-resonance verdicts in every landing-gear state and state of the lag dampers."""

import math
from collections.abc import Iterator, Sequence
from typing import Any

from calc.catalogue import formula
from calc.declaration import Table, inputs
from calc.form.reading import Reading, cells, entry_of
from calc.sheet.layout import ASSESSMENT, MODES, section
from calc.sheet.sheet import Sheet, value_read
from calc.survey import governed
from calc.survey.asked import Asked, Feed, row_of

BLADE = (
    *("blade_mass", "first_moment", "lag_inertia", "hinge_offset"),
    *("lag_stiffness", "lag_damping"),
)
LIFTED = (
    "A state with weight on the rotor is looked at only from the rotor speed that can carry it, "
    "with a largest thrust equal to the weight; with thrust in hand or a lighter aircraft it "
    "exists at lower speeds too, where it can be unstable: the sheet asks for the largest thrust "
    "over the weight under Ground run"
)
IN_HAND = (
    "A state with weight on the rotor is looked at from the rotor speed that can carry it with the "
    "largest thrust of the sheet; a lighter aircraft or denser air lets it exist at lower speeds "
    "too, where it can be unstable"
)
WITHOUT_BLADES = (
    "The sheet does not say whether the mass of the blades is in the modes or the hub mass; it is "
    "taken as not in them. If blades or dummies were on the hub, the verdict is too mild and its "
    "bands lie elsewhere"
)
AS_GIVEN = (
    "The verdict is for the data as given, without their tolerances: a state that is stable by "
    "less than the sensitivity below is not shown to be stable"
)
NEAR_WORST = 0.15
"""How far about the worst rotor speed sensitivity is looked for, as a share of it."""

PLAN = "ground.run_plan.plan"
SUPPORT = "ground.modal_support.modal_support"


def ground(sheet: Sheet) -> Iterator[Asked]:
    """Yield the questions about ground resonance.

    Measured modes come before hub data: with them nothing is asked of the hub data.
    """
    if sheet.rows.get("measured_modes"):
        yield _measured(sheet)
    else:
        yield _assessed(sheet)
        yield _of_the_hub(sheet)


def run_plan(sheet: Sheet) -> Asked:
    """Return the question for the steps of a ground run, from the hub data."""
    return _in_states(sheet).asked("ground_run_plan", "Ground-run plan", PLAN)


def near_worst(asked: Asked, state: str, worst_speed: float) -> Asked:
    """Return the question how stable a state is about a rotor speed, with all dampers nominal.

    It is a small part of the question that it is made from, so that it can be asked many times.
    """
    entries = {key: asked.entries[key] for key in ("blades", *BLADE)}
    entries["modes"] = ";".join(
        row_of(row[1:6]) for row in cells(asked.entries["modes"]) if row[0] == state
    )
    entries["hub_mass"] = asked.entries.get("hub_mass", "without_blades")
    for name, share in (("lowest_speed", 1.0 - NEAR_WORST), ("highest_speed", 1.0 + NEAR_WORST)):
        entries[name] = _number(SUPPORT, name, share * worst_speed)
    title = f"{state}, all lag dampers nominal, about the worst rotor speed"
    return Asked(f"{asked.key}_worst", title, SUPPORT, entries)


def _blade(feed: Feed) -> None:
    feed.take("rotorcraft", "blades")
    feed.take("lag", *BLADE)


def _thrust(feed: Feed) -> float | None:
    """Return the largest thrust at nominal rotor speed over the weight, or None if unknown."""
    found = feed.reading("ground_run", "thrust_ratio", needed=False)
    return None if found is None else float(found.value)


def _speeds(feed: Feed) -> None:
    """Take the speeds of measured modes, and the thrust at the lowest of those in operation.

    Thrust goes with the square of rotor speed.  Where it falls below the weight, the weight is
    taken: a state with weight on the rotor is then looked at from a lower speed than it can have.
    """
    feed.take("ground_run", "lowest_speed", "highest_speed")
    speed = governed.rotor(feed)
    if speed is not None:
        feed.put(MODES, "lowest_operating_speed", speed.low)
        feed.put(MODES, "highest_operating_speed", speed.high)
    thrust = _thrust(feed)
    if speed is not None and thrust is not None:
        feed.put(MODES, "thrust_ratio", max(1.0, thrust * (speed.low / speed.nominal) ** 2))
    feed.take("lag", "damper_share")


def _measured(sheet: Sheet) -> Asked:
    feed = Feed(sheet)
    _blade(feed)
    feed.take_rows("modes", "measured_modes")
    _speeds(feed)
    feed.take("shake_test", "hub_mass")
    _cautions(feed, "measured_modes", "shake_test.hub_mass")
    return feed.asked("ground_resonance", "Ground resonance of the measured modes", MODES)


def _assessed(sheet: Sheet) -> Asked:
    feed = _in_states(sheet)
    _cautions(feed, "landing_gear_states", "hub.hub_mass")
    title = "Ground resonance over the landing-gear states, all lag dampers nominal"
    return feed.asked("ground_resonance_states", title, ASSESSMENT)


def _in_states(sheet: Sheet) -> Feed:
    """Return the blades, the hub and its landing-gear states, over the speeds of a ground run."""
    feed = Feed(sheet)
    _blade(feed)
    _hub(feed)
    feed.take("hub", "hub_mass")
    feed.take("ground_run", "lowest_speed", "highest_speed")
    feed.take_rows("states", "landing_gear_states")
    feed.take_as("nominal_speed", "rotorcraft", "rotor_speed")
    thrust = _thrust(feed)
    if thrust is not None:
        feed.take("ground_run", "thrust_ratio")
    return feed


def _hub(feed: Feed) -> None:
    feed.take("hub", "mass_x", "mass_y", "stiffness_x", "stiffness_y", "damping_x", "damping_y")


def _of_the_hub(sheet: Sheet) -> Asked:
    """Return the question about damper failures, with each direction of the hub as a mode."""
    feed = Feed(sheet)
    _blade(feed)
    _speeds(feed)
    feed.take_as("hub_mass", "hub", "hub_mass")
    hub = Feed(sheet)
    _hub(hub)
    hub.take_rows("states", "landing_gear_states")
    feed.add(hub)
    if not feed.missing:
        feed.entries["modes"] = _modes_of_the_hub(hub)
    feed.notes.append(
        "The modes are those of the hub data, one in each direction, with the factors of each "
        "landing-gear state; its own range of rotor speed is not taken from the state"
    )
    _cautions(feed, "landing_gear_states", "hub.hub_mass")
    return feed.asked("ground_resonance", "Ground resonance of the hub data", MODES)


def _cautions(feed: Feed, table: str, hub_mass: str) -> None:
    """Say what the verdict leaves out or takes for granted."""
    feed.notes.append(AS_GIVEN)
    if feed.sheet.value(hub_mass) is None:
        feed.notes.append(WITHOUT_BLADES)
    field = section(table).field("lift_share")
    lifts = (row.get("lift_share") for row in feed.sheet.rows.get(table, ()))
    if any(value_read(field, lift).value > 0.0 for lift in lifts if lift and lift.is_known):
        feed.notes.append(LIFTED if _thrust(feed) is None else IN_HAND)


def _modes_of_the_hub(feed: Feed) -> str:
    r"""Return the rows of modes that hub data and landing-gear states stand for.

    $$ f = \frac{1}{2 \pi} \sqrt{\frac{k K}{M}}, \qquad \zeta = \frac{c C}{2 \sqrt{k K M}} $$
    """
    rows = []
    for number in range(len(feed.sheet.rows["landing_gear_states"])):
        state = {
            f.name: feed.in_row("landing_gear_states", number, f.name)
            for f in section("landing_gear_states").fields
        }
        lifted = state["lift_share"]
        for axis, shape in (("x", (1.0, 0.0)), ("y", (0.0, 1.0))):
            mass, stiffness, damping = (
                _known(feed.reading("hub", f"{kind}_{axis}"))
                for kind in ("mass", "stiffness", "damping")
            )
            stiffness *= _known(state[f"stiffness_factor_{axis}"])
            damping *= _known(state[f"damping_factor_{axis}"])
            if mass == 0.0:
                return ""
            values = (
                math.sqrt(stiffness / mass) / (2.0 * math.pi),
                damping / (2.0 * math.sqrt(stiffness * mass)),
                mass,
                *shape,
                lifted.value if lifted else 0.0,
            )
            rows.append(_mode(_known(state["name"]), values))
    return ";".join(rows)


def _mode(state: str, values: Sequence[float]) -> str:
    """Return a row of the table of measured modes."""
    table = next(f.declaration for f in inputs(formula(MODES)) if f.name == "modes")
    assert isinstance(table, Table)
    columns = inputs(table.row)[1:]
    numbers = [entry_of(c.declaration, v) for c, v in zip(columns, values, strict=True)]
    return row_of([state, *numbers])


def _known(reading: Reading | None) -> Any:
    """Return a value that has no default and that was found to be known."""
    assert reading is not None
    return reading.value


def _number(name: str, entry: str, value: float) -> str:
    """Return a number in SI units as an entry of a formula."""
    return entry_of(next(f for f in inputs(formula(name)) if f.name == entry).declaration, value)
