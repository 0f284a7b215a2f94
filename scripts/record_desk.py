"""The record desk as HTML: a file, the reading of it, and the views with their fields."""

from html import escape

from calc.declaration import Choice
from calc.form.unit_list import limits_hint
from calc.measurement.synthetic import EXAMPLES
from calc.quantity import Quantity
from calc.record.fields import COMMON, STIMULUS, TRAIN, VIEWS, Entry, View

COPIES = (("text", "Copy as text"), ("markdown", "Copy as Markdown"))
FILES = (("csv", "Save as CSV"), ("svg", "Save the figure"))


def record_desk() -> str:
    """Return the desk of a page; scripts read a file, and the engine fills the views."""
    views = "\n".join(_view(key, view) for key, view in VIEWS.items())
    return f"""<div class="record" id="record" data-search-exclude>
<noscript><p class="warning"><strong>Note</strong> Reading a record needs JavaScript and
WebAssembly. The command <code>python3 -m calc record FILE --out DIR</code> does the same without a
browser.</p></noscript>
<div class="record-bar"><label>Choose a record <input type="file" autocomplete="off"
accept=".csv,.tsv,.txt,.dat,.asc,text/plain,text/csv"></label>
<span>or drop it here, or open an example: {_examples()}</span>
</div>
<p class="record-trouble" role="alert" hidden></p>
<details class="record-setup" open hidden><summary>What the file holds:
<span class="record-file"></span></summary>
<div class="record-columns"></div>
<div class="record-bar"><button type="button" data-do="read">Read the file</button></div></details>
<div class="record-bar"><progress max="1" hidden aria-label="Share of the file that is read">
</progress>
<button type="button" data-do="stop" hidden>Stop reading</button>
<span class="record-progress" role="status"></span></div>
<div class="record-told"></div>
<div class="record-views" hidden>
<fieldset class="record-common"><legend>Looked at in all views</legend>
<label>Channel <select name="channel"></select></label>
{"".join(map(_field, (*COMMON, *TRAIN)))}</fieldset>
{views}
</div>
</div>
"""


def _examples() -> str:
    return " ".join(
        f'<button type="button" data-do="example" data-example="{key}">{escape(title)}</button>'
        for key, (title, _) in EXAMPLES.items()
    )


def _view(key: str, view: View) -> str:
    zoom, buttons = "", ""
    if view.zoom:
        zoom = f' data-low="{view.zoom[0]}" data-high="{view.zoom[1]}"'
        buttons = (
            '<span class="record-zoom"><button type="button" data-do="closer">Zoom in</button> '
            '<button type="button" data-do="wider">Zoom out</button> '
            '<button type="button" data-do="whole">Show all</button></span>'
        )
    copies = " ".join(
        f'<button type="button" data-do="copy" data-kind="{kind}">{words}</button>'
        for kind, words in COPIES
    )
    files = " ".join(
        f'<button type="button" data-save="{kind}">{words}</button>' for kind, words in FILES
    )
    return (
        f'<details class="record-view" data-view="{key}"{zoom}{" open" if view.opened else ""}>'
        f"<summary>{escape(view.title)} <span>{escape(view.purpose)}</span></summary>"
        f'<div class="record-fields">{"".join(map(_field, view.entries))}</div>'
        f'<div class="record-bar">{buttons}<span class="record-words" role="status"></span>'
        '<button type="button" data-do="stopView" hidden>Stop (Esc)</button></div>'
        f'<div class="record-result"></div>'
        f'<div class="record-bar record-take">{copies} {files}</div></details>'
    )


def _field(entry: Entry) -> str:
    name, declaration, start, empty = entry
    label = escape(declaration.label)
    if isinstance(declaration, Choice):
        options = "".join(
            f'<option value="{key}"{" selected" if key == start else ""}>{escape(words)}</option>'
            for key, words in declaration.options.items()
        )
        return f'<label>{label} <select name="{name}">{options}</select></label>'
    if entry is STIMULUS:
        return (
            f'<label>{label} <select name="{name}" data-empty="{escape(empty)}"></select></label>'
        )
    unit, hint = "", ""
    if isinstance(declaration, Quantity):
        first = declaration.units[0]
        unit = f" ({first.name})" if first.name else ""
        hint = f' title="{escape(limits_hint(declaration, first))}"'
    return (
        f'<label>{label}{unit} <input name="{name}" value="{escape(start)}" spellcheck="false" '
        f'autocomplete="off" placeholder="{escape(empty)}"{hint}></label>'
    )
