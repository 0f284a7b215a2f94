"""Asking: a survey question by question, as a page asks it so that it can show its progress."""

import hashlib
from dataclasses import replace
from functools import lru_cache
from typing import Any

from calc.sheet.file import opened, written
from calc.sheet.layout import REPORT
from calc.sheet.sheet import Sheet
from calc.survey.card.page import card_page
from calc.survey.files import answer_csv
from calc.survey.headline import headline
from calc.survey.report.in_full import in_full
from calc.survey.report.in_html import html
from calc.survey.report.in_markdown import markdown
from calc.survey.report.in_text import plain_text
from calc.survey.report.quote import quote
from calc.survey.report.report import (
    Answers,
    comparison,
    comparison_markdown,
    report,
    report_markdown,
)
from calc.survey.review.review import review
from calc.survey.sensitivity import Sensitivity, sensitivity
from calc.survey.survey import GROUPS, Answer, answer_to, in_system
from calc.survey.within import warnings_of
from calc.unit_systems import STARTING

KEPT = 200
"""Answers that are kept, so that report and review compute none of them again."""


def questions(text: str) -> list[dict[str, str]]:
    """Return what a survey asks of the data sheet in a text: key and title, in order.

    Raises:
        ValueError: If the text is no data sheet.
    """
    sheet = _sheet(text)
    return [{"key": asked.key, "title": asked.title} for group in GROUPS for asked in group(sheet)]


def answered(
    text: str,
    key: str,
    tolerances: bool,  # noqa: FBT001 - from JSON
    system: str = STARTING,
) -> dict[str, Any]:
    """Return the answer to one question of the survey of a data sheet.

    Args:
        text: The text of the file of the data sheet.
        key: The key of the question.
        tolerances: Whether what the tolerances of the sheet do to the answer is part of it.
        system: The system of units that it is shown in; a report goes by none.

    Returns:
        Its headline; whether there is an answer, and with warnings; all of it as HTML.

    Raises:
        ValueError: If the text is no data sheet or the question is not asked of it.
    """
    basis = _basis(text)
    answer = in_system(_answer(basis, key), _sheet(text), system)
    effects = _effects(basis, key) if tolerances else None
    return {
        "key": key,
        "headline": headline(answer, effects),
        "given": not answer.lacks,
        "warned": bool(warnings_of(answer, effects)),
        "html": "".join(html([in_full(answer, effects)], opened=False)),
    }


def reported(text: str, kind: str = "html") -> str:
    """Return the report of the survey of a data sheet, the same bytes as the command writes.

    Args:
        text: The text of the file of the data sheet.
        kind: `html` or `markdown`.

    Raises:
        ValueError: If the text is no data sheet.
    """
    basis, sheet = _basis(text), _sheet(text)
    answers: Answers = [(_answer(basis, key), _effects(basis, key)) for key in _keys(text)]
    made = {"html": report, "markdown": report_markdown}[kind]
    return made(sheet, _digest(text), answers)


def carded(text: str) -> str:
    """Return the ground-run card of a data sheet, the same bytes as the command writes.

    Raises:
        ValueError: If the text is no data sheet.
    """
    return card_page(_sheet(text), _digest(text))


def quoted(text: str, key: str, folder: str) -> dict[str, str]:
    """Return one answer to paste into a review, as text and as Markdown, and as CSV.

    Args:
        text: The text of the file of the data sheet.
        key: The key of the question.
        folder: The address of the handbook, which the link begins with.

    Raises:
        ValueError: If the text is no data sheet or the question is not asked of it.
    """
    basis = _basis(text)
    answer = _answer(basis, key)
    blocks = quote(_sheet(text), _digest(text), answer, _effects(basis, key), folder)
    table = answer_csv(answer) if answer.calculation is not None and not answer.lacks else ""
    return {"text": plain_text(blocks), "markdown": markdown(blocks), "csv": table}


def reviewed(before: str, after: str) -> dict[str, str]:
    """Return what differs between two data sheets: for the page, as a page and as Markdown.

    The answers of both are computed here unless `answered` gave them already.

    Args:
        before: The text of the file of the sheet before.
        after: The text of the file of the sheet of now.

    Raises:
        ValueError: If a text is no data sheet.
    """
    sheets = (_sheet(before), _sheet(after))
    answers = (_answers(before), _answers(after))
    blocks = review(*sheets, _digest(before), answers)
    return {
        "html": "".join(html(blocks, opened=False)),
        "page": comparison(sheets[1], _digest(after), blocks),
        "markdown": comparison_markdown(sheets[1], _digest(after), blocks),
    }


def _keys(text: str) -> list[str]:
    return [asked["key"] for asked in questions(text)]


def _answers(text: str) -> list[Answer]:
    return [_answer(_basis(text), key) for key in _keys(text)]


def _digest(text: str) -> str:
    return hashlib.sha256(text.encode("utf-8")).hexdigest()


def _basis(text: str) -> str:
    """Return the text of the sheet without its title block, which no answer depends on."""
    sheet = _sheet(text)
    values = {place: v for place, v in sheet.values.items() if not place.startswith(f"{REPORT}.")}
    return written(replace(sheet, values=values))


@lru_cache(maxsize=4)
def _sheet(text: str) -> Sheet:
    found = opened(text.encode("utf-8"))
    if found.sheet is None:
        raise ValueError(f"The data sheet has problems: {found.problems[0]}")
    return found.sheet


@lru_cache(maxsize=KEPT)
def _answer(text: str, key: str) -> Answer:
    sheet = _sheet(text)
    for group in GROUPS:
        for asked in group(sheet):
            if asked.key == key:
                return answer_to(asked, sheet, group)
    raise ValueError(f"The survey does not ask {key}")


@lru_cache(maxsize=KEPT)
def _effects(text: str, key: str) -> Sensitivity | None:
    return sensitivity(_sheet(text), _answer(text, key))
