"""Decay: frequency and damping of the free motion of one mode in a stretch."""

import math

from calc.digits import significant
from calc.measurement.damping import damping_from_growth, decay_fit, moving_block
from calc.record.figures import decay_chart
from calc.record.history import steps_of
from calc.record.look import Look, unit_of
from calc.record.offer import mode_offer
from calc.record.shown import Seen
from calc.survey.report.blocks import Block, Grid, Words

LEAST_CYCLES = 3.0
MOST_SAMPLES = 10_000
"""Of a stretch that a decay is fitted to; more would take long."""
BLOCK_SHARE = 1.0 / 3.0
"""Of the stretch, that a moving block takes."""
APART = 0.2
"""Difference of two ways to read a growth rate, over the larger, from which it is said."""

LEFT = 0.3
"""Share of the motion that one mode may leave, as rms, before it is said; chosen here."""


def decay(look: Look) -> Seen:
    """Return frequency and damping of the free motion of one mode in a stretch."""
    if look.values["start"] is None:
        raise ValueError(
            "Enter in From when the motion was let free, and in To when it is lost in the noise"
        )
    if len(look.samples) > MOST_SAMPLES:
        most = significant(MOST_SAMPLES / look.rate, 3)
        raise ValueError(f"Choose one decay with From and To: a stretch of at most {most} s")
    fit = decay_fit(look.samples, look.rate)
    frequency = look.values["frequency"] or fit.frequency
    if look.length * frequency < LEAST_CYCLES:
        raise ValueError("The stretch must hold at least three cycles of the mode")
    rows = [_row("Fit of one mode to the whole stretch", fit.frequency, fit.growth_rate)]
    said = []
    growth = _moving(look, frequency)
    if growth is None:
        said.append("The stretch is too short for a moving block: no second reading")
    else:
        rows.append(_row("Moving block at the frequency of the mode", frequency, growth))
        larger = max(abs(growth), abs(fit.growth_rate))
        if abs(growth - fit.growth_rate) > APART * larger:
            said.append(
                "The two readings differ by more than a fifth: two modes, noise at the end, or "
                "damping that depends on amplitude. Neither is a damping to go on with"
            )
    if fit.left > LEFT:
        said.append(
            f"One mode leaves {significant(100.0 * fit.left, 2)} % of the motion: the stretch "
            "begins before the release, has two modes, or is mostly noise. Neither reading is a "
            "damping to go on with"
        )
    if order := _order(look, fit.frequency):
        said.insert(
            0, f"This is the frequency of {order}/rev: a forced line may be taken for a mode"
        )
    if max(fit.growth_rate, growth if growth is not None else -math.inf) >= 0.0:
        said.insert(0, "The motion does not decay: it grows or stays")
    unit = unit_of(look.channel)
    heads = ["Read by", "Frequency (Hz)", "Growth rate (1/s)", "Damping ratio", "Decrement"]
    warnings: list[Block] = [Words(f"{text}.", "warning") for text in said]
    notes: list[Block] = [Words(f"{text}.") for text in look.notes]
    about = "In the airframe this is the frequency that the airframe feels; a lag mode of the "
    about += "blades turns with the rotor and has another frequency and damping ratio there."
    ratio = damping_from_growth(fit.growth_rate, fit.frequency)
    other = ratio if growth is None else damping_from_growth(growth, fit.frequency)
    apart = None if growth is None else abs(ratio - other)
    offer = [mode_offer(look, "decay fit", fit.frequency, ratio, apart)] if not said else []
    return Seen(
        f"Decay of {look.channel.name}",
        f"{significant(fit.frequency)} Hz, damping ratio {significant(ratio, 3)}, amplitude at "
        f"the beginning of the stretch {significant(_largest(look))} {unit.name}".rstrip(),
        [*warnings, Grid("Free motion", heads, rows), *notes, Words(about), *offer],
        decay_chart(look.channel.name, unit, steps_of(look), _envelope(look, fit.growth_rate)),
        lambda: [heads, *rows],
    )


def _moving(look: Look, frequency: float) -> float | None:
    """Return the growth rate by a moving block, or None where the stretch is too short for one."""
    length = BLOCK_SHARE * look.length
    if length * frequency < LEAST_CYCLES:
        return None
    return moving_block(look.samples, look.rate, frequency, length)


def _row(way: str, frequency: float, growth: float) -> list[str]:
    decrement = -growth / frequency
    return [
        way,
        significant(frequency),
        significant(growth, 3),
        significant(damping_from_growth(growth, frequency), 3),
        significant(decrement, 3),
    ]


def _order(look: Look, frequency: float) -> int:
    """Return the order of the rotor that has a frequency to the resolution of the stretch, or 0."""
    if not look.speed:
        return 0
    turns = look.speed / (2.0 * math.pi)
    order = round(frequency / turns)
    return order if order and abs(frequency - order * turns) * look.length < 1.0 else 0


def _largest(look: Look) -> float:
    """Return the largest distance from the mean in the first fifth of the stretch."""
    mean = math.fsum(look.samples) / len(look.samples)
    beginning = look.samples[: max(2, len(look.samples) // 5)]
    return max(abs(value - mean) for value in beginning)


def _envelope(look: Look, growth: float) -> list[tuple[float, float]]:
    """Return the fitted envelope through the middle of the motion, above its mean."""
    mean = math.fsum(look.samples) / len(look.samples)
    times = [n / look.rate for n in range(len(look.samples))]
    weights = [math.exp(growth * time) for time in times]
    power = math.fsum((value - mean) ** 2 for value in look.samples)
    size = math.sqrt(2.0 * power / math.fsum(weight * weight for weight in weights))
    every = max(1, len(times) // 100)
    return [
        (look.begin + time, mean + size * weight)
        for time, weight in list(zip(times, weights, strict=True))[::every]
    ]
