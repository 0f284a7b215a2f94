"""Asking: a survey question by question, as a page asks it so that it can show its progress."""

import hashlib
from functools import lru_cache
from typing import Any

from calc.sheet.file import opened
from calc.sheet.sheet import Sheet
from calc.survey.headline import headline
from calc.survey.report import answer_html, report
from calc.survey.sensitivity import Sensitivity, sensitivity
from calc.survey.survey import GROUPS, Answer, answer_to

KEPT = 100
"""Answers that are kept, so that the report computes none of them again."""


def questions(text: str) -> list[dict[str, str]]:
    """Return what a survey asks of the data sheet in a text: key and title, in order.

    Raises:
        ValueError: If the text is no data sheet.
    """
    sheet = _sheet(text)
    return [{"key": asked.key, "title": asked.title} for group in GROUPS for asked in group(sheet)]


def answered(text: str, key: str, tolerances: bool) -> dict[str, Any]:  # noqa: FBT001 - from JSON
    """Return the answer to one question of the survey of a data sheet.

    Args:
        text: The text of the file of the data sheet.
        key: The key of the question.
        tolerances: Whether what the tolerances of the sheet do to the answer is part of it.

    Returns:
        Its headline; whether there is an answer, and with warnings; all of it as HTML.

    Raises:
        ValueError: If the text is no data sheet or the question is not asked of it.
    """
    answer = _answer(text, key)
    effects = _effects(text, key) if tolerances else None
    return {
        "key": key,
        "headline": headline(answer),
        "given": not answer.lacks,
        "warned": bool(answer.warnings),
        "html": answer_html(answer, effects),
    }


def reported(text: str) -> str:
    """Return the report of the survey of a data sheet, the same bytes as the command writes.

    Raises:
        ValueError: If the text is no data sheet.
    """
    digest = hashlib.sha256(text.encode("utf-8")).hexdigest()
    keys = [asked["key"] for asked in questions(text)]
    return report(_sheet(text), digest, [(_answer(text, key), _effects(text, key)) for key in keys])


@lru_cache(maxsize=1)
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
