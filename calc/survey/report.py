"""Report: a survey as one HTML page that needs nothing else, the same bytes each time."""

from collections.abc import Iterable, Iterator, Sequence
from html import escape

from calc.catalogue import entry
from calc.declaration import Field, Table
from calc.form.calculation import source
from calc.form.content import LONGEST_TABLE, given, plain_results, result, result_tables
from calc.form.showing import shown
from calc.sheet.layout import sections
from calc.sheet.sheet import ORIGINS, Sheet, Value, in_words
from calc.survey.headline import decides, headline
from calc.survey.printed import foot_of, made_from, page, table
from calc.survey.sensitivity import Sensitivity
from calc.survey.survey import Answer
from calc.working import Text, flat

ONE_AT_A_TIME = (
    "One input at a time, the others as given: several that are off together move the result "
    "further, and an input without a tolerance is taken as exact. The ends are no bounds."
)

CAUTIONS = {
    "ground": "Ground resonance can destroy an aircraft within seconds. Nobody may run a rotor "
    "because a calculation calls it stable: ground runs follow the approved procedure, with a "
    "qualified crew, a clear area and a way to stop.",
    "harmonics": "Rotors and shafts are run only by the approved procedure, with a clear area. "
    "Speeds left free here are no clearance to dwell on them.",
    "blades": "A margin on a fan plot is analysis; strain measured in an approved test decides.",
    "rotor": "No airspeed here is a flight limit. The approved flight manual decides.",
}
"""The caution above the answers of each chapter."""


def report(sheet: Sheet, digest: str, answers: Sequence[tuple[Answer, Sensitivity | None]]) -> str:
    """Return the report of a survey as an HTML page.

    Args:
        sheet: The data sheet.
        digest: SHA-256 of its file.
        answers: What `survey` returned, each with its sensitivity.

    Returns:
        The page: data with where they came from, the answers at a glance, and each in full.
    """
    parts = [*_head(sheet, digest), *_glance(answers), *_data(sheet)]
    for answer, sensitivity in answers:
        parts += _answer(answer, sensitivity)
    title = f"{sheet.title or 'Data sheet without a title'}: survey"
    return page(title, parts, foot_of(title, digest))


def answer_html(answer: Answer, sensitivity: Sensitivity | None) -> str:
    """Return one answer in full, with its caution, warnings and figure, as a part of a page."""
    return "\n".join(_answer(answer, sensitivity))


def _head(sheet: Sheet, digest: str) -> Iterator[str]:
    yield f"<h1>{escape(sheet.title or 'Data sheet without a title')}: survey</h1>"
    if sheet.note:
        yield f"<p>{escape(sheet.note)}</p>"
    yield made_from(digest)


def _glance(answers: Iterable[tuple[Answer, Sensitivity | None]]) -> Iterator[str]:
    yield "<h2>At a glance</h2>"
    rows = []
    for answer, sensitivity in answers:
        link = f'<a href="#{answer.asked.key}">{escape(answer.asked.title)}</a>'
        warned = "yes" if answer.warnings else ""
        cells = [escape(headline(answer)), warned, escape(decides(sensitivity))]
        rows.append([link, *cells])
    yield table("", ["Result", "In short", "Warnings", "Decided by, over its tolerance"], rows)


def _data(sheet: Sheet) -> Iterator[str]:
    yield "<h2>Data</h2>"
    for part in sections():
        if not part.is_table:
            values = {f.name: sheet.value(f"{part.key}.{f.name}") for f in part.fields}
            rows = [[escape(f.declaration.label), *_value(f, values[f.name])] for f in part.fields]
            yield table(part.title, ["", "Value", "From", "Tolerance"], rows)
        elif sheet.rows.get(part.key):
            heads = [f.declaration.label for f in part.fields]
            rows = [
                [_cell(f, row.get(f.name)) for f in part.fields] for row in sheet.rows[part.key]
            ]
            yield table(part.title, heads, rows)


def _value(f: Field, value: Value | None) -> list[str]:
    if value is None:
        return [f"{escape(_usual(f))} (usual value)", "", ""]
    return [escape(in_words(f, value)), ORIGINS[value.origin], escape(value.tolerance)]


def _cell(f: Field, value: Value | None) -> str:
    if value is None:
        return escape(_usual(f))
    said = [in_words(f, value)]
    said += [f"± {value.tolerance}"] if value.tolerance else []
    said += [f"({value.origin})"] if value.origin in ORIGINS and value.origin != "unknown" else []
    return escape(" ".join(said))


def _usual(f: Field) -> str:
    return shown(f.declaration, f.start)


def _answer(answer: Answer, sensitivity: Sensitivity | None) -> Iterator[str]:
    asked, calculation = answer.asked, answer.calculation
    yield f'<section class="answer" id="{asked.key}"><h2>{escape(asked.title)}</h2>'
    yield f'<p class="caution">{CAUTIONS[asked.formula.partition(".")[0]]}</p>'
    yield f"<p>{escape(entry(asked.formula).title)}, <code>{asked.formula}</code></p>"
    if answer.lacks:
        items = "".join(f"<li>{escape(lack)}</li>" for lack in answer.lacks)
        yield f'<div class="needs"><p>Cannot be given. It needs:</p><ul>{items}</ul></div>'
    elif calculation is not None:
        yield f"<p><strong>{escape(headline(answer))}</strong></p>"
        for text in answer.warnings:
            yield f'<p class="warning"><strong>Warning</strong> {escape(text)}.</p>'
        below = [one.words for one in answer.compared if not one.above]
        yield from (f"<p>{escape(note)}.</p>" for note in (*below, *asked.notes))
        rows = [
            [escape(f.declaration.label), escape(result(calculation, f, value))]
            for f, value in plain_results(calculation)
            if f"{f.declaration.label}: {value}" != headline(answer)
        ]
        yield table("Results", ["", ""], rows)
        if (chart := calculation.chart) is not None:
            title = f"<figcaption>{escape(chart.title)}</figcaption>"
            yield f"<figure>{chart.svg(asked.key)}{title}</figure>"
        for part in result_tables(calculation):
            cells = [list(map(escape, row)) for row in part.rows[:LONGEST_TABLE]]
            yield table(part.label, part.heads, cells)
            if len(part.rows) > LONGEST_TABLE:
                rows_in_all = len(part.rows)
                yield f"<p>The first {LONGEST_TABLE} of {rows_in_all} rows; the CSV has all.</p>"
        yield from _sensitivity(sensitivity)
        inputs = [
            [escape(f.declaration.label), escape(text)]
            for f, text in given(calculation)
            if not isinstance(f.declaration, Table) and f.name in asked.entries
        ]
        yield table("Inputs of this result", ["", ""], inputs)
        lines = [step.heading or step.line for step in flat(calculation.working(Text()))]
        if lines:
            text = escape("\n".join(lines))
            yield f"<details><summary>Working</summary><pre>{text}</pre></details>"
        yield f"<p>Source: {escape(source(asked.formula))}</p>"
        yield f"<p>Form with these entries: <code>{escape(asked.link)}</code></p>"
    yield "</section>"


def _sensitivity(found: Sensitivity | None) -> Iterator[str]:
    if found is None or not found.effects:
        return
    quantity = found.figure.quantity
    rows = [
        [
            escape(f"{effect.label} ({effect.place.words})"),
            escape(f"{effect.value.text} ± {effect.value.tolerance}"),
            shown(quantity, effect.low),
            shown(quantity, effect.high),
        ]
        for effect in found.effects
    ]
    about = f" of {found.about}" if found.about else ""
    title = f"Sensitivity: {found.figure.label} {shown(quantity, found.value)}{about}"
    heads = ["Input, one at a time", "Value and tolerance", "At its low end", "At its high end"]
    yield table(title, heads, rows)
    yield f"<p>{ONE_AT_A_TIME}</p>"
    if found.left_out:
        yield f"<p>{found.left_out} more inputs have tolerances that were not looked at.</p>"
