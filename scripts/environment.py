"""The project's own Python environment, made from the lock files.

Runs before anything is installed, so: the standard library alone, and syntax that an old Python
still reads far enough to say that it is too old.
"""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
BUILD_LOCK = "requirements.txt"
TEST_LOCK = "requirements-test.txt"
OLDEST_PYTHON = (3, 11)
UNDER_WAY = ".under-way"
"""Ends the name of a file beside the folder of a site, while the site is being built."""

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
"""Matrices here are small: threads that share one of numpy's take forty times as long."""


def ready(*locks: str, folder: Path = ROOT / ".venv") -> Path:
    """Return the Python of an environment that holds what the locks list.

    The environment is made when there is none, added to when a lock is new to it, and made anew
    when a lock has changed since.

    Raises:
        SystemExit: With what to do, when this Python is too old or the packages cannot be had.
    """
    if sys.version_info < OLDEST_PYTHON:
        sys.exit(f"Python 3.11 or newer is needed; this is {sys.version.split()[0]}")
    python = folder / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
    marks = {folder / f"{lock}.sha256": _digest(lock) for lock in locks}
    stale = any(mark.exists() and mark.read_text() != digest for mark, digest in marks.items())
    if stale or not python.exists():
        _create(folder)
    for lock, (mark, digest) in zip(locks, marks.items(), strict=True):
        if not mark.exists():
            _install(python, lock)
            mark.write_text(digest)
    return python


def _digest(lock: str) -> str:
    return hashlib.sha256((ROOT / lock).read_text(encoding="utf-8").encode()).hexdigest()


def _create(folder: Path) -> None:
    print(f"Making the environment {folder.name} with Python {sys.version.split()[0]}", flush=True)
    if folder.exists():
        shutil.rmtree(folder)
    if subprocess.run([sys.executable, "-m", "venv", str(folder)], check=False).returncode:
        shutil.rmtree(folder, ignore_errors=True)
        sys.exit(
            "This Python cannot make an environment (see above).\n"
            "On Debian and Ubuntu install the package python3-venv, then run this again."
        )


def _install(python: Path, lock: str) -> None:
    print(f"Installing what {lock} lists", flush=True)
    pip = [str(python), "-m", "pip", "--disable-pip-version-check", "install", "--no-input"]
    options = ["--quiet", "--retries=2", "--require-hashes", "--only-binary=:all:"]
    if subprocess.run([*pip, *options, "-r", str(ROOT / lock)], check=False).returncode:
        sys.exit(
            f"The packages of {lock} could not be installed (see above).\n"
            "The first run needs a network, or a package mirror that pip is set up for; "
            "later runs need none.\nRun this again when it is there."
        )
