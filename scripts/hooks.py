"""MkDocs events, each handed to a plain function."""

import json
import logging
import sys
from collections.abc import Iterator
from copy import copy
from pathlib import Path

from markdown_exec._internal.formatters import python as snippets
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.livereload import LiveReloadServer
from mkdocs.structure.files import Files
from mkdocs.structure.nav import Link, Navigation, Section
from mkdocs.structure.pages import Page
from mkdocs.utils.templates import TemplateContext

from calc.measurement.synthetic import EXAMPLES, example
from calc.sheet.schema import schema
from scripts.aliases import aliases
from scripts.environment import ROOT
from scripts.formulas import with_formulas
from scripts.joined import join_parts
from scripts.markup import (
    with_names,
    with_results_first,
    with_scrolling_tables,
    without_code_in_search,
    without_neighbours,
    without_scripts_of_the_theme,
)
from scripts.policy import with_policy
from scripts.releases import changes_file
from scripts.search import Found, sections, write_pages

PAGE_LOG = "mkdocs.plugins.handbook.page"
"""The logger that is told which page is made, since a failed snippet does not say."""

_log = logging.getLogger("mkdocs.plugins.handbook")
_page_log = logging.getLogger(PAGE_LOG)
_page_log.setLevel(logging.DEBUG)
_preview: set[str] = set()
_found: dict[str, Found] = {}
"""What the search shall know of each page that was made."""


def on_config(config: MkDocsConfig) -> MkDocsConfig:
    """Let snippets import `calc` and `scripts`, and refuse a script that does not exist."""
    if str(ROOT) not in sys.path:
        sys.path.insert(0, str(ROOT))
    for script in config.extra_javascript:
        if not (ROOT / "docs" / str(script)).is_file():
            _log.warning("mkdocs.yml names %s, which does not exist", script)
    return config


def on_serve(server: LiveReloadServer, **_: object) -> LiveReloadServer:
    """Show changes of the package in a live preview, `python -m mkdocs serve`, too."""
    server.watch(str(ROOT / "calc"))
    server.watch(str(ROOT / "scripts"))
    _preview.add("on")
    return server


def on_pre_build(**_: object) -> None:
    """Forget the pages and, in a live preview, the modules and snippets of the build before."""
    _found.clear()
    if not _preview:
        return
    for name in [name for name in sys.modules if name.partition(".")[0] in {"calc", "scripts"}]:
        del sys.modules[name]
    snippets._sessions_globals.clear()  # noqa: SLF001 - there is no public way
    snippets._sessions_counter.clear()  # noqa: SLF001


def on_files(files: Files, config: MkDocsConfig, **_: object) -> Files:
    """Make one script and one style sheet of those of the pages."""
    join_parts(files, config)
    return files


def on_page_markdown(markdown: str, page: Page, **_: object) -> str:
    """Say which page is made, and give the search its other names.

    They are those of its formulas, and those that its front matter lists under `also`.
    """
    _page_log.debug(page.file.src_path)
    page.meta["search"] = {"exclude": True}  # from the index of the theme, which is not used
    also = page.meta.get("also", [])
    if not isinstance(also, list):
        _log.warning("%s: `also` is no list in brackets", page.file.src_path)
    page.meta["tags"] = [*aliases(page.file.src_uri), *also]
    return markdown


def on_page_content(html: str, page: Page, **_: object) -> str:
    """Set the formulas and wrap the tables of a page, and note what the search shall know."""
    html, problems = with_formulas(html)
    for problem in problems:
        _log.warning("%s: %s", page.file.src_path, problem)
    html = with_results_first(without_code_in_search(with_scrolling_tables(html)))
    _found[page.file.src_uri] = Found(
        page.url,
        page.file.src_uri,
        list(map(str, page.meta["tags"])),
        sections(html, str(page.title)),
    )
    return html


def on_page_context(context: TemplateContext, nav: Navigation, **_: object) -> TemplateContext:
    """List the pages of a page's own chapter in the menu; other chapters are links.

    All pages in the menu of every page would be a tenth of what a first visit loads.
    """
    menu = copy(nav)
    menu.items = [
        Link(item.title, next(_pages_of(item)).url)
        if isinstance(item, Section) and not item.active
        else item
        for item in nav.items
    ]
    context["nav"] = menu
    return context


def _pages_of(section: Section) -> Iterator[Page]:
    """Yield the pages of a chapter in order."""
    for item in section.children:
        if isinstance(item, Section):
            yield from _pages_of(item)
        elif isinstance(item, Page):
            yield item


def on_post_page(output: str, **_: object) -> str:
    """Name what the theme leaves nameless and say what the page may load."""
    return with_policy(with_names(without_neighbours(without_scripts_of_the_theme(output))))


def on_post_build(config: MkDocsConfig, **_: object) -> None:
    """Make what the search loads, and the files for programs: changes, schema, example records."""
    site = Path(config.site_dir)
    write_pages(site, config.nav, _found.values())
    (site / "changes.json").write_text(changes_file(), "utf-8", newline="\n")
    published = json.dumps(schema(), indent=1, ensure_ascii=False) + "\n"
    examples = site / "examples"
    examples.mkdir(exist_ok=True)
    (examples / "data_sheet.schema.json").write_text(published, "utf-8", newline="\n")
    for name in EXAMPLES:
        (examples / f"{name}.csv").write_text(example(name), "utf-8", newline="\n")
