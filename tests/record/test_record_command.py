"""The command for records: its files hold what the example states, the same bytes each time."""

import csv
import hashlib
import math
import re
from pathlib import Path

import numpy as np
import pytest
from scipy.signal import get_window

from calc.__main__ import DONE, PROBLEMS, WRONG_USE, main
from calc.measurement.synthetic import MAST, example


def record_of(folder: Path, text: str, encoding: str = "utf-8") -> Path:
    """Return the file of a record."""
    path = folder / "record.csv"
    path.write_bytes(text.encode(encoding))
    return path


def rows(path: Path) -> list[dict[str, str]]:
    """Return the rows of a file by their headings."""
    return list(csv.DictReader(path.read_text("utf-8").splitlines()))


def test_files_hold_what_the_example_states(tmp_path: Path) -> None:
    """Lines as SciPy's window and NumPy's transform give them; peaks and orders as stated.

    The noise of 0.05 m/s² rms moves the amplitude of a line by 0.001 m/s², one standard deviation.
    """
    path = record_of(tmp_path, example("plover_steady"))
    assert main(["record", str(path), "--out", str(tmp_path / "out")]) == DONE
    samples = np.array([float(line.split(",")[1]) for line in path.read_text().splitlines()[1:]])
    window = get_window("hann", len(samples))
    lines = 2.0 * np.abs(np.fft.rfft((samples - samples.mean()) * window)) / window.sum()
    spectrum = rows(tmp_path / "out" / "spectrum.csv")
    peaks = [row for row in rows(tmp_path / "out" / "peaks.csv") if row["channel"] == "Mast x"]
    orders = [row for row in rows(tmp_path / "out" / "orders.csv") if row["channel"] == "Mast x"]
    seen = sorted((min(part.frequency, 200.0 - part.frequency), part.amplitude) for part in MAST)

    found = [float(row["Mast x (m/s2, peak)"]) for row in spectrum]
    assert found[1:-1] == pytest.approx(lines[1:-1].tolist(), rel=1e-5)
    assert float(spectrum[720]["frequency (Hz)"]) == 24.0
    for row, (frequency, amplitude) in zip(peaks, seen, strict=True):
        assert float(row["frequency (Hz)"]) == pytest.approx(frequency, abs=1e-3)
        assert float(row["amplitude (peak)"]) == pytest.approx(amplitude, abs=4e-3)
    for row in orders:
        expected = {1: 0.35, 4: 1.60, 8: 0.20}.get(int(row["order"]), 0.0)
        assert float(row["amplitude (peak)"]) == pytest.approx(expected, abs=5e-3)


def test_peaks_are_explained_by_the_drive_train_of_a_sheet(tmp_path: Path) -> None:
    """The lines of the record as it states them, by the names of the Plover's parts.

    The speed is that of the record, also where the sheet turns 2 % faster.
    """
    path = record_of(tmp_path, example("plover_steady"))
    sheet = tmp_path / "plover.toml"
    whole = Path("docs/examples/plover.toml").read_text("utf-8")
    sheet.write_text(whole.replace("6017 rpm", "6137 rpm"), "utf-8")
    words = ["record", str(path), "--sheet", str(sheet), "--out", str(tmp_path / "out")]
    assert main(words) == DONE
    found = rows(tmp_path / "out" / "explained.csv")
    named = {
        round(float(row["frequency (Hz)"]), 1): (row["state"], row["sources, nearest first"])
        for row in found
        if row["channel"] == "Mast x"
    }
    assert named[6.0] == ("shared", "Main rotor 1/rev; Mast 1/rev")
    assert named[17.6] == ("unexplained", "")
    assert named[23.8] == ("explained", "Tail rotor 1/rev")
    assert named[48.0] == ("explained", "Main rotor 8/rev")
    assert named[72.0] == ("missing", "Main rotor 12/rev")
    index = dict(csv.reader((tmp_path / "out" / "index.csv").read_text("utf-8").splitlines()))
    assert index["sheet"] == hashlib.sha256(sheet.read_bytes()).hexdigest()


def test_sheet_without_a_drive_train_explains_nothing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """All else is written, and the notices say what the sheet lacks; no sheet is refused."""
    path = record_of(tmp_path, example("plover_decay"))
    sheet = tmp_path / "sheet.toml"
    whole = Path("docs/examples/plover.toml").read_text("utf-8")
    bare = re.sub(r"\n\[\[drive_train\]\].*?(?=\n\[)", "", whole, flags=re.DOTALL)
    sheet.write_text(bare, "utf-8")
    words = ["record", str(path), "--out", str(tmp_path / "out"), "--sheet", str(sheet)]
    assert main(words) == DONE
    assert "No peaks explained" in capsys.readouterr().err
    assert not (tmp_path / "out" / "explained.csv").exists()
    told = [row["text"] for row in rows(tmp_path / "out" / "notices.csv")]
    assert any(text.startswith("No peaks explained: The data sheet lacks") for text in told)
    sheet.write_text("this is no sheet", "utf-8")
    assert main(words) == PROBLEMS


def test_same_record_gives_the_same_bytes(tmp_path: Path) -> None:
    """Two runs write the same, the index has the hashes, and an earlier run's files go."""
    path = record_of(tmp_path, example("plover_decay"))
    folder = tmp_path / "one"
    for text in (example("plover_run_up"), example("plover_decay")):
        path.write_text(text, "utf-8")
        assert main(["record", str(path), "--out", str(folder)]) == DONE
    assert main(["record", str(path), "--out", str(tmp_path / "two")]) == DONE
    one, two = (
        {file.name: file.read_bytes() for file in place.iterdir()}
        for place in (folder, tmp_path / "two")
    )
    index = dict(csv.reader(one["index.csv"].decode().splitlines()))

    assert one == two
    assert "orders.csv" not in one
    assert index["record"] == hashlib.sha256(path.read_bytes()).hexdigest()
    for name in set(one) - {"index.csv"}:
        assert index[name] == hashlib.sha256(one[name]).hexdigest()


@pytest.mark.parametrize("encoding", ["utf-8-sig", "utf-16", "cp1252"])
def test_encodings_of_loggers_are_told(tmp_path: Path, encoding: str) -> None:
    """The name of a channel keeps its letters whatever wrote the file."""
    text = example("plover_decay").replace("Cabin x", "Gehäuse")
    path = record_of(tmp_path, text, encoding)
    assert main(["record", str(path), "--out", str(tmp_path / "out")]) == DONE

    assert rows(tmp_path / "out" / "channels.csv")[0]["channel"] == "Gehäuse"


def test_problems_are_told_and_do_not_change_the_code(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A bad cell stands in the notices by line and column, and on the screen."""
    lines = example("plover_decay").splitlines()
    lines[99] = lines[99].replace(",", ",?")
    path = record_of(tmp_path, "\n".join(lines))
    assert main(["record", str(path), "--out", str(tmp_path / "out")]) == DONE
    (problem,) = [r for r in rows(tmp_path / "out" / "notices.csv") if r["kind"] == "problem"]

    assert (problem["line"], problem["column"]) == ("100", "2")
    assert "Line 100, column 2" in capsys.readouterr().err


def test_unclear_file_is_asked_about(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing is written until what cannot be told is said."""
    path = record_of(tmp_path, "\n".join(f"{math.sin(n):.3f},{n % 5}" for n in range(400)))
    command = ["record", str(path), "--out", str(tmp_path / "out")]

    assert main(command) == PROBLEMS
    assert "Enter its sample rate" in capsys.readouterr().err
    assert not (tmp_path / "out").exists()
    assert main([*command, "--set", "sample_rate=100", "--set", "column.2=skip"]) == DONE
    assert rows(tmp_path / "out" / "channels.csv")[0]["channel"] == "Column 1"


@pytest.mark.parametrize(
    "words",
    [
        ["record", "x.csv"],
        ["record", "x.csv", "--out", "o", "--set"],
        ["record", "x.csv", "--out", "o", "--set", "sample_rate"],
        ["record", "x.csv", "--out", "o", "--set", "colour=1"],
        ["record", "x.csv", "--out", "o", "--against", "y.csv"],
        ["record", "x.csv", "--out", "o", "--sheet"],
        ["record", "x.csv", "--out", "o", "--sheet", "missing.toml"],
        ["record", "missing.csv", "--out", "o"],
    ],
)
def test_wrong_use(words: list[str]) -> None:
    """What cannot be meant, or a file that is not there, is another code."""
    assert main(words) == WRONG_USE
