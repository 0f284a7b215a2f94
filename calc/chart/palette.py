"""Palette: the colours of figures on light paper, under the names that the pages give them.

A page has a dark and a printed value for each name; the light ones of its style sheet are these.
"""

COLOURS = {
    "paper": "#fbfaf7",
    "ink": "#1b2733",
    "ink-soft": "#4a5763",
    "rule": "#d5d2c9",
    "warning": "#7a4300",
    "data-1": "#273505",
    "data-2": "#4939ac",
    "data-3": "#0d90d8",
    "data-4": "#e36848",
    "data-5": "#8f5266",
    "data-6": "#491d40",
}

DASHES = ((), (9, 4), (2, 3), (10, 4, 2, 4), (5, 3), (12, 3, 2, 3, 2, 3))
"""Strokes and gaps of the lines 1 to 6, which differ in grey and for every eye."""


def named(name: str) -> str:
    """Return a colour as a page uses it: by its name, and by itself where the name is unknown.

    Args:
        name: A name of the palette.

    Returns:
        The value of an attribute of SVG.

    Raises:
        KeyError: If the palette has no such name.

    Examples:
        >>> named("ink")
        'var(--ink, #1b2733)'
    """
    return f"var(--{name}, {COLOURS[name]})"
