"""What the tests of the built site share: the site, a server of it, a browser.

Builder and browser are imported where they are used: the tests of a formula wait for neither.
"""

from __future__ import annotations

import os
import threading
import time
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # as `scripts/environment.py` says

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser


LONGEST_BUILD = 600.0
"""Seconds that a site may take to be built on a slow machine."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Put the long ones first, in the order in which `scripts/test.py` shares them."""
    items.sort(key=_rank)


def _rank(item: pytest.Item) -> int:
    if "site" in item.path.parts:
        return 0
    return 1 if {"browser", "firefox"} & set(getattr(item, "fixturenames", ())) else 2


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the folder of the built site: the one that SITE names, or a new one."""
    from scripts.build import build  # noqa: PLC0415 - see above
    from scripts.environment import UNDER_WAY  # noqa: PLC0415

    if "SITE" in os.environ:
        built = Path(os.environ["SITE"])
        end = time.monotonic() + LONGEST_BUILD
        while built.with_name(built.name + UNDER_WAY).exists() and time.monotonic() < end:
            time.sleep(0.1)
        if not built.is_dir():
            pytest.fail("The site was not built: see the build's own message")
        return built
    folder = tmp_path_factory.mktemp("built") / "site"
    build(folder)
    return folder


@pytest.fixture(scope="session")
def served(site: Path) -> Iterator[str]:
    """Return the address of a server of the site, without a slash at its end."""
    from scripts.serve import server  # noqa: PLC0415 - see above

    with server(site, 0) as running:
        threading.Thread(target=running.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{running.server_port}"
        running.shutdown()


@pytest.fixture(scope="session")
def browser(request: pytest.FixtureRequest) -> Iterator[Browser]:
    """Return a running Chromium or Chrome; without one skip, but fail where CI is set.

    The thorough tests take the whole browser, where there is one.  They compute much, and so have
    the compiler that other tests are too short for.
    """
    from playwright.sync_api import expect  # noqa: PLC0415 - see above

    from scripts.browser import QUICK_START, browser_program, running_browser  # noqa: PLC0415
    from tests.waiting import PATIENCE  # noqa: PLC0415

    expect.set_options(timeout=1000.0 * PATIENCE)
    thorough = request.config.option.markexpr == "thorough"
    program = browser_program(light=not thorough)
    if program is None:
        message = "No Chromium or Chrome is installed: the site was not tried in a browser"
        if os.environ.get("CI"):
            pytest.fail(message)
        pytest.skip(message)
    with running_browser(program, *([] if thorough else [QUICK_START])) as running:
        yield running
