"""Releases as people and programs read them: what is new, and which numbers changed from what."""

import json
import re
from collections.abc import Iterator
from typing import NamedTuple

from calc import VERSION
from calc.catalogue import entry, formula
from calc.changes import CHANGES, Change, name_now
from calc.declaration import Table, outputs
from calc.form.quoting import NONE, Quotable, told_apart, written
from calc.form.showing import number
from calc.quantity import Quantity
from scripts.golden import CHANGELOG, differing, kept, versions
from scripts.page import page_of

NEXT = "Next"
"""The heading in the changelog of the version that is being prepared."""

MOST_CASES = 2
"""Numbers of a calculator that a page shows; the file for programs has all."""


class Moved(NamedTuple):
    """A number of a link that two releases give otherwise; None where there is none any more."""

    formula: str
    link: str
    result: str
    old: Quotable
    new: Quotable | None


def sections() -> dict[str, tuple[str, str]]:
    """Return the title and the text of each version in the changelog, the newest first."""
    _, *parts = re.split(r"^## (.+)$", CHANGELOG.read_text("utf-8"), flags=re.MULTILINE)
    found = {}
    for title, text in zip(parts[::2], parts[1::2], strict=True):
        version = VERSION if title == NEXT else title.partition(",")[0]
        found[version] = (f"{VERSION}, in preparation" if title == NEXT else title, text.strip())
    return found


def before(version: str) -> str | None:
    """Return the version before one, of those whose numbers are kept."""
    known = versions()
    place = known.index(version) if version in known else 0
    return known[place - 1] if place else None


def moved(version: str) -> list[Moved]:
    """Return the numbers that a version gives otherwise than the one before it."""
    earlier = before(version)
    if earlier is None:
        return []
    now = kept(version)
    return [
        Moved(name, link, result, numbers[result], now[name][link].get(name_now(name, result)))
        for name, links in kept(earlier).items()
        for link, numbers in links.items()
        for result in differing(name, numbers, now[name][link])
    ]


def changes_of(version: str) -> list[tuple[Change, list[Moved]]]:
    """Return the changes of a version, each with the numbers of its formulas that differ."""
    every = moved(version)
    return [
        (change, [one for one in every if one.formula in change.formulas])
        for change in CHANGES
        if change.version == version
    ]


def release_notes() -> str:
    """Return every release with its changed numbers and what is new, as Markdown."""
    parts = []
    for version, (title, text) in sections().items():
        parts.append(f'<span id="release-{version}"></span>\n\n## {title}')
        found = changes_of(version)
        if found:
            parts.append("### Numbers that changed { data-search-exclude }")
            parts += [part for change, cases in found for part in _change(change, cases)]
            parts.append("### What is new { data-search-exclude }")
        parts.append(text)
    return "\n\n".join(parts)


def changes_file() -> str:
    """Return the changes of every release, with all cases, as JSON."""
    releases = [
        {
            "release": version,
            "changes": [
                {
                    "formulas": change.formulas,
                    "what": change.what,
                    "why": change.why,
                    "cases": [case._asdict() for case in cases],
                }
                for change, cases in changes_of(version)
            ],
        }
        for version in reversed(versions())
    ]
    return json.dumps(releases, indent=1, ensure_ascii=False) + "\n"


def _change(change: Change, cases: list[Moved]) -> Iterator[str]:
    """Yield a change in words and a table of some of its numbers."""
    yield f"**{change.what}** {change.why}"
    rows = ["| Calculator | Result | Old | New |", "| - | - | -: | -: |"]
    for name in change.formulas:
        own = [one for one in cases if one.formula == name]
        there = [one for one in own if one.new is not None] or own
        numbers = [one for one in there if isinstance(one.old, float)] or there
        once = {one.result: one for one in reversed(numbers)}
        rows += [_row(one, change.version) for one in list(once.values())[::-1][:MOST_CASES]]
    yield "\n".join(rows)


def _row(one: Moved, version: str) -> str:
    """Return a row of the table; its link opens with what the release before gave."""
    declared = {f.name: f.declaration for f in outputs(formula(one.formula))}
    declaration = declared.get(name_now(one.formula, one.result))
    address, _, short = page_of(one.formula).partition("#")
    keys = [*one.link.split("&"), f"release={before(version)}", f"quoted={_quoted(one)}"]
    link = f"{address}#{'&'.join(f'{short}.{key}' for key in keys)}"
    if isinstance(declaration, Quantity):
        shown = _shown(declaration, one.old), _shown(declaration, one.new)
    elif isinstance(declaration, Table) and one.new is not None:
        shown = told_apart(declaration, str(one.old), str(one.new))
    else:
        labels = [f"“{d.label}”" for d in declared.values() if isinstance(d, Quantity | Table)]
        shown = "", f"in its place: {', '.join(labels)}"
    title = entry(one.formula).title
    named = title if one.result == short else one.result.replace("_", " ").capitalize()
    label = declaration.label if declaration else named
    return f"| [{title}]({link}) | {label} | {shown[0]} | {shown[1]} |"


def _quoted(one: Moved) -> str:
    return f"{one.result}_{written(one.old)}"


def _shown(quantity: Quantity, value: Quotable | None) -> str:
    if not isinstance(value, float):
        return NONE
    unit = quantity.units[0]
    return f"{number(quantity, value, unit)} {unit.name}".rstrip()
