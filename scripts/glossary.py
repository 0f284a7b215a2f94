"""The glossary: terms with one sentence each, their symbols taken from the declarations."""

import tomllib
from typing import Any

from scripts.environment import ROOT
from scripts.references import page_link

TERMS: dict[str, dict[str, Any]] = tomllib.loads(
    (ROOT / "scripts" / "glossary.toml").read_text("utf-8")
)


def anchor(term: str) -> str:
    """Return the anchor of a term in the glossary."""
    return f"term-{term.lower().replace(' ', '-')}"


def glossary(symbols: dict[str, str]) -> str:
    """Return the terms as a definition list in Markdown.

    Args:
        symbols: The symbol of each declared quantity, by its label.

    Raises:
        KeyError: If a term names a quantity that no formula declares.
    """
    return "\n\n".join(_said(term, entry, symbols) for term, entry in TERMS.items())


def _said(term: str, entry: dict[str, Any], symbols: dict[str, str]) -> str:
    quantity = entry.get("quantity")
    sign = ""
    if quantity:
        named = "" if quantity == term else f"{quantity.lower()} "
        sign = f" ({named}${symbols[quantity]}$)"
    names = [*entry.get("other", []), *(f"{name} (US)" for name in entry.get("american", []))]
    also = f" Also called {', '.join(names)}." if names else ""
    page = ROOT / "docs" / f"{entry['page']}.md"
    title = next(line[2:] for line in page.read_text("utf-8").splitlines() if line[:2] == "# ")
    where = page_link(title, f"{entry['page']}.html")
    return (
        f'<strong id="{anchor(term)}">{term}</strong>{sign}\n'
        f":   {entry['means']}{also} Explained in {where}."
    )
