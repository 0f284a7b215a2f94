"""Every published case: what was printed, to the last digit it was printed with."""

import re

import pytest

from calc.catalogue import FORMULAS
from scripts.cases import STATUSES, Case, cases, methods, sources, topic_of, topics
from scripts.checks import checked
from scripts.environment import ROOT

CASES = [case for topic in topics() for case in cases(topic)]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.title)
def test_printed_value(case: Case) -> None:
    """The value agrees with the printed one within half of its last digit or a stated reason."""
    assert abs(case.value - case.expected.value) <= case.allowed, f"{case.ours}, {case.difference}"


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.title)
def test_case_is_traceable(case: Case) -> None:
    """A case names a listed source and how it was read; a wider tolerance has a reason."""
    assert case.source in sources()
    assert case.status in STATUSES
    assert case.where
    assert bool(case.tolerance) == bool(case.reason)


def test_every_source_is_described() -> None:
    """A source has its own title, not one made up for it, and says what was read of it."""
    for key, source in sources().items():
        assert source.get("title"), key
        assert source.get("note"), key
        assert not re.search("title is a description|exact title", source["note"]), key


def test_sources_are_works() -> None:
    """No homework, answer or forum page and no vendor stands for a work: no author is a website."""
    for key, source in sources().items():
        assert not re.search(
            r"\.(com|ai|aero|org|net)\b|wikipedia", source.get("author", ""), re.IGNORECASE
        ), key


def test_every_page_with_a_form_says_how_it_was_checked() -> None:
    """The page of each topic prints its published cases, or that there are none, and methods."""
    for topic in sorted(set(map(topic_of, FORMULAS))):
        page = ROOT / "docs" / f"{topic}.md"
        assert f'page.checked("{topic}")' in page.read_text(encoding="utf-8"), topic


def test_every_source_is_cited() -> None:
    """A source that no page and no case names is not in the list."""
    pages = "".join(p.read_text(encoding="utf-8") for p in (ROOT / "docs").rglob("*.md"))
    cited = {case.source for case in CASES}
    named = {key for key in sources() if f'"{key}"' in pages or f"#{key}" in pages}

    assert set(sources()) - cited - named == set()


def test_value_from_memory_is_confirmed() -> None:
    """A remembered value counts only beside an independent method that gives its digits."""
    for case in CASES:
        assert case.status != "memory" or methods(case.topic), case.title


def test_every_topic_was_checked_somehow() -> None:
    """Each topic with a form has a printed case or an independent method, and its test file."""
    for topic in sorted(set(map(topic_of, FORMULAS))):
        assert methods(topic) or cases(topic), topic
        found = cases(topic)
        assert ("nothing here is compared" in checked(topic)) == (not found), topic
        restated = bool(found) and all(case.definition for case in found)
        assert ("is no check of a formula" in checked(topic)) == restated, topic


@pytest.mark.parametrize(
    ("printed", "ours", "shown"),
    [
        ("0.15 Hz", 0.15 + 4.4e-16, "0"),
        ("0.15 Hz", 0.1504, "+4.0×10⁻⁴ Hz"),
        ("0.15 Hz", 0.149, "−0.0010 Hz"),
    ],
)
def test_rounding_noise_is_no_difference(printed: str, ours: float, shown: str) -> None:
    """Below a thousandth of the last printed digit the difference is 0."""
    case = Case(
        topic="harmonics/blade_passage",
        source="",
        where="",
        formula="harmonics.blade_passage.blade_passage_frequency",
        inputs={"blades": "1", "rotor_speed": f"{ours!r} Hz"},
        printed=printed,
    )
    assert case.difference == shown
