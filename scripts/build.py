"""Build the site into a fresh folder, check it, and only then put it in place.

python3 scripts/serve.py and test.py call this in the project's environment; by hand:
.venv/bin/python -m scripts.build site
"""

import logging
import os
import shutil
import sys
import tempfile
from pathlib import Path
from typing import Any

from mkdocs.commands.build import build as mkdocs_build
from mkdocs.config import load_config
from mkdocs.exceptions import MkDocsException

from scripts.bundle import calc_bundle
from scripts.check_site import check
from scripts.environment import ROOT
from scripts.fonts import subset_fonts
from scripts.hooks import PAGE_LOG
from scripts.snippets import printed_ahead
from scripts.theme_styles import prune

EPOCH = "1577836800"
"""The date of every build, 2020-01-01, so that the same sources give the same bytes."""

DIRTY = "A 'dirty' build is being performed"
"""The warning of MkDocs when it makes only what has changed."""

MEMORY = ROOT / ".cache" / "snippets"
"""What the snippets of a preview printed; a release is built without it."""

NOT_OURS = (
    "404.html",
    "sitemap.xml*",
    "assets/images/favicon.png",
    "assets/javascripts/bundle.*",
    "assets/javascripts/lunr",
    "assets/javascripts/workers",
    "assets/**/*.map",
)
"""What MkDocs and the theme add for a site with a known address, for its search, for debugging."""


class BuildError(Exception):
    """The site was not built; the lines say why."""


def build(
    destination: Path,
    docs: Path = ROOT / "docs",
    memory: Path | None = None,
    **settings: Any,
) -> None:
    """Write the finished site to a folder, replacing what is there only if all is well.

    Args:
        destination: The folder of the site.
        docs: The folder of the pages.
        memory: Where what snippets printed is remembered from build to build, if anywhere.
        settings: What to set otherwise than mkdocs.yml does.

    Raises:
        BuildError: If a page cannot be made, or a finished page is found wrong.
    """
    destination = destination.resolve()
    destination.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(dir=destination.parent, prefix=".site-") as folder:
        fresh = Path(folder) / "site"
        with printed_ahead(docs, memory):
            _write_pages(fresh, docs, settings)
        _drop_what_is_not_ours(fresh)
        engine = fresh / "assets" / "engine"
        engine.mkdir(parents=True, exist_ok=True)
        script = calc_bundle(ROOT / "calc")
        (engine / "calc.js").write_text(script, encoding="utf-8", newline="\n")
        subset_fonts(fresh)
        prune(fresh)
        problems = check(fresh)
        if problems:
            raise BuildError("\n".join(problems))
        if destination.exists():
            shutil.rmtree(destination)
        shutil.move(fresh, destination)


def _drop_what_is_not_ours(site: Path) -> None:
    for pattern in NOT_OURS:
        for path in list(site.glob(pattern)):
            shutil.rmtree(path) if path.is_dir() else path.unlink()


def rebuild_page(site: Path, page: Path, docs: Path = ROOT / "docs", **settings: Any) -> None:
    """Make one page of a built site anew, for a preview: other pages and the search stay.

    Raises:
        BuildError: If the page cannot be made, or is found wrong.
    """
    search = site / "assets" / "search" / "pages.js"
    pages = search.read_bytes()
    page.touch()  # newer than what was made of it
    said = _write_pages(site, docs, settings | {"strict": False}, dirty=True)
    search.write_bytes(pages)
    _drop_what_is_not_ours(site)
    name = page.relative_to(docs).with_suffix(".html").as_posix()
    problems = [*said, *check(site, name)]
    if problems:
        raise BuildError("\n".join(problems))


def _write_pages(
    destination: Path, docs: Path, settings: dict[str, Any], *, dirty: bool = False
) -> list[str]:
    """Let MkDocs write the pages; return what it warned of where that is no error."""
    os.environ["NO_MKDOCS_2_WARNING"] = "1"
    os.environ["SOURCE_DATE_EPOCH"] = EPOCH
    settings = {"strict": True} | settings
    settings |= {"docs_dir": str(docs), "site_dir": str(destination)}
    said = _Listener()
    logging.getLogger("mkdocs").addHandler(said)
    try:
        config = load_config(str(ROOT / "mkdocs.yml"), **settings)
        config.plugins.on_startup(command="build", dirty=dirty)
        mkdocs_build(config, dirty=dirty)
        config.plugins.on_shutdown()
    except MkDocsException as error:
        raise BuildError("\n".join([*said.lines, str(error)])) from error
    except SystemExit as error:
        raise BuildError(f"a snippet ended the build with exit code {error.code}") from error
    finally:
        logging.getLogger("mkdocs").removeHandler(said)
    return [line for line in said.lines if DIRTY not in line]


class _Listener(logging.Handler):
    """Keeps what MkDocs warns of and the page it was about, for the error."""

    def __init__(self) -> None:
        super().__init__()
        self.lines: list[str] = []
        self._page = ""

    def emit(self, record: logging.LogRecord) -> None:
        if record.name == PAGE_LOG:
            self._page = f"{record.getMessage()}: "
        elif record.levelno >= logging.WARNING:
            self.lines.append(self._page + record.getMessage().removeprefix(self._page))


def main() -> None:
    """Build into the folder that the command line names, with or without `--remember`."""
    logging.getLogger("mkdocs").addHandler(logging.NullHandler())  # the error says it all
    try:
        build(Path(sys.argv[1]).resolve(), memory=MEMORY if "--remember" in sys.argv else None)
    except BuildError as error:
        sys.exit(f"The site has these problems:\n{error}")


if __name__ == "__main__":
    main()
