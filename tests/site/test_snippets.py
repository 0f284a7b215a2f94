"""Snippets: run ahead in other processes, and remembered while nothing they reach changes."""

from pathlib import Path

import pytest

from scripts import snippets


def test_key_follows_what_a_snippet_reaches(monkeypatch: pytest.MonkeyPatch) -> None:
    """A change in a module that a snippet reaches changes its key; one elsewhere does not."""
    code = 'from scripts import page\n\nprint(page.form("rotor.tip_speed.tip_speed"))'
    read = snippets._source  # noqa: SLF001 - the one door to the sources
    before = snippets.key(code)

    def edited(module: str) -> str:
        return read(module) + ("# edited" if module == changed else "")

    monkeypatch.setattr(snippets, "_source", edited)
    for changed, same in [
        ("calc.rotor.tip_speed", False),
        ("calc.form.fields", False),
        ("calc.quantity", False),
        ("calc.ground.criterion", True),
    ]:
        assert (snippets.key(code) == before) is same, changed


def test_failing_snippet_is_left_to_its_page(tmp_path: Path) -> None:
    """What fails ahead is not remembered, so that the build of its page says what is wrong."""
    codes = [f"print({number})" for number in range(snippets.FEW)] + ["1 / 0"]
    fences = [f'```python exec="on"\n{code}\n```\n' for code in codes]
    (tmp_path / "page.md").write_text("\n".join(fences))

    for _ in range(2):  # run, then remembered
        printed = snippets.Printed(tmp_path, tmp_path / "memory")
        assert [printed.of(code) for code in codes] == [
            *map("{}\n".format, range(snippets.FEW)),
            None,
        ]
        printed.close()
