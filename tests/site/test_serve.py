"""The server of a preview: a page that changed is shown anew; folders are not listed."""

import os
import threading
from pathlib import Path
from urllib.error import HTTPError
from urllib.request import urlopen

import pytest
from playwright.sync_api import Browser, expect

from scripts.serve import PreviewHandler, server


def test_changed_page_is_shown_anew(tmp_path: Path, browser: Browser) -> None:
    """The browser follows the file without a key pressed."""
    file = tmp_path / "index.html"
    file.write_text("<body><p>before</p></body>")
    with server(tmp_path, 0, PreviewHandler) as running:
        threading.Thread(target=running.serve_forever, daemon=True).start()
        page = browser.new_page()
        page.goto(f"http://127.0.0.1:{running.server_port}/index.html")
        expect(page.locator("p")).to_have_text("before")
        for _ in range(2):  # the page has asked once for the time of the file, and has the answer
            page.wait_for_event("response", lambda answer: answer.request.method == "HEAD")
        file.write_text("<body><p>after</p></body>")
        os.utime(file, (4e9, 4e9))  # another second than before
        expect(page.locator("p")).to_have_text("after")
        running.shutdown()
        page.close()


def test_folder_is_not_listed(tmp_path: Path) -> None:
    """A folder without a page of its own is not found."""
    with server(tmp_path, 0) as running:
        threading.Thread(target=running.serve_forever, daemon=True).start()
        with pytest.raises(HTTPError, match="404"):
            urlopen(f"http://127.0.0.1:{running.server_port}/")
        running.shutdown()
