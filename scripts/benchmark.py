"""Measure the project beside its budgets: python3 scripts/benchmark.py [--tests].

With --tests every test is run as well, which takes minutes.  Times are those of this machine, and
mean nothing while it does something else.
"""

from __future__ import annotations

import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import TYPE_CHECKING

sys.path[0] = str(Path(__file__).resolve().parents[1])  # the project, not this folder

from scripts.environment import BUILD_LOCK, ROOT, TEST_LOCK, ready
from scripts.measure import Measure

if TYPE_CHECKING:
    from collections.abc import Iterator

EDITED = "rotor/tip_speed.md"
TOPIC = "rotor/tip_speed"


def main() -> None:
    """Make the environment, then measure in it."""
    python = ready(BUILD_LOCK, TEST_LOCK)
    if (
        Path(sys.executable).resolve().parent != python.resolve().parent
        or sys.prefix == sys.base_prefix
    ):
        again = [str(python), __file__, *sys.argv[1:]]
        sys.exit(subprocess.run(again, cwd=ROOT, check=False).returncode)
    from scripts import benchmark_browser  # noqa: PLC0415 - needs the environment

    with tempfile.TemporaryDirectory() as folder:
        site = Path(folder) / "site"
        measures = [*_build(site), *_sizes(site), *_python(), *benchmark_browser.measures(site)]
    measures += _tests()
    print(f"{'':52} {'measured':>9}     {'budget':>10}")
    print("\n".join(map(str, measures)))


def _build(site: Path) -> Iterator[Measure]:
    spent = _seconds(sys.executable, "-m", "scripts.build", str(site))
    pages = len(list(site.rglob("*.html")))
    yield Measure(f"full build, {pages} pages", spent, "s", 0.15 * pages + 2.0)
    from scripts.build import rebuild_page  # noqa: PLC0415 - needs the environment

    copy = Path(shutil.copytree(site, site.parent / "preview"))
    begun = time.perf_counter()
    rebuild_page(copy, ROOT / "docs" / EDITED)
    yield Measure("build after editing one page", time.perf_counter() - begun, "s", 2.0)


def _sizes(site: Path) -> Iterator[Measure]:
    engine = site / "assets" / "engine"
    yield Measure("runtime of the calculators", _megabytes(engine / "runtime.js"), "MB", 7.0)
    yield Measure("sources of the calculators", _megabytes(engine / "calc.js"), "MB")
    packed = Path(shutil.make_archive(str(site.parent / "packed"), "zip", site))
    yield Measure("zip of the site", _megabytes(packed), "MB", 15.0)


def _megabytes(file: Path) -> float:
    return file.stat().st_size / 1e6


def _python() -> Iterator[Measure]:
    from scripts.benchmark_map import times  # noqa: PLC0415 - needs the environment

    looped, by_cell, by_row = times()
    yield Measure("coincidence map, numpy: plain loop over it", looped / by_cell, "", -20.0)
    yield Measure("coincidence map, ranges by row, CPython", by_row, "s")


def _tests() -> Iterator[Measure]:
    test = str(ROOT / "scripts" / "test.py")
    yield Measure("tests of one topic", _seconds(sys.executable, test, TOPIC), "s", 5.0)
    if "--tests" in sys.argv:
        yield Measure("every test", _seconds(sys.executable, test), "s", 480.0)


def _seconds(*command: str) -> float:
    begun = time.perf_counter()
    subprocess.run(command, cwd=ROOT, check=True)
    return time.perf_counter() - begun


if __name__ == "__main__":
    main()
