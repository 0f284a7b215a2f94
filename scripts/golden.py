"""What each release gave: for every form some links with the numbers of their results.

    .venv/bin/python -m scripts.golden      writes those of the version that is being prepared

A folder `releases/<version>` has two files.  `numbers.toml` has the example of each form, the
example with each other choice and with every number moved by a tenth, and the links of the
versions before, whose numbers it gives anew; numbers are in SI units, tables are marked as
`calc/form/quoting.py` says.  `addresses.toml` is what links could name when it was released.

Neither is written again once the version is dated in CHANGELOG.md: `releases/SHA256SUMS` has the
digests of the versions before the one that is prepared.
"""

import hashlib
import json
import re
import shutil
import sys
import tomllib
from collections.abc import Iterator, Mapping
from functools import cache
from urllib.parse import quote, unquote

from calc import VERSION
from calc.catalogue import FORMULAS, formula
from calc.changes import name_now, place
from calc.declaration import Choice, inputs, outputs
from calc.form.calculation import Calculation, calculate, start
from calc.form.quoting import Quotable, is_same, numbers
from calc.form.reading import entry_of
from calc.quantity import Quantity
from scripts.environment import ROOT
from scripts.link_keys import KEPT as ADDRESSES

FOLDER = ROOT / "releases"
SUMS = FOLDER / "SHA256SUMS"
COMMAND = ".venv/bin/python -m scripts.golden"
CHANGELOG = ROOT / "CHANGELOG.md"
MOVED = 1.1, 0.9
"""Shares of its examples that a form is asked for too: the first that it has an answer to."""

Numbers = Mapping[str, Quotable]
Golden = dict[str, dict[str, dict[str, Quotable]]]
"""Numbers by formula and link."""


def versions() -> list[str]:
    """Return the versions whose numbers are kept, the oldest first."""
    return sorted((path.parent.name for path in FOLDER.glob("*/numbers.toml")), key=place)


@cache
def kept(version: str) -> Golden:
    """Return the numbers of a version."""
    return tomllib.loads((FOLDER / version / "numbers.toml").read_text("utf-8"))


def released(version: str) -> bool:
    """Return whether a version is dated in the changelog."""
    head = rf"^## {re.escape(version)}, \d{{4}}-\d\d-\d\d$"
    return bool(re.search(head, CHANGELOG.read_text("utf-8"), re.MULTILINE))


def sums() -> str:
    """Return the digests of the files of the versions before this one."""
    paths = [path for v in versions() if v != VERSION for path in sorted((FOLDER / v).iterdir())]
    digests = [hashlib.sha256(path.read_bytes()).hexdigest() for path in paths]
    names = [path.relative_to(FOLDER).as_posix() for path in paths]
    return "".join(f"{one}  {name}\n" for one, name in zip(digests, names, strict=True))


def links_of(name: str) -> list[str]:
    """Return links to a form: its example, the example otherwise chosen, and moved."""
    first = start(name)
    tried = [first, *_chosen(name, first)]
    moved = [_moved(name, share) for share in MOVED]
    tried += [entries for entries in moved if not calculate(name, entries).problems][:1]
    answered = [entries for entries in tried if not calculate(name, entries).problems]
    return list(dict.fromkeys(map(_link, answered)))


def calculation_of(name: str, link: str) -> Calculation:
    """Return what a link asks for now; what it lacks is as in the example."""
    entries = dict(part.split("=", 1) for part in link.split("&"))
    return calculate(name, start(name) | {key: unquote(text) for key, text in entries.items()})


def differing(name: str, then: Numbers, now: Numbers) -> list[str]:
    """Return the names of the numbers of a form that are no longer the same, or no longer there."""
    known = {f.name: f.declaration for f in outputs(formula(name))}
    return [
        key
        for key, value in then.items()
        for key_now in [name_now(name, key)]
        if key_now not in known or not is_same(known[key_now], value, now.get(key_now))
    ]


def all_links(name: str) -> list[str]:
    """Return the links of a form now, and those of every version before."""
    before = [link for v in versions() if v != VERSION for link in kept(v).get(name, {})]
    return list(dict.fromkeys([*before, *links_of(name)]))


def _chosen(name: str, first: dict[str, str]) -> Iterator[dict[str, str]]:
    for f in inputs(formula(name)):
        if isinstance(f.declaration, Choice):
            others = (option for option in f.declaration.options if option != first[f.name])
            yield from (first | {f.name: option} for option in others)


def _moved(name: str, share: float) -> dict[str, str]:
    """Return the example of a form with each of its numbers that is not whole moved."""
    return start(name) | {
        f.name: entry_of(f.declaration, f.start * share)
        for f in inputs(formula(name))
        if isinstance(f.declaration, Quantity) and not f.declaration.whole
    }


def _link(entries: Mapping[str, str]) -> str:
    return "&".join(f"{key}={quote(text, safe='/,;')}" for key, text in entries.items())


def written(golden: Golden, head: str) -> str:
    """Return numbers as the text of a file."""
    parts = [head]
    for name, links in golden.items():
        parts.append(f"\n[{json.dumps(name)}]\n")
        for link, found in links.items():
            pairs = ", ".join(f"{key} = {json.dumps(value)}" for key, value in found.items())
            parts.append(f"{json.dumps(link)} = {{ {pairs} }}\n")
    return "".join(parts)


def main() -> None:
    """Write the numbers of the version that is being prepared."""
    if released(VERSION):
        sys.exit(f"{VERSION} is released: raise calc.VERSION before its numbers change")
    golden = {
        name: {link: numbers(calculation_of(name, link)) for link in all_links(name)}
        for name in FORMULAS
    }
    head = f"# What the forms of release {VERSION} give. Written by: {COMMAND}\n"
    target = FOLDER / VERSION / "numbers.toml"
    target.parent.mkdir(exist_ok=True)
    target.write_text(written(golden, head), encoding="utf-8", newline="\n")
    shutil.copyfile(ADDRESSES, target.with_name("addresses.toml"))
    SUMS.write_text(sums(), encoding="utf-8", newline="\n")
    print(f"{target.relative_to(ROOT)}: {sum(map(len, golden.values()))} links")


if __name__ == "__main__":
    main()
