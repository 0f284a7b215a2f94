"""The command: `python3 -m calc survey FILE --out DIR` writes the survey of a data sheet.

Exit codes: 0, all was written; 1, the data sheet has problems, which are listed by line and field
and nothing is written; 2, the command was used wrongly, a file could not be read or written, or
numpy is missing.
"""

import csv
import re
import sys
from pathlib import Path

from calc.sheet.file import LARGEST, opened
from calc.survey.files import INDEX, files

USAGE = """usage: python3 -m calc survey FILE --out DIR

Write every result that a data sheet (TOML) gives into a folder: CSV, SVG and one report.
Exit codes: 0 done, 1 the data sheet has problems, 2 wrong use or unusable file.
Analysis, not approval: approved manuals and licensed practice decide.
"""
ENVIRONMENT = "use that of the project: .venv/bin/python -m calc survey FILE --out DIR"
DONE, PROBLEMS, WRONG_USE = 0, 1, 2
_OWN = re.compile(r"[a-z0-9_]+\.(csv|svg|html)")


def main(arguments: list[str] | None = None) -> int:
    """Run the command and return its exit code."""
    words = sys.argv[1:] if arguments is None else arguments
    if words in (["-h"], ["--help"]):
        sys.stdout.write(USAGE)
        return DONE
    paths = _paths(words)
    if paths is None:
        return _failed(USAGE.rstrip())
    try:
        return _survey(*paths)
    except ModuleNotFoundError as error:
        return _failed(f"{error.name} is missing in this Python; {ENVIRONMENT}")
    except OSError as error:
        return _failed(f"{error.filename}: {error.strerror}")


def _survey(path: Path, folder: Path) -> int:
    """Write the survey of the data sheet in a file, or list its problems."""
    with path.open("rb") as stream:
        data = stream.read(LARGEST + 1)
    found = opened(data)
    if found.sheet is None:
        for problem in found.problems:
            sys.stderr.write(f"{path}: {problem}\n")
        return PROBLEMS
    for change in found.changes:
        sys.stderr.write(f"{path}: read as the present format: {change}\n")
    _write(folder, files(found.sheet, data))
    sys.stdout.write(f"{folder / 'report.html'}\n")
    return DONE


def _paths(words: list[str]) -> tuple[Path, Path] | None:
    """Return file and folder of `survey FILE --out DIR`, or None for anything else."""
    if words[:1] != ["survey"] or words.count("--out") != 1:
        return None
    rest = words[1:]
    at = rest.index("--out")
    out, files_given = rest[at + 1 : at + 2], rest[:at] + rest[at + 2 :]
    if len(out) != 1 or len(files_given) != 1 or any(w.startswith("-") for w in out + files_given):
        return None
    return Path(files_given[0]), Path(out[0])


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
