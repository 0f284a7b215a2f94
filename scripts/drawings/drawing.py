"""A drawing of the handbook: one or more sheets side by side, under one caption."""

import re
from dataclasses import dataclass
from html import escape

from calc.quantity import Quantity
from scripts.drawings.sheet import Sheet

_SYMBOL = re.compile(r"\$([^$]*)\$")


@dataclass(frozen=True, slots=True)
class Drawing:
    """Sheets, and a caption in which symbols stand between `$`."""

    sheets: tuple[Sheet, ...]
    caption: str

    def html(self, identity: str) -> str:
        """Return the drawing as a figure; `identity` is its anchor and begins its ids."""
        parts = "\n".join(
            f'<div class="sheet {sheet.screen}" '
            f'style="--width: {sheet.width:g}" data-search-exclude>'
            f"{sheet.svg(f'{identity}-{count}')}</div>"
            for count, sheet in enumerate(self.sheets, 1)
        )
        caption = _SYMBOL.sub(r'<span class="arithmatex">\\(\1\\)</span>', escape(self.caption))
        return (
            f'<figure class="drawing" id="{identity}">\n'
            f'<div class="sheets">\n{parts}\n</div>\n'
            f"<figcaption>{caption}</figcaption>\n</figure>"
        )


def sign(quantity: Quantity) -> str:
    """Return the symbol of a quantity as a label has it."""
    return f"${quantity.symbol}$"
