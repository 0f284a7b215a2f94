"""Quote: one answer of a survey to paste into a review, with all that it stands on."""

from collections.abc import Iterable, Iterator

from calc import VERSION
from calc.form.calculation import NOTICE, source
from calc.form.content import Cells, given_tables, result_tables
from calc.form.quoting import quoting
from calc.sheet.layout import REPORT
from calc.sheet.sheet import Sheet
from calc.survey.headline import decides
from calc.survey.report.blocks import Block, Code, Grid, Heading, Link, Words
from calc.survey.report.in_full import caution, inputs, judged, results
from calc.survey.report.selection import entered
from calc.survey.sensitivity import Sensitivity
from calc.survey.survey import Answer

MOST_ROWS = 20
"""Rows of a table that are quoted; the link leads to all of them."""


def quote(
    sheet: Sheet, digest: str, answer: Answer, sensitivity: Sensitivity | None, folder: str
) -> list[Block]:
    """Return an answer in short: headline, warnings, results, inputs, source, file and link.

    Args:
        sheet: The data sheet.
        digest: SHA-256 of its file.
        answer: An answer of its survey.
        sensitivity: What the tolerances do to it.
        folder: The address of the handbook, which the link begins with.
    """
    asked, calculation = answer.asked, answer.calculation
    blocks: list[Block] = [Heading(asked.title, 3), caution(asked), *judged(answer, sensitivity)]
    if calculation is not None and not answer.lacks:
        if decided := decides(sensitivity):
            blocks.append(Words(f"Decided, over its tolerance, by {decided}."))
        blocks += [results(answer), *_tables(result_tables(calculation))]
        blocks += [inputs(asked, calculation), *_tables(given_tables(calculation))]
        blocks.append(Words(f"Source: {source(asked.formula)}"))
        link = quoting(calculation, f"{folder}{asked.link}")
        blocks.append(Link("Form with these entries:", link))
    revision = entered(sheet, f"{REPORT}.revision")
    name = f"{sheet.title or 'without a title'}{f', revision {revision}' if revision else ''}"
    blocks.append(Words(f"Rotorcraft vibration handbook {VERSION}, {asked.formula}. {NOTICE}"))
    return [*blocks, Code(f"Data sheet {name}, SHA-256", digest)]


def _tables(tables: Iterable[Cells]) -> Iterator[Block]:
    """Yield tables that are not empty, each with its first rows."""
    for part in tables:
        yield Grid(part.label, part.heads, part.rows[:MOST_ROWS])
        if (more := len(part.rows) - MOST_ROWS) > 0:
            yield Words(f"… {more} more, in the link.")
