"""Put a release beside the earlier ones: python3 scripts/release.py FOLDER.

The folder is what a web server gives out.  It gets

    FOLDER/0.2.0/      the release, which is never changed again
    FOLDER/newest/     the same, and from now on whatever is newest
    FOLDER/index.html  a list of the releases

so that an address with a number in it keeps its content, and one with `newest` keeps its place.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from html import escape
from pathlib import Path

sys.path[0] = str(Path(__file__).resolve().parents[1])  # the project, not this folder

from calc import VERSION
from calc.changes import place
from scripts.golden import released
from scripts.package import NAME, PackageError, built, package

NEWEST = "newest"

_LIST = """<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>Rotorcraft vibration handbook: releases</title>
<style>body{{font:18px/1.5 Georgia,serif;max-width:38rem;margin:2rem auto;padding:0 1rem}}</style>
<h1>Rotorcraft vibration handbook</h1>
<p><a href="{newest}/index.html">The newest release</a>, {first}. Its addresses stay the same from
release to release; <a href="{newest}/releases.html">what changed</a>.</p>
<h2>Every release</h2>
<p>A result that was quoted is computed as it was then in the release that gave it.</p>
<ul>
{items}
</ul>
</html>
"""


class ReleaseError(Exception):
    """The release was not put there; the text says why."""


def put(site: Path, shelf: Path, version: str = VERSION) -> Path:
    """Put a built and packed site into a folder of releases, and return its place there.

    Args:
        site: The folder of the site.
        shelf: The folder of the releases; it is made if there is none.
        version: The version of the site.

    Raises:
        ReleaseError: If the release is there already, or `newest` was not made by this script.
    """
    target = shelf / version
    if target.exists():
        raise ReleaseError(f"{target} is there already: a release is never changed")
    newest = shelf / NEWEST
    if newest.exists() and not on(shelf):
        raise ReleaseError(f"{newest} is there, but no release: move it away first")
    shelf.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(dir=shelf, prefix=".putting-") as folder:
        shutil.copytree(site, Path(folder) / version).rename(target)
        if on(shelf)[0] == version:
            copy = shutil.copytree(site, Path(folder) / NEWEST)
            if newest.exists():
                newest.rename(Path(folder) / "before")
            copy.rename(newest)
    (shelf / "index.html").write_text(_list(shelf), encoding="utf-8", newline="\n")
    return target


def on(shelf: Path) -> list[str]:
    """Return the releases in a folder, the newest first."""
    found = [path.name for path in shelf.glob("*/") if path.name.replace(".", "").isdecimal()]
    return sorted(found, key=place, reverse=True)


def _list(shelf: Path) -> str:
    versions = on(shelf)
    items = "\n".join(_item(shelf, version) for version in versions)
    return _LIST.format(newest=NEWEST, first=escape(versions[0]), items=items)


def _item(shelf: Path, version: str) -> str:
    text = f'<li><a href="{version}/index.html">{version}</a>'
    for packed in sorted((shelf / version).glob("*.zip")):
        digest = f"{version}/{packed.name}.sha256"
        text += (
            f', <a href="{version}/{packed.name}">as one zip</a> (<a href="{digest}">SHA-256</a>)'
        )
    return f"{text}</li>"


def main() -> None:
    """Build, pack and put the release of these sources where the command line says."""
    if len(sys.argv) != 2:
        sys.exit("Say where the releases are: python3 scripts/release.py FOLDER")
    if not released(VERSION):
        sys.exit(f"{VERSION} has no date in CHANGELOG.md: it is no release yet")
    shelf = Path(sys.argv[1]).resolve()
    if (shelf / VERSION).exists():
        sys.exit(f"{shelf / VERSION} is there already: a release is never changed")
    try:
        site = built()
        package(site)
        target = put(site, shelf)
    except (PackageError, ReleaseError) as error:
        sys.exit(str(error))
    print(f"{target}: {NAME}, listed in {shelf / 'index.html'}")


if __name__ == "__main__":
    main()
