"""The scripts of the pages in one file, and their style sheets: one request, and packed better."""

import re
from collections.abc import Iterable
from pathlib import Path

from mkdocs.config.config_options import ExtraScriptValue
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files

SCRIPTS = "assets/javascripts/"
STYLES = "assets/stylesheets/"

_COMMENT = re.compile(r"^[ \t]*(?://[^\n]*|/\*.*?\*/[ \t]*)\n", re.DOTALL | re.MULTILINE)


def join_parts(files: Files, config: MkDocsConfig) -> None:
    """Let the pages load one script and one style sheet in place of those in their two folders.

    What mkdocs.yml names of other folders is loaded before, as a file of its own; its comments are
    left out as well, so that it may be only what is ours.
    """
    script = ExtraScriptValue(f"{SCRIPTS}site.js")
    script.defer = True
    parts = _take(files, map(str, config.extra_javascript), SCRIPTS)
    files.append(File.generated(config, str(script), content=joined(parts.values())))
    others = [name for name in config.extra_javascript if str(name) not in parts]
    for name, text in _take(files, map(str, others), "").items():
        files.append(File.generated(config, name, content=joined([text])))
    config.extra_javascript = [*others, script]

    style = f"{STYLES}site.css"
    parts = _take(files, config.extra_css, STYLES)
    files.append(File.generated(config, style, content=joined(parts.values())))
    config.extra_css = [*[name for name in config.extra_css if name not in parts], style]


def _take(files: Files, names: Iterable[str], folder: str) -> dict[str, str]:
    """Return the texts of the named files of a folder, which are no longer files of the site."""
    found = {}
    for name in names:
        file = files.get_file_from_path(name)
        if file and name.startswith(folder):
            found[name] = Path(str(file.abs_src_path)).read_text(encoding="utf-8")
            files.remove(file)
    return found


def joined(texts: Iterable[str]) -> str:
    r"""Return one script, or style sheet, that does what some do in turn, without their comments.

    A comment has lines of its own; what stands beside code is left alone.

    Examples:
        >>> joined(["// First.\nlet a = 1; // one\n", "/* Then\n   more. */\na += 1;\n"])
        'let a = 1; // one\na += 1;\n'
    """
    return "".join(_COMMENT.sub("", text) for text in texts)
