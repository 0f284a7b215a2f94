"""The other names under which a page is found before any page that only mentions them."""

from calc.catalogue import FORMULAS


def aliases(page: str) -> list[str]:
    """Return the other names of the formulas that a page is about, such as BPF or mu.

    Examples:
        >>> "BPF" in aliases("harmonics/blade_passage.md")
        True
        >>> aliases("index.md")
        []
    """
    module = page.removesuffix(".md").replace("/", ".")
    texts = [entry.aliases for name, entry in FORMULAS.items() if name.rpartition(".")[0] == module]
    return list(dict.fromkeys(name for text in texts for name in text.split(", ") if name))
