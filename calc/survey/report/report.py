"""Report: what a reader selects of a survey as a page or as Markdown, the same bytes each time."""

from collections.abc import Iterable, Iterator, Sequence

from calc import VERSION
from calc.form.calculation import NOTICE
from calc.sheet.layout import REPORT, section
from calc.sheet.sheet import Sheet
from calc.survey.headline import decides, headline
from calc.survey.printed import foot_of, page
from calc.survey.report.blocks import Block, Chapter, Code, Grid, Heading, Jump, TitleBlock, Words
from calc.survey.report.in_full import in_full
from calc.survey.report.in_html import html
from calc.survey.report.in_markdown import markdown
from calc.survey.report.provenance import provenance
from calc.survey.report.selection import LEAVE_OUT, entered, left_out, told
from calc.survey.sensitivity import Sensitivity
from calc.survey.survey import Answer
from calc.survey.within import warnings_of

DANGER = (
    "Ground resonance can destroy an aircraft within seconds, and a verdict holds for the numbers "
    "of the data sheet alone. No speed, airspeed or ground run is approved here: rotors turn by "
    "the approved procedure, with a qualified crew, a clear area and a way to stop."
)
LINKS = "Addresses of forms are relative to the folder of the handbook."

Answers = Sequence[tuple[Answer, Sensitivity | None]]


def report(sheet: Sheet, digest: str, answers: Answers, review: Iterable[Block] = ()) -> str:
    """Return the report of a survey as an HTML page.

    Args:
        sheet: The data sheet, with its title block and what it leaves out.
        digest: SHA-256 of its file.
        answers: What `survey` returned, each with its sensitivity.
        review: What differs from another sheet, if there is one.

    Returns:
        The page: title block, the answers at a glance, data with where they come from, and each
        answer in full.
    """
    title = f"{title_of(sheet)}: survey"
    parts = _parts(sheet, digest, answers, review)
    return page(title, html(parts, opened=True), foot_of(title, digest))


def report_markdown(
    sheet: Sheet, digest: str, answers: Answers, review: Iterable[Block] = ()
) -> str:
    """Return the report of a survey as Markdown, with the arguments of `report`."""
    return markdown(_parts(sheet, digest, answers, review))


def comparison(sheet: Sheet, digest: str, review: Iterable[Block]) -> str:
    """Return what differs from another sheet as an HTML page."""
    title = f"{title_of(sheet)}: comparison"
    parts = [*head(sheet, digest, "comparison"), *review]
    return page(title, html(parts, opened=True), foot_of(title, digest))


def comparison_markdown(sheet: Sheet, digest: str, review: Iterable[Block]) -> str:
    """Return what differs from another sheet as Markdown."""
    return markdown([*head(sheet, digest, "comparison"), *review])


def title_of(sheet: Sheet) -> str:
    """Return the title of a sheet, or that it has none."""
    return sheet.title or "Data sheet without a title"


def head(sheet: Sheet, digest: str, what: str) -> Iterator[Block]:
    """Yield the head of a report: title, danger, title block, version and hash of the file."""
    yield Heading(f"{title_of(sheet)}: {what}", 1)
    yield Words(DANGER, "danger")
    typed = [
        (f.declaration.label, entered(sheet, f"{REPORT}.{f.name}"))
        for f in section(REPORT).fields
        if f"{REPORT}.{f.name}" != LEAVE_OUT
    ]
    yield TitleBlock([("Aircraft or data sheet", sheet.title), *typed, ("Signature", "")])
    if sheet.note:
        yield Words(sheet.note)
    yield Words(f"Rotorcraft vibration handbook {VERSION}. {NOTICE}")
    yield Code("Made from the data sheet with SHA-256", digest)


def _parts(
    sheet: Sheet, digest: str, answers: Answers, review: Iterable[Block]
) -> Iterator[Block | Chapter]:
    out = left_out(sheet)
    selected = [one for one in answers if one[0].asked.key not in out]
    yield from head(sheet, digest, "survey")
    if said := told(sheet, answers):
        yield Words(said)
    yield from _glance(selected)
    if "warnings" not in out:
        yield from _warnings(selected)
    yield from review
    if "data" not in out:
        yield Heading("Data")
        yield from provenance(sheet)
    for answer, sensitivity in selected:
        yield in_full(answer, sensitivity, out)
    yield Words(LINKS)


def _glance(answers: Answers) -> Iterator[Block]:
    rows: list[list[str | Jump]] = [
        [
            Jump(answer.asked.title, answer.asked.key),
            headline(answer, sensitivity),
            "yes" if warnings_of(answer, sensitivity) else "",
            decides(sensitivity),
        ]
        for answer, sensitivity in answers
    ]
    yield Heading("At a glance")
    yield Grid("", ["Result", "In short", "Warnings", "Decided by, over its tolerance"], rows)


def _warnings(answers: Answers) -> Iterator[Block]:
    rows: list[list[str | Jump]] = [
        [Jump(answer.asked.title, answer.asked.key), f"{text}."]
        for answer, sensitivity in answers
        for text in warnings_of(answer, sensitivity)
    ]
    yield Heading("Warnings")
    yield Grid("", ["Result", "Warning"], rows) if rows else Words("No result has a warning.")
