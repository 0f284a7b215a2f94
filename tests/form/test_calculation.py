"""Calculations from entries: limits in the reader's unit, defaults, warnings, links."""

import pytest

from calc.form.answer import answer
from calc.form.calculation import calculate, converted, entries_of_link, start

TIP = "rotor.tip_speed.tip_state"
STALL = "rotor.stall_onset.stall_onset_airspeed"


def test_limit_is_named_in_the_unit_that_was_typed() -> None:
    """A refusal speaks of feet to a reader who typed feet."""
    found = calculate(TIP, start(TIP) | {"radius": "-3_ft"})
    assert [p.message for p in found.problems] == ["Rotor radius must be above 0 ft, not -3 ft"]
    assert found.problems[0].field == "radius"


def test_all_problems_are_reported_together() -> None:
    """Two wrong entries and an unknown one give three problems, and what was read is kept."""
    wrong = {"radius": "", "rotor_speed": "fast", "weight": "3"}
    found = calculate(TIP, start(TIP) | wrong)
    assert [p.message for p in found.problems] == [
        "Tip speed and tip Mach number has no input called “weight”",
        "Enter the rotor radius",
        "Rotor speed must be a number, not “fast”",
    ]
    assert "airspeed" in found.readings


def test_input_with_a_default_may_be_left_out() -> None:
    """A link from before an input existed keeps its answer."""
    entries = {name: start(TIP)[name] for name in ("radius", "rotor_speed", "airspeed")}
    assert calculate(TIP, entries).result == calculate(TIP, start(TIP)).result


def test_result_of_none_is_said_in_words() -> None:
    """A wing that carries nearly all leaves the rotor without a stall limit, and it is said."""
    light = {"wing_lift_share": "97_pct", "propeller_thrust_share": "1"}
    found = calculate(STALL, start(STALL) | light)
    assert found.problems == ()
    assert found.results == []
    assert "airspeed up to an advance ratio of 1" in found.remark
    assert found.remark in answer(STALL, start(STALL) | light)["html"]


@pytest.mark.parametrize("typed", ["395_rpm", "41.4_rad/s", "6,5_Hz", "1e3_rpm"])
def test_unit_there_and_back_is_the_same(typed: str) -> None:
    """An entry turned to another unit and back differs by less than its ten digits."""
    other = converted(TIP, "rotor_speed", typed, "rad/s")
    there = calculate(TIP, start(TIP) | {"rotor_speed": f"{other}_rad/s"}).values["rotor_speed"]
    here = calculate(TIP, start(TIP) | {"rotor_speed": typed}).values["rotor_speed"]
    assert there == pytest.approx(here, rel=1e-9)


@pytest.mark.parametrize(
    ("key", "typed", "unit"),
    [("rotor_speed", "abc_rpm", "Hz"), ("rotor_speed", "3_rpm", "m"), ("nothing", "3_rpm", "Hz")],
)
def test_what_cannot_be_converted_stays(key: str, typed: str, unit: str) -> None:
    """Text that is no number, or a unit of another kind, loses nothing that was typed."""
    assert converted(TIP, key, typed, unit) in (typed, typed.partition("_")[0])


def test_prefix_of_another_form_is_left_alone() -> None:
    """On a page with several forms each takes the keys with its own name."""
    found = entries_of_link(TIP, "#tip_state.radius=5_m&blade_airspeed.airspeed=3_kt&airspeed=9_kt")
    assert found == {"radius": "5_m", "airspeed": "9_kt"}
