"""A reader at the record desk."""

import pytest
from playwright.sync_api import BrowserContext, Page

from tests.sheet.conftest import context

__all__ = ["context"]


@pytest.fixture
def page(context: BrowserContext, served: str) -> Page:
    """Return the page of the record desk."""
    opened = context.new_page()
    opened.goto(f"{served}/measurement/desk.html")
    return opened
