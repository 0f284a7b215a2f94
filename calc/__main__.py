"""The command: `python3 -m calc survey FILE --out DIR` writes the survey of a data sheet.

Exit codes: 0, all was written; 1, the data sheet has problems, which are listed by line and field
and nothing is written; 2, the command was used wrongly, or a file could not be read or written.
"""

import argparse
import csv
import re
import sys
from pathlib import Path

from calc.sheet.file import LARGEST, opened
from calc.survey.files import INDEX, files

DONE, PROBLEMS, WRONG_USE = 0, 1, 2
_OWN = re.compile(r"[a-z0-9_]+\.(csv|svg|html)")


def main(arguments: list[str] | None = None) -> int:
    """Run the command and return its exit code."""
    asked = _parser().parse_args(arguments)
    try:
        with asked.file.open("rb") as stream:
            data = stream.read(LARGEST + 1)
    except OSError as error:
        return _failed(f"{asked.file}: {error.strerror}")
    found = opened(data)
    if found.sheet is None:
        for problem in found.problems:
            sys.stderr.write(f"{asked.file}: {problem}\n")
        return PROBLEMS
    for change in found.changes:
        sys.stderr.write(f"{asked.file}: read as the present format: {change}\n")
    try:
        _write(asked.out, files(found.sheet, data))
    except OSError as error:
        return _failed(f"{asked.out}: {error.strerror}")
    sys.stdout.write(f"{asked.out / 'report.html'}\n")
    return DONE


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python3 -m calc",
        description="Calculations of the rotorcraft vibration handbook. Analysis, not approval.",
        epilog="Exit codes: 0 done, 1 the data sheet has problems, 2 wrong use or unusable file.",
    )
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    survey = commands.add_parser("survey", help="write every result that a data sheet gives")
    survey.add_argument("file", type=Path, metavar="FILE", help="data sheet, TOML")
    survey.add_argument(
        "--out", type=Path, required=True, metavar="DIR", help="folder for CSV, SVG and report"
    )
    return parser


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
