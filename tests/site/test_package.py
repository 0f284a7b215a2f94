"""The package: equal to the byte, what it states of itself, and its use without a network."""

import hashlib
import re
import shutil
import time
import zipfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from calc.exercises.posing import posed
from scripts import package as packing
from scripts.package import NAME, PAGE, SUMS, PackageError, package
from scripts.policy import with_policy
from tests.form.reader import Reader

PLACE = '<div id="offered-zip"><p>A copy.</p></div>'


@pytest.fixture
def small(tmp_path: Path) -> Path:
    """Return a small site: two pages, one with a place for the zip, and files in a folder."""
    site = tmp_path / "small"
    (site / "assets").mkdir(parents=True)
    for number in range(20):
        (site / "assets" / f"{number}.txt").write_text(f"some text {number} " * 100)
    (site / "index.html").write_text("")
    (site / PAGE).write_text(with_policy(f'<meta charset="utf-8"><p>Zip</p>{PLACE}<p>Next</p>'))
    return site


def test_two_packages_are_equal_to_the_byte(
    small: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Order on disk, dates, permissions and the time zone of a machine leave no trace."""
    other = tmp_path / "elsewhere" / "other"
    for path in sorted((path for path in small.rglob("*") if path.is_file()), reverse=True):
        target = other / path.relative_to(small)
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(path.read_bytes())
        target.chmod(0o600)
    first = package(small)
    with monkeypatch.context() as abroad:
        abroad.setenv("TZ", "Asia/Tokyo")
        time.tzset()
        second = package(other)
    time.tzset()

    with zipfile.ZipFile(first) as opened:
        names = opened.namelist()
    assert names == [*sorted(names[:-1]), f"{NAME}/{SUMS}"]
    assert first.read_bytes() == second.read_bytes()
    assert (small / PAGE).read_bytes() == (other / PAGE).read_bytes()


def test_page_states_the_zip_beside_it_and_the_zip_says_it_is_a_copy(small: Path) -> None:
    """Link, size and digest are those of the zip; the page in the zip is as it was built."""
    before = (small / PAGE).read_text("utf-8")
    packed = package(small)
    content = packed.read_bytes()
    digest = hashlib.sha256(content).hexdigest()
    offer = (small / PAGE).read_text("utf-8")

    assert offer.startswith(before.partition(PLACE)[0])
    assert offer.endswith("</div><p>Next</p>")
    assert f'href="{packed.name}"' in offer
    assert f"({len(content)} bytes)" in offer
    assert digest in offer
    assert (small / f"{packed.name}.sha256").read_text() == f"{digest}  {packed.name}\n"
    with zipfile.ZipFile(packed) as opened:
        assert opened.read(f"{NAME}/{PAGE}").decode() == before


def test_what_cannot_be_offered_is_refused(small: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A zip above its budget goes; a site that is packed already would pack its own zip."""
    with monkeypatch.context() as lowered:
        lowered.setattr(packing, "LARGEST", 1000)
        with pytest.raises(PackageError, match="1000 are allowed"):
            package(small)
    assert list(small.glob("*.zip")) == []
    package(small)
    with pytest.raises(PackageError, match="has a zip already"):
        package(small)
    (small / PAGE).unlink()
    with pytest.raises(PackageError, match="no place for the zip"):
        package(small)


@pytest.fixture(scope="module")
def unpacked(site: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the folder that the zip of the whole site gives."""
    folder = tmp_path_factory.mktemp("carried away")
    packed = package(shutil.copytree(site, folder / "site"))
    with zipfile.ZipFile(packed) as opened:
        opened.extractall(folder)
    shutil.rmtree(folder / "site")
    return folder / NAME


@pytest.fixture
def offline(browser: Browser) -> Iterator[BrowserContext]:
    """Return a new browser without a network, which asks for files alone and meets no error."""
    troubles: list[str] = []
    local = ("file://", "data:", "blob:")
    with browser.new_context(offline=True) as fresh:
        fresh.on("console", lambda m: troubles.append(m.text) if m.type == "error" else None)
        fresh.on("weberror", lambda error: troubles.append(str(error.error)))
        fresh.on("request", lambda r: None if r.url.startswith(local) else troubles.append(r.url))
        yield fresh
    assert troubles == []


def test_every_file_is_in_the_zip_and_in_its_list(site: Path, unpacked: Path) -> None:
    """What is unpacked is the site to the byte, and its list has the digest of each file."""
    files = {path.relative_to(site).as_posix(): path for path in site.rglob("*") if path.is_file()}
    digests = {name: hashlib.sha256(path.read_bytes()).hexdigest() for name, path in files.items()}
    lines = (unpacked / SUMS).read_text("utf-8").splitlines()

    assert {line[66:]: line[:64] for line in lines} == digests
    assert {
        path.relative_to(unpacked).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in unpacked.rglob("*")
        if path.is_file() and path.name != SUMS
    } == digests


def test_copy_is_used_by_keyboard_without_a_network(
    unpacked: Path, offline: BrowserContext
) -> None:
    """Search leads to a calculator, which gives a printed number; an exercise judges an answer.

    TM 55-1520-240-T, as cited in README.md: three blades at 225 rpm give 11.25 Hz for three per
    revolution.
    """
    page = offline.new_page()
    page.goto((unpacked / "index.html").as_uri())
    page.keyboard.press("/")
    page.keyboard.type("blade passage")
    expect(page.locator(".find-hits a").first).to_contain_text("Blade passage")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")
    page.wait_for_url("**/harmonics/blade_passage.html*")
    reader = Reader(page, "harmonics.blade_passage.blade_passage_frequency")
    reader.type(reader.field("blades"), "3")
    reader.type(reader.field("rotor_speed"), "225 rpm")
    reader.leave()
    assert "11.25 Hz" in reader.result()

    page.goto((unpacked / "exercises" / "rotor.html").as_uri() + "#tip_speed=703")
    asked = posed("tip_speed", 703)
    exercise = page.locator("#tip_speed")
    question = exercise.locator(".exercise-question")
    expect(question).to_have_text(asked.said(asked.exercise.text))
    exercise.get_by_label("Your answer").click()
    page.keyboard.type(f"{asked.answer:.1f} m/s")
    page.keyboard.press("Enter")
    expect(exercise.get_by_role("status")).to_contain_text("Right: ")


def test_unit_four_is_taught_by_keyboard_without_a_network(
    unpacked: Path, offline: BrowserContext
) -> None:
    """No mouse: the figures go step by step, the answer opens, the form answers.

    Physics outside the project: with ample damping on both sides a disturbance dies out (Coleman
    and Feingold, 1958), so that the growth rate changes its sign with a stronger damper.
    """
    page = offline.new_page()
    page.set_viewport_size({"width": 1280, "height": 720})
    page.goto((unpacked / "lessons" / "ground_growth.html").as_uri())
    for figure in "lesson-mechanism", "lesson-coleman":
        to(page, f"#{figure} .enlarge")
        page.keyboard.press("Enter")
        last = page.locator(f"#{figure} .steps > li").count()
        for step in range(1, last + 1):
            expect(page.locator(".step-count")).to_have_text(f"{step} of {last}")
            page.keyboard.press("PageDown")
        page.keyboard.press("Escape")
        expect(page.locator("dialog")).to_have_count(0)
    to(page, "details:not(.figure-data) > summary")
    hidden = page.get_by_text("the largest growth rate is")
    expect(hidden).to_be_hidden()
    page.keyboard.press("Enter")
    expect(hidden).to_be_visible()
    to(page, "article a[href*='time_history.html#time_history.']", "Shift+Tab")
    page.keyboard.press("Enter")
    page.wait_for_url("**/time_history.html#**")
    reader = Reader(page, "ground.time_history.time_history")
    assert growth(reader) > 0.0
    to(page, "form#time_history .enlarge-form", "Shift+Tab")
    page.keyboard.press("Enter")
    expect(page.locator("dialog.enlarged")).to_be_visible()
    to(page, "form#time_history [name=lag_damping]")
    page.keyboard.press("Control+a")
    page.keyboard.type("4000")
    page.keyboard.press("Tab")
    assert growth(reader) < 0.0
    page.keyboard.press("Escape")
    expect(page.locator("dialog")).to_have_count(0)
    assert growth(reader) < 0.0


def growth(reader: Reader) -> float:
    """Return the growth rate that the answer shows."""
    found = re.search(r"Growth rate[^−\d]*(−?\d+\.\d+)", reader.result())
    assert found is not None
    return float(found[1].replace("−", "-"))


def to(page: Page, place: str, key: str = "Tab") -> None:
    """Press Tab until a place has the focus."""
    for _ in range(150):
        page.keyboard.press(key)
        if page.evaluate("(place) => document.activeElement.matches(place)", place):
            return
    pytest.fail(f"{key} does not come to {place}")
