"""Pages in a browser: light and dark, desktop and phone, from disk."""

from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path
from typing import Literal

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, Request, Route, ViewportSize, expect

from tests.waiting import at_rest

DESKTOP = ViewportSize(width=1280, height=900)
PHONES = (ViewportSize(width=320, height=800), ViewportSize(width=360, height=800))
"""The narrowest, for every page, and a usual one, for pages of every kind."""

SCHEMES: dict[Literal["light", "dark"], str] = {"light": "default", "dark": "slate"}
COLOURED = (
    "index.html",
    "rotor/tip_speed.html",
    "ground/what_it_is.html",
    "ground/run_plan.html",
)
"""Pages that between them have the parts with colours, which are slow to check."""

OTHER_KINDS = (
    "how_it_was_checked.html",
    "units.html",
    "flight/test_flight.html",
    "measurement/desk.html",
    "measurement/damping_trend.html",
    "exercises/rotor.html",
    "lessons/ground_growth.html",
    "glossary.html",
    "sheet.html",
    "symbols.html",
)
"""Pages that have other parts; the rest is made of the same and is looked at thoroughly alone."""

OF_COLOURS = ("color-contrast", "link-in-text-block")
"""The accessibility rules of colours, which take half of the time of all rules."""

Findings = dict[str, list[str]]


@pytest.fixture(scope="module")
def findings(site: Path, served: str, browser: Browser) -> Findings:
    """Return what was found wrong on the pages, by what was looked at."""
    found: Findings = defaultdict(list)
    page = browser.new_page(viewport=PHONES[0], reduced_motion="reduce")
    watch(page, served, found)
    for name in names(site):
        page.goto(f"{served}/{name}")
        at_rest(page)
        found["width"] += [f"{name}: {text}" for text in overflow(page)]
    page.close()
    return found


def names(site: Path) -> Iterator[str]:
    """Yield the pages of a site by their addresses in it."""
    return (path.relative_to(site).as_posix() for path in sorted(site.rglob("*.html")))


def watch(page: Page, served: str, found: Findings) -> None:
    """Note errors and every request that leaves the machine, and stop those requests."""

    def stop(route: Route) -> None:
        found["requests"].append(f"{page.url}: {route.request.url}")
        route.abort()

    def failed(request: Request) -> None:
        if request.failure != "net::ERR_ABORTED":  # the page was left before it came
            found["failed"].append(f"{page.url}: {request.url}: {request.failure}")

    local = (f"{served}/", "file://", "blob:", "data:")
    page.route(lambda url: not url.startswith(local), stop)
    page.on("pageerror", lambda error: found["errors"].append(f"{page.url}: {error}"))
    page.on(
        "console",
        lambda message: (
            found["errors"].append(f"{page.url}: {message.text}")
            if message.type in {"error", "warning"}
            else None
        ),
    )
    page.on("requestfailed", failed)


def faults(page: Page, *rules: str) -> list[str]:
    """Return what the accessibility rules, those named or all but colours, object to in a page."""
    others = {"rules": {rule: {"enabled": False} for rule in OF_COLOURS}}
    chosen = {"runOnly": list(rules)} if rules else others
    options = {"resultTypes": ["violations"]} | chosen
    violations = Axe().run(page, options=options).response["violations"]
    return [
        f"{violation['id']}: {node['target']} {node['failureSummary']}"
        for violation in violations
        for node in violation["nodes"]
    ]


def overflow(page: Page) -> list[str]:
    """Return what is wider than the screen."""
    script = """() => {
        const { scrollWidth, clientWidth } = document.documentElement;
        if (scrollWidth <= clientWidth) return [];
        const scrolls = (box) => box && (getComputedStyle(box).overflowX !== "visible"
            || scrolls(box.parentElement));
        const wide = [...document.querySelectorAll("article *")].filter((box) =>
            box.getBoundingClientRect().right > clientWidth && !scrolls(box.parentElement));
        return [`${scrollWidth} px wide: `
            + wide.slice(0, 3).map((box) => box.outerHTML.slice(0, 80)).join(" ")];
    }"""
    found: list[str] = page.evaluate(script)
    return found


@pytest.mark.parametrize("subject", ["width", "errors", "requests", "failed"])
def test_nothing_is_found(findings: Findings, subject: str) -> None:
    """No page scrolls sideways, fails, or leaves the machine."""
    assert findings[subject] == []


@pytest.mark.parametrize("all_pages", [False, pytest.param(True, marks=pytest.mark.thorough)])
def test_pages_are_accessible(
    site: Path, served: str, browser: Browser, *, all_pages: bool
) -> None:
    """No page breaks an accessibility rule: those of every kind, or each of them."""
    found: list[str] = []
    page = browser.new_page(viewport=DESKTOP, reduced_motion="reduce")
    for name in names(site) if all_pages else COLOURED + OTHER_KINDS:
        page.goto(f"{served}/{name}")
        found += [f"{name}: {text}" for text in faults(page)]
    for name in COLOURED:
        page.goto(f"{served}/{name}")
        for scheme, value in SCHEMES.items():
            page.emulate_media(color_scheme=scheme, reduced_motion="reduce")
            expect(page.locator("body")).to_have_attribute("data-md-color-scheme", value)
            found += [f"{name}, {scheme}: {text}" for text in faults(page, *OF_COLOURS)]
        page.set_viewport_size(PHONES[1])
        at_rest(page)
        found += [f"{name}: {text}" for text in overflow(page)]
        page.set_viewport_size(DESKTOP)
    page.close()
    assert found == []


@pytest.mark.parametrize("all_pages", [False, pytest.param(True, marks=pytest.mark.thorough)])
def test_pages_open_from_disk(site: Path, browser: Browser, *, all_pages: bool) -> None:
    """Without a server a page has its title, and no error: one of every kind, or each of them.

    That what they link to is there is seen by `scripts/check_site.py`, for all of them.
    """
    found: Findings = defaultdict(list)
    page = browser.new_page(viewport=DESKTOP)
    watch(page, "http://127.0.0.1", found)
    for name in names(site) if all_pages else COLOURED:
        page.goto(f"{site.as_uri()}/{name}")
        found["untitled"] += [] if page.title() else [name]
    page.close()
    assert not any(found.values()), found


def test_faults_are_noticed(browser: Browser, tmp_path: Path) -> None:
    """What the tests above look for is found on a page that has it all."""
    bad = tmp_path / "bad.html"
    bad.write_text(
        '<article><div style="width: 500px">wide</div><img src="https://example.com/a.png">'
        "<script>missing()</script></article>"
    )
    found: Findings = defaultdict(list)
    page = browser.new_page(viewport=PHONES[0])
    watch(page, "http://127.0.0.1", found)
    page.goto(bad.as_uri())

    assert "image-alt" in " ".join(faults(page))
    assert "500px" in " ".join(overflow(page))
    assert "example.com" in " ".join(found["requests"])
    assert "missing is not defined" in " ".join(found["errors"])
    assert "example.com" in " ".join(found["failed"])
    page.close()
