"""A data sheet as a page holds it: nothing is lost on the way, and differences are told."""

import json
from dataclasses import replace
from typing import Any

import pytest

from calc.browser import respond
from calc.sheet.exchange import MOST_TOLD, compared, file_made, file_opened, held, sheet_of
from calc.sheet.file import written
from calc.sheet.sheet import Value, blank
from tests.sheet.test_file import EXAMPLES, drawn, random_sheet
from tests.survey.crafts import example


def asked(call: str, **given: Any) -> Any:
    """Return what the browser engine answers to a page."""
    return json.loads(respond(json.dumps({"call": call, "arguments": given})))["value"]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_file_that_is_opened_and_saved_is_the_same_file(path: Any) -> None:
    """Byte for byte, through the JSON of the engine."""
    opened = asked("sheet.exchange.file_opened", content=path.read_bytes().decode("latin-1"))
    made = asked("sheet.exchange.file_made", sheet=opened["sheet"])

    assert opened["problems"] == made["problems"] == []
    assert made["text"].encode() == path.read_bytes()


@pytest.mark.parametrize("seed", range(40))
def test_random_sheet_comes_back_as_it_was(seed: int) -> None:
    """Title, note, values with origin and tolerance, and rows."""
    sheet = random_sheet(drawn(seed))

    assert sheet_of(json.loads(json.dumps(held(sheet)))) == sheet


@pytest.mark.parametrize("data", [b"", b"format = 2\n[lag]\nlag_damping = 3", b"\xff\xfe\x00[["])
def test_damaged_file_gives_problems_and_no_sheet(data: bytes) -> None:
    """Nothing is imported by halves."""
    found = file_opened(data.decode("latin-1"))

    assert found["sheet"] is None
    assert found["problems"]


def test_problem_names_its_field() -> None:
    """What was typed wrongly is named by section, row and field, so that a page can show it."""
    content = held(example("plover"))
    content["values"]["lag.lag_damping"] = ["2000", "measured", ""]
    content["rows"]["measured_modes"][1]["frequency"] = ["fast", "measured", ""]
    found = file_made(content)

    assert [p["field"] for p in found["problems"]] == [
        "lag.lag_damping",
        "measured_modes row 2.frequency",
    ]


def test_differences_are_those_of_the_files() -> None:
    """Each line that differs between the two files is told once, with both values."""
    before = example("plover")
    after = replace(
        before,
        title="Plover with a heavy gearbox",
        values={
            **before.values,
            "rotorcraft.mass": Value("3.1 t", "estimate", "2 %"),
            "lag.lag_damping": Value(),
        },
    )
    told = compared(held(before), held(after))
    lines = zip(written(before).splitlines(), written(after).splitlines(), strict=True)

    assert len(told) == sum(one != other for one, other in lines) == 3
    assert told[1] == {
        "place": "rotorcraft.mass",
        "where": "Rotorcraft and main rotor",
        "label": "Mass",
        "before": told[1]["before"],
        "after": "3.1 t ± 2 % (estimate)",
    }
    assert told[2]["after"] == "unknown"


def test_rows_that_come_and_go_are_told() -> None:
    """A row more is told as one difference, in short; the same sheet has none."""
    before = example("plover")
    modes = before.rows["measured_modes"]
    after = replace(before, rows={**before.rows, "measured_modes": modes[:-1]})

    (told,) = compared(held(before), held(after))

    assert told["place"] == f"measured_modes row {len(modes)}"
    assert told["after"] == "no row"
    assert modes[-1]["frequency"].text in told["before"]
    assert compared(held(before), held(before)) == []


def test_differences_are_bounded() -> None:
    """Of very many the first are told, with how many there are."""
    full = next(s for s in map(random_sheet, map(drawn, range(99))) if _size(s) > 2 * MOST_TOLD)
    other = random_sheet(drawn(12345))

    told = compared(held(full), held(other))

    assert len(told) <= MOST_TOLD + 1


def test_sheet_of_an_empty_page_is_blank() -> None:
    """A page on which nothing was entered holds the sheet on which nothing is known."""
    empty = {"title": "", "note": "", "values": {}, "rows": {}}

    assert written(sheet_of(empty)) == written(blank())


def _size(sheet: Any) -> int:
    return len(sheet.values) + sum(len(row) for rows in sheet.rows.values() for row in rows)
