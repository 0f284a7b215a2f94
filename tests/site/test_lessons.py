"""Lessons: every unit is whole; test_package.py teaches the fourth from the zip."""

from pathlib import Path

import pytest

from scripts import page as snippets

UNITS = (
    "rotor_lines",
    "mode_crossing",
    "two_speeds",
    "ground_growth",
    "measured_decay",
    "fast_end",
)
PARTS = {
    "what one can do afterwards": "<strong>Afterwards</strong>",
    "a figure": '<figure class="drawn" id="lesson-',
    "a form with set values": ".html#",
    "an answer to uncover": "<summary>Answer</summary>",
    "the usual mistake": 'id="the-usual-mistake"',
    "an exercise": 'href="../exercises/',
    "the plan": 'href="plan.html"',
}


def test_units_are_whole(site: Path) -> None:
    """The plan leads to six units, and each has all its parts; a heading alone is not a figure."""
    plan = (site / "lessons" / "plan.html").read_text("utf-8")
    for unit in UNITS:
        assert f'href="{unit}.html"' in plan
        text = (site / "lessons" / f"{unit}.html").read_text("utf-8")
        article = text.partition("<article")[2].partition("</article>")[0]
        assert [part for part, sign in PARTS.items() if sign not in article] == []


def test_set_form_refuses_what_a_form_does_not_answer() -> None:
    """A link with a wrong name or an impossible value would open a form without an answer."""
    form = "ground.time_history.time_history"
    with pytest.raises(ValueError, match="no input rotor"):
        snippets.set_form(form, "words", rotor=1.0)
    with pytest.raises(ValueError, match="Rotor speed"):
        snippets.set_form(form, "words", rotor_speed=-1.0)
