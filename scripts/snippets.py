"""What the pages' snippets print: run ahead in all processors, and remembered for a preview.

A snippet depends on nothing but its own text and the sources that it reaches, so it can be run
before the page that holds it is made, in any process, and need not be run again while they stay.
"""

import ast
import hashlib
import os
import re
import sys
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from typing import Any

from markdown_exec._internal.formatters import pycon, python

from calc.catalogue import FORMULAS
from scripts.environment import ROOT

_FENCE = re.compile(r'^```python exec="on".*?\n(.*?)\n```$', re.MULTILINE | re.DOTALL)
_MODULE = re.compile(r"\b(?:calc|scripts)(?:\.\w+)+")
_WHOLE = re.compile(r"\b(?:every_check|symbol_list|tally|unit_list|methods|FORMULAS)\b")
"""Names by which a snippet reaches every formula."""

FEW = 8
"""So many snippets are run where the page is made: starting processes takes longer."""


@contextmanager
def printed_ahead(docs: Path, memory: Path | None = None) -> Iterator[None]:
    """Have what the snippets of a folder of pages print ready while the pages are made.

    Args:
        docs: The folder of the pages.
        memory: The folder in which to remember what was printed; nothing is remembered without.
    """
    printed = _printed(docs, memory)
    run = python._run_python  # noqa: SLF001 - there is no public way

    def answer(code: str, **options: Any) -> str:
        return printed[code] if code in printed else run(code, **options)

    _use(answer)
    try:
        yield
    finally:
        _use(run)


def _use(run: Callable[..., str]) -> None:
    for formatter in python, pycon:
        formatter._run_python = run  # type: ignore[attr-defined]  # noqa: SLF001


def _printed(docs: Path, memory: Path | None) -> Mapping[str, str]:
    """Return what snippets print, by their code; those that fail are left to their pages."""
    pages = sorted(docs.rglob("*.md"))
    codes = {code: None for page in pages for code in _FENCE.findall(page.read_text("utf-8"))}
    printed: dict[str, str] = {}
    places = {code: memory / key(code) for code in codes} if memory else {}
    for code, place in places.items():
        if place.is_file():
            printed[code] = place.read_text("utf-8")
    missing = [code for code in codes if code not in printed]
    if len(missing) <= FEW:
        return printed
    with ProcessPoolExecutor(os.cpu_count()) as pool:
        for code, text in zip(missing, pool.map(_run, missing), strict=True):
            if text is None:
                continue
            printed[code] = text
            if memory:
                memory.mkdir(parents=True, exist_ok=True)
                places[code].write_text(text, encoding="utf-8", newline="\n")
    return printed


def _run(code: str) -> str | None:
    """Return what a snippet prints, or None if it fails."""
    try:
        return python._run_python(code)  # noqa: SLF001
    except BaseException:  # noqa: BLE001 - the page runs it again and says what is wrong
        return None


def key(code: str) -> str:
    """Return a key that changes when a snippet, or anything that it reaches, changes."""
    modules = _reached(code)
    digest = hashlib.sha256(code.encode())
    for module in sorted(modules):
        digest.update(_source(module).encode())
    if "scripts.cases" in modules:
        digest.update(_tables())
    digest.update(sys.version.encode())
    return digest.hexdigest()


def _reached(code: str) -> set[str]:
    names = FORMULAS if _WHOLE.search(code) else [name for name in FORMULAS if f'"{name}"' in code]
    todo = {f"calc.{name.rpartition('.')[0]}" for name in names} | _imports(code)
    seen: set[str] = set()
    while todo:
        module = todo.pop()
        if module not in seen:
            seen.add(module)
            todo |= _imports(_source(module))
    return seen


@cache
def _imports(text: str) -> frozenset[str]:
    """Return the modules of this project that a source names."""
    found = set(_MODULE.findall(text))
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.ImportFrom) and node.module:
            found |= {node.module, *(f"{node.module}.{name.name}" for name in node.names)}
    return frozenset(module for module in found if _source(module))


@cache
def _source(module: str) -> str:
    if module.partition(".")[0] not in {"calc", "scripts"}:
        return ""
    path = ROOT / module.replace(".", "/")
    files = path.with_suffix(".py"), path / "__init__.py"
    return next((file.read_text("utf-8") for file in files if file.is_file()), "")


@cache
def _tables() -> bytes:
    folders = (ROOT / "tests").rglob("*.toml"), (ROOT / "docs" / "sources").glob("*.toml")
    return b"".join(path.read_bytes() for folder in folders for path in sorted(folder))
