"""No entry can hurt: whatever is typed, memory, time and the size of the answer stay bounded."""

import multiprocessing

import pytest

from calc.catalogue import FORMULAS
from tests.form.extreme_entries import extremes, limit_memory

LARGEST_ANSWER = 200_000  # bytes of HTML; what is longer is offered as a file
ENDLESS = 300.0  # s
LONGEST = 10.0  # s of processor time; the browser stops a calculation after 30 s by the clock

PROCESSES = multiprocessing.get_context(
    "forkserver" if "forkserver" in multiprocessing.get_all_start_methods() else "spawn"
)
"""Where new processes come from: copies of one that has read its program, where there can be."""
PROCESSES.set_forkserver_preload(["tests.form.extreme_entries"])


@pytest.mark.parametrize("name", FORMULAS)
def test_extreme_entries_are_answered_within_bounds(name: str) -> None:
    """Each form answers extreme entries in a process of limited memory, which may not die."""
    with PROCESSES.Pool(1, limit_memory) as process:
        try:
            found = process.apply_async(extremes, (name,)).get(ENDLESS)
        except multiprocessing.TimeoutError:
            pytest.fail(f"{name} does not end, or takes its process with it")

    assert found.largest <= LARGEST_ANSWER
    assert found.longest <= LONGEST, found.worst
