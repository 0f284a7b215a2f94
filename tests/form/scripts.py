"""The scripts of the forms that need no page, run without a browser."""

from functools import cache
from typing import Any

from py_mini_racer import MiniRacer

from calc.catalogue import entry, formula
from calc.declaration import Choice, Declaration, Field, Name, Table, inputs, outputs
from calc.form.calculation import short_name
from calc.form.reading import entry_of
from calc.form.shown_in import named
from calc.form.unit_list import unit_phrase
from calc.quantity import Quantity
from calc.unit_systems import SYSTEMS, systems_of
from calc.units import Unit
from scripts.environment import ROOT

FOLDER = ROOT / "docs" / "assets" / "javascripts" / "form"


def called(function: str, *arguments: Any) -> Any:
    """Return what a function of the scripts returns, such as `link.fragment`."""
    return _engine().call(f"calculator.{function}", *arguments)


@cache
def _engine() -> MiniRacer:
    engine = MiniRacer()
    for name in ("entry", "link", "history", "rows", "state", "paste"):
        engine.eval(FOLDER.joinpath(f"{name}.js").read_text(encoding="utf-8"))
    return engine


def shape(name: str) -> dict[str, Any]:
    """Return a form as the scripts know it."""
    fields = {f.name: _field(f.declaration) for f in inputs(formula(name))}
    title = entry(name).title
    results = {
        key: [unit.key for unit in quantity.units]
        for key, quantity in named(outputs(formula(name)))
    }
    return {
        "name": short_name(name),
        "title": title,
        "keys": list(fields),
        "fields": fields,
        "systems": list(SYSTEMS),
        "results": results,
    }


def entries_of_link(name: str, fragment: str) -> dict[str, str]:
    """Return the entries that a link gives to a form."""
    opened: list[dict[str, Any]] = called("link.opened", fragment, [shape(name)])
    entries: dict[str, str] = opened[0]["entries"]
    return entries


def unit_facts(units: tuple[Unit, ...]) -> list[dict[str, Any]]:
    """Return units as the scripts know them."""
    return [
        {
            "key": unit.key,
            "name": unit.name,
            "size": unit.size,
            "zero": unit.zero,
            "also": list(unit.also),
            "words": unit_phrase(unit),
            "systems": systems_of(unit, units),
        }
        for unit in units
    ]


def _cell(column: Field) -> dict[str, Any]:
    text = entry_of(column.declaration, column.start)
    if not isinstance(column.declaration, Quantity):
        return {"text": text}
    return {"text": text.partition("_")[0], "unit": column.declaration.units[0].key}


def _field(declaration: Declaration) -> dict[str, Any]:
    match declaration:
        case Quantity():
            found: dict[str, Any] = {"kind": "number", "units": unit_facts(declaration.units)}
        case Choice():
            options = [{"key": key, "label": text} for key, text in declaration.options.items()]
            found = {"kind": "choice", "options": options}
        case Name():
            found = {"kind": "word"}
        case Table():
            columns = inputs(declaration.row)
            found = {
                "kind": "table",
                "atMost": declaration.at_most,
                "leastCells": sum(c.default is None for c in columns),
                "columns": [_field(c.declaration) for c in columns],
                "empty": [_cell(c) for c in columns],
            }
    return found | {"label": declaration.label}
