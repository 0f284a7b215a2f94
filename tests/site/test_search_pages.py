"""What the search knows of a page: its sections in plain text."""

from scripts.search import Section, sections

PAGE = """<p>Before.</p>
<h1 id="top">Tip speed<a class="headerlink" href="#top">¶</a></h1>
<p>Speed of the <em>tips</em>: &Omega;R</p><ul><li>one</li><li>two</li></ul>
<div data-search-exclude><div>typed</div><p>left out</p></div>
<style>p { top: 0 }</style>
<h2 id="range">Range</h2>
<p>All<br>speeds</p>
"""


def test_sections_are_the_text_under_each_heading() -> None:
    """Text before the first heading goes by the title of the page; what is marked is left out."""
    assert sections(PAGE, "Speeds") == [
        Section("", "Speeds", "Before."),
        Section("top", "Tip speed", "Speed of the tips: ΩR one two"),
        Section("range", "Range", "All speeds"),
    ]


def test_page_without_a_heading_is_one_section() -> None:
    """Its title is that of the page."""
    assert sections("<p>Text</p>", "Title") == [Section("", "Title", "Text")]
