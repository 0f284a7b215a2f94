"""Ranges: how far two ranges of numbers are apart."""

Range = tuple[float, float]
"""The lowest and the highest of its numbers."""


def apart(first: Range, second: Range) -> float:
    """Return how far a range lies above another, negative below it, zero where they meet.

    Args:
        first: Lowest and highest number.
        second: Lowest and highest number.

    Returns:
        The distance between the ends that are nearest.

    Examples:
        >>> apart((5.0, 6.0), (1.0, 3.0)), apart((1.0, 3.0), (5.0, 6.0))
        (2.0, -2.0)
        >>> apart((1.0, 3.0), (3.0, 6.0))
        0.0
    """
    return max(first[0] - second[1], 0.0) - max(second[0] - first[1], 0.0)
