"""The check of the built site, fed pages that are wrong in one way each."""

from pathlib import Path

import pytest

from scripts.check_site import check
from scripts.policy import with_policy

GOOD = """
<head><meta charset="utf-8"><link rel="stylesheet" href="style.css"></head>
<h1 id="top">Tip speed</h1>
<a href="index.html#top">Up</a> <a href="rotor/page.html">Down</a>
<a href="https://doi.org/10.1000/1">A source</a>
<a href="#radius=5.5_m">A calculation</a> <form data-formula="rotor.tip_speed"></form>
<img src="data:image/png;base64,AA=="><label for="entry">Entry</label><input id="entry">
<svg><defs><path id="blade"/></defs><use href="#blade"/><g clip-path="url(#blade)"/></svg>
<code>a[0](1) | - |</code>
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a small site without fault."""
    (tmp_path / "rotor").mkdir()
    (tmp_path / "style.css").write_text("a { background: url(data:image/png;base64,AA==) }")
    (tmp_path / "index.html").write_text(with_policy(GOOD))
    inner = '<head><meta charset="utf-8"></head><a href="../index.html#blade">Blade</a>'
    (tmp_path / "rotor" / "page.html").write_text(with_policy(inner))
    return tmp_path


def test_good_pages_pass(folder: Path) -> None:
    """There is nothing to say about a good site."""
    assert check(folder) == []


@pytest.mark.parametrize(
    ("fault", "problem"),
    [
        ("<pre>Traceback (most recent call last):</pre>", "a snippet failed"),
        ('<p>python exec="on"</p>', "a fence was not executed"),
        ('<code>python exec="on" sorce="above"</code>', "a fence was not executed"),
        ("<p>```</p>", "a fence was not read"),
        ("<p>$$ a = b $$</p>", "a formula was not read"),
        (r"<p>\(a\)</p>", "a formula was not set"),
        (r"<p>see \eqref{eq-a}</p>", "a reference to a formula was not read"),
        ("<p>[text](page.md)</p>", "a link was not read"),
        ("<h2>Blades {#blades}</h2>", "an attribute was not read"),
        ("<p>| a | | - | - |</p>", "a table was not read"),
        ('<a href="missing.html">x</a>', "links to missing.html, which does not exist"),
        ('<a href="rotor/">x</a>', "links to rotor/, which does not exist"),
        ('<a href="/index.html">x</a>', "links to /index.html, which does not exist"),
        ('<a href="../index.html">x</a>', "links to ../index.html, which does not exist"),
        ('<a href="rotor/page.html#eq-none">x</a>', "there is no such place"),
        ('<a href="#none">x</a>', "there is no such place"),
        ('<a href="rotor/page.html#radius=1">x</a>', "which has no calculator"),
        ('<svg><use href="#none"/></svg>', "there is no such place"),
        ('<svg><g fill="url(#none)"/></svg>', "there is no such place"),
        ('<a href="https://example.com/">x</a>', "not among the sites"),
        ('<a href="http://doi.org/1">x</a>', "not among the sites"),
        ('<a href="https://notdoi.org/">x</a>', "not among the sites"),
        ('<a href="//doi.org/1">x</a>', "not among the sites"),
        ('<a href="javascript:alert(1)">x</a>', "not among the sites"),
        ('<form action="https://example.com/"></form>', "not among the sites"),
        ('<img src="missing.png">', "loads missing.png, which does not exist"),
        ('<img src="https://doi.org/a.png">', "loads https://doi.org/a.png from elsewhere"),
        ('<img srcset="style.css 1x, //example.com/b.png 2x">', "from elsewhere"),
        ('<script src="https://example.com/a.js"></script>', "from elsewhere"),
        ('<link rel="preload" href="https://example.com/a.woff2">', "from elsewhere"),
        ('<link rel="stylesheet" href="missing.css">', "which does not exist"),
        ('<iframe src="https://example.com/"></iframe>', "from elsewhere"),
        ('<p style="background: url(https://example.com/a.png)">x</p>', "from elsewhere"),
        ("<style>@import 'https://example.com/a.css';</style>", "from elsewhere"),
        ('<svg><image href="https://example.com/a.png"/></svg>', "from elsewhere"),
        ('<p id="top">x</p>', "the id 'top' is used 2 times"),
        ('<svg><path id="blade"/></svg>', "the id 'blade' is used 2 times"),
        ('<label for="none">x</label>', "there is no id 'none'"),
        ('<p aria-describedby="top none">x</p>', "there is no id 'none'"),
        ("<script>late()</script>", "the content security policy is missing"),
    ],
)
def test_each_fault_is_found(folder: Path, fault: str, problem: str) -> None:
    """One fault in one page gives one problem, which names the page."""
    page = folder / "index.html"
    page.write_text(page.read_text() + fault)

    found = check(folder)

    assert len(found) == 1
    assert found[0].startswith("index.html: ")
    assert problem in found[0]


@pytest.mark.parametrize(
    "rule",
    [
        "@import 'https://example.com/a.css';",
        "@import url(https://example.com/a.css);",
        "@font-face { src: url(//example.com/a.woff2) }",
        "a { background: url('missing.svg') }",
    ],
)
def test_faults_of_style_sheets_are_found(folder: Path, rule: str) -> None:
    """A style sheet loads only files of the site."""
    (folder / "style.css").write_text(rule)

    found = check(folder)

    assert len(found) == 1
    assert found[0].startswith("style.css: loads ")


def test_missing_policy_is_found(folder: Path) -> None:
    """A page without a policy may load anything."""
    (folder / "index.html").write_text(GOOD)

    assert check(folder) == [
        "index.html: the content security policy is missing or not that of the page"
    ]


def test_missing_front_page_is_found(folder: Path) -> None:
    """A site without pages is not a good site."""
    (folder / "rotor" / "page.html").unlink()
    (folder / "index.html").unlink()

    assert check(folder) == ["index.html: is missing"]
