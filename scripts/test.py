"""Build the site and check everything: python3 scripts/test.py [arguments for pytest]."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

sys.path[0] = str(Path(__file__).resolve().parents[1])  # the project, not this folder

from scripts.environment import BUILD_LOCK, ROOT, TEST_LOCK, ready


def main() -> int:
    """Run every check, in order, to the end; return whether one failed."""
    python = str(ready(BUILD_LOCK, TEST_LOCK))
    with tempfile.TemporaryDirectory() as folder:
        site = str(Path(folder) / "site")
        checks = [
            [python, "-m", "scripts.build", site],
            [python, "-m", "ruff", "check"],
            [python, "-m", "ruff", "format", "--check"],
            [python, "-m", "mypy"],
            [python, "-m", "pytest", *sys.argv[1:]],
        ]
        failed = [check[2:] for check in checks if _fails(check, {**os.environ, "SITE": site})]
    for check in failed:
        print(f"FAILED: {' '.join(check)}")
    return int(bool(failed))


def _fails(check: list[str], environment: dict[str, str]) -> bool:
    print(f"\n=== {' '.join(check[2:])}", flush=True)
    start = time.monotonic()
    failed = bool(subprocess.run(check, cwd=ROOT, env=environment, check=False).returncode)
    print(f"=== {'failed' if failed else 'passed'} in {time.monotonic() - start:.1f} s", flush=True)
    return failed


if __name__ == "__main__":
    sys.exit(main())
