"""History: a stretch over time, with the smallest and the largest value of each step."""

import math

from calc.digits import significant
from calc.record.figures import history_chart
from calc.record.look import Look, unit_of
from calc.record.shown import Seen
from calc.survey.report.blocks import Words

STEPS = 900
"""Steps across a time history; each shows its smallest and its largest value."""


def history(look: Look) -> Seen:
    """Return a stretch over time, with the smallest and the largest value of each step."""
    steps = steps_of(look)
    unit = unit_of(look.channel)
    low = min(step[1] for step in steps)
    high = max(step[2] for step in steps)
    heads = ["Time (s)", f"Smallest ({unit.name})", f"Largest ({unit.name})"]
    return Seen(
        f"Time history of {look.channel.name}",
        f"From {significant(low)} to {significant(high)} {unit.name} in "
        f"{significant(look.length)} s".replace("  ", " "),
        [Words(f"{text}.") for text in look.notes],
        history_chart(look.channel.name, unit, steps),
        lambda: [heads, *(list(map(repr, step)) for step in steps)],
    )


def steps_of(look: Look) -> list[tuple[float, float, float]]:
    """Return time, smallest and largest value of each step across a figure."""
    step = math.ceil(len(look.samples) / STEPS)
    steps = []
    for first in range(0, len(look.samples), step):
        some = look.samples[first : first + step]
        middle = look.begin + (first + 0.5 * (len(some) - 1)) / look.rate
        steps.append((middle, min(some), max(some)))
    return steps
