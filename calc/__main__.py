"""The command: writes the survey of a data sheet, or what a record of a logger holds.

`python3 -m calc survey FILE --out DIR` writes the survey of a data sheet, and with `--against OLD`
what differs from an earlier sheet, inputs and results.  `python3 -m calc record FILE --out DIR`
writes spectra, peaks, orders and notices of a record; `--set NAME=VALUE` says what cannot be told
from the file, and with `--sheet SHEET` the drive train of a data sheet explains the peaks.

Exit codes: 0, all was written; 1, the data sheet has problems, or the file is no record or has two
meanings, which is told and nothing is written; 2, the command was used wrongly, a file could not be
read or written, or numpy is missing.  Bad rows of a record are told and do not change the code.
"""

import codecs
import csv
import hashlib
import os
import re
import sys
from pathlib import Path
from typing import Any

from calc.record.encoding import encoding_of
from calc.record.files import EXPLAINED, Beside, Reader, reader_of, record_files
from calc.sheet.file import LARGEST, opened
from calc.sheet.sheet import Sheet
from calc.survey.files import INDEX, Before, files

USAGE = """usage: python3 -m calc survey FILE --out DIR [--against OLD]
       python3 -m calc record FILE --out DIR [--sheet SHEET] [--set NAME=VALUE]...

survey: write every result that a data sheet (TOML) gives into a folder: CSV, SVG and a report, and
with --against what differs from an earlier sheet, inputs and results side by side.
record: write what a record of a logger (CSV, tab-separated text) holds: channels, spectra, peaks,
orders and notices, and with --sheet what explains each peak: the lines of the drive train of a
data sheet, at the speed of the record where it has one.
Settings: separator, decimal, header_lines, sample_rate, time_unit,
pulses_per_revolution, threshold, edge, and column.N, with the role of column N (time, channel,
pulses, rotor_speed, skip).
Exit codes: 0 done, 1 the data sheet has problems or the file is no record, 2 wrong use or unusable
file.  Analysis, not approval: approved manuals and licensed practice decide.
"""
ENVIRONMENT = "use that of the project: .venv/bin/python -m calc"
DONE, PROBLEMS, WRONG_USE = 0, 1, 2
ONE_THREAD = "OPENBLAS_NUM_THREADS"
"""What numpy reads: matrices here are small, and threads would wait for each other."""
OUT, AGAINST, SHEET = "--out", "--against", "--sheet"
SURVEY, RECORD = "survey", "record"
BESIDE = {SURVEY: AGAINST, RECORD: SHEET}
"""The option of each command that names a second file."""
SET = "--set"
MOST_TOLD = 20
"""So many bad places of a record are told; all that are kept stand in its notices."""
PIECE = 1 << 20
"""So many bytes of a record are read at once."""
_OWN = re.compile(r"[a-z0-9_]+\.(csv|svg|html|md)")


def main(arguments: list[str] | None = None) -> int:
    """Run the command and return its exit code."""
    words = list(sys.argv[1:] if arguments is None else arguments)
    if words in (["-h"], ["--help"]):
        sys.stdout.write(USAGE)
        return DONE
    settings = _settings(words)
    paths = None if settings is None else _paths(words)
    if settings is None or paths is None:
        return _failed(USAGE.rstrip())
    os.environ.setdefault(ONE_THREAD, "1")
    try:
        return _record(*paths, settings) if words[0] == RECORD else _survey(*paths)
    except ModuleNotFoundError as error:
        return _failed(f"{error.name} is missing in this Python; {ENVIRONMENT}")
    except OSError as error:
        return _failed(f"{error.filename}: {error.strerror}")


def _survey(path: Path, folder: Path, against: Path | None) -> int:
    """Write the survey of the data sheet in a file, or list its problems."""
    data, sheet = _opened(path)
    old, before = (b"", None) if against is None else _opened(against)
    if sheet is None or (against is not None and before is None):
        return PROBLEMS
    _write(folder, files(sheet, data, None if before is None else Before(before, old)))
    sys.stdout.write(f"{folder / 'report.html'}\n")
    return DONE


def _record(path: Path, folder: Path, sheet_path: Path | None, given: dict[str, Any]) -> int:
    """Write what the record in a file holds, or tell why it is none."""
    data, sheet = (b"", None) if sheet_path is None else _opened(sheet_path)
    if sheet_path is not None and sheet is None:
        return PROBLEMS
    beside = None if sheet is None else Beside(sheet, hashlib.sha256(data).hexdigest())
    try:
        reader = reader_of({**given, "name": path.name})
    except ValueError as error:
        return _failed(str(error))
    try:
        digest = _read(path, reader)
        record = reader.finish()
        made = record_files(record, digest, beside=beside)
    except ValueError as error:
        sys.stderr.write(f"{path}: {error}\n")
        return PROBLEMS
    more = record.problem_count - MOST_TOLD
    told = [*record.problems[:MOST_TOLD], *([f"{more} more such places"] if more > 0 else [])]
    if beside and EXPLAINED not in made:
        told.append("No peaks explained: the notices say why")
    for text in (*told, *record.notices):
        sys.stderr.write(f"{path}: {text}\n")
    _write(folder, made)
    sys.stdout.write(f"{folder / INDEX}\n")
    return DONE


def _read(path: Path, reader: Reader) -> str:
    """Feed a file to a reader piece by piece and return the SHA-256 of its bytes."""
    digest = hashlib.sha256()
    with path.open("rb") as stream:
        piece = stream.read(PIECE)
        decoder = codecs.getincrementaldecoder(encoding_of(piece))("replace")
        while piece:
            digest.update(piece)
            reader.feed(decoder.decode(piece))
            piece = stream.read(PIECE)
    return digest.hexdigest()


def _opened(path: Path) -> tuple[bytes, Sheet | None]:
    """Return the bytes of a file and its data sheet, or tell its problems and return no sheet."""
    with path.open("rb") as stream:
        data = stream.read(LARGEST + 1)
    found = opened(data)
    for problem in found.problems:
        sys.stderr.write(f"{path}: {problem}\n")
    for change in found.changes:
        sys.stderr.write(f"{path}: read as the present format: {change}\n")
    return data, found.sheet


def _settings(words: list[str]) -> dict[str, Any] | None:
    """Take the settings of a record off the words; return None where they are wrongly written."""
    found: dict[str, Any] = {}
    while words[:1] == [RECORD] and SET in words:
        at = words.index(SET)
        name, equals, value = "".join(words[at + 1 : at + 2]).partition("=")
        del words[at : at + 2]
        column = re.fullmatch(r"column\.([1-9]\d{0,3})", name)
        if not equals or not name:
            return None
        if column:
            role = {"index": int(column[1]) - 1, "role": value}
            found.setdefault("columns", []).append(role)
        else:
            found[name] = {"tab": "\t", "space": " "}.get(value, value)
    return found


def _paths(words: list[str]) -> tuple[Path, Path, Path | None] | None:
    """Return the paths of `FILE --out DIR` and the other option, or None for anything else."""
    if not words or words[0] not in BESIDE:
        return None
    other = BESIDE[words[0]]
    rest, given = words[1:], dict[str, str]()
    for option in (OUT, other):
        if option in rest:
            at = rest.index(option)
            given[option] = "".join(rest[at + 1 : at + 2])
            del rest[at : at + 2]
    texts = [*rest, *given.values()]
    if len(rest) != 1 or OUT not in given or any(not w or w.startswith("-") for w in texts):
        return None
    return Path(rest[0]), Path(given[OUT]), Path(given[other]) if other in given else None


def _write(folder: Path, texts: dict[str, str]) -> None:
    """Write the files of a survey; what an earlier survey left there goes first."""
    folder.mkdir(parents=True, exist_ok=True)
    for name in _left_by_an_earlier_survey(folder / INDEX):
        (folder / name).unlink(missing_ok=True)
    for name, text in texts.items():
        (folder / name).write_text(text, encoding="utf-8", newline="\n")


def _left_by_an_earlier_survey(index: Path) -> list[str]:
    """Return the files that an index lists, as far as their names are those of a survey."""
    if not index.is_file():
        return []
    with index.open(encoding="utf-8", errors="replace", newline="") as stream:
        names = [row[0] for row in csv.reader(stream) if row]
    return [name for name in names if _OWN.fullmatch(name)]


def _failed(message: str) -> int:
    sys.stderr.write(f"{message}\n")
    return WRONG_USE


if __name__ == "__main__":
    sys.exit(main())
