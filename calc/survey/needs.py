"""Needs: what each answer of a survey still lacks, and where on the sheet that is entered."""

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from calc.sheet.exchange import Held, sheet_of
from calc.sheet.layout import sections
from calc.survey.asked import Asked, Place
from calc.survey.ground import run_plan
from calc.survey.survey import GROUPS

CARD = "Ground-run card with steps"


def needs(sheet: Held) -> list[dict[str, Any]]:
    """Return for each answer of the survey, and for a card with steps, what is missing for it.

    Args:
        sheet: A data sheet as a page holds it, in which nothing is wrong.

    Returns:
        For each answer, in the order of a report, and last for the ground-run card, whose steps
        need more than the answers from measured modes do, `title` and `missing`: what is lacking
        in words under `label`, and under `place` where it is entered, such as `lag.lag_damping`;
        for the rows of a table the place is the section.

    Raises:
        ValueError: If a value on the sheet cannot be read.
    """
    content = sheet_of(sheet)
    answers = [asked for group in GROUPS for asked in group(content)]
    with_steps = replace(run_plan(content), title=CARD)
    return [
        {"key": asked.key, "title": asked.title, "missing": _missing(asked)}
        for asked in (*answers, with_steps)
    ]


def _missing(asked: Asked) -> list[dict[str, str]]:
    tables = [Place(part.key, -1, "") for part in sections() if part.is_table]
    places = {place.lack: place.words for place in (*asked.reads, *tables)}
    return [
        {"label": lack, "place": places.get(_named(lack, places), "")} for lack in asked.missing
    ]


def _named(lack: str, places: Iterable[str]) -> str:
    """Return which place is meant by what is lacking, which may go on with what is wrong there."""
    return next((place for place in places if lack == place or lack.startswith(f"{place}: ")), "")
