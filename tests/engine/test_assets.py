"""The committed files of the engine are those that the manifest describes."""

import base64
import gzip
import hashlib
import io
import json
import re
import zipfile
from pathlib import Path
from typing import Any

import pytest

from scripts import vendor

ENGINE = Path(__file__).resolve().parents[2] / "docs" / "assets" / "engine"
MANIFEST: dict[str, Any] = json.loads((ENGINE / "manifest.json").read_text(encoding="utf-8"))
RUNTIME_BUDGET = 7_000_000  # bytes


@pytest.fixture(scope="module")
def runtime() -> dict[str, Any]:
    """Return what the runtime's script hands over."""
    text = (ENGINE / "runtime.js").read_text(encoding="ascii")
    comment, assignment = text.splitlines()
    assert comment.startswith("/* Pyodide")
    handed_over = assignment.removeprefix("(window.engineFiles ??= {}).runtime = ")
    parts: dict[str, Any] = json.loads(handed_over.removesuffix(";"))
    return parts


def unpacked(base64_text: str) -> bytes:
    """Return the bytes behind gzip and base64."""
    return gzip.decompress(base64.b64decode(base64_text))


def test_manifest_lists_every_vendored_file() -> None:
    """No file is committed that the manifest does not know, and none is missing."""
    files = [path.relative_to(ENGINE).as_posix() for path in vendor.vendored_files(ENGINE)]
    assert list(MANIFEST["files"]) == files
    assert {"runtime.js", "linalg.js"} < set(files)


@pytest.mark.parametrize("name", MANIFEST["files"])
def test_file_has_the_listed_checksum(name: str) -> None:
    """Nobody has edited a vendored file by hand."""
    checksum = hashlib.sha256((ENGINE / name).read_bytes()).hexdigest()
    assert checksum == MANIFEST["files"][name]


def test_manifest_agrees_with_the_pinned_packages() -> None:
    """The files were rebuilt when the pinned versions last changed."""
    pinned = {
        name: {"version": version, "integrity": checksum}
        for name, (version, checksum) in vendor.PACKAGES.items()
    }
    assert MANIFEST["packages"] == pinned


@pytest.mark.parametrize(
    "component", MANIFEST["components"], ids=lambda component: component["name"]
)
def test_component_has_a_licence_text(component: dict[str, str]) -> None:
    """Each vendored component has a version, a licence, its text and where its source is."""
    assert re.fullmatch(r"[\d.]+", component["version"])
    text = (ENGINE / component["licence_file"]).read_text(encoding="utf-8")
    words = {
        "MPL-2.0": "Mozilla Public License",
        "PSF-2.0": "SOFTWARE FOUNDATION LICENSE",
        "MIT": "free of charge",
    }
    assert words[component["licence"]] in text
    assert component["source"].startswith("https://")


def test_runtime_is_within_its_budget() -> None:
    """The runtime takes no more than 7 MB."""
    assert (ENGINE / "runtime.js").stat().st_size <= RUNTIME_BUDGET


def test_loader_names_no_server(runtime: dict[str, Any]) -> None:
    """The only address in the loader is the one that the worker answers from memory."""
    script = unpacked(runtime["script"]).decode()
    addresses = set(re.findall(r"https?://[\w.-]+[\w./-]*", script))
    assert addresses == {runtime["placeholder"]} == {vendor.PLACEHOLDER}
    assert "import.meta" not in script


def test_gzip_files_carry_no_date(runtime: dict[str, Any]) -> None:
    """The same content gives the same bytes: no time and no file name in the headers."""
    for part in ("script", "interpreter", "library"):
        header = base64.b64decode(runtime[part])[:10]
        assert header[:8] == b"\x1f\x8b\x08\x00\x00\x00\x00\x00", part


def test_library_is_compiled_and_carries_no_date(runtime: dict[str, Any]) -> None:
    """The library holds bytecode alone, sorted, dated to the start of the format."""
    with zipfile.ZipFile(io.BytesIO(unpacked(runtime["library"]))) as library:
        entries = library.infolist()
    names = [entry.filename for entry in entries]
    assert names == sorted(names)
    assert all(name.endswith(".pyc") for name in names)
    assert {entry.date_time for entry in entries} == {(1980, 1, 1, 0, 0, 0)}


def test_interpreter_is_webassembly(runtime: dict[str, Any]) -> None:
    """The interpreter starts with the magic number of WebAssembly."""
    assert unpacked(runtime["interpreter"])[:4] == b"\0asm"


@pytest.mark.parametrize("name", ["engine.js", "linalg.js"])
def test_script_builds_no_code_from_text(name: str) -> None:
    """A policy without 'unsafe-eval' must not stop the engine."""
    text = (ENGINE / name).read_text(encoding="utf-8")
    assert not re.search(r"\beval\s*\(|new\s+Function\b|\bimport\s*\(|\bfetch\s*\(", text)
