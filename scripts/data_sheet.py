"""The data sheet as HTML: each value with its unit, origin and tolerance, and the examples."""

from html import escape

from calc.declaration import Choice, Field, Name
from calc.form.result_table import symbol_html
from calc.form.showing import shown
from calc.form.unit_list import limits_hint, system_list, unit_list
from calc.quantity import Quantity
from calc.sheet.layout import REPORT, Section, section, sections
from calc.sheet.offered_modes import NAMES, TEXTS
from calc.sheet.sheet import ORIGINS, UNKNOWN
from calc.sheet.title_block import LEAVE_OUT
from calc.survey.report.selection import PARTS
from scripts.environment import ROOT

EXAMPLES = ("plover", "curlew", "dunlin")


def data_sheet() -> str:
    """Return the data sheet of a page; scripts fill it, keep it and ask for its survey."""
    examples = "".join(
        f'<button type="button" data-example="{name}">{name.capitalize()}</button> '
        for name in EXAMPLES
    )
    texts = "".join(
        f'<template id="example-{name}">'
        f"{escape((ROOT / 'docs' / 'examples' / f'{name}.toml').read_text('utf-8'))}</template>"
        for name in EXAMPLES
    )
    followers = [part.title for part in sections()[1:]] + ["Survey"]
    parts = "\n".join(map(_section, sections(), followers))
    return f"""<div class="data-sheet" id="data-sheet" data-search-exclude>
<noscript><p class="warning"><strong>Note</strong> The data sheet needs JavaScript and WebAssembly.
The command <code>python3 -m calc survey FILE --out DIR</code> does the same without a browser.</p>
</noscript>
<p class="sheet-kept" role="status"></p>
<p class="sheet-trouble" role="alert" hidden></p>
<div class="sheet-bar"><span>Open an example: {examples}</span>
<label class="sheet-open">Open a file <input type="file" accept=".toml"></label>
<button type="button" data-do="save">Save as a file</button>
<button type="button" data-do="undo" aria-disabled="true">Undo</button>
<button type="button" data-do="blank">Empty sheet</button>
<button type="button" data-do="delete">Delete my data</button>
{system_list()}</div>
<div class="sheet-modes" tabindex="-1" hidden>{_offered_modes()}</div>
<div class="sheet-compare" tabindex="-1" hidden></div>
<div class="sheet-problems" tabindex="-1" hidden></div>
<div class="sheet-head">
<label>Title <input name="title" maxlength="120" spellcheck="false"></label>
<label>Note <textarea name="note" maxlength="1000" rows="2"></textarea></label></div>
<p class="sheet-tip">Type a unit behind its number, as in 395 rpm. Enter goes on to the next value
and opens the next section; leave empty what is not known.</p>
{parts}
<div class="sheet-survey">
<h2 id="survey">Survey</h2>
<div class="sheet-needs"></div>
<div class="sheet-bar"><button type="button" data-do="survey">Compute the survey</button>
<button type="button" data-do="stop" hidden>Stop (Esc)</button>
<button type="button" data-do="report" data-kind="html" data-whole
aria-disabled="true">Save the report</button>
<button type="button" data-do="reportMarkdown" data-kind="markdown" data-whole
aria-disabled="true">Save the report as Markdown</button>
<button type="button" data-do="print" data-whole aria-disabled="true">Print the report</button>
<button type="button" data-do="card" data-whole aria-disabled="true">Ground-run card</button>
<button type="button" data-do="review" hidden>Compare with the sheet before</button></div>
<p class="sheet-tip">The steps of a ground-run card are planned on the sections {_title("hub")} and
{_title("landing_gear_states")}; without them the card has blanks and no steps.</p>
<details class="report-choice"><summary>What the report holds</summary>
<fieldset><legend>Parts; an answer keeps its warnings whatever is left out</legend>
{_parts()}</fieldset>
<fieldset><legend>Answers</legend><div class="report-answers">Compute the survey to choose among
its answers.</div></fieldset></details>
<p class="sheet-progress" role="status"></p>
<div class="sheet-card" tabindex="-1" hidden>
<div class="sheet-bar"><strong>Ground-run card: analysis, it approves nothing</strong>
<button type="button" data-do="printCard" data-page>Print the card</button>
<button type="button" data-do="saveCard" data-page>Save the card</button>
<button type="button" data-do="closeCard">Close the card</button></div>
<p role="status"></p></div>
<div class="sheet-answers"></div>
<div class="sheet-bar">
<button type="button" data-do="endReview" hidden>Stop comparing (Esc)</button>
<button type="button" data-do="saveReview" data-kind="page" hidden>Save the comparison</button>
<button type="button" data-do="saveReview" data-kind="markdown" hidden>Save the comparison as
Markdown</button></div>
<p class="review-progress" role="status"></p>
<div class="sheet-review" tabindex="-1"></div>
</div>
{texts}
</div>
"""


def _title(key: str) -> str:
    """Return the title of a section as a page names it."""
    return f"<em>{_title_text(key)}</em>"


def _of_measured_modes() -> str:
    """Return what measured modes are enough for, and what they are not."""
    return (
        "These modes are enough for the verdict of the survey. The steps of a ground-run card also "
        f"need {_title('hub')} and {_title('landing_gear_states')}; these modes can then only end "
        "a run earlier."
    )


def _offered_modes() -> str:
    """Return the part in which modes that come from another page are looked at and taken."""
    into = "".join(f'<option value="{key}">{_title_text(key)}</option>' for key in NAMES)
    said = "".join(
        f'<label>{label} <input name="{name}" maxlength="{TEXTS[name]}" spellcheck="false" '
        'autocomplete="off"></label>'
        for name, label in (("record", "Test or record"), ("method", "Method"), ("date", "Date"))
    )
    return f"""<p><strong>Modes for this sheet</strong> came with the address of this page.
Nothing changes until they are put in; Undo brings the sheet before back.</p>
<div class="sheet-bar">{said}<label>Table <select name="section">{into}</select></label></div>
<div class="scroll-box" tabindex="0"><table class="table"><thead><tr><th>Name</th>
<th>Values as found</th><th>Tolerance of the frequency</th><th>Tolerance of the damping ratio</th>
<th>Row</th></tr></thead><tbody></tbody></table></div>
<p class="modes-problem" role="status"></p>
<p class="modes-remark"></p>
<div class="sheet-bar"><button type="button" data-do="takeModes" aria-disabled="true">Put these
modes into the sheet</button> <button type="button" data-do="leaveModes">Leave the sheet as it
is</button></div>
<div class="modes-changes"></div>"""


def _title_text(key: str) -> str:
    return escape(section(key).title)


def _parts() -> str:
    """Return a box for each part that a report can leave out."""
    return "".join(
        f'<label><input type="checkbox" data-part="{key}" checked> {escape(words)}</label>'
        for key, words in PARTS.items()
    )


def _section(part: Section, follower: str) -> str:
    fields = "\n".join(map(_field, part.fields))
    title = escape(part.title)
    if not part.is_table:
        inside = f'<div class="sheet-fields">{fields}</div>'
    else:
        inside = (
            f'<div class="sheet-rows"></div><template class="sheet-row">{_row(fields)}</template>'
            '<button type="button" data-do="add">Add a row</button>'
        )
    if part.key == "measured_modes":
        inside = f'<p class="sheet-tip">{_of_measured_modes()}</p>{inside}'
    kind = f' data-most="{part.most}"' if part.is_table else ""
    return (
        f'<details class="sheet-section" data-section="{part.key}"{kind}>'
        f'<summary>{title} <span class="sheet-count"></span>'
        '<span class="sheet-wrong"></span>'
        f'<span class="sheet-needed"></span></summary>{inside}'
        f'<p class="sheet-foot"><button type="button" data-do="next">Next: {escape(follower)}'
        f"</button> {'' if part.key == REPORT else _origins_of_all()}</p></details>"
    )


def _origins_of_all() -> str:
    """Return the list that says of all values of a section that say nothing where they are from."""
    options = "".join(f'<option value="{key}">{key}</option>' for key in ORIGINS if key != UNKNOWN)
    return (
        "<label>Values here without an origin are from "
        f'<select class="sheet-origins"><option value="">…</option>{options}</select></label>'
    )


def _row(fields: str) -> str:
    tools = "".join(
        f'<button type="button" data-do="{does}" aria-label="{label}">{sign}</button>'
        for does, label, sign in (
            ("raise", "Move row up", "↑"),
            ("lower", "Move row down", "↓"),
            ("remove", "Remove row", "×"),
        )
    )
    return (
        '<details class="sheet-line"><summary class="sheet-name"></summary>'
        f'<div class="sheet-fields">{fields}</div><span class="row-tools">{tools}</span></details>'
    )


def _field(f: Field) -> str:
    """Return a value: what is typed, its unit, where it came from, and its tolerance."""
    declaration = f.declaration
    label = escape(declaration.label)
    usual = "" if f.default is None else shown(declaration, f.default)
    blank = "left blank" if f.default == "" else UNKNOWN
    empty = f"usual: {usual}" if usual else blank
    in_title_block = " hidden" if f.default == "" else ""
    chosen_by_boxes = " hidden" if declaration is LEAVE_OUT else ""
    hint, units, tolerance = "", "", ""
    if isinstance(declaration, Choice):
        options = f'<option value="">{escape(empty)}</option>' + "".join(
            f'<option value="{key}">{escape(words)}</option>'
            for key, words in declaration.options.items()
        )
        entry = f'<select class="sheet-entry" aria-label="{label}">{options}</select>'
    else:
        kind = "word" if isinstance(declaration, Name) else "number"
        entry = (
            f'<input class="sheet-entry {kind}" aria-label="{label}" spellcheck="false" '
            f'autocomplete="off" placeholder="{escape(empty)}">'
        )
    if isinstance(declaration, Quantity):
        hint = limits_hint(declaration, declaration.units[0])
        units = unit_list(declaration, declaration.units[0].key)
        tolerance = (
            f'<input class="sheet-tolerance" aria-label="Tolerance of {label.lower()}" '
            'spellcheck="false" autocomplete="off" placeholder="±">'
        )
    origins = "".join(
        f'<option value="{key}">{escape("from?" if key == UNKNOWN else key)}</option>'
        for key in (UNKNOWN, *(key for key in ORIGINS if key != UNKNOWN))
    )
    usual_mark = "" if f.default is None else " data-usual"
    return (
        f'<div class="sheet-field" data-field="{f.name}" data-label="{label}"{usual_mark}'
        f"{chosen_by_boxes}>"
        f'<span class="sheet-label">{label} {symbol_html(declaration)}</span>'
        f'<span class="entry">{entry}{units}</span>'
        f'<select class="sheet-origin" aria-label="Where {label.lower()} came from"'
        f"{in_title_block}>{origins}</select>{tolerance or '<span></span>'}"
        f'<span class="sheet-help"><span class="hint">{escape(hint)}</span> '
        '<span class="sheet-use"></span></span>'
        '<span class="field-problem" hidden></span></div>'
    )
