"""Build the site and pack it into one zip, which the site then offers: python3 scripts/package.py.

The zip opens from a folder on disk.  Its bytes follow from the site alone: names in order, one
date, one set of permissions, one level of compression.  Another version of the zlib library may
compress otherwise; `SHA256SUMS` inside lists the digests of the files, which it cannot change.

A page cannot hold the digest of a zip that holds the page.  So the zip has the site as it was
built, whose page says that it is a copy; then that one page of the site beside the zip gets the
link, the size and the digest.
"""

from __future__ import annotations

import hashlib
import re
import subprocess
import sys
import zipfile
from pathlib import Path

sys.path[0] = str(Path(__file__).resolve().parents[1])  # the project, not this folder

from calc import VERSION
from scripts.check_site import check
from scripts.environment import BUILD_LOCK, ROOT, ready

NAME = f"rotorcraft_vibration_handbook_{VERSION}"
"""Name of the zip, without its ending, and of the one folder in it."""

LARGEST = 15_000_000
"""Bytes that the zip may have."""

PAGE = "take_along.html"
SUMS = "SHA256SUMS"

_DATE = (2020, 1, 1, 0, 0, 0)
_UNIX = 3
_FILE = 0o100644
_OFFER = re.compile(r'(<div id="offered-zip"[^>]*>).*?(</div>)', re.DOTALL)


class PackageError(Exception):
    """The site was not packed; the text says why."""


def package(site: Path) -> Path:
    """Pack a built site into a zip inside it, offer the zip on its page, and return the zip.

    Args:
        site: The folder of the site, fresh from the build.

    Raises:
        PackageError: If the zip is too large, or the site is packed already, or has no page for it.
    """
    page = site / PAGE
    text = page.read_text("utf-8") if page.is_file() else ""
    if not _OFFER.search(text):
        raise PackageError(f"{PAGE} has no place for the zip")
    if list(site.glob("*.zip")):
        raise PackageError("The site has a zip already: build it anew")
    target = site / f"{NAME}.zip"
    _write(target, site)
    size = target.stat().st_size
    if size > LARGEST:
        target.unlink()
        raise PackageError(f"The zip has {size} bytes; {LARGEST} are allowed")
    digest = _digest(target.read_bytes())
    sums = site / f"{target.name}.sha256"
    sums.write_text(f"{digest}  {target.name}\n", "utf-8", newline="\n")
    offer = (
        f'<p><a href="{target.name}" download>{target.name}</a>, {size / 1e6:.1f} MB '
        f"({size} bytes), version {VERSION}.</p>\n"
        f'<p>SHA-256 (<a href="{sums.name}" download>as a file</a>):<br><code>{digest}</code></p>'
    )
    page.write_text(_OFFER.sub(rf"\g<1>{offer}\g<2>", text), "utf-8", newline="\n")
    problems = check(site, PAGE)
    if problems:
        raise PackageError("\n".join(problems))
    return target


def _write(target: Path, site: Path) -> None:
    """Write the files of a site and the list of their digests into a zip."""
    found = {path.relative_to(site).as_posix(): path for path in site.rglob("*") if path.is_file()}
    contents = {name: found[name].read_bytes() for name in sorted(found)}
    sums = "".join(f"{_digest(content)}  {name}\n" for name, content in contents.items())
    contents[SUMS] = sums.encode()
    with zipfile.ZipFile(target, "w") as packed:
        for name, content in contents.items():
            entry = zipfile.ZipInfo(f"{NAME}/{name}", _DATE)
            entry.create_system = _UNIX  # Windows would say so otherwise
            entry.external_attr = _FILE << 16
            packed.writestr(entry, content, zipfile.ZIP_DEFLATED, 9)


def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def built() -> Path:
    """Make the environment, build the site, and return its folder.

    Raises:
        PackageError: If the build fails, which says why by itself.
    """
    site = ROOT / "site"
    build = [str(ready(BUILD_LOCK)), "-m", "scripts.build", str(site)]
    if subprocess.run(build, cwd=ROOT, check=False).returncode:
        raise PackageError("The site was not built (see above).")
    return site


def main() -> None:
    """Build, pack, and say what was made."""
    try:
        packed = package(built())
    except PackageError as error:
        sys.exit(str(error))
    print(f"{packed.relative_to(ROOT)}: {packed.stat().st_size} bytes")
    print(f"SHA-256 {_digest(packed.read_bytes())}")


if __name__ == "__main__":
    main()
