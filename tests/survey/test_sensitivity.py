"""Sensitivity: what is known in closed form, and what a sheet typed anew would give."""

import pytest

from calc.sheet.sheet import Sheet, Value
from calc.survey.asked import Place, changed
from calc.survey.ground import AS_GIVEN, LIFTED, WITHOUT_BLADES
from calc.survey.headline import decides
from calc.survey.sensitivity import Sensitivity, sensitivity
from calc.survey.survey import calculated
from calc.units import KNOT
from tests.survey.crafts import example
from tests.survey.test_survey import found


def with_tolerance(sheet: Sheet, place: str, text: str, tolerance: str) -> Sheet:
    """Return a sheet with another value and tolerance at a place."""
    section, _, name = place.partition(".")
    return changed(sheet, Place(section, -1, name), Value(text, "estimate", tolerance))


def of(sheet: Sheet, key: str) -> Sensitivity:
    """Return the sensitivity of one answer."""
    known = sensitivity(sheet, found(sheet, key))
    assert known is not None
    return known


def test_tip_mach_moves_by_the_airspeed_over_the_speed_of_sound() -> None:
    """In closed form: an airspeed 10 kt off moves the advancing-tip Mach number by 10 kt / a."""
    known = of(
        with_tolerance(example("plover"), "flight.airspeed", "105 kt", "10 kt"), "altitude_1_tips"
    )
    (effect,) = known.effects
    step = KNOT.si(10.0) / 340.294

    assert effect.place.words == "flight.airspeed"
    assert effect.low == pytest.approx(known.value - step, abs=1e-6)
    assert effect.high == pytest.approx(known.value + step, abs=1e-6)


def test_ends_are_what_the_sheet_typed_anew_gives() -> None:
    """Both ends of the mass of the Plover, 3000 kg ± 100 kg, are the survey of 2900 and 3100 kg."""
    sheet = example("plover")
    known = of(sheet, "altitude_1_stall")
    effect = next(effect for effect in known.effects if effect.place.name == "mass")
    for end, text in ((effect.low, "2900 kg"), (effect.high, "3100 kg")):
        typed = found(with_tolerance(sheet, "rotorcraft.mass", text, ""), "altitude_1_stall")
        assert typed.calculation is not None
        assert typed.calculation.result.tip_airspeed == pytest.approx(end, rel=1e-9)


def test_greatest_effect_is_first_and_others_do_not_count() -> None:
    """The input that decides is first; one that the answer does not depend on is not there."""
    known = of(example("plover"), "altitude_3_stall")
    swings = [effect.swing for effect in known.effects]

    assert swings == sorted(swings, reverse=True)
    assert {effect.place.words for effect in known.effects} == {
        *("rotorcraft.mass", "rotorcraft.lift_slope", "rotorcraft.drag_area"),
    }


def test_separation_in_a_fan_plot_is_a_distance() -> None:
    """The figure is the nearest approach of a mode to a harmonic, from above or from below."""
    sheet = example("curlew")
    one = found(sheet, "fan_plot")
    assert one.calculation is not None
    rows = [r for r in one.calculation.result.separations if "always" not in r.verdict]
    nearest = of(sheet, "fan_plot")

    assert {row.per_rev > 0.0 for row in rows} == {True, False}
    assert 0.0 <= nearest.value == min(abs(row.per_rev) for row in rows)


def test_inputs_beyond_the_bound_are_counted(monkeypatch: pytest.MonkeyPatch) -> None:
    """How many inputs are varied is bounded, and the answer says how many were not."""
    monkeypatch.setattr("calc.survey.sensitivity.MOST_OTHERWISE", 1)
    known = of(example("plover"), "altitude_1_stall")

    assert len(known.effects) == 1
    assert known.left_out == 2


def test_end_that_cannot_be_is_no_number() -> None:
    """A tolerance that reaches past a limit has no answer at that end, and is told first."""
    sheet = with_tolerance(example("curlew"), "flight.wing_lift_share", "0.3", "0.4")
    first = of(sheet, "altitude_1_stall").effects[0]

    assert first.place.name == "wing_lift_share"
    assert first.low is None
    assert first.high is not None


def test_ground_resonance_is_looked_at_about_its_worst_speed() -> None:
    """The small question gives the growth rate that the whole survey gives with nominal dampers."""
    sheet = example("curlew")
    one = found(sheet, "ground_resonance")
    known = sensitivity(sheet, one)
    assert known is not None
    assert one.calculation is not None
    nominal = [case for case in one.calculation.result.cases if "nominal" in case.dampers]

    assert known.value == pytest.approx(max(case.growth_rate for case in nominal), abs=1e-4)
    assert known.about.startswith("full weight")
    assert {effect.place.row for effect in known.effects} == {-1, 0, 1, 2}  # rows of that state
    assert calculated(one.asked) is not None
    assert decides(known).endswith(
        "of full weight, all lag dampers nominal, about the worst rotor speed"
    )
    assert one.asked.notes == (AS_GIVEN, WITHOUT_BLADES, LIFTED)
