"""The airspeed of a data sheet against the limits that the survey finds, in words and warnings."""

import csv
import math

import pytest

from calc.rotor.atmosphere import standard_atmosphere
from calc.rotor.stall_onset import stall_onset_airspeed
from calc.sheet.file import written
from calc.sheet.sheet import Sheet, Value
from calc.survey.asked import Place, changed
from calc.survey.asking import answered
from calc.survey.files import files
from calc.survey.flight import flight
from calc.survey.headline import headline
from calc.survey.survey import Answer, answer_to
from tests.survey.crafts import example

KNOT = 1852.0 / 3600.0


def found(sheet: Sheet, key: str) -> Answer:
    """Return one answer about flight."""
    return next(answer_to(asked, sheet, flight) for asked in flight(sheet) if asked.key == key)


def at(airspeed: str, name: str = "curlew") -> Sheet:
    """Return an example at another airspeed."""
    return changed(example(name), Place("flight", -1, "airspeed"), Value(airspeed))


def curlew_onset(station: str, altitude: float, offset: float) -> float:
    """Return a stall onset of the Curlew from a call with numbers in SI: no sheet, no units."""
    craft = (8600.0, 7.9, 0.4, 6, 250.0 * math.pi / 30.0, math.radians(-6.0), 5.7, 2.2)
    flight_shares = (1.0, 0.3, 0.9)
    onset = stall_onset_airspeed(*craft, altitude, offset, *flight_shares, station=station)
    assert onset is not None
    return onset.airspeed


@pytest.mark.parametrize(("number", "station"), [(0, "tip"), (1, "inboard")])
def test_stall_onset_is_compared(number: int, station: str) -> None:
    """180 kt is below both stall onsets of the Curlew at sea level, above at 2000 m, ISA + 15."""
    for key, air in (("altitude_1_stall", (0.0, 0.0)), ("altitude_2_stall", (2000.0, 15.0))):
        one = found(example("curlew"), key)
        apart = 180.0 * KNOT - curlew_onset(station, *air)
        compared = one.compared[number]

        assert compared.above == (apart > 0.0) == (key == "altitude_2_stall")
        side = "above" if apart > 0.0 else "below"
        both = f"{abs(apart):.4g} m/s ({abs(apart) / KNOT:.4g} kt)"
        assert f"{both} {side} stall onset at the {station}" in compared.words
        assert "not a flight limit" in compared.words
        assert (compared.words in one.warnings) == compared.above
        assert (compared.short in headline(one)) == compared.above


def test_mach_limited_airspeed_and_advance_ratio_are_compared() -> None:
    """By hand, at the highest and lowest speed with power on, 252.5 and 245 rpm, and 7.9 m radius.

    Mach number 0.9 less the tip speed is the one limit; half the tip speed is the other.
    """
    fast, slow = (rpm * math.pi / 30.0 * 7.9 for rpm in (252.5, 245.0))
    mach = 0.9 * standard_atmosphere(0.0).speed_of_sound - fast
    half = 0.5 * slow

    for limit, key in ((mach, "altitude_1_tips"), (half, "advance_ratio")):
        for knots in (180.0, 230.0):
            (compared,) = found(at(f"{knots} kt"), key).compared
            apart = knots * KNOT - limit
            assert compared.above == (apart > 0.0) == (knots == 230.0)
            assert compared.short.startswith(f"{abs(apart):.4g} m/s ")


def test_limits_over_altitude_are_compared_where_they_are_lowest() -> None:
    """At the highest altitude, 6000 m, both stall onsets are lowest; the sheet is above them."""
    asked = changed(example("curlew"), Place("flight", -1, "highest_altitude"), Value("6000 m"))
    one = found(asked, "airspeed_limits")
    mach, *stalls = one.compared
    lowest = [curlew_onset(station, 6000.0, 0.0) for station in ("tip", "inboard")]

    assert "at the Mach limit at 6000 m" in mach.words
    for compared, airspeed in zip(stalls, lowest, strict=True):
        apart = 180.0 * KNOT - airspeed
        both = f"{apart:.4g} m/s ({apart / KNOT:.4g} kt)"
        assert compared.short.startswith(f"{both} above")
        assert "at 6000 m, where it is lowest" in compared.words


def test_usual_altitude_is_not_judged_as_if_asked_for() -> None:
    """The Curlew asks for 0 m and 2000 m: nothing is said of its airspeed higher than that.

    The line names 6000 m as the usual highest altitude, and a note says how far is compared.
    """
    one = found(example("curlew"), "airspeed_limits")
    asked = changed(example("curlew"), Place("flight", -1, "highest_altitude"), Value("6000 m"))

    assert one.compared
    assert not any("6000" in text for text in (*one.warnings, *(c.words for c in one.compared)))
    assert "at 6000 m, the usual highest altitude, " in headline(one)
    assert any("not on the sheet" in note for note in one.asked.notes)
    assert "usual" not in headline(found(asked, "airspeed_limits"))
    assert not any("6000" in text for text in found(at_sea_level(), "airspeed_limits").warnings)


def at_sea_level() -> Sheet:
    """Return the Curlew with sea level as the one altitude that it asks for."""
    base = example("curlew")
    rows = {**base.rows, "altitudes": base.rows["altitudes"][:1]}
    return Sheet(base.title, base.note, base.values, rows)


def test_summary_and_page_warn() -> None:
    """The summary carries it, and the page marks just the answers whose limit is exceeded."""
    slow = {"measured_modes": (), "landing_gear_states": (), "blade_segments": ()}
    base = example("curlew")
    sheet = Sheet(base.title, base.note, base.values, {**base.rows, **slow})
    text = written(sheet)
    made = files(sheet, text.encode())
    rows = {row["key"]: row for row in csv.DictReader(made["summary.csv"].splitlines())}

    for key, above in (("altitude_1_stall", False), ("altitude_2_stall", True)):
        said = "The airspeed of the sheet, 92.60 m/s (180.0 kt), is"
        assert (said in rows[key]["warnings"]) == above
        answer = answered(text, key, tolerances=False)
        assert said in answer["html"]
        assert (f"<strong>Warning</strong> {said}" in answer["html"]) == above


def test_an_airspeed_in_the_unit_that_is_shown_is_told_once() -> None:
    """An airspeed typed in m/s stands in m/s alone."""
    for compared in found(at("92.6 m/s"), "altitude_1_stall").compared:
        assert compared.words.startswith("The airspeed of the sheet, 92.60 m/s, is ")
        assert "kt" not in compared.words


def test_nothing_is_compared_without_an_airspeed() -> None:
    """An airspeed that is unknown leaves the stall onset as it was, without a word of it."""
    one = found(
        changed(example("curlew"), Place("flight", -1, "airspeed"), Value()), "altitude_2_stall"
    )

    assert one.calculation is not None
    assert one.compared == ()
    assert "airspeed of the sheet" not in headline(one)
