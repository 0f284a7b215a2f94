"""The script that carries the sources of `calc`."""

import json
from pathlib import Path

import pytest

from scripts.bundle import calc_bundle
from scripts.environment import ROOT

BEFORE = "(window.engineFiles ??= {}).calc = "
AFTER = ";\n"


def package(folder: Path, sources: dict[str, str]) -> Path:
    """Return the folder of a package made of `sources`, written in the order given."""
    for path, text in sources.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_text(text, encoding="utf-8")
    return folder / "calc"


SOURCES = {
    "calc/rotor/speed.py": '"""Speed: µ, "quoted" \\ and </script>."""\n',
    "calc/__init__.py": "",
    "calc/rotor/__init__.py": "",
}


def test_bundle_gives_the_sources_back(tmp_path: Path) -> None:
    """What the script hands over is what the files hold, sorted by path."""
    text = calc_bundle(package(tmp_path, SOURCES))
    assert text.isascii()
    assert text.startswith(BEFORE)
    sources = json.loads(text.removeprefix(BEFORE).removesuffix(AFTER))
    assert sources == SOURCES
    assert list(sources) == sorted(SOURCES)


def test_bundle_depends_on_the_sources_alone(tmp_path: Path) -> None:
    """Another folder, another order of writing and bytecode beside the sources change nothing."""
    reverse = dict(reversed(SOURCES.items()))
    first, second = package(tmp_path / "a", SOURCES), package(tmp_path / "b", reverse)
    (second / "__pycache__").mkdir()
    (second / "__pycache__" / "speed.cpython-311.pyc").write_bytes(b"\0")
    assert calc_bundle(first) == calc_bundle(second)


def test_numpy_is_asked_for_at_one_place_alone() -> None:
    """What travels to the browser works there: only the seam to linear algebra names numpy."""
    paths = (ROOT / "calc").rglob("*.py")
    assert [path.name for path in paths if "import numpy" in path.read_text("utf-8")] == [
        "linalg.py"
    ]


def test_folder_without_package_is_refused(tmp_path: Path) -> None:
    """A wrong path must not become an empty bundle."""
    with pytest.raises(FileNotFoundError, match="not a Python package"):
        calc_bundle(tmp_path)
