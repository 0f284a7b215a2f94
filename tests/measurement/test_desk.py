"""The desk: a file in pieces, and what its record holds, as JSON would carry it."""

import math
from typing import Any

import numpy as np
import pytest

from calc.browser import plain
from calc.measurement import desk
from calc.measurement.synthetic import example


def ask(call: str, **arguments: Any) -> Any:
    """Return what a function of the desk answers, made of what JSON knows."""
    return plain(getattr(desk, call)(**arguments))


def fed(text: str, settings: dict[str, Any] | None = None, piece: int = 5000) -> list[Any]:
    """Return the answers to all pieces of a text."""
    ask("begin", settings=settings)
    starts = range(0, len(text), piece)
    return [
        ask("feed", text=text[start : start + piece], last=start + piece >= len(text))
        for start in starts
    ]


def test_record_is_read_piece_by_piece() -> None:
    """Rows grow with the pieces, and the record says what it holds."""
    answers = fed(example("plover_steady"), {"name": "steady.csv"}, 100_000)
    record = ask("opened")

    assert [answer["rows"] for answer in answers][-1] == 6000
    assert answers[0]["rows"] < 6000
    assert record["name"] == "steady.csv"
    assert (record["sample_rate"], record["duration"], record["pulses"]) == (200.0, 30.0, 179)
    assert [channel["name"] for channel in record["channels"]] == [
        "Mast x",
        "Cabin z",
        "Tachometer",
    ]
    assert record["rotor_speed"]["mean"] == pytest.approx(360.02 * math.pi / 30.0, rel=1e-4)


def test_problems_are_told_once() -> None:
    """Each answer has the problems that are new, and the count of all."""
    lines = example("plover_decay").splitlines()
    for row in (50, 51, 1300):
        lines[row] = lines[row].replace(",", ",x")
    answers = fed("\n".join(lines) + "\n" * 70_000, piece=66_000)

    assert len(answers) > 1
    assert [problem["line"] for answer in answers for problem in answer["problems"]] == [
        51,
        52,
        1301,
    ]
    assert answers[-1]["problem_count"] == 3


def test_question_ends_the_reading_until_it_is_answered() -> None:
    """Nothing is open before an answer is taken."""
    text = "\n".join(f"{math.sin(n):.3f},{math.cos(n):.3f}" for n in range(200))
    answers = fed(text)

    assert [one["setting"] for one in answers[-1]["questions"]] == ["sample_rate"]
    with pytest.raises(ValueError, match="No record is open"):
        ask("opened")
    fed(text, {"sample_rate": 50})
    assert ask("opened")["duration"] == 4.0


def test_columns_can_be_told() -> None:
    """Roles, names and units of columns come from the reader where given."""
    text = example("plover_steady")
    told = [{"index": 1, "name": "Hub", "unit": "mm/s"}, {"index": 2, "role": "skip"}]
    fed(text, {"columns": told, "pulses_per_revolution": 2})
    record = ask("opened")

    assert [(one["name"], one["unit"], one["quantity"]) for one in record["channels"]] == [
        ("Hub", "mm/s", "velocity"),
        ("Tachometer", "V", ""),
    ]
    assert record["rotor_speed"]["mean"] == pytest.approx(180.01 * math.pi / 30.0, rel=1e-4)


@pytest.mark.parametrize(
    ("settings", "message"),
    [
        ({"separator": "#"}, "Separator must be one of comma"),
        ({"sample_rate": 0}, "Sample rate must be above 0 Hz"),
        ({"pulses_per_revolution": 0}, "Pulses a revolution"),
        ({"columns": [{"index": 0, "role": "noise"}]}, "Role of a column"),
        ({"colour": 1}, "no setting colour"),
    ],
)
def test_wrong_settings_are_named(settings: dict[str, Any], message: str) -> None:
    """A setting that no file can have is refused in words."""
    with pytest.raises(ValueError, match=message):
        ask("begin", settings=settings)


def test_rotor_speed_is_not_the_jitter_of_pulses_nor_a_pulse_missed() -> None:
    """360 rpm that rise by 1.5 %, sampled at 200 Hz: a sample is 3 % of a revolution.

    The speeds of the formula itself are found, also where pulses are missing.
    """
    time = np.arange(12000) / 200.0
    angle = 2.0 * math.pi * 6.0 * (time + 0.015 * time**2 / 120.0)
    turn = np.floor(angle / (2.0 * math.pi))
    marks = np.where(angle % (2.0 * math.pi) < 0.5, 5.0, 0.0)
    for lost in ([], [100.0, 101.0, 200.0]):
        shown = np.where(np.isin(turn, lost), 0.0, marks)
        rows = zip(time, np.cos(angle), shown, strict=True)
        text = "".join(f"{t:.4f},{x:.5f},{p:.1f}\n" for t, x, p in rows)
        fed("time [s],hub [mm/s],tacho [V]\n" + text, piece=100_000)
        found = ask("opened")["rotor_speed"]

        assert found["mean"] == pytest.approx(362.7 * math.pi / 30.0, rel=1e-3)
        assert found["low"] == pytest.approx(360.0 * math.pi / 30.0, rel=3e-3)
        assert found["high"] == pytest.approx(365.4 * math.pi / 30.0, rel=3e-3)
