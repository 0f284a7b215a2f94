"""A survey asked question by question: the same answers and the same report as the command."""

import re
from dataclasses import replace

import pytest

from calc.sheet.file import written
from calc.survey.asking import answered, questions, reported
from calc.survey.files import files
from calc.survey.survey import survey
from scripts.environment import ROOT
from tests.survey.crafts import example, random_craft

DUNLIN = (ROOT / "docs" / "examples" / "dunlin.toml").read_bytes()


def test_report_is_that_of_the_command_byte_for_byte() -> None:
    """The page and the command make one report of one file, with what its tolerances do."""
    whole = example("plover")
    slow = {"measured_modes": (), "landing_gear_states": (), "blade_segments": ()}
    sheet = replace(whole, rows={**whole.rows, **slow})
    text = written(sheet)

    assert reported(text) == files(sheet, text.encode())["report.html"]
    assert "Sensitivity" in reported(text)


@pytest.mark.parametrize("seed", range(6))
def test_every_question_of_the_survey_is_asked_and_its_answer_is_in_the_report(seed: int) -> None:
    """In the order of the survey, on random rotorcraft with unknowns."""
    sheet = random_craft(seed, slow=False)
    text = written(sheet)
    asked = questions(text)
    report = reported(text)

    assert [(q["key"], q["title"]) for q in asked] == [
        (one.asked.key, one.asked.title) for one in survey(sheet)
    ]
    for question in asked:
        answer = answered(text, question["key"], tolerances=True)
        assert answer["html"].replace("<details>", "<details open>") in report
        assert answer["given"] == ("Cannot be given. It needs" not in answer["html"])


def test_what_an_answer_lacks_is_said() -> None:
    """An unknown drag area is named where an answer needs it."""
    answer = answered(DUNLIN.decode(), "airspeed_limits", tolerances=False)

    assert not answer["given"]
    assert "rotorcraft.drag_area" in answer["html"]
    assert "rotorcraft.drag_area" in answer["headline"]


def test_tolerances_come_second() -> None:
    """The answer comes without the sensitivities first, and with them when they are asked for."""
    text = written(example("plover"))
    first, second = (answered(text, "altitude_1_stall", tolerances=t) for t in (False, True))

    assert "Sensitivity" not in first["html"]
    assert "Sensitivity" in second["html"]
    assert first["headline"] == second["headline"]


def test_answer_is_shown_in_a_system_of_units() -> None:
    """The same airspeed in knots, each of 1852 m in 3600 s; in SI it is that of a report."""
    text = written(example("plover"))
    plain, si, aviation = (
        answered(text, "altitude_1_stall", tolerances=True, **system)
        for system in ({}, {"system": "si"}, {"system": "aviation"})
    )
    speed, knots = (
        float(re.findall(r"([0-9.]+) (?:m/s|kt)", one["headline"])[0]) for one in (si, aviation)
    )

    assert plain == si
    assert knots == pytest.approx(speed * 3600 / 1852, abs=0.1)
    assert " m/s" not in aviation["headline"]


def test_text_that_is_no_sheet_and_a_question_that_is_not_asked_are_refused() -> None:
    """With a message for the reader."""
    with pytest.raises(ValueError, match="data sheet has problems"):
        questions("format = 2\n[lag]\nlag_damping = 3")
    with pytest.raises(ValueError, match="does not ask nothing"):
        answered(DUNLIN.decode(), "nothing", tolerances=False)
