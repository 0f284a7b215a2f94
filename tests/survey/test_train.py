"""A train that cannot turn is lacking by its field; one that contradicts the sheet is said."""

import csv

import pytest

from calc.sheet.exchange import held
from calc.sheet.file import written
from calc.sheet.sheet import Sheet, Value
from calc.survey.asked import Place, changed
from calc.survey.asking import answered
from calc.survey.card.expected_lines import expected_lines
from calc.survey.files import files
from calc.survey.headline import headline
from calc.survey.needs import needs
from calc.survey.survey import survey
from tests.survey.crafts import example
from tests.survey.test_survey import found

BOTH = ("forcing_frequencies", "avoid_bands")
ROTOR = 3
"""Row of the rotor in the drive train of the Plover, from zero."""


def with_part(row: int, name: str, text: str) -> Sheet:
    """Return the Plover with one value of its drive train changed."""
    return changed(example("plover"), Place("drive_train", row, name), Value(text))


@pytest.mark.parametrize("key", BOTH)
def test_speed_of_the_train_against_that_of_the_sheet(key: str) -> None:
    """6100 rpm times 21/80 times 31/136 is 364.99 rpm, by hand; the sheet says 360 rpm."""
    assert found(example("plover"), key).asked.warnings == ()
    one = found(with_part(0, "speed", "6100 rpm"), key)
    (said,) = one.asked.warnings

    assert (
        said
        == "The drive train turns Main rotor at 365.0 rpm, the sheet gives 360.0 rpm as rotor speed"
    )
    assert said in one.warnings
    assert said[1:] in headline(one)


@pytest.mark.parametrize("key", BOTH)
def test_blades_of_the_train_against_those_of_the_sheet(key: str) -> None:
    """The rotor of the train has five blades, that of the sheet four; a tail rotor is not meant."""
    one = found(with_part(ROTOR, "count", "5"), key)

    assert one.warnings == ("The drive train gives Main rotor 5 blades, the sheet gives 4",)
    assert headline(one).endswith("; the drive train gives Main rotor 5 blades, the sheet gives 4")
    assert found(with_part(ROTOR + 1, "count", "5"), key).warnings == ()


def test_contradiction_travels() -> None:
    """It stands in the report, the summary, the CSV, the answer of the page and the card."""
    base = with_part(ROTOR, "count", "5")
    slow = {"measured_modes": (), "landing_gear_states": (), "blade_segments": ()}
    sheet = Sheet(base.title, base.note, base.values, {**base.rows, **slow})
    said = "The drive train gives Main rotor 5 blades, the sheet gives 4"
    text = written(sheet)
    made = files(sheet, text.encode())
    summary = {row["key"]: row for row in csv.DictReader(made["summary.csv"].splitlines())}
    page = answered(text, "forcing_frequencies", tolerances=False)

    assert summary["forcing_frequencies"]["warnings"] == said
    assert f"warning,,{said}" in made["avoid_bands.csv"].replace('"', "")
    assert made["report.html"].count(f"{said}.") >= len(BOTH)
    assert page["warned"]
    assert f"<strong>Warning</strong> {said}" in page["html"]
    assert said in expected_lines(sheet).notes


@pytest.mark.parametrize(
    ("row", "name", "text", "place", "words"),
    [
        (ROTOR, "driven_by", "Mst", "drive_train row 4.driven_by", "no part is called Mst"),
        (1, "count", "0", "drive_train row 2.name", "teeth must be at least 1 on both gears"),
        (1, "driven_by", "Mast", "drive_train row 2.name", "the drive train is a loop"),
        (ROTOR, "name", "Rotor", "drive.reference", "no part of the drive train is called Main"),
    ],
)
def test_train_that_cannot_turn_is_lacking(
    row: int, name: str, text: str, place: str, words: str
) -> None:
    """What is wrong leads to its field, and as many answers lack something as cannot be given."""
    sheet = with_part(row, name, text)
    lacking = [one for one in needs(held(sheet)) if one["missing"]]
    card = {"ground_run_plan"}
    kept = {"measured_modes": (), "landing_gear_states": (), "blade_segments": ()}
    small = Sheet("", "", sheet.values, {**sheet.rows, **kept})
    refused = {one.asked.key for one in survey(small) if one.lacks}

    assert {one["key"] for one in lacking} == set(BOTH)
    assert set(BOTH) <= refused
    assert {one["key"] for one in needs(held(small)) if one["missing"]} - card == refused
    for one in lacking:
        (lack,) = one["missing"]
        assert lack["place"] == place
        assert words in lack["label"]
