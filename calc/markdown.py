"""Markdown: text and tables that any reader of Markdown shows as they are meant."""

import re
from collections.abc import Sequence

_MARKS = re.compile(r"[\\`*_{}\[\]#>|&<~$]|^[-+](?=\s|$)|^\d+[.)](?=\s|$)", re.MULTILINE)
_ENTITIES = {"&": "&amp;", "<": "&lt;", "~": "&#126;", "$": "&#36;"}


def escaped(text: str) -> str:
    r"""Return text of which no character is Markdown or HTML.

    Examples:
        >>> escaped("2 * N_b < 8 | $x$")
        '2 \\* N\\_b &lt; 8 \\| &#36;x&#36;'
        >>> escaped("- 3"), escaped("12. of 0.5")
        ('\\- 3', '12\\. of 0.5')
    """
    return _MARKS.sub(lambda found: _plain(found[0]), text)


def table(heads: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """Return a table; heads and cells are text.

    Examples:
        >>> print(table(["Input", "Value"], [["Mass", "3000 kg"]]))
        | Input | Value |
        | - | - |
        | Mass | 3000 kg |
    """
    return "\n".join([_row(heads), f"|{' - |' * len(heads)}", *map(_row, rows)])


def _row(cells: Sequence[str]) -> str:
    return f"| {' | '.join(escaped(' '.join(cell.split())) for cell in cells)} |"


def _plain(mark: str) -> str:
    return _ENTITIES.get(mark, f"{mark[:-1]}\\{mark[-1]}")
