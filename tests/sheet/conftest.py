"""A reader at the page of the data sheet."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, BrowserContext, Page

from tests.waiting import PATIENT


@pytest.fixture
def context(browser: Browser, served: str) -> Iterator[BrowserContext]:
    """Return a browser that has never been here before.

    It fails the test for an error in the console, and for a request to anywhere else.
    """
    troubles: list[str] = []
    with browser.new_context(accept_downloads=True) as fresh:
        fresh.on("console", lambda m: troubles.append(m.text) if m.type == "error" else None)
        fresh.on("weberror", lambda error: troubles.append(str(error.error)))
        fresh.on(
            "request",
            lambda r: (
                None if r.url.startswith((served, "data:", "blob:")) else troubles.append(r.url)
            ),
        )
        fresh.add_init_script(PATIENT)
        yield fresh
    assert troubles == []


@pytest.fixture
def page(context: BrowserContext, served: str) -> Page:
    """Return the page of the data sheet."""
    opened = context.new_page()
    opened.goto(f"{served}/sheet.html")
    return opened
