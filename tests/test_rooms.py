"""The plan of the house: no arrow that must not exist, and the drawing in the guide is true."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

from scripts.environment import ROOT
from scripts.rooms import CHAPTERS, arrows, drawn, floors

MACHINERY = sorted(set(arrows()) - set(CHAPTERS) - {"record", "survey"})
"""The survey of a data sheet, and what is shown of a record, stand above the chapters they ask."""


@pytest.mark.parametrize("room", MACHINERY)
def test_machinery_knows_no_chapter(room: str) -> None:
    """A chapter can be added or left out without a change in the machinery."""
    assert arrows()[room].isdisjoint(CHAPTERS)


@pytest.mark.parametrize("chapter", CHAPTERS)
def test_chapters_know_nothing_of_forms(chapter: str) -> None:
    """A formula does not know who asks, how its working is written or how it is listed."""
    assert arrows()[chapter].isdisjoint(
        {"form", "working", "catalogue", "browser", "sheet", "survey", "record"}
    )


def test_numbers_know_nothing_of_pictures() -> None:
    """Units, quantities and declarations are used by charts and never use them."""
    for room in "units", "quantity", "declaration", "digits", "symbol", "linalg", "numeric":
        assert "chart" not in arrows()[room]


def test_guide_shows_the_plan() -> None:
    """The drawing in DEVELOPERS.md is the one that the imports give."""
    guide = (ROOT / "DEVELOPERS.md").read_text("utf-8")
    assert f"```\n{drawn()}\n```" in guide, "print it with: python -m scripts.rooms"


def test_circle_is_noticed(tmp_path: Path) -> None:
    """Two rooms that use each other have no floors."""
    (tmp_path / "one.py").write_text("from calc.other import x\n")
    (tmp_path / "other.py").write_text("from calc.one import y\n")
    with pytest.raises(ValueError, match="circle among"):
        floors(arrows(tmp_path))


@pytest.mark.parametrize(
    ("room", "allowed"),
    [("model", {"model", "quantities"}), ("search", None), ("plan", None)],
)
def test_inner_rooms_of_ground_resonance_stand_on_each_other(
    room: str, allowed: set[str] | None
) -> None:
    """The model knows its quantities alone; what is searched for knows nothing of a plan."""
    used = {
        module.removeprefix("calc.ground.").partition(".")[0]
        for path in (ROOT / "calc" / "ground" / room).glob("*.py")
        for module in imported(path)
        if module.startswith("calc.ground.")
    }

    assert used
    assert used <= allowed if allowed else room == "plan" or "plan" not in used


def imported(path: Path) -> Iterator[str]:
    """Yield the modules that a module imports from."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module:
            yield node.module
