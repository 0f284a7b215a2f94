"""A small site with the engine in it, opened in a browser from a server and from disk."""

import functools
import http.server
import shutil
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from scripts.bundle import calc_bundle
from tests.engine.opened import Opened

ROOT = Path(__file__).resolve().parents[2]
ENGINE = ROOT / "docs" / "assets" / "engine"

# As strict as the pages of the site: no eval, no connection, no script from elsewhere.
POLICY = (
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src blob:; "
    "connect-src 'none'; img-src data:"
)
PAGE = f"""<!doctype html>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="{POLICY}">
<title>Engine</title>
<link rel="icon" href="data:,">
<script src="assets/engine/engine.js"></script>
"""


class QuietHandler(http.server.SimpleHTTPRequestHandler):
    """Serves a folder and writes no log."""

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002 - the base's name
        """Write nothing."""


@pytest.fixture(scope="session")
def small_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with one page, the engine, and `calc` with functions to probe it."""
    folder = tmp_path_factory.mktemp("engine") / "site"
    shutil.copytree(ENGINE, folder / "assets" / "engine")
    package = folder.parent / "calc"
    package.mkdir()
    for name in ("__init__.py", "browser.py", "linalg.py"):
        shutil.copy(ROOT / "calc" / name, package)
    shutil.copytree(ROOT / "calc" / "numeric", package / "numeric")
    shutil.copy(Path(__file__).with_name("probe.py"), package)
    with (package / "browser.py").open("a", encoding="utf-8") as module:
        module.write("\n\nfrom calc.probe import PROBES as ALLOWED\n")
    script = calc_bundle(package)
    (folder / "assets" / "engine" / "calc.js").write_text(script, encoding="utf-8")
    (folder / "index.html").write_text(PAGE, encoding="utf-8")
    return folder


@pytest.fixture(
    scope="session", params=["disk", pytest.param("server", marks=pytest.mark.thorough)]
)
def address(request: pytest.FixtureRequest, small_site: Path) -> Iterator[str]:
    """Return the address of the page, from disk and from a server.

    From a server the tests of forms use the same files in each run.
    """
    if request.param == "disk":
        yield (small_site / "index.html").as_uri()
        return
    handler = functools.partial(QuietHandler, directory=str(small_site))
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}/index.html"
        server.shutdown()


@pytest.fixture(scope="session")
def opened(browser: Browser, address: str) -> Iterator[Opened]:
    """Return the page, opened once for all tests that leave the engine running."""
    with browser.new_context() as context:
        yield Opened(context.new_page(), address)


@pytest.fixture
def fresh(browser: Browser, address: str) -> Iterator[Opened]:
    """Return the page, opened for one test."""
    with browser.new_context() as context:
        yield Opened(context.new_page(), address)
