"""Calculations from entries: limits in the reader's unit, defaults, warnings, links."""

import pytest

from calc.form.answer import answer
from calc.form.calculation import calculate, start

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


@pytest.mark.parametrize(
    ("form", "entries"),
    [
        ("measurement.response.half_power", {"lower": "3.2_Hz", "upper": "3.1_Hz"}),
        ("measurement.spectrum.alias_candidates", {"observed": "300_Hz", "sample_rate": "200_Hz"}),
        (
            "measurement.measurement_plan.measurement_plan",
            {"first_line": "24_Hz", "second_line": "24_Hz"},
        ),
        ("ground.damper_test.decay_damping", {"first_peak": "2_deg", "later_peak": "3_deg"}),
        ("ground.shake_test.added_mass", {"frequency": "2_Hz", "frequency_with_mass": "3_Hz"}),
        ("ground.run_plan.plan", {"lowest_speed": "300_rpm", "highest_speed": "200_rpm"}),
        (
            "ground.measured_modes.measured_modes",
            {"lowest_speed": "350_rpm", "lowest_operating_speed": "340_rpm"},
        ),
        ("blades.blade_data.two_scales", {"inner_position": "4_m", "outer_position": "3_m"}),
        ("blades.blade_swing.compound_pendulum", {"pivot_distance": "4_m", "period": "1_s"}),
        (
            "rotor.airspeed_limits.airspeed_limits",
            {"pressure_altitude": "4000_m", "highest_altitude": "3000_m"},
        ),
        (
            "flight.rotor_speed_range.rotor_speed_range",
            {"expected_lowest": "300_rpm", "expected_highest": "200_rpm"},
        ),
    ],
)
def test_inputs_that_do_not_go_together_are_all_named(form: str, entries: dict[str, str]) -> None:
    """A refusal that two fields can cure names both, so that a page marks both."""
    (problem,) = calculate(form, start(form) | entries).problems
    assert {problem.field, *problem.also} == set(entries)
    (told,) = answer(form, start(form) | entries)["problems"]
    assert [told["field"], *told["also"]] == [problem.field, *problem.also]


@pytest.mark.parametrize(
    ("entries", "message"),
    [
        ({"radius": "-3_m~ft"}, "Rotor radius must be above 0 ft, not -9.84252 ft"),
        (
            {"radius": "3_ft~furlong"},
            "Rotor radius has an unknown unit, “furlong”. Use m, ft, in, mm",
        ),
    ],
)
def test_entry_is_refused_in_the_unit_it_is_shown_in(entries: dict[str, str], message: str) -> None:
    """What was typed in metres and is shown in feet is refused in feet."""
    assert [p.message for p in calculate(TIP, start(TIP) | entries).problems] == [message]


def test_unit_that_is_shown_changes_no_number() -> None:
    """An entry gives the same result in whatever unit it is shown."""
    here = calculate(TIP, start(TIP) | {"rotor_speed": "395_rpm"})
    there = calculate(TIP, start(TIP) | {"rotor_speed": "395_rpm~Hz"})
    assert there.result == here.result
    assert there.readings["rotor_speed"].shown == "6.583333333 Hz"


def test_cell_that_is_wrong_is_pointed_at() -> None:
    """A problem in a table says the row and the column, in the unit of the column."""
    name = "ground.modal_support.modal_support"
    found = calculate(name, start(name) | {"modes": "3_Hz,0.03,9000_kg,1,0;-3_Hz~cpm,0.03,9_t,1,0"})
    (problem,) = found.problems
    assert ", row 2: " in problem.message
    assert problem.message.endswith("must be above 0 cpm, not -180 cpm")
    assert (problem.field, problem.cells) == ("modes", ((1, 0),))


def test_every_cell_that_is_wrong_is_pointed_at() -> None:
    """The message is about the first cell and counts the others; a number too large is named."""
    name = "ground.modal_support.modal_support"
    wrong = "1e400_Hz,0.03,9000_kg,1,0;3_Hz,0.03,9_t,1,0;3_Hz,x,-9_t,1,0"
    (problem,) = calculate(name, start(name) | {"modes": wrong}).problems
    assert ", row 1: " in problem.message
    assert problem.message.endswith("lies beyond what can be computed: 1e400 Hz (and 2 more cells)")
    assert problem.cells == ((0, 0), (2, 1), (2, 2))
