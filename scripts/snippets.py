"""What the pages' snippets print: run in all processors, and remembered for a preview.

A snippet depends on nothing but its own text and the sources that it reaches, so it can be run
while the pages before its own are made, in any process, and need not be run again while they stay.
"""

import ast
import hashlib
import os
import re
import sys
from collections.abc import Callable, Iterator
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
    printed = Printed(docs, memory)
    run = python._run_python  # noqa: SLF001 - there is no public way

    def answer(code: str, **options: Any) -> str:
        text = printed.of(code)
        return run(code, **options) if text is None else text

    _use(answer)
    try:
        yield
    finally:
        _use(run)
        printed.close()


def _use(run: Callable[..., str]) -> None:
    for formatter in python, pycon:
        formatter._run_python = run  # type: ignore[attr-defined]  # noqa: SLF001


class Printed:
    """What snippets print, by their code: remembered, or run ahead while pages are made."""

    def __init__(self, docs: Path, memory: Path | None) -> None:
        """Begin to run the snippets of a folder of pages, in the order of the pages."""
        pages = sorted(docs.rglob("*.md"))
        codes = {code: None for page in pages for code in _FENCE.findall(page.read_text("utf-8"))}
        self._memory = memory
        self._places = {code: memory / key(code) for code in codes} if memory else {}
        self._known = {
            code: place.read_text("utf-8")
            for code, place in self._places.items()
            if place.is_file()
        }
        missing = [code for code in codes if code not in self._known]
        self._pool = ProcessPoolExecutor(os.cpu_count()) if len(missing) > FEW else None
        self._running = {code: self._pool.submit(_run, code) for code in missing if self._pool}

    def of(self, code: str) -> str | None:
        """Return what a snippet prints, once it has; None where it fails or is not run ahead."""
        if code in self._running:
            text = self._running.pop(code).result()
            if text is not None:
                self._known[code] = text
                self._remember(code, text)
        return self._known.get(code)

    def close(self) -> None:
        """Stop what still runs."""
        if self._pool:
            self._pool.shutdown(cancel_futures=True)

    def _remember(self, code: str, text: str) -> None:
        if self._memory:
            self._memory.mkdir(parents=True, exist_ok=True)
            self._places[code].write_text(text, encoding="utf-8", newline="\n")


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
    if "scripts.golden" in modules:
        digest.update(_releases())
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
def _releases() -> bytes:
    paths = [ROOT / "CHANGELOG.md", *sorted((ROOT / "releases").glob("*/*.toml"))]
    return b"".join(path.read_bytes() for path in paths)


@cache
def _tables() -> bytes:
    folders = (ROOT / "tests").rglob("*.toml"), (ROOT / "docs" / "sources").glob("*.toml")
    return b"".join(path.read_bytes() for folder in folders for path in sorted(folder))
