"""Trim and compile the browser's standard library, and compress the runtime.

`scripts/precompile.mjs` runs this file inside Pyodide, by the interpreter and the compressor that
are being vendored, so that the bytes depend on their version alone and not on the maintainer's
machine.  The folder /build holds the inputs and receives the results.
"""

import dataclasses
import gzip
import importlib
import inspect
import io
import json
import py_compile
import sys
import tempfile
import traceback
import zipfile
from pathlib import Path

BUILD = Path("/build")
LIBRARY = Path(f"/lib/python{sys.version_info.major}{sys.version_info.minor}.zip")

# Codecs that the interpreter looks up by name only when they are first needed.
ENCODINGS = ("aliases", "ascii", "cp437", "latin_1", "utf_8", "utf_8_sig")


def main() -> None:
    """Write the compressed library, and the loader and interpreter beside it."""
    promised = json.loads((BUILD / "modules.json").read_text())
    library = trimmed_library(used_modules(promised))
    (BUILD / "stdlib.zip.gz").write_bytes(compressed(library))
    for name in ("script.js", "pyodide.asm.wasm"):
        (BUILD / f"{name}.gz").write_bytes(compressed((BUILD / name).read_bytes()))


def used_modules(promised: list[str]) -> set[str]:
    """Return the names of all modules that Pyodide's start and those `promised` load."""
    for name in promised:
        importlib.import_module(name)
    source = "import dataclasses\n@dataclasses.dataclass\nclass Point:\n    x: float = 1 / 0\n"
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "lazy_imports.py").write_text(source)
        sys.path.insert(0, folder)
        try:
            importlib.import_module("lazy_imports")
        except ZeroDivisionError:
            traceback.format_exc()
        sys.path.remove(folder)
    inspect.signature(dataclasses.make_dataclass("Point", ["x"]))
    return set(sys.modules)


def trimmed_library(modules: set[str]) -> bytes:
    """Return a zip archive of compiled `modules`: stored, because the archive is compressed whole.

    Docstrings and assertions are left out, except in Pyodide's own modules, which read theirs.
    """
    archive = io.BytesIO()
    with zipfile.ZipFile(LIBRARY) as library, zipfile.ZipFile(archive, "w") as trimmed:
        for name in sorted(library.namelist()):
            if name.endswith(".py") and is_wanted(name, modules):
                entry = zipfile.ZipInfo(f"{name}c", (1980, 1, 1, 0, 0, 0))
                trimmed.writestr(entry, compiled(name, library.read(name)))
    return archive.getvalue()


def is_wanted(name: str, modules: set[str]) -> bool:
    """Return whether the archive member `name` is one of `modules` or a codec to keep."""
    module = name.removesuffix(".py").replace("/", ".").removesuffix(".__init__")
    return module in modules or module in {f"encodings.{codec}" for codec in ENCODINGS}


def compiled(name: str, source: bytes) -> bytes:
    """Return the bytecode file of one module."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "module.py"
        file.write_bytes(source)
        target = py_compile.compile(
            str(file),
            cfile=f"{file}c",
            dfile=f"{LIBRARY}/{name}",
            doraise=True,
            optimize=0 if "pyodide" in name else 2,
            invalidation_mode=py_compile.PycInvalidationMode.UNCHECKED_HASH,
        )
        return Path(str(target)).read_bytes()


def compressed(content: bytes) -> bytes:
    """Return `content` as a gzip file without a date."""
    return gzip.compress(content, compresslevel=9, mtime=0)


main()
