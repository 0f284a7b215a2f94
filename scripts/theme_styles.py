"""The theme's style sheets without the rules for what no page has: three quarters of them."""

import re
from collections.abc import Iterator
from pathlib import Path

THEME = ("main", "palette")
"""The theme's style sheets, by the beginnings of their names."""

_CLASS = re.compile(r"\.(-?[A-Za-z_][\w-]*)")
_CLASSES = re.compile(r'class="([^"]*)"')
_OPTIONAL = re.compile(r":(?:not|is|where|has)\((?:[^()]|\([^()]*\))*\)")


def prune(site: Path) -> None:
    """Take the rules that match nothing out of the theme's style sheets."""
    folder = site / "assets" / "stylesheets"
    used = _used(site)
    for name in THEME:
        for path in folder.glob(f"{name}.*.css"):
            text = path.read_text("utf-8")
            path.write_text(pruned(text, used), encoding="utf-8", newline="\n")


def pruned(text: str, used: set[str]) -> str:
    """Return a style sheet without the selectors that need a class which is not used.

    Examples:
        >>> pruned(".a,.b .c{top:0}@media print{.b{left:0}}.d:not(.b){left:1px}", {"a", "d"})
        '.a{top:0}.d:not(.b){left:1px}'
    """
    return "".join(_kept(text, used))


def _kept(text: str, used: set[str]) -> Iterator[str]:
    for head, body in _rules(text):
        if body is None or head.startswith(("@font-face", "@keyframes", "@charset", "@page")):
            yield head if body is None else f"{head}{{{body}}}"
        elif head.startswith("@"):
            inner = pruned(body, used)
            if inner:
                yield f"{head}{{{inner}}}"
        else:
            selectors = [one for one in _selectors(head) if _matches(one, used)]
            if selectors:
                yield f"{','.join(selectors)}{{{body}}}"


def _rules(text: str) -> Iterator[tuple[str, str | None]]:
    """Yield each rule as what stands before its braces and what stands between them."""
    start = 0
    while start < len(text):
        brace = re.compile(r"[{;]").search(text, start)
        if brace is None:
            yield text[start:], None
            return
        if text[brace.start()] == ";":
            yield text[start : brace.end()], None
            start = brace.end()
            continue
        depth, end = 1, brace.end()
        while depth:
            depth += {"{": 1, "}": -1}.get(text[end], 0)
            end += 1
        yield text[start : brace.start()], text[brace.end() : end - 1]
        start = end


def _selectors(head: str) -> list[str]:
    """Return the selectors of a list; a comma inside brackets separates none."""
    return re.split(r",(?![^()\[\]]*[)\]])", head)


def _matches(selector: str, used: set[str]) -> bool:
    return set(_CLASS.findall(_OPTIONAL.sub("", selector))) <= used


def _used(site: Path) -> set[str]:
    """Return every class of a page, and every word of a script that may become one."""
    used: set[str] = set()
    for page in site.rglob("*.html"):
        used.update(*(text.split() for text in _CLASSES.findall(page.read_text("utf-8"))))
    for script in (site / "assets" / "javascripts").glob("*.js"):
        used.update(re.findall(r"[\w-]+", script.read_text("utf-8")))
    return used
