"""Releases beside each other: none is ever changed, and the newest keeps its address."""

import re
from pathlib import Path

import pytest

from scripts import golden
from scripts.golden import released
from scripts.release import NEWEST, ReleaseError, on, put


def built(folder: Path, version: str) -> Path:
    """Return a small site that says which version it is."""
    site = folder / f"site of {version}"
    (site / "rotor").mkdir(parents=True)
    for name in "index.html", "releases.html", "rotor/tip_speed.html":
        (site / name).write_text(version)
    for name in f"handbook_{version}.zip", f"handbook_{version}.zip.sha256":
        (site / name).write_text(version)
    return site


def contents(folder: Path) -> dict[str, str]:
    """Return the text of every file in a folder."""
    return {
        path.relative_to(folder).as_posix(): path.read_text()
        for path in folder.rglob("*")
        if path.is_file()
    }


def test_releases_stand_beside_each_other(tmp_path: Path) -> None:
    """A new one changes none before it, and `newest` is the highest version, not the last put."""
    shelf = tmp_path / "shelf"
    seen = {}
    for version in "0.9.0", "0.10.0", "0.2.0":
        put(built(tmp_path, version), shelf, version)
        seen[version] = contents(shelf / version)
    assert on(shelf) == ["0.10.0", "0.9.0", "0.2.0"]
    assert {version: contents(shelf / version) for version in seen} == seen
    assert contents(shelf / NEWEST) == seen["0.10.0"]
    assert sorted(path.name for path in shelf.iterdir()) == sorted([*seen, NEWEST, "index.html"])


def test_list_leads_to_every_release(tmp_path: Path) -> None:
    """Each link of the list is to a file that is there; the newest release comes first."""
    for version in "0.1.0", "0.2.0":
        put(built(tmp_path, version), tmp_path / "shelf", version)
    links = re.findall(r'href="([^"]+)"', (tmp_path / "shelf" / "index.html").read_text("utf-8"))
    assert all((tmp_path / "shelf" / link).is_file() for link in links)
    assert links[:3] == ["newest/index.html", "newest/releases.html", "0.2.0/index.html"]
    assert "0.1.0/handbook_0.1.0.zip.sha256" in links


def test_release_is_never_written_again(tmp_path: Path) -> None:
    """The second time is an error, and nothing is touched."""
    shelf = tmp_path / "shelf"
    put(built(tmp_path, "0.1.0"), shelf, "0.1.0")
    before = contents(shelf)
    (tmp_path / "site of 0.1.0" / "index.html").write_text("other")
    with pytest.raises(ReleaseError, match="a release is never changed"):
        put(tmp_path / "site of 0.1.0", shelf, "0.1.0")
    assert contents(shelf) == before


def test_folder_of_somebody_else_is_left_alone(tmp_path: Path) -> None:
    """A folder `newest` without any release beside it was not made here."""
    shelf = tmp_path / "shelf"
    (shelf / NEWEST).mkdir(parents=True)
    with pytest.raises(ReleaseError, match="move it away"):
        put(built(tmp_path, "0.1.0"), shelf, "0.1.0")
    assert contents(shelf) == {}


def test_released_is_what_has_a_date(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A version that is being prepared has none."""
    log = tmp_path / "CHANGELOG.md"
    log.write_text("# Changelog\n\n## Next\n\n## 0.1.0, 2026-11-25\n")
    monkeypatch.setattr(golden, "CHANGELOG", log)
    assert released("0.1.0")
    assert not released("0.2.0")
    assert not released("1.0")
