"""Check the built site for what a strict build lets through.

A snippet that fails or a mistyped fence leaves its text in the page; links and anchors made by
snippets are not validated; nothing stops a page from loading something from elsewhere.
"""

import os
from collections.abc import Mapping
from pathlib import Path
from urllib.parse import unquote, urlsplit

from scripts.page_facts import Facts, css_loads, facts
from scripts.policy import policy

LINKABLE = (
    "doi.org",
    "dtic.mil",
    "easa.europa.eu",
    "ecfr.gov",
    "faa.gov",
    "govinfo.gov",
    "icao.int",
    "iso.org",
    "nasa.gov",
    "nist.gov",
)
"""Domains that a page may link to: archives and official bodies, nothing that serves code."""

LEFTOVERS = {
    "Traceback (most recent call last)": "a snippet failed",
    'exec="': "a fence was not executed",
    "```": "a fence was not read",
}
"""Text that has no place in a page, and what it means."""

PROSE_LEFTOVERS = {
    "$$": "a formula was not read",
    r"\(": "a formula was not set",
    r"\[": "a formula was not set",
    r"\eqref{": "a reference to a formula was not read",
    r"\label{": "the label of a formula was not read",
    "](": "a link was not read",
    "{#": "an attribute was not read",
    "{:": "an attribute was not read",
    "|--": "a table was not read",
    "| -": "a table was not read",
}
"""The same, where it is not shown as code."""


Files = Mapping[str, Path]
"""The files of the site, by their paths."""


class _Pages(dict[Path, Facts]):
    """The facts of pages, each read when it is first asked for."""

    def __missing__(self, path: Path) -> Facts:
        self[path] = facts(path.read_text("utf-8"))
        return self[path]


def check(folder: Path, pages: str = "**/*.html") -> list[str]:
    """Return what is wrong with the site in a folder, a sentence each; empty when all is well.

    Args:
        folder: The folder of the site.
        pages: Which of its pages to check; all of them if not said.
    """
    known = _Pages()
    files = {str(path): path for path in folder.rglob("*") if path.is_file()}
    problems = [] if (folder / "index.html").is_file() else [("index.html", "is missing")]
    for path in sorted(folder.glob(pages)):
        page = known[path]
        found = [*_text_problems(page), *_id_problems(page), *_policy_problems(path, page)]
        found += [text for link in page.links for text in _link_problems(link, path, files, known)]
        found += [text for load in page.loads for text in _load_problems(load, path, files)]
        problems += [(path.relative_to(folder).as_posix(), text) for text in found]
    for path in sorted(folder.rglob("*.css")):
        loads = css_loads(path.read_text("utf-8"))
        found = [text for load in loads for text in _load_problems(load, path, files)]
        problems += [(path.relative_to(folder).as_posix(), text) for text in found]
    return [f"{name}: {text}" for name, text in problems]


def _text_problems(page: Facts) -> list[str]:
    everywhere = page.prose + page.code
    found = [f"{text!r}: {why}" for text, why in LEFTOVERS.items() if text in everywhere]
    return found + [
        f"{text!r}: {why}" for text, why in PROSE_LEFTOVERS.items() if text in page.prose
    ]


def _id_problems(page: Facts) -> list[str]:
    twice = [
        f"the id {name!r} is used {count} times" for name, count in page.ids.items() if count > 1
    ]
    missing = sorted({name for name in page.references if name not in page.ids})
    return twice + [f"there is no id {name!r} for a label or description" for name in missing]


def _policy_problems(path: Path, page: Facts) -> list[str]:
    if page.policies != [policy(path.read_text("utf-8"))]:
        return ["the content security policy is missing or not that of the page"]
    return []


def _link_problems(link: str, path: Path, files: Files, pages: _Pages) -> list[str]:
    address = urlsplit(link)
    if address.scheme or address.netloc:
        host = address.hostname or ""
        known = any(host == domain or host.endswith(f".{domain}") for domain in LINKABLE)
        if address.scheme == "https" and known:
            return []
        return [f"links to {link}, which is not among the sites that pages link to"]
    target = files.get(_target(address.path, path))
    if target is None:
        return [f"links to {link}, which does not exist"]
    anchor = unquote(address.fragment)
    if "=" in anchor:
        return [] if pages[target].has_form else [f"links to {link}, which has no calculator"]
    if anchor and target.suffix == ".html" and anchor not in pages[target].ids:
        return [f"links to {link}, but there is no such place in that page"]
    return []


def _load_problems(load: str, path: Path, files: Files) -> list[str]:
    address = urlsplit(load)
    if address.scheme == "data":
        return []
    if address.scheme or address.netloc:
        return [f"loads {load} from elsewhere"]
    if _target(address.path, path) not in files:
        return [f"loads {load}, which does not exist"]
    return []


def _target(address: str, path: Path) -> str:
    """Return the file that a relative address means; an absolute one means none of ours."""
    return os.path.normpath(path.parent / unquote(address)) if address else str(path)
