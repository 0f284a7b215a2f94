r"""Formulas: LaTeX in the pages to HTML and MathML, set while the site is built.

In the text write `$\Omega R$`; on its own line, between blank lines, write

    $$
    \label{eq-tip-speed}
    V_\mathrm{tip} = \Omega R
    $$

A labelled formula is numbered on its page and has an anchor for ever: the label, which starts with
`eq-`.  Refer to it with `$\eqref{eq-tip-speed}$` on the same page, which shows its number, and with
`[tip speed](tip_speed.md#eq-tip-speed)` from elsewhere.  A formula without a label has no number.
HTML made by a snippet asks for a formula with `<span class="arithmatex">\(\Omega R\)</span>`.
"""

import html
import re
from functools import cache
from pathlib import Path

from py_mini_racer import JSEvalException, MiniRacer

KATEX = Path(__file__).with_name("katex") / "katex.min.js"

_MARKED = re.compile(
    r'<(span|div) class="arithmatex">\s*\\(?P<open>[(\[])(?P<tex>.*?)\\[)\]]\s*</\1>', re.DOTALL
)
_LABEL = re.compile(r"\\label\{([^{}]*)\}")
_REFERENCE = re.compile(r"\s*\\eqref\{([^{}]*)\}\s*")
_ANCHOR = re.compile(r"eq-[a-z0-9]+(-[a-z0-9]+)*")
_NOT_FOR_SEARCH = 'data-search-exclude="true"'


class FormulaError(ValueError):
    """A formula that cannot be set, with the reason."""


def with_formulas(page: str) -> tuple[str, list[str]]:
    """Return a page's HTML with its formulas set, and what is wrong with those that cannot be."""
    found = [html.unescape(match["tex"]).strip() for match in _MARKED.finditer(page)]
    labels = [label for tex in found for label in _LABEL.findall(tex)]
    problems = [f"two formulas are labelled {label}" for label in _repeated(labels)]

    def replace(match: re.Match[str]) -> str:
        tex = html.unescape(match["tex"]).strip()
        try:
            return _set(tex, labels, display=match["open"] == "[")
        except FormulaError as error:
            problems.append(f"formula {tex!r}: {error}")
            return match[0]

    return _MARKED.sub(replace, page), problems


def formula(tex: str, *, display: bool = False) -> str:
    r"""Return a formula as HTML and MathML.

    Raises:
        FormulaError: If the LaTeX is wrong or uses what is not standard.

    Examples:
        >>> formula(r"\Omega R").startswith('<span class="katex">')
        True
    """
    result = _typeset(tex, display)
    if isinstance(result, FormulaError):
        raise result
    return result


def _repeated(labels: list[str]) -> list[str]:
    return sorted({label for label in labels if labels.count(label) > 1})


def _set(tex: str, labels: list[str], *, display: bool) -> str:
    reference = _REFERENCE.fullmatch(tex)
    if reference:
        return _reference(reference[1], labels)
    found = _LABEL.findall(tex)
    if not found:
        return _display(formula(tex, display=True)) if display else formula(tex)
    if len(found) > 1 or not display:
        raise FormulaError("one label, in a formula on its own line")
    anchor = found[0]
    if not _ANCHOR.fullmatch(anchor):
        raise FormulaError(f"the label {anchor!r} must be eq- and lower-case words with hyphens")
    body = formula(_LABEL.sub("", tex).strip(), display=True)
    return _display(body, anchor, labels.index(anchor) + 1)


def _reference(anchor: str, labels: list[str]) -> str:
    if anchor not in labels:
        raise FormulaError(f"no formula of this page is labelled {anchor}")
    number = labels.index(anchor) + 1
    return f'<a class="equation-reference" href="#{anchor}">({number})</a>'


def _display(body: str, anchor: str = "", number: int = 0) -> str:
    formula_box = f'<div class="equation-formula scroll-box">{body}</div>'
    if not anchor:
        return f'<div class="equation">{formula_box}</div>'
    link = f'<a href="#{anchor}" aria-label="Equation ({number})">({number})</a>'
    return (
        f'<div class="equation equation-numbered" id="{anchor}">'
        f'{formula_box}<span class="equation-number">{link}</span></div>'
    )


@cache
def _typeset(tex: str, display: bool) -> str | FormulaError:  # noqa: FBT001 - cached by position
    options = {"displayMode": display, "output": "htmlAndMathml", "strict": "error"}
    try:
        page = str(_engine().call("katex.renderToString", tex, options))
    except JSEvalException as error:
        return FormulaError(str(error).splitlines()[0].rpartition("ParseError: ")[2])
    return _without_what_search_would_find_twice(page, "</span>" * (3 if display else 2))


def _without_what_search_would_find_twice(page: str, end: str) -> str:
    """Return a formula of which search reads the MathML alone.

    The theme's search reads on after the first nested element of the same name, so the visible
    part becomes an element of a name of its own.
    """
    mathml, _, visible = page.partition('<span class="katex-html"')
    annotation = '<annotation encoding="application/x-tex"'
    mathml = mathml.replace(annotation, f"{annotation} {_NOT_FOR_SEARCH}")
    closed = f"{visible.removesuffix(end)}</katex-html>{end.removeprefix('</span>')}"
    return f'{mathml}<katex-html class="katex-html" {_NOT_FOR_SEARCH}{closed}'


@cache
def _engine() -> MiniRacer:
    engine = MiniRacer()
    engine.eval(KATEX.read_text(encoding="utf-8"))
    return engine
