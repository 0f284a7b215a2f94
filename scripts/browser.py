"""Which browsers on this machine try the site."""

import os
import shutil
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

LIGHT_PROGRAMS = ("chromium-headless-shell", "chrome-headless-shell")
"""Chromium and Chrome without what belongs to a window: the same engine shows and prints the pages,
and a new reader costs a third of the processor time."""
PROGRAMS = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")
FILES = (
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "C:/Program Files/Chromium/Application/chrome.exe",
    "C:/Program Files/Google/Chrome/Application/chrome.exe",
    "C:/Program Files (x86)/Google/Chrome/Application/chrome.exe",
)
FIREFOX_PROGRAMS = ("firefox", "firefox-esr")
FIREFOX_FILES = (
    "/Applications/Firefox.app/Contents/MacOS/firefox",
    "C:/Program Files/Mozilla Firefox/firefox.exe",
)


def browser_program(*, light: bool = False) -> str | None:
    """Return the path of an installed Chromium or Chrome, a light one first or last, or None."""
    whole, small = _installed(PROGRAMS, FILES), _installed(LIGHT_PROGRAMS, ())
    return (small or whole) if light else (whole or small)


def firefox_program() -> str | None:
    """Return the path of an installed Firefox, or None."""
    return _installed(FIREFOX_PROGRAMS, FIREFOX_FILES)


def _installed(names: Iterable[str], files: Iterable[str]) -> str | None:
    found = [path for name in names if (path := shutil.which(name))]
    found += [path for path in files if Path(path).is_file()]
    return found[0] if found else None


QUICK_START = "--js-flags=--liftoff-only"
"""Leaves out the compiler that makes WebAssembly faster the longer it runs: a page that computes
little costs a third less, and its numbers are the same."""


@contextmanager
def running_browser(program: str, *options: str) -> Iterator[Browser]:
    """Yield a running browser; its sandbox is off for root, for whom it cannot start."""
    is_root = hasattr(os, "geteuid") and os.geteuid() == 0
    with sync_playwright() as playwright:
        running = playwright.chromium.launch(
            executable_path=program, chromium_sandbox=not is_root, args=options
        )
        yield running
        running.close()
