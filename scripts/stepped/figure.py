"""A figure in steps: a still with every step as a numbered sentence, for paper and for no script.

A script shows the steps one after another over the whole window.
"""

from collections.abc import Callable
from dataclasses import dataclass
from html import escape


@dataclass(frozen=True, slots=True)
class Stepped:
    """A drawing in which parts appear with a step, and a sentence on what is new in each.

    `draw` returns the SVG with an identity at the beginning of its ids.  In it `data-from` names
    the step in which a part appears, and `data-until` the last one in which it is there.
    """

    title: str
    draw: Callable[[str], str]
    captions: tuple[str, ...]

    def html(self, identity: str) -> str:
        """Return the figure with the last step shown; `identity` is its anchor, begins its ids."""
        steps = "".join(f"<li>{escape(caption)}</li>" for caption in self.captions)
        return (
            f'<figure class="drawn stepped" id="{identity}">\n'
            f'<div class="scroll-box">{self.draw(f"{identity}-svg")}</div>\n'
            f'<figcaption><span class="figure-words">{escape(self.title)}.</span>'
            f'<ol class="steps">{steps}</ol></figcaption>\n</figure>'
        )
