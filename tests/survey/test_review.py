"""What differs between two sheets: inputs, numbers, verdicts, and answers that come and go."""

import re
from dataclasses import replace
from typing import Any

import pytest

from calc.sheet.file import written
from calc.sheet.sheet import Sheet, Value
from calc.survey.asking import reviewed
from calc.survey.report.blocks import Block, Grid, Words
from calc.survey.review.review import pairs, review
from calc.survey.survey import survey
from tests.survey.crafts import example, random_craft

SLOW = {"measured_modes": (), "landing_gear_states": (), "blade_segments": ()}


def small(**changes: str) -> Sheet:
    """Return a Plover of which only what is quick is known, with values changed."""
    sheet = example("plover")
    values = {name.replace("__", "."): Value(text) for name, text in changes.items()}
    return replace(sheet, rows={**sheet.rows, **SLOW}, values={**sheet.values, **values})


def told(before: Sheet, after: Sheet) -> list[Block]:
    """Return what differs."""
    return review(before, after, "0" * 64, (survey(before), survey(after)))


def grid(blocks: list[Block], caption: str, head: str) -> list[list[str]]:
    """Return the rows of a table by its caption and its first head."""
    for block in blocks:
        if isinstance(block, Grid) and (
            block.heads[0],
            block.caption.partition(", the first")[0],
        ) == (head, caption):
            return [list(map(str, row)) for row in block.rows]
    raise AssertionError(f"no table {caption} with {head}")


def number(text: str) -> float:
    """Return the number that a text begins with."""
    return float(text.split(maxsplit=1)[0].replace("−", "-"))


def test_same_sheet_differs_in_nothing() -> None:
    """There is no table, and one line names every answer."""
    blocks = told(small(), small())
    (line,) = [b.text for b in blocks if isinstance(b, Words) and "nothing changed" in b.text]

    assert not [b for b in blocks if isinstance(b, Grid)]
    assert Words("No input differs.") in blocks
    assert all(answer.asked.title in line for answer in survey(small()))


def test_input_and_all_that_follows_stand_side_by_side() -> None:
    """Each number that moved is that of either survey, and the change is their difference.

    A heavier rotorcraft stalls at a lower airspeed; tip Mach numbers do not depend on its mass.
    """
    before, after = small(rotorcraft__mass="3000 kg"), small(rotorcraft__mass="3300 kg")
    blocks = told(before, after)

    assert grid(blocks, "", "Where") == [["rotorcraft.mass", "Mass", "3000 kg", "3300 kg"]]
    rows = {row[0]: row for row in grid(blocks, "Stall onset, at 0 m", "Result")}
    label, *ends, change = rows["Stall-onset airspeed at the tip"]
    for sheet, said in ((before, ends[0]), (after, ends[1])):
        answer: Any = next(one for one in survey(sheet) if one.asked.key == "altitude_1_stall")
        assert number(said) == pytest.approx(answer.calculation.result.tip_airspeed, abs=0.005)
    found = re.fullmatch(r"down, (\S+) m/s, (\S+) %", change)
    assert found is not None, label
    assert number(found[1]) == pytest.approx(number(ends[1]) - number(ends[0]), abs=0.02)
    assert number(found[2]) == pytest.approx(
        100.0 * (number(ends[1]) / number(ends[0]) - 1.0), abs=0.05
    )
    line = next(b.text for b in blocks if isinstance(b, Words) and "nothing changed" in b.text)
    assert "Tip Mach numbers" in line
    assert "Stall onset" not in line


def test_answers_that_come_and_go_are_named() -> None:
    """An input that becomes unknown takes answers away; the other way round it gives them."""
    known, unknown = small(), small(rotorcraft__drag_area="unknown")
    gone = {row[0]: row for row in grid(told(known, unknown), "", "Result")}
    came = {row[0]: row for row in grid(told(unknown, known), "", "Result")}

    assert gone["Stall onset, at 0 m"][3] == "given no more"
    assert "rotorcraft.drag_area" in gone["Stall onset, at 0 m"][2]
    assert came["Stall onset, at 0 m"][3] == "given now"
    assert set(came) == set(gone)


def test_airspeed_that_passes_a_limit_is_said() -> None:
    """At 105 kt below stall onset, at 120 kt above it: the side is told, and told back."""
    slow, fast = small(flight__airspeed="105 kt"), small(flight__airspeed="120 kt")
    for before, after, side in ((slow, fast, "now above it"), (fast, slow, "now below it")):
        rows = grid(told(before, after), "Stall onset, at 0 m", "Result")
        tip = next(row for row in rows if row[2].endswith("stall onset at the tip"))
        assert tip[0] == "Airspeed of the sheet"
        assert tip[3] == side


def test_altitude_that_goes_takes_its_answers_and_no_other_is_paired_with_them() -> None:
    """Answers of one title are a pair, wherever the row of their altitude stands."""
    before = small()
    altitudes = before.rows["altitudes"]
    after = replace(before, rows={**before.rows, "altitudes": (altitudes[0], altitudes[2])})
    for pair in pairs(survey(before), survey(after)):
        if pair.before and pair.after:
            assert pair.before.asked.title == pair.after.asked.title
    rows = {row[0]: row[3] for row in grid(told(before, after), "", "Result")}

    gone = "at 0 m, ISA deviation 20 K"

    assert set(rows.values()) == {"asked no more"}
    assert all(title.endswith(gone) for title in rows)
    assert len(rows) == 3


def test_rows_of_results_show_what_was_and_what_is() -> None:
    """The lines behind a gear move with its teeth, in a table sorted by what moved.

    By hand: 6017 rpm over 60 s times 21 over 80 teeth is 26.32 Hz, times 30 over 80 37.61 Hz; the
    line of the engine before the gear stays at 100.3 Hz.
    """
    before = small()
    train = [dict(row) for row in before.rows["drive_train"]]
    bevel = next(row for row in train if row["name"].text == "Bevel")
    bevel["driving_teeth"] = Value("30", "drawing")
    after = replace(before, rows={**before.rows, "drive_train": tuple(train)})
    rows = grid(told(before, after), "Forcing frequencies: Forcing frequencies", "Excitation")
    lines = {row[0]: row for row in rows}

    assert "26.32 Hz → 37.61 Hz" in lines["Bevel 1/rev"]
    assert "100.3 Hz" in lines["Engine output 1/rev"]
    assert not [row for row in rows if " → " in row[0] or "(" in row[0]]


def test_search_that_ends_elsewhere_is_no_change_of_a_band() -> None:
    """Rotor 18/rev of the Curlew meets Propeller 5/rev from 261 rpm on, by hand to 346 rpm.

    The search ends at 110 per cent of the highest rotor speed, 265 or 260 rpm, and so before it.
    """
    sheet = example("curlew")
    near = sheet.rows["airframe_modes"][:-1]  # the last one adds a reason beyond 286 rpm
    before = replace(sheet, rows={**sheet.rows, **SLOW, "airframe_modes": near})
    power_off = {"rotor_speeds.power_off_high": Value("260 rpm")}
    after = replace(before, values={**before.values, **power_off})
    blocks = told(before, after)
    tables = [b for b in blocks if isinstance(b, Grid) and ": Avoid bands" in b.caption]
    rows = [[str(cell) for cell in row] for table in tables for row in table.rows]

    assert rows
    assert not [row for row in rows if "Rotor speed: avoid" in row[0] or row[0] == "rotor"]


@pytest.mark.parametrize("seed", range(4))
def test_every_pair_of_sheets_can_be_compared(seed: int) -> None:
    """Of random rotorcraft: every answer is in the table or in the line of those that stayed.

    The other way round before and now are exchanged.
    """
    one, other = (random_craft(number, slow=False) for number in (seed, seed + 50))
    blocks, back = told(one, other), told(other, one)
    rows = grid(blocks, "", "Result")
    line = " ".join(b.text for b in blocks if isinstance(b, Words))

    assert {(r[1], r[2]) for r in rows} == {(r[2], r[1]) for r in grid(back, "", "Result")}
    for answer in survey(other):
        assert answer.asked.title in " ".join(row[0] for row in rows) + line
    assert reviewed(written(one), written(other))["html"].count("<table") == sum(
        isinstance(block, Grid) for block in blocks
    )
