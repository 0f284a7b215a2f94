"""What the theme's HTML lacks for readers with a narrow screen, a keyboard or a screen reader."""

import re

_TABLE = re.compile(r"<table>.*?</table>", re.DOTALL)
_EMPTY_HEADER = re.compile(r"<th([^>]*)>\s*</th>")
_EXAMPLE = re.compile(
    r'(?P<source><div class="[^"]*\bhighlight"[^>]*><pre>(?:(?!</pre>).)*</pre></div>)\s*'
    r'(?P<result><div class="result">)',
    re.DOTALL,
)
_BUTTON = 'role="button" tabindex="0"'
_FORMULA_HEADER = re.compile(
    r'<th([^>]*)>(<span class="katex">(?:(?!</th>).)*?<annotation[^>]*>([^<]*)</annotation>'
    r"(?:(?!</th>).)*)</th>",
    re.DOTALL,
)
_SCRIPTS = (
    r'<script src="[./]*assets/javascripts/bundle\.\w+\.min\.js"></script>',
    r'<script id="__config" type="application/json">[^<]*</script>',
)
_NEIGHBOUR = re.compile(r'\s*<link rel="(?:prev|next)" href="[^"]*">')
_MENU_GROUP = re.compile(r'aria-labelledby="(__nav_\d+)(_\d+_label)"')
_NAMES = {
    'class="md-header__button md-icon" for="__drawer"': f'{_BUTTON} aria-label="Menu"',
}


def with_scrolling_tables(page: str) -> str:
    """Return the HTML with each Markdown table in a box of its own that scrolls when it must.

    An empty corner of a table becomes a plain cell: a heading that says nothing is read out.
    A heading that is a formula alone is read out as its LaTeX.
    """

    def replace(match: re.Match[str]) -> str:
        cells = _EMPTY_HEADER.sub(r"<td\1></td>", match[0].removeprefix("<table>"))
        cells = _FORMULA_HEADER.sub(r'<th\1><span class="visually-hidden">\3</span>\2</th>', cells)
        return f'<div class="scroll-box"><table class="table">{cells}</div>'

    return _TABLE.sub(replace, page)


def with_results_first(page: str) -> str:
    """Return the HTML in which a worked example shows its result, with its source folded below."""
    parts, start = [], 0
    for example in _EXAMPLE.finditer(page):
        end = _end_of_division(page, example.start("result"))
        parts += [page[start : example.start()], page[example.start("result") : end]]
        parts.append(
            '<details class="source"><summary>Source of this result</summary>'
            f"{example['source']}</details>"
        )
        start = end
    return "".join([*parts, page[start:]])


def _end_of_division(page: str, start: int) -> int:
    """Return where the division that begins at a place of the page ends."""
    depth = 0
    for tag in re.compile(r"<(/?)div\b").finditer(page, start):
        depth += -1 if tag[1] else 1
        if depth == 0:
            return page.index(">", tag.start()) + 1
    raise ValueError("a division of the page does not end")


def without_code_in_search(page: str) -> str:
    """Return the HTML with its code kept out of the search, which is for words and symbols."""
    return re.sub(r'<div class="([^"]*\bhighlight)"', r'<div class="\1" data-search-exclude', page)


def without_scripts_of_the_theme(page: str) -> str:
    """Return the page without the theme's script and its settings.

    The script weighs more than a page; what it would do here is in `reading.js`.

    Raises:
        ValueError: If it is not there: the theme has changed.
    """
    for pattern in _SCRIPTS:
        page, count = re.subn(pattern, "", page)
        if count != 1:
            raise ValueError(f"the theme no longer has {pattern}")
    return page


def without_neighbours(page: str) -> str:
    """Return the page without the links in its head to the pages before and after it.

    Some browsers fetch the next page ahead when the head names it; the policy of a page refuses
    that, and each page would log an error.
    """
    return _NEIGHBOUR.sub("", page)


def with_names(page: str) -> str:
    """Return the page with a name on each part of the theme that has none.

    The label that opens the menu on a narrow screen becomes a button that a keyboard reaches;
    `reading.js` presses it.

    Raises:
        ValueError: If a part is not there: the theme has changed.
    """
    for part, name in _NAMES.items():
        if page.count(part) != 1:
            raise ValueError(f"the theme no longer has {part}")
        page = page.replace(part, f"{part} {name}")
    return _MENU_GROUP.sub(r'aria-labelledby="\1_label \1\2"', page)  # "Rotor Compute"
