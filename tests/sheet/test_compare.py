"""Two data sheets side by side: what was typed otherwise is found, and nothing else."""

import random

from calc.sheet.compare import differences
from calc.sheet.file import opened, written
from calc.sheet.layout import section
from calc.sheet.sheet import Sheet, Value
from tests.sheet.test_file import drawn, random_sheet


def test_sheet_does_not_differ_from_its_file() -> None:
    """What was written and read again has no differences."""
    for seed in range(20):
        sheet = random_sheet(drawn(seed))
        again = opened(written(sheet).encode()).sheet
        assert again is not None
        assert differences(sheet, again) == []


def edited(dice: random.Random, sheet: Sheet) -> tuple[Sheet, str]:
    """Return a sheet with one value changed at random, and the place of it."""
    table = dice.choice([key for key, rows in sheet.rows.items() if rows])
    number = dice.randrange(len(sheet.rows[table]))
    name = dice.choice(section(table).fields).name
    rows = [dict(row) for row in sheet.rows[table]]
    rows[number][name] = Value("something else", "drawing")
    changed = {**sheet.rows, table: tuple(rows)}
    return Sheet(sheet.title, sheet.note, sheet.values, changed), f"{table} row {number + 1}.{name}"


def test_one_edit_is_one_difference() -> None:
    """Each of fifty edits is found at its place, and alone."""
    dice = drawn(1)
    for seed in range(50):
        sheet = random_sheet(drawn(seed))
        other, place = edited(dice, sheet)
        (found,) = differences(sheet, other)
        assert found.place == place
        assert found.after == "something else (drawing)"


def test_tolerance_origin_default_and_row_count() -> None:
    """A tolerance, an origin, a default that was given and a row that is more all differ."""
    before = Sheet("a", "", {"rotorcraft.mass": Value("3 t", "manual")}, {})
    after = Sheet(
        "a",
        "",
        {"rotorcraft.mass": Value("3 t", "manual", "5 %"), "avoid.margin": Value("0.1")},
        {"altitudes": ({"pressure_altitude": Value("0 m")},)},
    )

    assert [(one.place, one.before, one.after) for one in differences(before, after)] == [
        ("rotorcraft.mass", "3 t (manual)", "3 t ± 5 % (manual)"),
        ("avoid.margin", "usual value", "0.1"),
        ("altitudes row 1", "no row", "Pressure altitude: 0 m"),
    ]


def test_new_row_is_told_by_labels_and_without_what_is_unknown() -> None:
    """A row of bare commas does not say which value is which, and a row may know nothing."""
    mode = {"name": Value("roll"), "frequency": Value("3 Hz", "measured", "1 %")}
    rows = ({**mode, "uncertainty": Value()}, {"name": Value()})
    found = differences(Sheet("a", "", {}, {}), Sheet("a", "", {}, {"airframe_modes": rows}))

    assert [one.after for one in found] == [
        "Mode: roll; Natural frequency: 3 Hz ± 1 % (measured)",
        "a row in which nothing is known",
    ]
