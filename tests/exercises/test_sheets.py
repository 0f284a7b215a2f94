"""Sheets: the same bytes for the same order, no answer on them, digests that tell a change."""

import csv
import io
import re
from dataclasses import replace

import pytest
from playwright.sync_api import BrowserContext

from calc.exercises import posing
from calc.exercises.asking import prepared, printed
from calc.exercises.book import exercise
from calc.exercises.exercise import Draw
from calc.exercises.posing import posed
from calc.exercises.sheets import Order, changed, digests, key_csv, key_page, sheet_page
from calc.form.calculation import NOTICE

ORDER = Order(("tip_speed", "blade_loading", "shake_test_to_verdict"), 7, 3, "Tuesday", "Letter")


def test_same_order_is_the_same_sheet() -> None:
    """Bytes do not depend on what was computed before."""
    first = sheet_page(ORDER), key_page(ORDER), key_csv(ORDER)
    posing._posed.cache_clear()  # noqa: SLF001 - nothing else forgets what was computed
    assert (sheet_page(ORDER), key_page(ORDER), key_csv(ORDER)) == first


def test_sheet_has_every_question_and_no_answer() -> None:
    """Each variant asks each exercise; numbers of the key stand on the key alone."""
    sheet, key = sheet_page(ORDER), key_page(ORDER)

    assert sheet.count('<section class="sheet">') == 3
    assert len(re.findall(r"exercises/\w+\.html#\w+=70[123]", sheet)) == 9
    assert "size:Letter" in sheet
    for row in csv.DictReader(io.StringIO(key_csv(ORDER))):
        found = posed(row["exercise"], int(row["seed"]))
        answer = f"{found.quantity.units[0].reading(found.answer):.4g}"
        assert answer not in sheet
        assert answer in key
        assert float(row["from"]) < float(row["answer"]) < float(row["to"])


def test_three_exercises_of_a_variant_are_one_side_of_a4(context: BrowserContext) -> None:
    """Chromium prints three variants on three sides, each with the notice; none has that alone."""
    keys = ("velocity_to_displacement", "rms_of_acceleration", "unbalance_force")
    text = sheet_page(Order(keys, 7, 3))
    page = context.new_page()
    page.set_content(text)
    pdf = page.pdf(prefer_css_page_size=True)

    assert len(re.findall(rb"/Type\s*/Page\b", pdf)) == 3
    heads = [part.partition('<div class="exercise">')[0] for part in text.split("<section ")[1:]]
    assert all(NOTICE in head for head in heads)


def test_digests_tell_question_from_answer(monkeypatch: pytest.MonkeyPatch) -> None:
    """A next release with another tolerance, or other numbers, says which of the two it is."""
    linked = digests(ORDER)
    assert changed(ORDER, linked) == []
    assert changed(ORDER, {}) == []

    was = exercise
    harder = replace(was("tip_speed"), tolerance=0.005)
    monkeypatch.setattr(posing, "exercise", lambda key: harder if key == harder.key else was(key))
    posing._posed.cache_clear()  # noqa: SLF001 - a release begins with nothing computed
    assert changed(ORDER, linked) == [
        "Tip speed of a rotor: the answer or its tolerance is another than in the link"
    ]

    wider = {**harder.given, "radius": Draw("4.3", "7.3", "0.1", "m")}
    other = replace(harder, given=wider, tolerance=0.01)
    monkeypatch.setattr(posing, "exercise", lambda key: other if key == other.key else was(key))
    posing._posed.cache_clear()  # noqa: SLF001
    assert len(changed(ORDER, linked)) == 2
    posing._posed.cache_clear()  # noqa: SLF001


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        ({"keys": []}, "Choose 1 to 20 exercises"),
        ({"keys": ["tip_speed", "tip_speed"]}, "each once"),
        ({"keys": ["none"]}, "There is no exercise none"),
        ({"keys": "tip_speed"}, "Choose 1 to 20"),
        ({"seed": 0}, "The seed is a whole number"),
        ({"seed": "7"}, "The seed is a whole number"),
        ({"variants": 61}, "The number of variants"),
        ({"title": "x" * 81}, "at most 80 characters"),
        ({"paper": "A5"}, "A4 or Letter"),
    ],
)
def test_order_that_cannot_be_printed_is_refused(wrong: dict[str, object], says: str) -> None:
    """An order comes from a link, and a link is untrusted."""
    order = {"keys": ["tip_speed"], "seed": 1, "variants": 1, "title": "", "paper": "A4"}
    with pytest.raises(ValueError, match=says):
        printed(order | wrong, {})


def test_title_is_no_html() -> None:
    """What an instructor types stays text on sheet and key."""
    order = replace(ORDER, title="<script>alert(1)</script>")
    assert "<script" not in sheet_page(order) + key_page(order)


def test_variants_can_be_prepared_one_by_one() -> None:
    """A page that shows its progress asks for each variant before it asks for the sheets."""
    assert prepared(["tip_speed", "solidity"], 7, 3) == 2
