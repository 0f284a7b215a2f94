"""The command: the same numbers for people who script, and the same bytes each time."""

import csv
import hashlib
import re
import subprocess
import sys
from pathlib import Path

import pytest

from calc.__main__ import DONE, PROBLEMS, WRONG_USE, main
from calc.sheet.file import written
from calc.sheet.sheet import Sheet
from calc.survey.survey import survey
from scripts.environment import ROOT
from tests.survey.crafts import example

DUNLIN = ROOT / "docs" / "examples" / "dunlin.toml"


def small(folder: Path) -> Path:
    """Return the file of a Plover of which only what is quick to calculate is known."""
    sheet = example("plover")
    rows = {**sheet.rows, "measured_modes": (), "landing_gear_states": (), "blade_segments": ()}
    path = folder / "small.toml"
    path.write_text(written(Sheet(sheet.title, sheet.note, sheet.values, rows)), "utf-8")
    return path


def lines_of(path: Path) -> list[str]:
    """Return the lines of a file of a survey."""
    return path.read_text("utf-8").splitlines()


def test_command_writes_a_survey(tmp_path: Path) -> None:
    """As a reader of the guide runs it, in a process of its own."""
    command = [sys.executable, "-m", "calc", "survey", str(DUNLIN), "--out", str(tmp_path / "out")]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True)

    assert done.stdout.strip() == str(tmp_path / "out" / "report.html")
    assert done.stderr == ""
    assert (tmp_path / "out" / "forcing_frequencies.svg").read_text("utf-8").startswith("<svg")


def test_same_file_gives_the_same_bytes(tmp_path: Path) -> None:
    """Two runs write the same bytes, and the index has their hashes."""
    path = small(tmp_path)
    for name in ("one", "two"):
        assert main(["survey", str(path), "--out", str(tmp_path / name)]) == DONE
    one, two = (
        {file.name: file.read_bytes() for file in (tmp_path / name).iterdir()}
        for name in ("one", "two")
    )
    index = dict(csv.reader(one["index.csv"].decode().splitlines()))

    assert one == two
    assert index["data sheet"] == hashlib.sha256(path.read_bytes()).hexdigest()
    for name in set(one) - {"index.csv"}:
        assert index[name] == hashlib.sha256(one[name]).hexdigest()


def test_numbers_are_those_of_the_survey(tmp_path: Path) -> None:
    """A CSV file holds each number of its answer to the last digit."""
    path = small(tmp_path)
    assert main(["survey", str(path), "--out", str(tmp_path)]) == DONE
    rows = list(csv.DictReader(lines_of(tmp_path / "altitude_1_stall.csv")))
    tip = next(row for row in rows if row["name"] == "tip_airspeed" and row["unit"] == "m/s")
    sheet = example("plover")
    answer = next(one for one in survey(sheet) if one.asked.key == "altitude_1_stall")
    assert answer.calculation is not None

    assert float(tip["value"]) == answer.calculation.result.tip_airspeed
    assert rows[-1]["kind"] == "link"
    assert rows[-1]["label"] == answer.asked.link


def test_earlier_sheet_is_compared(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The differences are in the report and by themselves, with the hashes of both files.

    An earlier sheet with problems gives exit code 1, is named, and nothing is written.
    """
    new, old = small(tmp_path), tmp_path / "old.toml"
    old.write_text(new.read_text("utf-8").replace("3000 kg", "2900 kg"), "utf-8")
    words = ["survey", str(new), "--against", str(old), "--out", str(tmp_path / "out")]
    assert main(words) == DONE
    for name in ("comparison.html", "comparison.md", "report.html", "report.md"):
        text = (tmp_path / "out" / name).read_text("utf-8")
        assert "What differs from the sheet before" in text
        assert "2900 kg" in text
        for path in (new, old):
            assert hashlib.sha256(path.read_bytes()).hexdigest() in text

    old.write_text("format = 2\n[rotorcraft]\nradius = 4.8\n", "utf-8")
    assert main([*words[:-1], str(tmp_path / "other")]) == PROBLEMS
    assert "old.toml: line 3: rotorcraft.radius" in capsys.readouterr().err
    assert not (tmp_path / "other").exists()
    assert main(["survey", str(new), "--against", "--out", str(tmp_path)]) == WRONG_USE


def test_what_an_earlier_survey_left_goes(tmp_path: Path) -> None:
    """No file of an older survey stays beside those of a new one, and no other file is touched."""
    (tmp_path / "mine.csv").write_text("mine")
    assert main(["survey", str(small(tmp_path)), "--out", str(tmp_path)]) == DONE
    assert (tmp_path / "altitude_3_stall.svg").exists()
    assert main(["survey", str(DUNLIN), "--out", str(tmp_path)]) == DONE

    assert not (tmp_path / "altitude_3_stall.svg").exists()
    assert (tmp_path / "mine.csv").read_text() == "mine"


def test_problems_go_by_line_and_field(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A sheet with problems gives exit code 1, names field and line, and writes nothing."""
    path = tmp_path / "bad.toml"
    path.write_text('format = 2\n[rotorcraft]\nradius = "4.8 kg"\n', "utf-8")

    assert main(["survey", str(path), "--out", str(tmp_path / "out")]) == PROBLEMS
    assert "line 3: rotorcraft.radius: Rotor radius cannot be in" in capsys.readouterr().err
    assert not (tmp_path / "out").exists()


def test_wrong_use_is_told_apart(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A file that is not there, a folder that is a file, and a missing option give exit code 2."""
    path = small(tmp_path)
    assert main(["survey", str(tmp_path / "none.toml"), "--out", str(tmp_path)]) == WRONG_USE
    assert main(["survey", str(path), "--out", str(path)]) == WRONG_USE
    capsys.readouterr()
    for words in (
        [],
        ["survey", str(path)],
        ["survey", "--out", "x"],
        ["survey", "a", "b", "--out", "x"],
    ):
        assert main(words) == WRONG_USE
        assert "usage: python3 -m calc survey FILE --out DIR" in capsys.readouterr().err
    assert main(["--help"]) == DONE
    assert "Exit codes" in capsys.readouterr().out


def test_missing_numpy_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """A Python without numpy surveys what needs no matrices, and else says what is missing."""
    monkeypatch.setitem(sys.modules, "numpy", None)
    curlew = ROOT / "docs" / "examples" / "curlew.toml"

    assert main(["survey", str(DUNLIN), "--out", str(tmp_path / "one")]) == DONE
    assert main(["survey", str(curlew), "--out", str(tmp_path / "two")]) == WRONG_USE
    assert "numpy is missing in this Python" in capsys.readouterr().err
    assert not (tmp_path / "two").exists()


def test_report_needs_nothing_else(tmp_path: Path) -> None:
    """The report loads nothing, has each id once, and shows every answer and every caution."""
    path = small(tmp_path)
    assert main(["survey", str(path), "--out", str(tmp_path)]) == DONE
    text = (tmp_path / "report.html").read_text("utf-8")
    ids = re.findall(r'\bid="([^"]+)"', text)

    assert len(ids) == len(set(ids))
    assert set(re.findall(r'href="#([^"]+)"', text)) <= set(ids)
    assert not re.search(r'(src|href)="(?!#)|url\((?!#)|<script|@import', text)
    assert text.count('class="caution"') == text.count('<section class="answer"')
    assert "It needs:" in text
    assert hashlib.sha256(path.read_bytes()).hexdigest() in text


def test_text_of_a_sheet_is_text_in_the_report(tmp_path: Path) -> None:
    """Names that look like HTML or like a formula of a spreadsheet stay what they are."""
    path = tmp_path / "odd.toml"
    path.write_text(
        'format = 2\ntitle = "<b>bold</b>"\n[drive]\nreference = "=1+1"\n'
        '[[drive_train]]\nname = "=1+1"\nkind = "rotor"\nspeed = "300 rpm"\ncount = "4"\n',
        "utf-8",
    )
    assert main(["survey", str(path), "--out", str(tmp_path)]) == DONE

    assert "<b>bold" not in (tmp_path / "report.html").read_text("utf-8")
    cells = list(csv.reader(lines_of(tmp_path / "forcing_frequencies.csv")))
    assert not [cell for row in cells for cell in row if cell.startswith("=")]
