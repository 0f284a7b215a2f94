"""The keys of links and the anchors of pages, which are kept for ever in tests/link_keys.toml.

.venv/bin/python -m scripts.link_keys site    adds those that are new, of `calc` and a built site
"""

import json
import re
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path

from calc.catalogue import FORMULAS, formula
from calc.declaration import Choice, Declaration, Table, inputs
from calc.quantity import Quantity
from scripts.environment import ROOT

KEPT = ROOT / "tests" / "link_keys.toml"
COMMAND = ".venv/bin/python -m scripts.link_keys site"
HEAD = f"""# What links that were once shared may hold.  Nothing here is ever taken away or renamed.
# A formula has its inputs, an input its units or options; the columns of a table have numbers,
# since the cells of a row stand in their order; a page has the anchors of its forms, equations
# and figures.  Made longer by: {COMMAND}
"""
ANCHOR = re.compile(
    r'<(?:form class="calculator"|div class="equation\b[^"]*"|figure class="[^"]*"'
    r'|section class="exercise") id="([^"]+)"'
)

Keys = dict[str, dict[str, list[str]]]
"""What a formula takes, by input, and the anchors of a page; by the name of formula or page."""


def kept() -> Keys:
    """Return the keys that were kept."""
    return tomllib.loads(KEPT.read_text(encoding="utf-8")) if KEPT.exists() else {}


def formula_keys() -> Keys:
    """Return the keys of every formula of the catalogue."""
    return {name: dict(_input_keys(name)) for name in FORMULAS}


def page_keys(site: Path) -> Keys:
    """Return the anchors of every page of a built site."""
    pages = sorted(site.rglob("*.html"))
    found = {page: ANCHOR.findall(page.read_text(encoding="utf-8")) for page in pages}
    return {page.relative_to(site).as_posix(): {"anchors": ids} for page, ids in found.items()}


def each(keys: Keys) -> set[tuple[str, ...]]:
    """Return every single key, with the names of what it belongs to before it."""
    return {
        place
        for name, entries in keys.items()
        for entry, words in entries.items()
        for place in [(name, entry), *((name, entry, word) for word in words)]
    }


def _input_keys(name: str) -> Iterator[tuple[str, list[str]]]:
    for field in inputs(formula(name)):
        yield field.name, _words(field.declaration)
        if isinstance(field.declaration, Table):
            for number, column in enumerate(inputs(field.declaration.row), 1):
                yield f"{field.name} {number} {column.name}", _words(column.declaration)


def _words(declaration: Declaration) -> list[str]:
    match declaration:
        case Quantity():
            return [unit.key for unit in declaration.units]
        case Choice():
            return list(declaration.options)
        case _:
            return []


def _with(old: Keys, new: Keys) -> Keys:
    """Return keys with those added to them that are new."""
    both = {name: {entry: list(words) for entry, words in old[name].items()} for name in old}
    for name, entries in new.items():
        for entry, words in entries.items():
            there = both.setdefault(name, {}).setdefault(entry, [])
            there += [word for word in words if word not in there]
    return both


def main() -> None:
    """Add what is new to the kept keys."""
    keys = _with(_with(kept(), formula_keys()), page_keys(Path(sys.argv[1])))
    parts = [HEAD]
    for name in sorted(keys):
        parts.append(f"\n[{json.dumps(name)}]\n")
        for entry, words in keys[name].items():
            key = json.dumps(entry) if " " in entry else entry
            parts.append(f"{key} = {json.dumps(words, ensure_ascii=False)}\n")
    KEPT.write_text("".join(parts), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
