"""An old link in a later release: a copy of the site with one formula changed, in a browser."""

import re
import shutil
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from calc import VERSION
from scripts.bundle import calc_bundle
from scripts.environment import ROOT
from scripts.serve import server
from tests.form.reader import FROM_SERVER, Reader

PAGE = "rotor/tip_speed.html"
NAME = "rotor.tip_speed.tip_state"
LATER = "99.0.0"
RECORDED = f"""CHANGES: tuple[Change, ...] = (
    Change("{LATER}", ("{NAME}",), "Blades have grown.", "A test said so."),
"""


@pytest.fixture(scope="module")
def later(site: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Return the address of a later release, in which tips go one per cent faster."""
    folder = tmp_path_factory.mktemp("later")
    built = shutil.copytree(site, folder / "site")
    package = shutil.copytree(ROOT / "calc", folder / "calc")
    edit(package / "__init__.py", f'VERSION = "{VERSION}"', f'VERSION = "{LATER}"')
    edit(package / "changes.py", "CHANGES: tuple[Change, ...] = (\n", RECORDED)
    formula = package / "rotor" / "tip_speed.py"
    edit(formula, "return rotor_speed * radius", "return 1.01 * rotor_speed * radius")
    script = calc_bundle(package)
    (built / "assets" / "engine" / "calc.js").write_text(script, encoding="utf-8")
    with server(built, 0) as running:
        threading.Thread(target=running.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{running.server_port}"
        running.shutdown()


def edit(path: Path, old: str, new: str) -> None:
    """Replace what stands in a file at least once."""
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


@FROM_SERVER
def test_old_link_tells_what_changed(
    page: Page, home: str, later: str, troubles: list[str]
) -> None:
    """Unchanged where it was made; old, new and the reason in a later release, until an edit."""
    page.goto(f"{home}/{PAGE}")
    reader = Reader(page, NAME)
    reader.type(reader.field("radius"), "10")
    reader.type(reader.field("rotor_speed"), "20 rad/s")
    reader.leave()
    assert "200.0m/s" in reader.result()
    link = reader.copied_link()
    assert f"release={VERSION}" in link
    line = reader.form.locator(".quoted")
    page.goto("about:blank")
    page.goto(link)
    expect(line).to_contain_text(f"Quoted in release {VERSION}: tip speed 200.0 m/s and")
    expect(line).to_contain_text("All unchanged.")

    page.goto(link.replace(home, later))
    old_and_new = f"Quoted in release {VERSION}: tip speed 200.0 m/s; now 202.0 m/s."
    reason = f"Changed in release {LATER}: Blades have grown. A test said so."
    expect(line).to_contain_text(old_and_new)
    expect(line).to_contain_text(reason)
    quotation = re.compile(
        rf"&tip_state\.release={re.escape(VERSION)}&tip_state\.quoted=tip_speed_"
    )
    address = reader.form.locator("[data-printed=link]")
    page.emulate_media(media="print")
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    expect(line).to_be_visible()
    expect(address).to_have_text(quotation)
    page.emulate_media(media="screen")

    reader.type(reader.field("radius"), "9")
    assert "181.8m/s" in reader.result()
    expect(line).to_have_count(0)
    page.wait_for_url(re.compile(r"#tip_state\.radius=9_m&"))
    assert "quoted" not in page.url
    reader.type(reader.field("radius"), "10")
    assert "202.0m/s" in reader.result()
    expect(line).to_have_count(0)
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    expect(address).not_to_have_text(re.compile("quoted"))
    reader.press(".undo")
    expect(line).to_contain_text(reason)
    page.wait_for_url(quotation)
    reader.way("Keep these as mine")
    assert "202.0m/s" in reader.result()
    expect(line).to_have_count(0)
    troubles[:] = [text for text in troubles if not text.startswith(later)]  # its own requests
