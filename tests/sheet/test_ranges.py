"""Ranges of governed speeds that contradict one another are problems of the sheet, by field."""

from pathlib import Path

import pytest

from calc.__main__ import PROBLEMS, main
from calc.sheet.file import opened
from scripts.environment import ROOT

CURLEW = (ROOT / "docs" / "examples" / "curlew.toml").read_text("utf-8")
"""Rotor 250 rpm, power on 245 to 252.5 rpm; propellers on a second governed speed."""


def sheet_with(section: str, **texts: str) -> str:
    """Return the file of the Curlew with values of a section typed anew."""
    found, here = [], ""
    for line in CURLEW.splitlines():
        here = line.strip("[]") if line.startswith("[") else here
        name = line.partition(" =")[0]
        typed = here == section and name in texts
        found.append(f'{name} = "{texts[name]}"' if typed else line)
    return "\n".join(found)


def line_of(text: str, section: str, name: str) -> int:
    """Return the line of a value."""
    before, _, after = text.partition(f"\n[{section}]\n")
    at = [line.partition(" =")[0] for line in after.splitlines()].index(name)
    return before.count("\n") + 3 + at


@pytest.mark.parametrize("condition", ["power_on", "power_off", "transient"])
@pytest.mark.parametrize("section", ["rotor_speeds", "propeller"])
def test_lowest_above_highest_is_named(section: str, condition: str) -> None:
    """The field of the lowest speed is named with its line, and both values are said."""
    ends = {f"{condition}_low": "9001 rpm", f"{condition}_high": "150 Hz"}
    text = sheet_with(section, **ends)
    found = opened(text.encode())
    own = [p for p in found.problems if p.field == f"{section}.{condition}_low"]

    assert found.sheet is None
    assert [problem.line for problem in own] == [line_of(text, section, f"{condition}_low")]
    assert "9001 rpm, is above the highest speed" in own[0].message
    assert f"150 Hz ({section}.{condition}_high)" in own[0].message


@pytest.mark.parametrize(
    ("section", "name"), [("rotorcraft", "rotor_speed"), ("propeller", "speed")]
)
@pytest.mark.parametrize(
    ("typed", "side", "end"), [("9 rpm", "below", "low"), ("9000 rpm", "above", "high")]
)
def test_nominal_outside_power_on_is_named(
    section: str, name: str, typed: str, side: str, end: str
) -> None:
    """A nominal speed outside the range with power on is named, with the end that it passes."""
    text = sheet_with(section, **{name: typed})
    (problem,) = opened(text.encode()).problems
    ranges = "rotor_speeds" if section == "rotorcraft" else section

    assert (problem.line, problem.field) == (line_of(text, section, name), f"{section}.{name}")
    assert f"{typed}, is {side} the" in problem.message
    assert f"({ranges}.power_on_{end})" in problem.message


def test_equal_ends_and_rounding_are_no_contradiction() -> None:
    """A range may be one speed, and a nominal speed rounded in another unit is still in it.

    By hand, 250 rpm is 26.1799 rad/s, of which 26.18 is the rounded number.
    """
    one = sheet_with("rotor_speeds", power_on_low="250 rpm", power_on_high="250 rpm")
    assert opened(one.encode()).problems == ()
    rounded = one.replace('power_on_high = "250 rpm"', 'power_on_high = "26.17 rad/s"').replace(
        'power_on_low = "250 rpm"', 'power_on_low = "245 rpm"'
    )
    assert opened(rounded.encode()).problems == ()


def test_command_refuses_a_contradiction(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The command says line and field, exits with 1 and writes nothing."""
    path = tmp_path / "bad.toml"
    path.write_text(sheet_with("rotor_speeds", power_on_low="400 rpm"), "utf-8")

    assert main(["survey", str(path), "--out", str(tmp_path / "out")]) == PROBLEMS
    assert "rotor_speeds.power_on_low: Lowest speed, power on, 400 rpm" in capsys.readouterr().err
    assert not (tmp_path / "out").exists()
