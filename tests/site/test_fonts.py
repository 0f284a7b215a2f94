"""Fonts of the formulas in the built site."""

import shutil
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from scripts.environment import ROOT
from scripts.fonts import subset_fonts
from scripts.formulas import formula

FONTS = Path("assets") / "katex" / "fonts"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a site with one formula and the fonts as they are vendored."""
    shutil.copytree(ROOT / "docs" / FONTS, tmp_path / FONTS)
    (tmp_path / "index.html").write_text(formula(r"\Omega \sqrt{R} < 2 \psi"), encoding="utf-8")
    return tmp_path


def test_fonts_hold_what_the_formulas_show(folder: Path) -> None:
    """A character that is used is drawn in its font; one that is not is left out."""
    subset_fonts(folder)

    upright = TTFont(folder / FONTS / "KaTeX_Main-Regular.woff").getBestCmap()
    italic = TTFont(folder / FONTS / "KaTeX_Math-Italic.woff").getBestCmap()
    assert {ord("Ω"), ord("<")} <= upright.keys()
    assert {ord("R"), ord("ψ")} <= italic.keys()
    assert ord("2") in upright.keys() - italic.keys()
    assert ord("R") not in upright
    assert ord("Q") not in upright.keys() | italic.keys()


def test_fonts_become_small(folder: Path) -> None:
    """Whole, the two that nearly every formula needs weigh 40 kB."""
    subset_fonts(folder)

    assert sum(path.stat().st_size for path in (folder / FONTS).glob("KaTeX_Ma*.woff")) < 30_000


def test_fonts_are_the_same_each_time(folder: Path, tmp_path: Path) -> None:
    """No date of today gets into them."""
    name = "KaTeX_Main-Regular.woff"
    subset_fonts(folder)
    first = (folder / FONTS / name).read_bytes()
    shutil.copyfile(ROOT / "docs" / FONTS / name, tmp_path / FONTS / name)
    subset_fonts(folder)

    assert (folder / FONTS / name).read_bytes() == first
