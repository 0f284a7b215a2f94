"""Pages with the forms of the catalogue, and what readers at them need."""

import shutil
import threading
from collections.abc import Iterator
from concurrent.futures import Executor, ProcessPoolExecutor
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page

from calc.catalogue import FORMULAS
from calc.form.fields import form_html
from scripts.build import build
from scripts.environment import ROOT
from scripts.serve import server

PAGES = 6
"""On so many pages the forms of the catalogue are tried together; each has some of every chapter,
for a record that is typed in one chapter is offered by the forms of another."""


def forms_of(number: int) -> tuple[str, ...]:
    """Return the formulas whose forms stand together on a page."""
    return tuple(FORMULAS)[number::PAGES]


@pytest.fixture(scope="session")
def forms_together(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Return the address of a folder with the pages `0.html` and so on of `forms_of`."""
    docs = tmp_path_factory.mktemp("forms") / "docs"
    shutil.copytree(ROOT / "docs" / "assets", docs / "assets")
    pages = {"index": "# Home\n", "sheet": "# Data sheet\n"}
    for number in range(PAGES):
        forms = "\n".join(form_html(name) for name in forms_of(number))
        pages[f"forms/{number}"] = f"# Forms together\n\n{forms}\n"
    (docs / "forms").mkdir()
    for page, text in pages.items():
        (docs / f"{page}.md").write_text(text, encoding="utf-8")
    site = docs.parent / "site"
    build(site, docs, nav=[f"{page}.md" for page in pages])
    with server(site, 0) as running:
        threading.Thread(target=running.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{running.server_port}/forms"
        running.shutdown()


@pytest.fixture(scope="session")
def python() -> Iterator[Executor]:
    """Return a second process that computes what forms should answer, while a browser works."""
    with ProcessPoolExecutor(1) as pool:
        yield pool


@pytest.fixture(params=["server", pytest.param("disk", marks=pytest.mark.thorough)])
def home(request: pytest.FixtureRequest, site: Path, served: str) -> str:
    """Return the address of the site, from a server and from a folder on disk."""
    return served if request.param == "server" else site.as_uri()


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """Return a browser that has never been here before."""
    with browser.new_context() as fresh:
        fresh.grant_permissions(["clipboard-read", "clipboard-write"])
        yield fresh


@pytest.fixture
def page(context: BrowserContext, troubles: list[str], home: str) -> Page:
    """Return a page of a new browser, which fails the test if it asks for anything outside."""
    opened = context.new_page()
    opened.on(
        "request",
        lambda r: None if r.url.startswith((home, "data:", "blob:")) else troubles.append(r.url),
    )
    return opened


@pytest.fixture
def troubles(context: BrowserContext) -> Iterator[list[str]]:
    """Return the errors in the console, of which there must be none at the end."""
    found: list[str] = []
    context.on("console", lambda m: found.append(m.text) if m.type == "error" else None)
    context.on("weberror", lambda error: found.append(str(error.error)))
    yield found
    assert found == []
