"""The scripts of the pages in one file: it is asked for once, and packs better than many."""

import re
from collections.abc import Iterable
from pathlib import Path

from mkdocs.config.config_options import ExtraScriptValue
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files

FOLDER = "assets/javascripts/"
NAME = f"{FOLDER}handbook.js"

_COMMENT = re.compile(r"^[ \t]*(?://[^\n]*|/\*.*?\*/[ \t]*)\n", re.DOTALL | re.MULTILINE)


def join_scripts(files: Files, config: MkDocsConfig) -> None:
    """Let the pages load one script in place of those of mkdocs.yml that stand in one folder.

    The others are loaded before it.
    """
    names = [str(script) for script in config.extra_javascript]
    parts = {name: file for name in names if (file := _file(files, name))}
    texts = [Path(str(file.abs_src_path)).read_text(encoding="utf-8") for file in parts.values()]
    for file in parts.values():
        files.remove(file)
    files.append(File.generated(config, NAME, content=joined(texts)))
    one = ExtraScriptValue(NAME)
    one.defer = True
    config.extra_javascript = [s for s in config.extra_javascript if str(s) not in parts] + [one]


def _file(files: Files, name: str) -> File | None:
    return files.get_file_from_path(name) if name.startswith(FOLDER) else None


def joined(scripts: Iterable[str]) -> str:
    r"""Return one script that does what some do in turn, without their comments.

    A comment has lines of its own; what stands beside code is left alone.

    Examples:
        >>> joined(["// First.\nlet a = 1; // one\n", "/* Then\n   more. */\na += 1;\n"])
        'let a = 1; // one\na += 1;\n'
    """
    return "".join(_COMMENT.sub("", script) for script in scripts)
