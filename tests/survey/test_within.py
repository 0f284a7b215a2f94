"""A verdict that a stated tolerance overturns is warned of, where it is read."""

import csv

import pytest

from calc.sheet.file import written
from calc.sheet.layout import TRAIN
from calc.sheet.sheet import Sheet, Value
from calc.survey.asked import Place, changed
from calc.survey.asking import answered
from calc.survey.files import files
from calc.survey.headline import headline
from calc.survey.sensitivity import sensitivity
from calc.survey.within import passed
from tests.survey.crafts import example
from tests.survey.test_survey import found

QUIET = {"measured_modes": (), "landing_gear_states": (), "blade_segments": ()}


def stable_by_little(tolerance: str) -> Sheet:
    """Return the Plover in one state, with a damper of a given tolerance and nothing else off."""
    base = example("plover")
    values = {place: Value(v.text, v.origin) for place, v in base.values.items()}
    values["lag.lag_damping"] = Value("2000 N·m·s/rad", "estimate", tolerance)
    rows = [row for row in base.rows["measured_modes"] if row["state"].text == "full weight"]
    plain = tuple({n: Value(v.text, v.origin) for n, v in row.items()} for row in rows)
    return Sheet("", "", values, {**base.rows, "measured_modes": plain})


def test_verdict_that_a_damper_overturns() -> None:
    """A damper that may be 99 % off leaves almost none: the sheet typed so is unstable.

    The verdict of that sheet is asked for apart, without any tolerance.
    """
    firm, loose = (stable_by_little(tolerance) for tolerance in ("0.1 %", "99 %"))
    without = changed(firm, Place("lag", -1, "lag_damping"), Value("20 N·m·s/rad"))
    as_typed = found(without, "ground_resonance").calculation
    assert as_typed is not None
    assert max(c.growth_rate for c in as_typed.result.cases if "nominal" in c.dampers) > 0.0

    for sheet, is_passed in ((firm, False), (loose, True)):
        one = found(sheet, "ground_resonance")
        line = headline(one, sensitivity(sheet, one))
        said = "within the tolerances: unstable with lag.lag_damping at its low end"
        assert (said in line) == is_passed
        assert said not in headline(one)


def sheet_at(airspeed: str, tolerance: str) -> Sheet:
    """Return the Plover at an airspeed, with what takes long unknown."""
    base = example("plover")
    place, value = Place("flight", -1, "airspeed"), Value(airspeed, "estimate", tolerance)
    return changed(Sheet(base.title, "", base.values, {**base.rows, **QUIET}), place, value)


@pytest.mark.parametrize(("tolerance", "is_passed"), [(1.0, False), (12.0, True)])
def test_mach_limit_within_a_tolerance(tolerance: float, is_passed: bool) -> None:  # noqa: FBT001
    """An airspeed ten knots under that at the Mach limit passes it if it may be twelve off."""
    limit = found(sheet_at("60 kt", ""), "altitude_1_tips").calculation
    assert limit is not None
    knots = limit.result.mach_limited_airspeed * 3600.0 / 1852.0 - 10.0
    sheet = sheet_at(f"{knots:.4f} kt", f"{tolerance} kt")
    text = written(sheet)
    summary = csv.DictReader(files(sheet, text.encode())["summary.csv"].splitlines())
    row = next(row for row in summary if row["key"] == "altitude_1_tips")
    said = "at or above the Mach limit with flight.airspeed at its high end"
    page = answered(text, "altitude_1_tips", tolerances=True)

    assert (said in row["in short"]) == (said in page["headline"]) == is_passed
    assert ("Within the tolerances" in row["warnings"]) == is_passed
    assert ("<strong>Warning</strong> Within the tolerances" in page["html"]) == is_passed
    assert page["warned"] == is_passed


def test_stall_onset_within_a_tolerance() -> None:
    """A mass that may be off by much brings stall onset below an airspeed just under it."""
    onset = found(sheet_at("60 kt", ""), "altitude_1_stall").calculation
    assert onset is not None
    below = f"{onset.result.tip_airspeed - 0.5:.4f} m/s"
    for tolerance, is_passed in (("1 kg", False), ("500 kg", True)):
        sheet = changed(
            sheet_at(below, ""), Place("rotorcraft", -1, "mass"), Value("3000 kg", "", tolerance)
        )
        one = found(sheet, "altitude_1_stall")
        ends = [p.short for p in passed(one, sensitivity(sheet, one)) if "mass" in p.short]
        said = "stall onset at the tip at or below the airspeed of the sheet with rotorcraft.mass"
        assert ends == ([f"{said} at its high end"] if is_passed else [])


def test_bound_that_is_passed_as_given_is_no_news() -> None:
    """Where the verdict is bad as given, and where nothing is asked, no tolerance is warned of."""
    sheet = sheet_at("300 kt", "5 kt")
    one = found(sheet, "altitude_1_tips")
    lines = next(a for a in [found(sheet, "forcing_frequencies")] if a.asked.formula == TRAIN)

    assert passed(one, sensitivity(sheet, one)) == []
    assert passed(lines, sensitivity(sheet, lines)) == []
