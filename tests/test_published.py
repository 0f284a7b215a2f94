"""Every published case: what was printed, to the last digit it was printed with."""

import pytest

from scripts.cases import STATUSES, Case, cases, sources, topics

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
    """A source has a title and says what was read of it."""
    for key, source in sources().items():
        assert source.get("title"), key
        assert source.get("note"), key
