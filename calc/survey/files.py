"""Files: a survey as CSV, SVG and one HTML report, by name; the same bytes each time."""

import csv
import hashlib
import io
from collections.abc import Iterable, Sequence

from calc import VERSION
from calc.form.csv_copy import csv_copy
from calc.sheet.sheet import Sheet
from calc.survey.headline import decides, headline
from calc.survey.report import report
from calc.survey.sensitivity import Sensitivity, sensitivity
from calc.survey.survey import survey

INDEX = "index.csv"


def files(sheet: Sheet, data: bytes) -> dict[str, str]:
    """Return the files of the survey of a sheet, by name.

    Args:
        sheet: A data sheet.
        data: The bytes of the file that it came from.

    Returns:
        `report.html`, `summary.csv`, `sensitivity.csv`, a CSV file for each answer, an SVG file
        for each figure, and `index.csv` with the SHA-256 of all others.
    """
    digest = hashlib.sha256(data).hexdigest()
    answers = [(answer, sensitivity(sheet, answer)) for answer in survey(sheet)]
    found = {"report.html": report(sheet, digest, answers)}
    found["summary.csv"] = _csv(
        ["key", "title", "formula", "in short", "lacks", "warnings", "decided by"],
        (
            [
                *(answer.asked.key, answer.asked.title, answer.asked.formula, headline(answer)),
                "; ".join(answer.lacks),
                "; ".join(answer.warnings),
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
            found[f"{answer.asked.key}.csv"] = csv_copy(answer.calculation, answer.asked.link)
            if (chart := answer.calculation.chart) is not None:
                found[f"{answer.asked.key}.svg"] = chart.file() + "\n"
    hashes = [[name, hashlib.sha256(found[name].encode()).hexdigest()] for name in sorted(found)]
    rows = [["data sheet", digest], ["handbook", VERSION], *hashes]
    return {**found, INDEX: _csv(["file", "sha256"], rows)}


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
