"""Files: a survey as CSV, SVG and a report, by name; the same bytes each time."""

import csv
import hashlib
import io
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from calc import VERSION
from calc.form.csv_copy import csv_copy
from calc.sheet.sheet import Sheet
from calc.survey.card.page import card_page
from calc.survey.headline import decides, headline
from calc.survey.report.report import (
    comparison,
    comparison_markdown,
    report,
    report_markdown,
)
from calc.survey.review.review import review
from calc.survey.sensitivity import Sensitivity, sensitivity
from calc.survey.survey import Answer, survey
from calc.survey.within import warnings_of

INDEX = "index.csv"


class Before(NamedTuple):
    """The sheet that a survey is compared with, and the bytes of its file."""

    sheet: Sheet
    data: bytes


def files(sheet: Sheet, data: bytes, before: Before | None = None) -> dict[str, str]:
    """Return the files of the survey of a sheet, by name.

    Args:
        sheet: A data sheet.
        data: The bytes of the file that it came from.
        before: An earlier sheet; what differs from it is told in the report and by itself.

    Returns:
        `report.html` and `report.md`, `ground_run_card.html`, `summary.csv`, `sensitivity.csv`, a
        CSV file for each answer, an SVG file for each figure, with an earlier sheet
        `comparison.html` and `comparison.md`, and `index.csv` with the SHA-256 of all others.
    """
    digest = hashlib.sha256(data).hexdigest()
    answers = [(answer, sensitivity(sheet, answer)) for answer in survey(sheet)]
    differs = []
    found = {}
    if before is not None:
        own = ([*survey(before.sheet)], [answer for answer, _ in answers])
        was = hashlib.sha256(before.data).hexdigest()
        differs = review(before.sheet, sheet, was, own)
        found["comparison.html"] = comparison(sheet, digest, differs)
        found["comparison.md"] = comparison_markdown(sheet, digest, differs)
    found["report.html"] = report(sheet, digest, answers, differs)
    found["report.md"] = report_markdown(sheet, digest, answers, differs)
    found["ground_run_card.html"] = card_page(sheet, digest)
    found["summary.csv"] = _csv(
        ["key", "title", "formula", "in short", "lacks", "warnings", "decided by"],
        (
            [
                *(
                    answer.asked.key,
                    answer.asked.title,
                    answer.asked.formula,
                    headline(answer, effects),
                ),
                "; ".join(answer.lacks),
                "; ".join(warnings_of(answer, effects)),
                decides(effects),
            ]
            for answer, effects in answers
        ),
    )
    found["sensitivity.csv"] = _sensitivities(
        [(answer.asked.key, effects) for answer, effects in answers if effects]
    )
    for answer, _ in answers:
        if answer.calculation is not None and not answer.lacks:
            found[f"{answer.asked.key}.csv"] = answer_csv(answer)
            if (chart := answer.calculation.chart) is not None:
                found[f"{answer.asked.key}.svg"] = chart.file() + "\n"
    hashes = [[name, hashlib.sha256(found[name].encode()).hexdigest()] for name in sorted(found)]
    rows = [["data sheet", digest], ["handbook", VERSION], *hashes]
    return {**found, INDEX: _csv(["file", "sha256"], rows)}


def answer_csv(answer: Answer) -> str:
    """Return an answer as CSV, with where the airspeed of the sheet lies and its notes."""
    assert answer.calculation is not None
    warnings = [("warning", text) for text in answer.more_warnings]
    compared = [("comparison", one.words) for one in answer.compared]
    notes = [("note", note) for note in answer.asked.notes]
    return csv_copy(answer.calculation, answer.asked.link, [*warnings, *compared, *notes])


def _sensitivities(found: Sequence[tuple[str, Sensitivity]]) -> str:
    heads = ["key", "figure", "of", "unit", "value", "input", "typed", "tolerance"]
    rows = []
    for key, one in found:
        unit = one.figure.quantity.units[0]
        for effect in one.effects:
            ends = [None if end is None else unit.reading(end) for end in (effect.low, effect.high)]
            rows.append(
                [
                    *(key, one.figure.label, one.about, unit.name, repr(unit.reading(one.value))),
                    *(effect.place.words, effect.value.text, effect.value.tolerance),
                    *("" if end is None else repr(end) for end in ends),
                ]
            )
    return _csv([*heads, "at low end", "at high end"], rows)


def _csv(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(heads)
    writer.writerows([_cell(text) for text in row] for row in rows)
    return out.getvalue()


def _cell(text: str) -> str:
    """Return text that a spreadsheet does not take for a formula."""
    return f"'{text}" if text[:1] in tuple("=+@\t") else text
