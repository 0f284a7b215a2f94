"""Card page: a ground-run card on paper, black on white, with space for what is read and signed."""

from collections.abc import Iterable, Iterator, Sequence
from html import escape

from calc.sheet.layout import section
from calc.sheet.sheet import Sheet, in_words, value_read
from calc.survey.card.basis import data_rows, rule_rows, wider
from calc.survey.card.card import Card, CardState, card
from calc.survey.card.steps import held_within, lines_table, steps_table
from calc.survey.card.words import (
    BEFORE,
    CHANNELS,
    CONFIGURATION,
    DANGER,
    EVERY,
    KNOWN,
    LIMITS,
    OF_BLADES,
    ON_STOP,
    ROLES,
    RUN,
    TIMES,
    stops,
)
from calc.survey.printed import foot_of, made_from, page, table, title_block
from calc.units import RPM

TITLE = "Ground-run card"
USUAL_BLADES, MOST_BLADES = 4, 12
"""Columns for blades where their number is unknown, and where there is no room for more."""

STYLE = """
body{font-size:9.5pt;color:#000;max-width:50rem}h1{margin:.2rem 0;font-size:1.5rem}
h2{font-size:1.05rem;margin:.8rem 0 .2rem;border-top:2px solid #000;padding-top:.3rem}
p{margin:.25rem 0}.danger{border:3px solid #000;background:none;padding:.3rem .8rem}
ol,ul{margin:.2rem 0;padding-left:1.4rem}.needs{border:2px solid #000;background:none}
table{width:calc(100% - 2px);margin:.3rem 0}th,td{border:1px solid #000;padding:.12rem .3rem}
th,td{overflow-wrap:break-word}thead th{border-bottom-width:2px;vertical-align:bottom}
.title-block :is(th,td){border:1px solid #000;padding:.1rem .3rem;height:1.35rem}
.title-block th{color:#000;width:24%}.title-block td{width:26%}.order td{height:1.35rem}
.fill{table-layout:fixed}.fill td{height:1.35rem}
.steps{font-size:8pt;line-height:1.25;table-layout:fixed}
.steps :is(th,td){padding:.12rem .15rem}.steps small{white-space:normal}
.steps .sheet th{border:0;border-bottom:2px solid #000;font-size:9pt;padding:.1rem 0}
.steps .read{height:1.6rem}.steps .also{height:1.5rem}.steps .also small{color:#333}
.steps tbody,.steps tr{break-inside:avoid}
.steps tbody tr:first-child{break-before:auto}.steps tr:not(:last-child){break-after:avoid}
.steps tbody tr:first-child td{border-top-width:2px}.number{text-align:right}
.end td{font-weight:600}.whole{break-inside:avoid}.state{break-before:page}
@media screen{.steps,.lines{min-width:44rem}}
@media print{body{font-size:9pt}.part{break-before:page}table{font-size:8pt}
.steps,.lines{font-size:7.5pt}th,td{overflow-wrap:break-word}}
"""


def card_page(sheet: Sheet, digest: str) -> str:
    """Return the ground-run card of a data sheet as an HTML page that needs nothing else.

    Args:
        sheet: The data sheet.
        digest: SHA-256 of its file.

    Returns:
        The page, the same bytes each time; without steps where the sheet lacks what they need.
    """
    found = card(sheet)
    name = sheet.title or "Data sheet without a title"
    parts = [*_front(sheet, found, name, digest), *_blanks(sheet, found)]
    if not found.lacks:
        parts += [*_before(found), *_channels(), *_states(found, name, digest), *_lines(found)]
        parts += _basis(sheet, found)
    else:
        parts += _channels()
    return page(f"{TITLE}: {name}", parts, foot_of(f"{TITLE}: {name}", digest), STYLE)


def _front(sheet: Sheet, found: Card, name: str, digest: str) -> Iterator[str]:
    """Yield the first sheet: what this is, who answers, and the order of the run."""
    yield f"<h1>{TITLE}: {escape(name)}</h1>"
    yield made_from(digest)
    if sheet.note:
        yield f"<p>{escape(sheet.note)}</p>"
    yield f'<div class="danger">{DANGER}</div>'
    yield "<h2>Run and people</h2>"
    yield title_block((label, "") for label in RUN)
    widths = (34, 26, 26, 14)
    yield _fill(["Role", "Name", "Signature", "Date"], widths, [[role] for role in ROLES])
    yield "<h2>Order of the run</h2>"
    if found.lacks:
        yield (
            '<div class="needs"><p><strong>No steps, times, order of states or stop criteria can '
            "be given: there is no run with this card. The sheet lacks:</strong></p>"
            f"<ul>{_items(found.lacks)}</ul></div>"
        )
        return
    yield f"<p><strong>{escape(found.summary)}.</strong></p>"
    yield _order(found)


def _order(found: Card) -> str:
    rows = [
        [
            str(number),
            escape(state.planned.name),
            _speed(state.planned.from_speed) if state.steps else "–",
            _speed(state.last_speed),
            str(len(state.steps)),
            "<br>".join(map(escape, filter(None, [state.why, state.planned.condition]))),
            "",
        ]
        for number, state in enumerate(found.states, 1)
    ]
    heads = ["Run", "State", "From", "Last step", "Steps", "Why it ends there", "Released"]
    return _ruled(heads, (5, 14, 8, 9, 6.5, 48.5, 9), rows, "order")


def _blanks(sheet: Sheet, found: Card) -> Iterator[str]:
    """Yield the second sheet: the configuration and the limits, to fill in."""
    yield '<h2 class="part">Configuration, as found before the run</h2>'
    yield _configuration(sheet)
    steps = [one for state in found.states for one in state.steps]
    least = min(steps, key=lambda one: one.tolerance, default=None)
    held = f" (the steps ask for ± {held_within(least)} rpm)" if least else ""
    yield "<h2>Limits of the day, to fill in and sign</h2>"
    yield "<p>None is given here: the test authority takes each from the approved documents.</p>"
    heads = ["Limit", "Caution", "Stop", "Unit, sensor", "From document", "Signed"]
    yield _fill(
        heads, (30, 12, 12, 18, 16, 12), [[limit.replace("{held}", held)] for limit in LIMITS]
    )


def _channels() -> Iterator[str]:
    yield '<section class="whole"><h2>Channels</h2>'
    yield "<p>A generic list: adapt it to the aircraft and strike out what is not there.</p>"
    heads = ["Channel", "For", "Sensor, serial", "Range", "Checked"]
    yield _fill(heads, (42, 27, 13, 9, 9), list(map(list, CHANNELS)))
    yield "</section>"


def _configuration(sheet: Sheet) -> str:
    """Return the lines of the configuration, with the mass and number of blades of the sheet."""
    mass = sheet.value("rotorcraft.mass")
    field = section("rotorcraft").field("mass")
    said = f" (sheet: {in_words(field, mass)})" if mass and mass.is_known else ""
    lines = [(label.replace("{mass}", said), "") for label in CONFIGURATION]
    count = _blades(sheet)
    widths = (28, *(72 / count,) * count)
    return title_block(lines) + _fill(
        ["Blade", *map(str, range(1, count + 1))], widths, [[line] for line in OF_BLADES]
    )


def _blades(sheet: Sheet) -> int:
    """Return the number of blades that a card has room for."""
    value = sheet.value("rotorcraft.blades")
    if value is None or not value.is_known:
        return USUAL_BLADES
    read = value_read(section("rotorcraft").field("blades"), value).value
    return min(max(int(read), 1), MOST_BLADES)


def _before(found: Card) -> Iterator[str]:
    """Yield what comes before each run, what a failed damper does, and the stop criteria."""
    yield f'<h2 class="part">Before each run</h2><ul>{_items(BEFORE)}</ul>'
    heads = ["State", "One lag damper out", "One lag damper seized", "What the pilot does on STOP"]
    rows = [
        [escape(state.planned.name), *_dampers(found, state), ""]
        for state in found.states
        if state.damper
    ]
    yield "<p>What a lag damper that fails would do, at the bad end of the uncertainties:</p>"
    yield _ruled(heads, (16, 27, 27, 30), rows, "fill")
    yield "<h2>On STOP, to fill in and brief</h2>"
    heads = ["", "As briefed and tried", "From document", "Signed"]
    yield _fill(heads, (38, 36, 16, 10), [[line] for line in ON_STOP])
    yield f"<h2>Stop criteria: any one stops the run</h2><ol>{_items(stops(found))}</ol>"


def _dampers(found: Card, state: CardState) -> Iterator[str]:
    """Yield what one damper out and one seized do, against the last step of the card."""
    damper, last = state.damper, state.last_speed or 0.0
    assert damper is not None
    for first, words in ((damper.out_from, damper.out), (damper.seized_from, damper.seized)):
        if first is None:
            yield escape(words)
        elif first <= last:
            yield f"<strong>unstable within the run, from {_speed(first)}</strong>: {EVERY}"
        else:
            near = ", within the stand-off" if found.rules.closed(first, first)[0] < last else ""
            above = f"{first / last - 1.0:.0%} above the last step"
            yield f"unstable from {_speed(first)}, {above}{near}"


def _states(found: Card, name: str, digest: str) -> Iterator[str]:
    title = f"{TITLE}: {name}, data sheet {digest[:12]}"
    for number, state in enumerate(found.states, 1):
        if state.steps:
            yield f'<section class="state">{steps_table(state, number, title)}</section>'


def _lines(found: Card) -> Iterator[str]:
    """Yield the lines at each rotor speed, how the times are found, and what to know."""
    yield '<h2 class="part">Expected lines, Hz</h2>'
    if found.lines.lacks:
        lacks = _items(found.lines.lacks)
        yield f'<div class="needs"><p>Cannot be given. It needs:</p><ul>{lacks}</ul></div>'
    else:
        yield lines_table(found)
    yield f"<h2>How the times are found</h2><ul>{_items(TIMES)}</ul>"


def _basis(sheet: Sheet, found: Card) -> Iterator[str]:
    """Yield what the steps stand on, and what to know of them."""
    notes = (*wider(sheet, found.rules), *found.notes)
    yield f'<h2 class="part">To know</h2><ul>{_items((*KNOWN, *notes))}</ul>'
    yield "<h2>Data of the sheet that the steps stand on</h2>"
    rows = [list(map(escape, row)) for row in data_rows(sheet, found.asked)]
    yield _ruled(["", "Value", "From", "Tolerance"], (46, 20, 20, 14), rows, "basis")
    yield "<h2>Rules of the run, common practice without a source</h2>"
    rows = [list(map(escape, row)) for row in rule_rows(found.rules)]
    yield _ruled(["", "Value"], (80, 20), rows, "basis")


def _items(texts: Iterable[str]) -> str:
    return "".join(f"<li>{escape(text)}</li>" for text in texts)


def _fill(heads: Sequence[str], widths: Sequence[float], rows: Sequence[Sequence[str]]) -> str:
    """Return a table to write in, whose rows go on with blank cells; its cells are text."""
    full = [[*map(escape, row), *[""] * (len(heads) - len(row))] for row in rows]
    return _ruled(heads, widths, full, "fill")


def _ruled(
    heads: Sequence[str], widths: Sequence[float], rows: Sequence[Sequence[str]], kind: str
) -> str:
    """Return a table with its columns as wide as said, in per cent; the cells of rows are HTML."""
    columns = "".join(f'<col style="width:{width:.4g}%">' for width in widths)
    opened = f'<table class="{kind}"><colgroup>{columns}</colgroup>'
    return table("", heads, rows).replace("<table>", opened, 1)


def _speed(speed: float | None) -> str:
    return "–" if speed is None else f"{RPM.reading(speed):.0f} rpm"
