"""The command: `python3 -m calc survey FILE --out DIR` writes the survey of a data sheet.

With `--against OLD` it also writes what differs from an earlier sheet, inputs and results.

Exit codes: 0, all was written; 1, the data sheet has problems, which are listed by line and field
and nothing is written; 2, the command was used wrongly, a file could not be read or written, or
numpy is missing.
"""

import csv
import os
import re
import sys
from pathlib import Path

from calc.sheet.file import LARGEST, opened
from calc.sheet.sheet import Sheet
from calc.survey.files import INDEX, Before, files

USAGE = """usage: python3 -m calc survey FILE --out DIR [--against OLD]

Write every result that a data sheet (TOML) gives into a folder: CSV, SVG and a report, and with
--against what differs from an earlier sheet, inputs and results side by side.
Exit codes: 0 done, 1 the data sheet has problems, 2 wrong use or unusable file.
Analysis, not approval: approved manuals and licensed practice decide.
"""
ENVIRONMENT = "use that of the project: .venv/bin/python -m calc survey FILE --out DIR"
DONE, PROBLEMS, WRONG_USE = 0, 1, 2
ONE_THREAD = "OPENBLAS_NUM_THREADS"
"""What numpy reads: matrices here are small, and threads would wait for each other."""
OPTIONS = OUT, AGAINST = "--out", "--against"
_OWN = re.compile(r"[a-z0-9_]+\.(csv|svg|html|md)")


def main(arguments: list[str] | None = None) -> int:
    """Run the command and return its exit code."""
    words = sys.argv[1:] if arguments is None else arguments
    if words in (["-h"], ["--help"]):
        sys.stdout.write(USAGE)
        return DONE
    paths = _paths(words)
    if paths is None:
        return _failed(USAGE.rstrip())
    os.environ.setdefault(ONE_THREAD, "1")
    try:
        return _survey(*paths)
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


def _paths(words: list[str]) -> tuple[Path, Path, Path | None] | None:
    """Return the paths of `survey FILE --against OLD --out DIR`, or None for anything else."""
    if words[:1] != ["survey"]:
        return None
    rest, given = words[1:], dict[str, str]()
    for option in OPTIONS:
        if option in rest:
            at = rest.index(option)
            given[option] = "".join(rest[at + 1 : at + 2])
            del rest[at : at + 2]
    texts = [*rest, *given.values()]
    if len(rest) != 1 or OUT not in given or any(not w or w.startswith("-") for w in texts):
        return None
    against = Path(given[AGAINST]) if AGAINST in given else None
    return Path(rest[0]), Path(given[OUT]), against


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
