"""Forecast: readings before a correction and as forecast with it, as rows and on a dial."""

from collections.abc import Callable, Sequence
from typing import TypeVar

from calc.chart import Arrows
from calc.measurement.counting import Counting

Row = TypeVar("Row")

MOST_NAMES = 6
"""Arrows of more readings bear no names: they would hide one another."""


def forecasts(
    row: Callable[[str, float, float, float], Row],
    counting: Counting,
    before: Sequence[tuple[str, float]],
    residuals: Sequence[complex],
) -> tuple[Row, ...]:
    """Return a row for each reading: its name, amplitude before, amplitude and phase as forecast.

    Args:
        row: Makes a row.
        counting: How the instrument counts phases.
        before: Name and amplitude of each reading.
        residuals: What is left of each.
    """
    return tuple(
        row(name, amplitude, abs(left), counting.phase(left))
        for (name, amplitude), left in zip(before, residuals, strict=True)
    )


def forecast_arrows(
    before: Sequence[tuple[float, float]],
    names: Sequence[str],
    forecast: Sequence[tuple[float, float]],
) -> tuple[Arrows, Arrows]:
    """Return amplitudes and phases, before with the names of the readings, and as forecast."""
    shown = names if len(names) <= MOST_NAMES else ()
    return Arrows(before, "before", 1, shown), Arrows(forecast, "forecast", 3)
