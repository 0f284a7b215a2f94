"""Card steps: the table of a state, with space for each reading, and the table of lines."""

import math
from collections.abc import Iterator
from html import escape

from calc.survey.card.card import Card, CardState, CardStep
from calc.survey.card.dwell import LONGEST
from calc.survey.card.expected_lines import nearest
from calc.survey.card.hold import modes_at_once_per_revolution
from calc.survey.printed import table
from calc.units import RPM

COLUMNS = (
    ("Step", 5.0),
    ("Rotor speed, rpm", 9.5),
    ("What to do, and why", 21.0),
    ("Mode, predicted", 12.5),
    ("Stop below", 6.5),
    ("Time at least, s", 9.0),
    ("Rotor speed", 7.5),
    ("Hz", 7.0),
    ("Damping", 8.5),
    ("Go on?", 6.0),
    ("Initials", 7.5),
)
"""Heads of the columns with their widths in per cent."""

READ = 5
"""Columns that are left blank for what is read."""

ALSO_READ = (
    ("Clock", 1),
    ("Record", 1),
    ("Amplitude", 1),
    ("Zero at, rpm", 2),
    ("Damper, °C", 1),
)
"""Blanks under a step, with the columns that each takes; they begin under the modes."""

NO_STIR = "No stir below ______ rpm: droop and lag stops may be in."


def steps_table(state: CardState, number: int, title: str) -> str:
    """Return the steps of a state as a table whose head stands on every sheet."""
    widths = "".join(f'<col style="width:{width}%">' for _, width in COLUMNS)
    heads = "".join(f'<th scope="col">{head}</th>' for head, _ in COLUMNS[:-READ])
    reads = "".join(f'<th scope="col">{head}</th>' for head, _ in COLUMNS[-READ:])
    entered = f" ({escape(state.planned.condition)})" if state.planned.condition else ""
    sign = f"Run {number}: {escape(state.planned.name)}{entered}. {escape(title)}. {NO_STIR}"
    top = (
        f'<thead><tr class="sheet"><th colspan="{len(COLUMNS)}">{sign}</th></tr>'
        f'<tr><th colspan="{len(COLUMNS) - READ}">Predicted, and what to do</th>'
        f'<th colspan="{READ}">Read</th></tr><tr>{heads}{reads}</tr></thead>'
    )
    end = (
        f'<tr class="end"><td colspan="{len(COLUMNS)}">End of this run: '
        f"{escape(state.why)}. Run-down: every lower speed is passed again; no dwelling.</td></tr>"
    )
    *before, last = state.steps
    body = "".join(f"<tbody>{_step(step)}</tbody>" for step in before)
    body += f"<tbody>{_step(last)}{end}</tbody>"
    made = f'<table class="steps"><colgroup>{widths}</colgroup>{top}{body}</table>'
    return f'<div class="wide">{made}</div>'


def _step(one: CardStep) -> str:
    """Return the rows of a step: one for each mode that is followed."""
    step = one.step
    span = f' rowspan="{len(one.modes)}"' if len(one.modes) > 1 else ""
    whole = f' rowspan="{len(one.modes) + 1 if one.modes else 2}"'
    said = "".join(f"<br><small>{escape(text)}</small>" for text in _remarks(one))
    first = (
        f'<td{whole} class="number">{step.number}</td>'
        f"<td{whole}><strong>{RPM.reading(step.rotor_speed):.1f}</strong> "
        f"<small>± {held_within(one)}<br>{step.of_nominal:.0%}<br>"
        f"1/rev {step.rotor_speed / (2.0 * math.pi):.2f} Hz</small>"
        f"</td><td{whole}>{escape(step.instruction)}{said}</td>"
    )
    blank = 'class="read"></td>'
    before, after = f"<td{span}>{_times(one)}</td><td{span} {blank}", f"<td{whole} {blank}" * 2
    also = "".join(
        f'<td colspan="{columns}" class="also"><small>{label}</small></td>'
        for label, columns in ALSO_READ
    )
    if not one.modes:
        none = "<td>–</td>" * 2
        return f"<tr>{first}{none}{before}{none}{after}</tr><tr>{also}</tr>"
    rows = []
    for number, mode in enumerate(one.modes):
        stop = mode.stop_damping_ratio
        limit = "–" if stop is None else f"<strong>{stop:.1%}</strong>"
        predicted = (
            f"<td><strong>{mode.letter}</strong> {mode.motion}<br>"
            f"{mode.frequency:.2f} Hz, {mode.damping_ratio:.1%}</td><td>{limit}</td>"
        )
        read = "<td>–</td>" * 2 if stop is None else '<td class="read"></td>' * 2
        if number == 0:
            rows.append(f"<tr>{first}{predicted}{before}{read}{after}</tr>")
        else:
            rows.append(f"<tr>{predicted}{read}</tr>")
    return f"{''.join(rows)}<tr>{also}</tr>"


def held_within(one: CardStep) -> str:
    """Return the tolerance of the rotor speed of a step in rpm, rounded down."""
    return f"{math.floor(10.0 * RPM.reading(one.tolerance) + 1e-6) / 10.0:.1f}"


def _remarks(one: CardStep) -> Iterator[str]:
    """Yield why a rotor speed is a step, and what no record of it tells apart."""
    if one.reason:
        yield one.reason
    for mode in modes_at_once_per_revolution(one.step.rotor_speed, one.modes):
        yield (
            f"1/rev on {mode.words}: expect the peak of imbalance response; amplitude limit, "
            "shortest hold"
        )
    for named, other in one.dwell.too_near if one.dwell else ():
        yield f"{named} is near {other}: take the mean revolution out"


def _times(one: CardStep) -> str:
    """Return the times of a step in whole seconds, rounded up."""
    if one.dwell is None:
        return "pass"
    settling, record = math.ceil(one.dwell.settling), math.ceil(one.dwell.record)
    records = f"{one.dwell.records} × {record}" if one.dwell.records > 1 else str(record)
    least = settling + one.dwell.records * record
    return f"<strong>{least}</strong> + stir<br><small>{settling} + {records}</small>"


def lines_table(found: Card) -> str:
    """Return the expected lines at every rotor speed of the card, and what tells them apart."""
    speeds = {
        round(RPM.reading(one.step.rotor_speed), 1): one.step.rotor_speed
        for state in found.states
        for one in state.steps
    }
    rows, pairs = [], set()
    for shown, speed in sorted(speeds.items()):
        lines = found.lines.at(speed)
        pair = nearest(lines)
        cells = [f"{shown:.1f}", *(f"{frequency:.2f}" for _, frequency in lines)]
        if pair is None:
            rows.append([*cells, "–", ""])
            continue
        record = f"over {LONGEST:.0f}" if pair.record is None else str(math.ceil(pair.record))
        rows.append([*cells, record, escape(f"{pair.one}, {pair.other}")])
        pairs.add(f"{pair.one} and {pair.other}")
    heads = [
        "Rotor speed, rpm",
        *(line.name for line in found.lines.lines),
        "Nearest two lines apart, s",
    ]
    if len(pairs) == 1:
        (pair_named,) = pairs
        caption = f"The nearest two lines are at every speed {pair_named}"
        made = table(caption, heads, [row[:-1] for row in rows])
    else:
        made = table("", [*heads, "which are these"], rows)
    return made.replace("<table>", '<table class="lines">', 1)
