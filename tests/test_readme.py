"""The README: what it shows is true."""

import doctest
from pathlib import Path

README = Path(__file__).parents[1] / "README.md"


def test_example_gives_what_is_printed() -> None:
    """The run on published numbers prints what the README says."""
    failed, tried = doctest.testfile(str(README), module_relative=False)
    assert failed == 0
    assert tried > 0


def test_first_paragraph_states_the_job() -> None:
    """The paragraph under the title says what the project is and for whom."""
    _, first, *_ = README.read_text(encoding="utf-8").split("\n\n")
    assert first.startswith("This project is")
    assert "vibration on helicopters" in first


def test_files_it_names_exist() -> None:
    """Every relative link and picture of the README is there."""
    text = README.read_text(encoding="utf-8")
    targets = [part.split(")")[0] for part in text.split("](")[1:]]
    assert targets
    assert [target for target in targets if not (README.parent / target).exists()] == []
