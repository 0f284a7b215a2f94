"""Search: what readers type finds the page, from a server and from disk."""

import shutil
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import Literal

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page

from scripts.build import build
from scripts.environment import ROOT
from scripts.serve import server

PAGES = {
    "index": "# Handbook\n\nVibration of rotorcraft, with formulas and calculators.\n",
    "rotor/tip_speed": (
        "# Tip speed\n\nThe speed of the blade tip in hover, $\\Omega R$.\n\n"
        "## Symbols\n\n| | Symbol |\n| - | - |\n| Rotor speed | $\\Omega$ |\n| Radius | $R$ |\n"
    ),
    "rotor/advance_ratio": "# Advance ratio\n\nAirspeed over tip speed ($\\mu$, mu).\n",
    "harmonics/blade_passage": (
        "# Blade passage frequency\n\nAlso called BPF, b/rev, N/rev (per rev). "
        "With four blades it is 4/rev.\n"
    ),
    "rotor/density_altitude": "# Density altitude\n\nThe altitude of equal density.\n",
    "harmonics/frequencies": "# Natural frequencies\n\nThe frequencies of a blade, at 0.92 R.\n",
}
META = ".md-search-result__meta"
WANTED = {
    "BPF": "harmonics/blade_passage.html",
    "bpf": "harmonics/blade_passage.html",
    "N/rev": "harmonics/blade_passage.html",
    "4/rev": "harmonics/blade_passage.html",
    "blade passage": "harmonics/blade_passage.html",
    "tip speed": "rotor/tip_speed.html",
    "Ω": "rotor/tip_speed.html",
    "mu": "rotor/advance_ratio.html",
    "μ": "rotor/advance_ratio.html",
    "frequencies of a blade": "harmonics/frequencies.html",
    "0.92": "harmonics/frequencies.html",
    "density altitude": "rotor/density_altitude.html",
    "densi": "rotor/density_altitude.html",
}
WANTED_OF_THE_HANDBOOK = {
    "BPF": "harmonics/blade_passage.html",
    "N/rev": "harmonics/blade_passage.html",
    "tip speed": "rotor/tip_speed.html",
    "mu": "rotor/advance_ratio.html",
    "σ": "rotor/blade_loading.html",
    "RBS": "rotor/stall_onset.html",
    "density altitude": "rotor/density_altitude.html",
}


@pytest.fixture(scope="module")
def small_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a site of a few short pages, built as the real one is."""
    docs = tmp_path_factory.mktemp("search") / "docs"
    shutil.copytree(ROOT / "docs" / "assets", docs / "assets")
    for name, text in PAGES.items():
        path = docs / f"{name}.md"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    build(docs.parent / "site", docs, nav=[f"{name}.md" for name in PAGES])
    return docs.parent / "site"


@pytest.fixture(scope="module", params=["served", "disk"])
def page(request: pytest.FixtureRequest, small_site: Path, browser: Browser) -> Iterator[Page]:
    """Return a page of the small site, from a server and from disk, with its search open."""
    with server(small_site, 0) as running:
        threading.Thread(target=running.serve_forever, daemon=True).start()
        address = f"http://127.0.0.1:{running.server_port}"
        start = address if request.param == "served" else small_site.as_uri()
        page = searching(browser, f"{start}/rotor/advance_ratio.html")
        yield page
        page.close()
        running.shutdown()


@pytest.fixture(scope="module", params=["served", "disk"])
def handbook(
    request: pytest.FixtureRequest, site: Path, served: str, browser: Browser
) -> Iterator[Page]:
    """Return the front page of the handbook with its search open."""
    start = served if request.param == "served" else site.as_uri()
    page = searching(browser, f"{start}/index.html")
    yield page
    page.close()


def searching(browser: Browser, address: str) -> Page:
    """Return a page with its search open."""
    page = browser.new_page(viewport={"width": 1280, "height": 900})
    page.goto(address)
    page.get_by_role("textbox", name="Search").focus()
    return page


@pytest.mark.parametrize(("query", "wanted"), WANTED.items())
def test_query_finds_its_page(page: Page, query: str, wanted: str) -> None:
    """The page is among the first three hits."""
    assert wanted in found(page, query)[:3]


@pytest.mark.parametrize(("query", "wanted"), WANTED_OF_THE_HANDBOOK.items())
def test_query_finds_its_page_of_the_handbook(handbook: Page, query: str, wanted: str) -> None:
    """Among all the pages, the one that is meant is still among the first three hits."""
    assert wanted in found(handbook, query)[:3]


def test_symbol_finds_the_list_of_symbols(handbook: Page) -> None:
    """A symbol that is in every formula leads to the page that says where it is used."""
    assert any(address.endswith("/symbols.html") for address in found(handbook, "Ω")[:3])


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_hits_are_accessible(handbook: Page, scheme: Literal["light", "dark"]) -> None:
    """The open search breaks no accessibility rule."""
    handbook.emulate_media(color_scheme=scheme, reduced_motion="reduce")
    found(handbook, "mu")

    violations = Axe().run(handbook).response["violations"]
    assert [node["html"] for violation in violations for node in violation["nodes"]] == []


def test_nonsense_finds_nothing(page: Page) -> None:
    """The hits above are hits for what was typed."""
    assert found(page, "zyxwv") == []


def found(page: Page, query: str) -> list[str]:
    """Return the pages that a query finds, best first."""
    enter(page, "", "Type to start")
    enter(page, query, "matching document")
    hits = page.locator(".md-search-result__item > .md-search-result__link")
    if "No matching" not in page.locator(META).inner_text():
        hits.first.wait_for(state="attached")
    addresses = [str(hit.get_attribute("href")) for hit in hits.all()]
    return ["/".join(address.partition("?")[0].split("/")[-2:]) for address in addresses]


def enter(page: Page, text: str, answer: str) -> None:
    """Enter a text at once, and wait for what the search says to it."""
    field = page.get_by_role("textbox", name="Search")
    field.fill(text)
    field.press("Shift")  # the search listens to keys alone
    page.locator(META, has_text=answer).wait_for()
