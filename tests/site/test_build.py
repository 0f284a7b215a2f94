"""The build: the same bytes each time, and no site when something is wrong."""

import hashlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from scripts.build import BuildError, build, rebuild_page
from scripts.environment import ROOT


def digests(folder: Path) -> dict[str, str]:
    """Return the SHA-256 of each file in a folder."""
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


@pytest.fixture(scope="module")
def trial(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with a page, in docs, and the site that was built of it."""
    folder = tmp_path_factory.mktemp("trial")
    shutil.copytree(ROOT / "docs" / "assets", folder / "docs" / "assets")
    (folder / "docs" / "index.md").write_text("# Trial\n\nA page.\n")
    build(folder / "site", folder / "docs", nav=["index.md"])
    return folder


@pytest.fixture
def docs(trial: Path, tmp_path: Path) -> Path:
    """Return a folder of pages with one page in it, which has a site beside it."""
    return shutil.copytree(trial, tmp_path / "trial") / "docs"


def test_two_builds_are_identical(site: Path, tmp_path: Path) -> None:
    """The same sources give the same bytes in another process, so that copies can be compared."""
    command = [sys.executable, "-m", "scripts.build", str(tmp_path / "site")]
    another = os.environ | {"PYTHONHASHSEED": "1", "TZ": "Asia/Tokyo"}
    subprocess.run(command, cwd=ROOT, env=another, check=True)

    assert digests(tmp_path / "site") == digests(site)


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("$\\tipspeed$", "index.md: .*Undefined control sequence"),
        ('```python exec="on"\n1 / 0\n```', "(?s)index.md: .*ZeroDivisionError"),
        ('```python exec="on"\nraise SystemExit(0)\n```', "exit code 0"),
        ('```python exec="on" sorce="above\nprint(1)\n```', "not executed"),
        ("[x](missing.md)", "missing.md"),
        ("---\nalso: one, two\n---\n", "index.md: .*no list"),
        ("[x](#missing)", "no such place"),
        ('```python exec="on" html="on"\nprint("<a href=\'no.html\'>x</a>")\n```', "not exist"),
        ('<img src="https://example.com/a.png">', "from elsewhere"),
    ],
)
def test_fault_in_a_page_leaves_the_old_site(docs: Path, text: str, reason: str) -> None:
    """What is in place stays until a build has passed every check."""
    site = docs.parent / "site"
    before = digests(site)
    head, body = (text, "") if text.startswith("---") else ("", text)
    (docs / "index.md").write_text(f"{head}# Trial\n\n{body}\n")

    with pytest.raises(BuildError, match=reason):
        build(site, docs, nav=["index.md"])

    assert digests(site) == before
    assert sorted(path.name for path in docs.parent.iterdir()) == ["docs", "site"]


def test_page_that_nav_omits_fails(docs: Path) -> None:
    """A page that no reader can reach by the menu is a mistake."""
    (docs / "lost.md").write_text("# Lost\n")

    with pytest.raises(BuildError, match=r"lost\.md"):
        build(docs.parent / "site", docs, nav=[{"Home": "index.md"}])


def test_vendored_script_that_is_missing_fails(docs: Path) -> None:
    """A page must not name a script that is not there."""
    with pytest.raises(BuildError, match=r"missing\.js"):
        build(docs.parent / "site", docs, nav=["index.md"], extra_javascript=["assets/missing.js"])


def test_pages_say_nothing_of_the_time(site: Path) -> None:
    """A date that means only "rebuilt" tells a reader nothing."""
    assert not (site / "sitemap.xml.gz").exists()
    assert not (site / "sitemap.xml").exists()


def test_edited_page_alone_is_made_anew(docs: Path) -> None:
    """A preview shows an edited page, or says what is wrong with it; the rest of the site stays."""
    site, page = docs.parent / "site", docs / "index.md"
    before = digests(site)

    page.write_text("# Trial\n\nA page as edited.\n")
    rebuild_page(site, page, docs, nav=["index.md"])

    after = digests(site)
    assert {name for name in before | after if before.get(name) != after.get(name)} == {
        "index.html"
    }
    assert "A page as edited." in (site / "index.html").read_text()

    page.write_text("# Trial\n\n[x](missing.md)\n")
    with pytest.raises(BuildError, match=r"missing\.md"):
        rebuild_page(site, page, docs, nav=["index.md"])
