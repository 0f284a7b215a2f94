"""The `calc` package as one classic script, for pages opened from a server or from disk."""

import json
from pathlib import Path


def calc_bundle(calc_folder: Path) -> str:
    """Return a script that hands the sources of `calc` to the browser engine.

    The sources travel as text, so that docstrings and `inspect.getsource` work there as they do
    here.  The same sources give the same script: sorted, no dates, line ends of Unix.

    Args:
        calc_folder: The folder of the package.

    Returns:
        The text of a classic script; ASCII, one source file a line.

    Raises:
        FileNotFoundError: If the folder holds no package.
    """
    if not (calc_folder / "__init__.py").is_file():
        raise FileNotFoundError(f"{calc_folder} is not a Python package")
    paths = sorted(calc_folder.rglob("*.py"), key=lambda path: path.as_posix())
    sources = {
        path.relative_to(calc_folder.parent).as_posix(): path.read_text(encoding="utf-8")
        for path in paths
    }
    return f"(window.engineFiles ??= {{}}).calc = {json.dumps(sources, indent=0)};\n"
