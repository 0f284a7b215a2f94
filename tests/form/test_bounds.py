"""No entry can hurt: whatever is typed, memory, time and the size of the answer stay bounded."""

import json
import subprocess
import sys

import pytest

from calc.catalogue import FORMULAS
from scripts.environment import ROOT

LARGEST_ANSWER = 200_000  # bytes of HTML; what is longer is offered as a file
ENDLESS = 300.0  # s
LONGEST = 10.0  # s of processor time; the browser stops a calculation after 30 s by the clock


@pytest.mark.parametrize("name", FORMULAS)
def test_extreme_entries_are_answered_within_bounds(name: str) -> None:
    """Each form answers extreme entries in a process of limited memory, which may not die."""
    command = [sys.executable, "-m", "tests.form.extreme_entries", name]
    try:
        run = subprocess.run(
            command, cwd=ROOT, capture_output=True, text=True, check=False, timeout=ENDLESS
        )
    except subprocess.TimeoutExpired:
        pytest.fail(f"{name} does not end")

    assert run.returncode == 0, f"{name}: {run.stderr[-2000:]}"
    found = json.loads(run.stdout)
    assert found["largest"] <= LARGEST_ANSWER
    assert found["longest"] <= LONGEST, found["worst"]
