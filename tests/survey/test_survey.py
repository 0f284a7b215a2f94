"""The survey gives the numbers that forms give, and says what it would need for the others."""

import math
import re
from urllib.parse import unquote

import pytest

from calc.catalogue import formula
from calc.declaration import arguments
from calc.form.calculation import calculate
from calc.sheet.layout import FAN, LIMITS, MODES
from calc.sheet.sheet import Sheet, Value
from calc.survey.asked import Asked, Feed, Place, changed
from calc.survey.governed import rotor
from calc.survey.ground import IN_HAND, LIFTED
from calc.survey.headline import headline
from calc.survey.report.blocks import Grid
from calc.survey.review.review import review
from calc.survey.survey import GROUPS, Answer, answer_to, survey
from calc.units import RPM
from tests.survey.crafts import example, random_craft

SLOW = (FAN, LIMITS, MODES)
"""Formulas of which the entries alone are compared; `test_calculation.py` compares the rest."""


def found(sheet: Sheet, key: str) -> Answer:
    """Return one answer of the survey of a sheet."""
    return next(
        answer_to(asked, sheet, group)
        for group in GROUPS
        for asked in group(sheet)
        if asked.key == key
    )


def agrees(sheet: Sheet) -> int:
    """Check every answer against the form that its link opens, and against the formula itself."""
    answers = 0
    for one in survey(sheet):
        assert (one.calculation is None) == bool(one.asked.missing)
        if one.calculation is None or one.calculation.problems:
            assert one.lacks
            continue
        page, _, fragment = one.asked.link.partition("#")
        chapter, topic, short = one.asked.formula.split(".")
        assert page == f"{chapter}/{topic}.html"
        pairs = (pair.partition("=") for pair in fragment.split("&"))
        entries = {key.removeprefix(f"{short}."): unquote(text) for key, _, text in pairs}
        assert entries == one.asked.entries
        if one.asked.formula not in SLOW:
            form = calculate(one.asked.formula, entries)
            assert form.result == one.calculation.result
            given = arguments(formula(one.asked.formula), form.values)
            assert formula(one.asked.formula)(**given) == one.calculation.result
        answers += 1
    return answers


@pytest.mark.parametrize("batch", range(6))
def test_survey_and_form_agree_on_random_rotorcraft(batch: int) -> None:
    """Sixty random rotorcraft, with unknowns: each answer is that of the form its link opens."""
    answers = sum(agrees(random_craft(10 * batch + n, slow=n == 0)) for n in range(10))

    assert answers > 30


@pytest.mark.thorough
def test_survey_and_form_agree_on_five_hundred_rotorcraft() -> None:
    """Five hundred random rotorcraft, all of them with what takes long."""
    assert sum(agrees(random_craft(1000 + n, slow=True)) for n in range(500)) > 2500


def test_stall_is_that_of_the_keyword_function() -> None:
    """The stall onset of the Plover at 3000 m is that of a call with numbers typed here, in SI.

    An independent way to the formula: no sheet, no entries, no units.
    """
    from calc.rotor.stall_onset import stall_onset_airspeed  # noqa: PLC0415

    one = found(example("plover"), "altitude_3_stall")
    onset = stall_onset_airspeed(
        3000.0, 4.8, 0.45, 4, 12.0 * math.pi, math.radians(-8.0), 5.7, 1.3, 3000.0, 10.0
    )

    assert one.calculation is not None
    assert onset is not None
    assert one.calculation.result.tip_airspeed == pytest.approx(onset.airspeed, rel=1e-11)


def test_forcing_frequencies_of_the_plover() -> None:
    """The main rotor at 360 rpm turns six times a second, so that 4/rev is at 24 Hz.

    6017 rpm times 21/80 times 31/136 is 360.02 rpm: teeth as in the sheet, by hand.
    """
    one = found(example("plover"), "forcing_frequencies")
    assert one.calculation is not None
    lines = {line.source: line.frequency for line in one.calculation.result}

    assert lines["Main rotor 4/rev"] == pytest.approx(4 * 6017 * 21 / 80 * 31 / 136 / 60, rel=1e-12)
    assert lines["Main rotor 4/rev"] == pytest.approx(24.0, abs=0.002)


def test_operating_range_takes_in_every_condition() -> None:
    """The whole range of the Plover is that of its transients; a deeper droop widens it."""
    sheet = example("plover")
    speed = rotor(Feed(sheet))
    assert speed is not None
    assert RPM.reading(speed.low) == pytest.approx(317.0)
    assert RPM.reading(speed.high) == pytest.approx(385.0)

    drooping = changed(sheet, Place("rotor_speeds", -1, "droop"), Value("0.2"))
    speed = rotor(Feed(drooping))
    assert speed is not None
    assert RPM.reading(speed.low) == pytest.approx(0.8 * 360.0)

    one = found(drooping, "fan_plot")
    assert one.calculation is not None
    assert one.calculation.values["operating_low"] == pytest.approx(RPM.si(288.0))


def test_unknown_transient_is_left_out_and_said() -> None:
    """The range goes on without what is unknown, and a warning names it."""
    unknown = changed(example("plover"), Place("rotor_speeds", -1, "transient_low"), Value())
    feed = Feed(unknown)
    speed = rotor(feed)

    assert speed is not None
    assert RPM.reading(speed.low) == pytest.approx(324.0)
    assert feed.missing == []
    assert ["Lowest speed in a transient" in said for said in feed.warnings] == [True]


@pytest.mark.parametrize("key", ["avoid_bands", "fan_plot", "ground_resonance"])
def test_range_without_what_is_unknown_is_a_warning_wherever_it_is_told(key: str) -> None:
    """In the headline, among the warnings and in what differs from a sheet that has the value."""
    whole = example("curlew")
    unknown = changed(whole, Place("rotor_speeds", -1, "power_off_high"), Value())
    one, before = found(unknown, key), found(whole, key)
    said = "The operating range leaves out what is unknown: Highest speed, power off (rotor_speeds)"
    told = review(whole, unknown, "0" * 64, ([before], [one]))

    assert said in one.warnings
    assert said not in before.warnings
    assert said[1:] in headline(one)
    rows = [list(map(str, row)) for block in told if isinstance(block, Grid) for row in block.rows]
    assert ["Warning", "—", said, "new"] in rows
    assert any(row[0] == one.asked.title and said[1:] in row[2] for row in rows)


@pytest.mark.parametrize("name", ["plover", "curlew", "dunlin"])
def test_unknown_is_named_where_it_is_needed(name: str) -> None:
    """Each single value that is made unknown is asked for by name wherever it is needed."""
    sheet = example(name)
    before = {asked.key: asked for asked in asked_of(sheet)}
    for place, value in sheet.values.items():
        key, _, field = place.partition(".")
        if not value.is_known:
            continue
        for asked in asked_of(changed(sheet, Place(key, -1, field), Value())):
            was = before.get(asked.key)
            if was is None or was.missing:
                continue
            if Place(key, -1, field) not in was.reads:
                assert asked == was
            elif asked.missing:
                assert f"({place})" in asked.missing[0]
            else:
                told = (*asked.notes, *asked.warnings)
                assert any(f"({key})" in said for said in told) or "droop" in place


def asked_of(sheet: Sheet) -> list[Asked]:
    """Return the questions of a survey, without the answers."""
    return [asked for group in GROUPS for asked in group(sheet)]


def hub_alone() -> Sheet:
    """Return the Plover without its shake test, with two states that have no lift."""
    sheet = example("plover")
    states = [
        row
        for row in sheet.rows["landing_gear_states"]
        if row["name"].text in ("full weight", "tied down")
    ]
    return Sheet(
        "",
        "",
        sheet.values,
        {**sheet.rows, "measured_modes": (), "landing_gear_states": tuple(states)},
    )


def test_hub_data_stand_for_modes() -> None:
    """Two formulations of the same hub give the same growth rates in each state.

    `assessment` has masses, springs and dampers at the hub; `measured_modes` has the modes that
    the survey makes of them.
    """
    sheet = hub_alone()
    whole, modes = found(sheet, "ground_resonance_states"), found(sheet, "ground_resonance")
    assert whole.calculation is not None
    assert modes.calculation is not None
    nominal = {
        case.state: case for case in modes.calculation.result.cases if "nominal" in case.dampers
    }

    assert set(nominal) == {"full weight", "tied down"}
    for state in whole.calculation.result.states:
        assert nominal[state.name].growth_rate == pytest.approx(state.growth_rate, abs=1e-4)
        assert nominal[state.name].worst_speed == pytest.approx(state.worst_speed, rel=2e-3)


@pytest.mark.parametrize(("typed", "at_lowest"), [("1.5", 1.5 * (317 / 360) ** 2), ("1.2", 1.0)])
def test_thrust_in_hand_is_asked_with(typed: str, at_lowest: float) -> None:
    """Thrust goes with the square of rotor speed, 317 of 360 rpm on the Plover; never under one."""
    place = Place("ground_run", -1, "thrust_ratio")
    sheet = changed(example("plover"), place, Value(typed))
    modes = found(sheet, "ground_resonance")
    hub = found(changed(hub_alone(), place, Value(typed)), "ground_resonance_states")
    assert modes.calculation is not None
    assert hub.calculation is not None

    assert modes.calculation.values["thrust_ratio"] == pytest.approx(at_lowest, rel=1e-12)
    assert hub.calculation.values["thrust_ratio"] == float(typed)
    assert {place} <= set(modes.asked.reads) & set(hub.asked.reads)
    assert IN_HAND in modes.asked.notes


def test_state_on_the_rotor_exists_from_the_same_speed_by_either_thrust() -> None:
    """Half the weight is carried from 360 rpm times the root of 0.5 / 1.5, by hand 207.846 rpm."""
    thrust = changed(example("plover"), Place("ground_run", -1, "thrust_ratio"), Value("1.5"))
    modes = found(thrust, "ground_resonance").calculation
    assert modes is not None
    speeds = arguments(formula(MODES), modes.values)["speeds"]

    assert RPM.reading(speeds.from_lift(0.5)) == pytest.approx(207.846, abs=5e-4)


def test_unknown_thrust_is_that_of_a_sheet_that_does_not_ask() -> None:
    """With the thrust unknown the weight is taken, as if nobody had asked; a note says so."""
    plover = example("plover")
    unknown = changed(plover, Place("ground_run", -1, "thrust_ratio"), Value())
    asked = {one.key: one for one in asked_of(unknown)}["ground_resonance"]
    before = {one.key: one for one in asked_of(plover)}["ground_resonance"]

    assert asked.entries == before.entries
    assert LIFTED in asked.notes
    assert asked.missing == ()


def test_governed_propellers_are_a_second_speed() -> None:
    """On the Curlew rotor and propellers have avoid bands of their own; their orders are whole."""
    one = found(example("curlew"), "avoid_bands")
    assert one.calculation is not None
    sources = one.calculation.values["sources"]

    assert {source.follows for source in sources} == {"rotor", "second"}
    assert {band.speed for band in one.calculation.result.avoid} <= {"rotor", "second"}
    blades = {
        s.name: s.multiple for s in sources if re.search(r"^(Rotor|Propeller) \d+/rev", s.name)
    }
    assert blades["Rotor 6/rev"] == pytest.approx(6.0, rel=1e-8)


def test_long_name_of_a_part_is_cut_in_an_excitation() -> None:
    """A part may have a name of sixty characters, which leaves no room for its order."""
    sheet, name = example("dunlin"), "Tail rotor " + "x" * 49
    place = Place("drive_train", 4, "name")
    asked = found(changed(sheet, place, Value(name)), "avoid_bands")

    assert len(name) == 60
    assert asked.lacks == ()


def test_headline_names_the_inboard_station_where_it_stalls_first() -> None:
    """The Curlew at sea level: both onsets in m/s to a tenth, from a call with numbers in SI."""
    from calc.rotor.rotorcraft import Flight, Rotorcraft  # noqa: PLC0415
    from calc.rotor.stall_onset import stall_onsets  # noqa: PLC0415

    craft = Rotorcraft(
        mass=8600.0,
        radius=7.9,
        chord=0.4,
        blades=6,
        rotor_speed=250.0 * math.pi / 30.0,
        twist=math.radians(-6.0),
        lift_slope=5.7,
        drag_area=2.2,
    )
    known = stall_onsets(craft, Flight(wing_lift_share=0.3, propeller_thrust_share=0.9))
    assert known is not None
    assert known.inboard_airspeed is not None
    assert known.tip_airspeed is not None
    assert known.inboard_airspeed < known.tip_airspeed
    line = headline(found(example("curlew"), "altitude_1_stall"))

    assert f"past its limit from {known.inboard_airspeed:.1f} m/s" in line
    assert "inboard" not in headline(found(example("plover"), "altitude_1_stall"))
