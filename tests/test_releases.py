"""Numbers from release to release: each that changed has its reason, and each reason its numbers.

The numbers in releases/ are those of our own program.  That is right here and nowhere else: what
is asked is whether a number changed, not whether it is true.  A relative difference of 1e-9 is
allowed, since engines and machines agree to that.
"""

import json
import re

import pytest

from calc import VERSION, changes
from calc.catalogue import FORMULAS
from calc.changes import CHANGES, Change
from calc.form.quoting import numbers
from scripts.golden import COMMAND, calculation_of, differing, kept, versions
from scripts.releases import before, changes_file, changes_of, moved, release_notes, sections

TIP = "rotor.tip_speed.tip_speed"
FEW = 3
"""Links of a form that every run computes; the thorough tests compute all."""


@pytest.mark.parametrize("name", FORMULAS)
def test_numbers_are_those_that_are_kept(name: str) -> None:
    """What a form gives for the links of this release and of all before it is in its file.

    When this fails a number has changed.  In a version that is not released yet: keep it anew.
    """
    assert kept(VERSION).get(name), f"Keep its numbers by {COMMAND}"
    assert changed(name, list(kept(VERSION)[name])[:FEW]) == {}, f"Keep: {COMMAND}"


@pytest.mark.thorough
@pytest.mark.parametrize("name", FORMULAS)
def test_every_number_is_the_one_that_is_kept(name: str) -> None:
    """The same for every link."""
    assert changed(name, list(kept(VERSION)[name])) == {}


def changed(name: str, links: list[str]) -> dict[str, list[str]]:
    """Return the links whose numbers are others than those that are kept, with their names."""
    now = {link: numbers(calculation_of(name, link)) for link in links}
    names = {link: differing(name, kept(VERSION)[name][link], now[link]) for link in links}
    return {link: some for link, some in names.items() if some}


def test_no_form_or_link_is_lost() -> None:
    """Each form of a release, and each link that is kept of it, is in the files after it."""
    for version in versions()[1:]:
        earlier, now = kept(before(version) or ""), kept(version)
        assert earlier.keys() - now.keys() == set()
        assert [link for name in earlier for link in earlier[name].keys() - now[name].keys()] == []


def test_changed_number_has_a_reason() -> None:
    """A formula that gives another number than in the release before is in `calc/changes.py`."""
    unexplained = {
        (version, one.formula)
        for version in versions()
        for one in moved(version)
        if not any(one.formula in change.formulas for change, _ in changes_of(version))
    }
    assert unexplained == set(), "Say in calc/changes.py what changed and why"


def test_reason_has_a_changed_number() -> None:
    """A change that is recorded is of a kept version, and a number of each formula shows it."""
    assert {change.version for change in CHANGES} <= set(versions())
    idle = [
        (change.version, name)
        for version in versions()
        for change, cases in changes_of(version)
        for name in change.formulas
        if name not in {case.formula for case in cases}
    ]
    assert idle == []


def test_reason_is_in_sentences() -> None:
    """What changed and why can be read by somebody who opens an old link."""
    for change in CHANGES:
        assert change.what.endswith(".")
        assert change.why.endswith(".")
        assert set(change.formulas) <= set(FORMULAS)


def test_versions_are_in_the_changelog() -> None:
    """Every version whose numbers are kept is told to people, and this one is among them."""
    assert VERSION in versions()
    assert set(versions()) <= set(sections())


def test_file_for_programs_has_every_case() -> None:
    """The published file has the old and the new number of each case."""
    told = {one["release"]: one["changes"] for one in json.loads(changes_file())}
    assert list(told) == versions()[::-1]
    cases = [case for some in told.values() for change in some for case in change["cases"]]
    assert len(cases) >= len(CHANGES)
    assert [case for case in cases if case["old"] == case["new"]] == []


def test_page_names_what_changed_in_words_of_the_form() -> None:
    """The columns of a table, rows that came, and what stands in the place of a lost result."""
    rows = [line for line in release_notes().splitlines() if line.startswith("| [")]
    cells = {tuple(row.split(" | ")[1:]) for row in rows}
    assert ("Avoid bands", "", "other numbers under “To”, “To, frequencies exact” |") in cells
    assert any(re.fullmatch(r"\d+ rows; \d+ rows \|", "; ".join(shown)) for _, *shown in cells)
    tip, inboard = (
        "Blade loading at stall onset, tip",
        "Blade loading at stall onset, inboard station",
    )
    place = f"in its place: “{tip}”, “{inboard}” |"
    assert ("Blade loading at stall onset", "", place) in cells
    assert [row for row in rows if "_" in row.partition(" | ")[2]] == []


def test_changes_since_a_release(monkeypatch: pytest.MonkeyPatch) -> None:
    """Only those of the formula, and of releases after the one that is named, the oldest first."""
    all_changes = tuple(Change(v, (TIP, "x"), v, "why.") for v in ("0.10.0", "0.9.1", "0.9.0"))
    monkeypatch.setattr(changes, "CHANGES", all_changes)
    assert [change.what for change in changes.since(TIP, "0.9")] == ["0.9.1", "0.10.0"]
    assert changes.since("y", "0.9") == []
