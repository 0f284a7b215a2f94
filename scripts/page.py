"""What the pages' snippets print: forms, symbol tables, published cases, citations, figures."""

import math
from collections.abc import Iterator
from html import escape
from typing import Any
from urllib.parse import quote

from matplotlib.figure import Figure

from calc.catalogue import FORMULAS, entry, formula
from calc.chart import Chart, Panels, Polar
from calc.declaration import Choice, Field, Table, inputs, outputs
from calc.digits import plain
from calc.examples import CURLEW, PLOVER
from calc.form.calculation import calculate
from calc.form.fields import form_html
from calc.form.reading import entry_of
from calc.form.unit_list import system_list
from calc.quantity import Quantity
from calc.unit_systems import SYSTEMS, unit_of
from calc.units import FAMILIES, RPM, si_unit
from scripts.checks import checked, coverage, every_check, tally
from scripts.drawings import DRAWINGS
from scripts.figure import svg
from scripts.glossary import glossary
from scripts.references import cite, page_link, references, source_list
from scripts.stepped import STEPPED

__all__ = [
    "checked",
    "cite",
    "coverage",
    "drawing",
    "every_check",
    "example_rotorcraft",
    "figure",
    "form",
    "glossary_terms",
    "page_of",
    "references",
    "set_form",
    "shared_symbols",
    "source_list",
    "stepped",
    "symbol_list",
    "symbols",
    "system_choice",
    "tally",
    "unit_list",
    "unit_systems",
]


OFFERED = {
    "wing_lift_share": (
        "A wing at a fixed angle has another lift share at each airspeed: ",
        "flight.wing.wing_state",
    ),
    "propeller_thrust_share": (
        "The propeller thrust that leaves no shaft torque on the rotor: ",
        "flight.level_power.level_flight_power",
    ),
}
"""Inputs that another form works out: what is said under a form that asks for one, and the form."""


def form(name: str) -> str:
    """Return a live form, with the names under which search finds it and where inputs come from."""
    aliases = entry(name).aliases
    found = f'<p class="aliases">Also known as {escape(aliases)}.</p>\n' if aliases else ""
    return form_html(name) + found + _offers(name)


def set_form(name: str, words: str, **values: Any) -> str:
    """Return a Markdown link to a form with set values in SI; what is not set is as it starts.

    Raises:
        ValueError: If the form has no such input or gives no answer.
    """
    fields = inputs(formula(name))
    unknown = values.keys() - {f.name for f in fields}
    if unknown:
        raise ValueError(f"{name} has no input {', '.join(sorted(unknown))}")
    entries = {f.name: entry_of(f.declaration, values.get(f.name, f.start)) for f in fields}
    problems = calculate(name, entries).problems
    if problems:
        raise ValueError(f"{name}: {problems[0].message}")
    address, _, short = page_of(name).partition("#")
    keys = "&".join(f"{short}.{key}={quote(text, safe='/,;')}" for key, text in entries.items())
    return f"[{words}](../{address}#{keys})"


def _offers(name: str) -> str:
    """Return links to the forms that work out inputs of a form of another chapter."""
    asked = {field.name for field in inputs(formula(name))}
    return "".join(
        f'<p class="aliases">{words}<a href="../{page_of(other)}">{escape(entry(other).title)}</a>.'
        "</p>\n"
        for key, (words, other) in OFFERED.items()
        if key in asked and name.partition(".")[0] != other.partition(".")[0]
    )


def figure(drawn: Figure, identity: str, title: str, caption: str) -> str:
    """Return a figure with its caption; `title` says what is drawn, for those who do not see it."""
    return (
        f'<figure class="drawn" id="{identity}">\n<div class="scroll-box">'
        f"{svg(drawn, f'{identity}-svg', title, caption)}</div>\n"
        f"<figcaption>{escape(caption)}</figcaption>\n</figure>"
    )


def chart(drawn: Chart | Panels | Polar, identity: str, caption: str) -> str:
    """Return a figure drawn as those of the forms are, with its caption and its data."""
    return (
        f'<figure class="drawn" id="{identity}">\n<div class="scroll-box">'
        f"{drawn.svg(f'{identity}-svg')}</div>\n"
        f"<figcaption>{escape(caption)}{_data(drawn.table())}</figcaption>\n</figure>"
    )


def drawing(name: str, identity: str = "") -> str:
    """Return a drawing of what symbols mean; where it stands on a second page it has another id."""
    return DRAWINGS[name]().html(identity or f"drawing-{name.replace('_', '-')}")


def stepped(name: str, identity: str = "") -> str:
    """Return a figure that is shown step by step; on a second page it has another id."""
    return STEPPED[name]().html(identity or f"steps-{name.replace('_', '-')}")


def symbols(*names: str) -> str:
    """Return the inputs and outputs of formulas as a Markdown table, each quantity once."""
    rows = ["| Symbol | Quantity | SI unit | Limits | Covered range |", "| - | - | - | - | - |"]
    for name in names:
        for f in [*inputs(formula(name)), *outputs(formula(name))]:
            row = _symbol_row(f)
            if row and row not in rows:
                rows.append(row)
    return "\n".join(rows)


def remarks(*results: Any) -> str:
    """Return what of results lies outside its covered range, for a table of a worked example."""
    texts: dict[str, None] = {}
    for result in results:
        row: Any = type(result)
        for f in inputs(row):
            value = getattr(result, f.name)
            if isinstance(f.declaration, Quantity) and value is not None:
                texts[f.declaration.outside(value, f.declaration.units[0])] = None
    return "; ".join(filter(None, texts))


def symbol_list() -> str:
    """Return every declared quantity with the calculators that use it, sorted by label."""
    found: dict[str, tuple[Quantity, list[str]]] = {}
    for name, quantity in _declared():
        key = f"{quantity.label} {quantity.symbol}"
        users = found.setdefault(key, (quantity, []))[1]
        if name not in users:
            users.append(name)
    rows = ["| Quantity | Symbol | SI unit | Used in |", "| - | - | - | - |"]
    for _, (quantity, users) in sorted(found.items(), key=lambda item: item[0].lower()):
        links = ", ".join(map(_link, users))
        sign = _sign(quantity.symbol)
        rows.append(f"| {quantity.label} | {sign} | {quantity.si.name or '–'} | {links} |")
    return "\n".join(rows)


def glossary_terms() -> str:
    """Return the glossary, with the symbols that are declared."""
    return glossary({quantity.label: quantity.symbol for _, quantity in _declared()})


def shared_symbols() -> str:
    """Return the symbols that stand for more than one quantity, with what they stand for."""
    found: dict[str, dict[str, None]] = {}
    for _, quantity in _declared():
        if quantity.symbol:
            label = f"{quantity.label}, {quantity.si.name}".removesuffix(", ")
            found.setdefault(quantity.symbol, {})[label] = None
    rows = ["| Symbol | Stands for |", "| - | - |"]
    rows += [
        f"| {_sign(symbol)} | {'; '.join(sorted(labels))} |"
        for symbol, labels in sorted(found.items(), key=lambda item: item[0].lstrip("\\").lower())
        if len(labels) > 1
    ]
    return "\n".join(rows)


def _declared() -> Iterator[tuple[str, Quantity]]:
    """Yield the quantities of every form, those of its tables too, with the name of the form."""
    for name in FORMULAS:
        fields = [*inputs(formula(name)), *outputs(formula(name))]
        tables = [f.declaration for f in fields if isinstance(f.declaration, Table)]
        for f in [*fields, *(column for table in tables for column in inputs(table.row))]:
            if isinstance(f.declaration, Quantity):
                yield name, f.declaration


def system_choice() -> str:
    """Return the list in which a reader chooses the units of the whole handbook."""
    return f"<p>{system_list()}</p>"


def unit_systems() -> str:
    """Return what each system of units shows, where they differ, as a Markdown table."""
    rows = [f"| {' | '.join(SYSTEMS.values())} |", "| - " * len(SYSTEMS) + "|"]
    for family in FAMILIES:
        shown = [unit_of(family, system).name for system in SYSTEMS]
        row = f"| {' | '.join(shown)} |"
        if len(set(shown)) > 1 and row not in rows:
            rows.append(row)
    return "\n".join(rows)


def unit_list() -> str:
    """Return every unit a form reads, by kind of quantity."""
    rows = ["| Unit | Name | In SI | May be typed as |", "| - | - | -: | - |"]
    for family in FAMILIES:
        si = si_unit(family)
        for unit in family:
            size = f"{plain(unit.size, 12)} {si.name}" if unit.name else ""
            shift = f" + {plain(unit.zero, 8)} {si.name}" if unit.zero else ""
            typed = ", ".join(f"`{name}`" for name in dict.fromkeys((unit.key, *unit.also)) if name)
            row = f"| {unit.name} | {unit.words} | {size}{shift} | {typed} |"
            if unit.name and row not in rows:
                rows.append(row)
    return "\n".join(rows)


def example_rotorcraft() -> str:
    """Return the invented rotorcraft of the worked examples as a Markdown table."""
    rows = [
        "| Example | Mass | Blades | Radius | Rotor speed | Tip speed |",
        "| - | -: | -: | -: | -: | -: |",
    ]
    rows += [
        f"| {craft.name} | {craft.mass:.0f} kg | {craft.blades} | {craft.radius} m "
        f"| {RPM.reading(craft.rotor_speed):.0f} rpm "
        f"| {craft.rotor_speed * craft.radius:.0f} m/s |"
        for craft in (PLOVER, CURLEW)
    ]
    return "\n".join(rows)


def page_of(name: str) -> str:
    """Return the address of a formula's form, from the top of the site."""
    chapter, topic, short = name.split(".")
    return f"{chapter}/{topic}.html#{short}"


def _link(name: str) -> str:
    return page_link(entry(name).title, page_of(name))


def _data(table: list[list[str]]) -> str:
    """Return the data of a figure as a table that is folded at first."""
    head = "".join(f'<th scope="col">{escape(cell)}</th>' for cell in table[0])
    rows = "".join(
        f"<tr>{''.join(f'<td>{escape(cell)}</td>' for cell in row)}</tr>" for row in table[1:]
    )
    return (
        '<details class="figure-data"><summary>Data of the figure</summary>'
        '<div class="scroll-box" tabindex="0"><table class="table">'
        f"<thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table></div></details>"
    )


def _sign(symbol: str) -> str:
    """Return a symbol for a cell of a table, in which an upright bar would end the cell."""
    written = symbol.replace("|", r"\vert ")
    return f"${written}$" if symbol else ""


def _symbol_row(f: Field) -> str:
    match f.declaration:
        case Quantity() as quantity:
            unit = quantity.si
            covered = _covered(quantity)
            sign = _sign(quantity.symbol)
            limits = quantity.limits(unit)
            limits = "" if limits == "any number" else limits
            return f"| {sign} | {quantity.label} | {unit.name or '–'} | {limits} | {covered} |"
        case Choice() as choice:
            return f"| | {choice.label} | – | {' or '.join(choice.options.values())} | |"
        case Table() as table:
            return f"| | {table.label} | – | at most {table.at_most} rows | |"
        case _:
            return ""


def _covered(quantity: Quantity) -> str:
    low, high = quantity.covered
    shown = [quantity.show(end, quantity.si) for end in (low, high) if math.isfinite(end)]
    if not shown:
        return ""
    if len(shown) == 1:
        return f"from {shown[0]}" if math.isfinite(low) else f"up to {shown[0]}"
    return " to ".join(shown)
