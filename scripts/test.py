"""Check the project.

python3 scripts/test.py                        build the site and check everything
python3 scripts/test.py rotor/tip_speed        the tests of one topic alone, in seconds
python3 scripts/test.py [arguments of pytest]  build the site, run the tests that they choose
python3 scripts/test.py -m thorough            build the site, type into every form
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

sys.path[0] = str(Path(__file__).resolve().parents[1])  # the project, not this folder

from scripts.environment import BUILD_LOCK, ROOT, TEST_LOCK, UNDER_WAY, ready

SHARED = ["-n", "auto", "--dist", "loadscope", "--no-loadscope-reorder", "--durations=40"]
"""Tests are shared among the processors, a file at a time: builds and browsers come first, so that
the end is short files, of which no processor waits for another."""
EACH = ["-n", "auto", "--dist", "load"]
"""The thorough tests are shared one by one, since a single one takes minutes."""


def main() -> int:
    """Run every check to the end, and say if one failed.

    The site is built meanwhile; the tests that look at it wait for it.
    """
    python = str(ready(BUILD_LOCK, TEST_LOCK))
    if len(sys.argv) == 2 and (ROOT / "calc" / f"{sys.argv[1]}.py").is_file():
        return _topic(python, sys.argv[1])
    with tempfile.TemporaryDirectory() as folder, ThreadPoolExecutor(1) as beside:
        site = Path(folder) / "site"
        environment = {**os.environ, "SITE": str(site)}
        built = [python, "-m", "scripts.build", str(site)]
        reads = [
            [python, "-m", "ruff", "check"],
            [python, "-m", "ruff", "format", "--check"],
            [python, "-m", "mypy"],
        ]
        tests = [python, "-m", "pytest", *_chosen(sys.argv[1:])]
        under_way = site.with_name(site.name + UNDER_WAY)
        under_way.touch()
        building = beside.submit(_fails, built, environment, at_once=False)
        building.add_done_callback(lambda _: under_way.unlink())
        failed = [check for check in [*reads, tests] if _fails(check, environment)]
        failed += [built] if building.result() else []
    for check in failed:
        print(f"FAILED: {' '.join(check[2:])}")
    return int(bool(failed))


def _chosen(arguments: list[str]) -> list[str]:
    """Return the arguments of pytest."""
    if not arguments:
        return SHARED
    return [*EACH, *arguments] if "thorough" in arguments else arguments


def _topic(python: str, topic: str) -> int:
    """Check the module of one topic, its tests and what the contract says of its formulas."""
    chapter, _, name = topic.partition("/")
    own = [f"calc/{topic}.py", f"tests/{chapter}/test_{name}.py"]
    files = [file for file in own if (ROOT / file).is_file()]
    everywhere = [
        "tests/test_contract.py",
        "tests/test_published.py",
        "tests/site/test_link_keys.py",
    ]
    checks = [
        [python, "-m", "ruff", "check", *files],
        [python, "-m", "ruff", "format", "--check", *files],
        [python, "-m", "pytest", "-q", *files, *everywhere, "-k", f"{name} or new_keys"],
    ]
    failed = [_fails(check, dict(os.environ)) for check in checks]
    return int(any(failed))


def _fails(check: list[str], environment: dict[str, str], *, at_once: bool = True) -> bool:
    """Run a check, and return whether it fails; what it says is told at once, or at its end."""
    title, start = f"\n=== {' '.join(check[2:])}", time.monotonic()
    if at_once:
        print(title, flush=True)
    told = None if at_once else subprocess.PIPE
    run = subprocess.run(
        check,
        cwd=ROOT,
        env=environment,
        check=False,
        text=True,
        stdout=told,
        stderr=told and subprocess.STDOUT,
    )
    said = "" if at_once else f"{title}\n{run.stdout}"
    ended = "failed" if run.returncode else "passed"
    print(f"{said}=== {ended} in {time.monotonic() - start:.1f} s", flush=True)
    return bool(run.returncode)


if __name__ == "__main__":
    sys.exit(main())
