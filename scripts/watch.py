"""Keep a built site as its sources are: serve.py --watch calls this in the environment.

An edited page alone is made anew; after any other change the site is built again, in a fresh
process, with what is remembered of its snippets.
"""

import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

from scripts.build import BuildError, rebuild_page
from scripts.environment import ROOT

PAUSE = 0.2  # s, between two looks at the files
WATCHED = ("docs", "calc", "scripts", "tests", "mkdocs.yml")
ENDINGS = {".md", ".py", ".toml", ".yml", ".css", ".js", ".svg", ".html"}


def main() -> None:
    """Watch the sources of the site in the folder that the command line names, for ever."""
    site = Path(sys.argv[1])
    before = dict(_times())
    while True:
        time.sleep(PAUSE)
        now = dict(_times())
        changed = {path for path, _ in before.items() ^ now.items()}
        before = now
        if changed:
            start = time.monotonic()
            _renew(site, changed)
            print(f"Renewed in {time.monotonic() - start:.1f} s", flush=True)


def _renew(site: Path, changed: set[Path]) -> None:
    pages = [path for path in changed if path.suffix == ".md" and path.is_file()]
    if len(pages) == len(changed) == 1:
        try:
            rebuild_page(site, pages[0])
        except BuildError as error:
            print(f"The page has these problems:\n{error}", flush=True)
        return
    build = [sys.executable, "-m", "scripts.build", str(site), "--remember"]
    subprocess.run(build, cwd=ROOT, check=False)


def _times() -> Iterator[tuple[Path, int]]:
    for top in WATCHED:
        path = ROOT / top
        for file in [path] if path.is_file() else path.rglob("*"):
            if file.suffix in ENDINGS and "__pycache__" not in file.parts:
                try:
                    yield file, file.stat().st_mtime_ns
                except FileNotFoundError:  # an editor moves files as it saves
                    continue


if __name__ == "__main__":
    main()
