"""Sources as pages cite and list them."""

from scripts.cases import sources
from scripts.environment import ROOT


def cite(key: str, up: str = "../") -> str:
    """Return a link to a source, such as `Coleman and Feingold (1958)`."""
    return f"[{_author_year(key)}]({up}sources.html#{key})"


def references(*keys: str) -> str:
    """Return a Markdown list of sources, each with its title, for the end of a page."""
    return "\n".join(f"- {cite(key)}: {sources()[key]['title']}" for key in keys)


def source_list() -> str:
    """Return every source with its anchor, for the page of sources."""
    return "\n\n".join(_source(key) for key in sources())


def _author_year(key: str) -> str:
    source = sources()[key]
    year = f" ({source['year']})" if "year" in source else ""
    return f"{source.get('author', source['title'])}{year}"


def _source(key: str) -> str:
    source = sources()[key]
    head = f"{source['author']}" if "author" in source else ""
    year = f" ({source['year']})" if "year" in source else ""
    title = f"*{source['title']}*"
    rest = [source[name] for name in ("publisher", "note") if name in source]
    text = ". ".join([f"{head}{year}: {title}" if head else f"{title}{year}", *rest])
    return f'<span id="{key}"></span>{text.rstrip(".")}.\n{{: .source }}'


def page_link(title: str, address: str) -> str:
    """Return a link, or its bare title while the page is not written."""
    page = ROOT / "docs" / address.partition("#")[0].replace(".html", ".md")
    return f"[{title}]({address})" if page.exists() else title
