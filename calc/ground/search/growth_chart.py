"""Growth chart: growth rates over rotor speed, with the line above which a disturbance grows."""

from collections.abc import Iterable, Sequence

from calc.chart import Axis, Band, Chart, Line, Rule
from calc.ground.quantities import GROWTH_RATE, ROTOR_SPEED


def growth_chart(
    title: str,
    description: str,
    swept: tuple[float, float],
    bands: Iterable[Band],
    lines: Sequence[Line],
) -> Chart:
    """Return growth rates over the rotor speeds of a sweep.

    Args:
        title: Title of the chart.
        description: What the lines show, in words.
        swept: Lowest and highest rotor speed, rad/s.
        bands: Ranges of rotor speed behind the lines.
        lines: Growth rates, 1/s, over rotor speed, rad/s.

    Returns:
        The chart.
    """
    return Chart(
        title=title,
        description=description,
        x=Axis.of(ROTOR_SPEED, *swept),
        y=Axis.of(GROWTH_RATE),
        marks=(*bands, Rule(0.0, "y", ""), *lines),
    )


def unstable(bands: Iterable[tuple[float, float]]) -> list[Band]:
    """Return unstable bands of rotor speed as hatched ranges."""
    return [Band(low, high, "x", "unstable", hatched=True) for low, high in bands]
