"""Measurement plan: rates, lengths, averages and dwell that a test needs, and what conflicts."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Annotated

from calc.declaration import Name, Table
from calc.digits import significant
from calc.measurement.apparent_bandwidth import apparent_bandwidth_ratio
from calc.measurement.averaging import equivalent_averages
from calc.measurement.measurement_needs import LinesWanted, ModeWanted, OrderWanted
from calc.measurement.quantities import OVERLAP, WINDOW
from calc.measurement.resolution import record_length_to_separate
from calc.measurement.settling import settling_time
from calc.measurement.test_design import (
    RANDOM_ERROR,
    dwell_time,
    lines_in_half_power_band,
    required_averages,
)
from calc.quantity import Constant, Quantity
from calc.units import FREQUENCY, SHARE, TIME

SPECTRA = Constant(2.56, Quantity("c_1", "Samples a cycle for spectra"))
WAVEFORM = Constant(10.0, Quantity("c_2", "Samples a cycle for peaks in time"))
"""Samples a cycle of the highest source: for spectra behind a filter, and for peaks in time, of
which a twentieth is then missed at worst; both common practice, no source."""

APART = Constant(1.5, Quantity("c_3", "Lengths at which two lines just part"))
"""Over the length at which two lines alike just part, so that there is a dip whatever the phase."""

LINES = Constant(10.0, Quantity("c_4", "Lines wanted inside the half-power width"))
"""Lines inside the half-power width, with which a mode reads 2 % too wide through a Hann window."""

SMEAR = Constant(2.0, Quantity("c_5", "Lines that an order may drift over"))
"""Lines that an order may drift over in a block; a Hann line then loses 3 %."""

REMAINDER = 0.05
"""What may be left of the transient when the first block begins."""

LONG = 600.0
"""Seconds on one condition from which on another way of measuring damping is advised."""

PLAN_OVERLAP = replace(OVERLAP, at_most=0.75)
SPECTRA_RATE = Quantity(r"f_{s,1}", "Sample rate for spectra, at least", FREQUENCY)
WAVEFORM_RATE = Quantity(r"f_{s,2}", "Sample rate for peaks in time, at least", FREQUENCY)
BLOCK = Quantity("T_b", "Length of a block, at least", TIME)
ORDER_BLOCK = Quantity(r"T_d", "Length of a block, at most, for the order in a spectrum", TIME)
BAND = Quantity("", "Lines inside the half-power width of the mode")
WIDER = Quantity("", "The mode then reads too damped by, fraction", SHARE)
FEWEST_LINES, MOST_LINES = 0.01, 1000.0
"""Lines inside the half-power width between which the bias is computed; beyond, an end is told."""

PLAN_BLOCKS = Quantity("K", "Blocks", whole=True)
SETTLING = Quantity("T_0", "Time for the transient to die out", TIME)
DWELL = Quantity("T", "Time on condition", TIME)
ALLOWED_DRIFT = Quantity(r"d_\text{max}", "Drift at which the lengths agree, fraction", SHARE)
LENGTH = Quantity("", "Length", TIME)


@dataclass(frozen=True, slots=True)
class Bound:
    """What one need says of the length of a block."""

    need: Annotated[str, Name("Need")]
    side: Annotated[str, Name("Block")]
    length: Annotated[float | None, LENGTH]
    reason: Annotated[str, Name("Reason")]


@dataclass(frozen=True, slots=True)
class MeasurementPlan:
    """Rates, lengths and times of a measurement, with reasons and conflicts."""

    verdict: Annotated[str, Name("Conflicts")]
    advice: Annotated[str, Name("What settles it")]
    sample_rate: Annotated[float, SPECTRA_RATE]
    waveform_rate: Annotated[float, WAVEFORM_RATE]
    block_length: Annotated[float, BLOCK]
    order_block_length: Annotated[float | None, ORDER_BLOCK]
    allowed_drift: Annotated[float, ALLOWED_DRIFT]
    lines_in_band: Annotated[float, BAND]
    bias: Annotated[float, WIDER]
    blocks: Annotated[int, PLAN_BLOCKS]
    settling: Annotated[float, SETTLING]
    dwell: Annotated[float, DWELL]
    bounds: Annotated[tuple[Bound, ...], Table("Length of a block", Bound)]


def measurement_plan(
    lines: LinesWanted,
    mode: ModeWanted,
    order: OrderWanted,
    error: Annotated[float, RANDOM_ERROR],
    overlap: Annotated[float, PLAN_OVERLAP],
    window: Annotated[str, WINDOW] = "hann",
) -> MeasurementPlan:
    r"""Return the rates, lengths, averages and dwell of a measurement, and which needs conflict.

    $$ f_{s,1} = 2.56 f_\text{max}, \qquad f_{s,2} = 10 f_\text{max}, \qquad
    T_b = \max \left( \frac{1.5 b_6}{|f_1 - f_2|}, \frac{10}{2 \zeta f} \right), \qquad
    T_d = \frac{2}{d k \Omega / 2 \pi} $$
    $$ T = T_0 + T_b [1 + (K - 1)(1 - o)], \qquad n_e(K) \ge \frac{1}{\varepsilon^2} $$

    Drift is that of a block, whatever its length.  $b_6$ is the width of the window, in lines, at
    half its height.

    Args:
        lines: What the spectrum has to show; record.
        mode: The mode whose damping is measured; record.
        order: The order that must not smear; record.
        error: Standard deviation of the density over its mean; scalar.
        overlap: What each block shares with the next, as a fraction; scalar.
        window: Window of the blocks; word.

    Returns:
        The plan; a length of None where nothing drifts.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Counting of lines; rules of thumb are common practice without a source and are named.

    Examples:
        >>> plan = measurement_plan(
        ...     LinesWanted(100.0, 24.0, 23.0), ModeWanted(5.0, 0.02), OrderWanted(4.0, 40.0, 0.0),
        ...     0.1, 0.5,
        ... )
        >>> plan.sample_rate, plan.block_length, plan.verdict
        (256.0, 50.0, 'None: one block length serves all')
    """
    RANDOM_ERROR.check(error)
    PLAN_OVERLAP.check(overlap)
    WINDOW.check(window)
    apart = abs(lines.first_line - lines.second_line)
    separation = APART * record_length_to_separate(apart, window)
    damping = LINES / (2.0 * mode.damping_ratio * mode.mode_frequency)
    order_frequency = order.order * order.rotor_speed / (2.0 * math.pi)
    drifting = order_frequency * order.drift
    steady = SMEAR / drifting if drifting else None
    block = max(separation, damping)
    blocks = _blocks(required_averages(error), overlap, window)
    settling = settling_time(mode.mode_frequency, mode.damping_ratio, REMAINDER)
    dwell = settling + dwell_time(blocks, block, overlap)
    allowed = SMEAR / (order_frequency * block)
    clashes = [
        name
        for name, length in (("telling the lines apart", separation), ("damping", damping))
        if steady is not None and length > steady
    ]
    short = None if steady is None else _bias(mode, steady, window)
    said = f"{' and '.join(clashes)} against drift of the order" if clashes else ""
    return MeasurementPlan(
        verdict=f"{said[:1].upper()}{said[1:]}" or "None: one block length serves all",
        advice=". ".join(_advice(clashes, steady, allowed, short, dwell)),
        sample_rate=SPECTRA * lines.highest_source,
        waveform_rate=WAVEFORM * lines.highest_source,
        block_length=block,
        order_block_length=steady,
        allowed_drift=allowed,
        lines_in_band=lines_in_half_power_band(mode.mode_frequency, mode.damping_ratio, block),
        bias=_bias(mode, block, window),
        blocks=blocks,
        settling=settling,
        dwell=dwell,
        bounds=(
            Bound("two lines", "at least", separation, _apart_words(apart)),
            Bound("damping of the mode", "at least", damping, DAMPING_WORDS),
            Bound("order", "at most", steady, DRIFT_WORDS if steady else "nothing drifts"),
        ),
    )


DAMPING_WORDS = f"{LINES:.0f} lines inside the half-power width; with fewer it reads too damped"
DRIFT_WORDS = f"the order drifts over {SMEAR:.0f} lines; beyond that its line is low and wide"


def _apart_words(apart: float) -> str:
    return f"lines {significant(apart)} Hz apart, {APART:g} times the length at which they part"


def _bias(mode: ModeWanted, block: float, window: str) -> float:
    """Return by how much the mode reads wider in blocks of a length."""
    lines = lines_in_half_power_band(mode.mode_frequency, mode.damping_ratio, block)
    return apparent_bandwidth_ratio(min(max(lines, FEWEST_LINES), MOST_LINES), window) - 1.0


def _blocks(averages: int, overlap: float, window: str) -> int:
    """Return the fewest blocks that are worth so many independent ones."""
    low, high = averages, 8 * averages + 8
    while low < high:
        middle = (low + high) // 2
        if equivalent_averages(middle, overlap, window) >= averages:
            high = middle
        else:
            low = middle + 1
    return low


def _advice(
    clashes: list[str], steady: float | None, allowed: float, short: float | None, dwell: float
) -> Iterator[str]:
    """Yield what settles each conflict."""
    if steady is not None and "telling the lines apart" in clashes:
        yield (
            "Lines of one shaft: resample to shaft angle, which no drift smears, and tell them "
            "apart by order"
        )
        yield (
            "Lines of two shafts: hold both speeds, with a drift of at most "
            f"{significant(100.0 * allowed, 2)} %, or take the steadiest stretch"
        )
    if steady is not None and short is not None and "damping" in clashes:
        yield (
            "Damping from blocks or a decay of its own, where the mode is one of the airframe, "
            "which does not drift with rotor speed as the order does; a lag mode does, and wants a "
            f"speed that is held. Spectra of the order from blocks of {significant(steady, 3)} s, "
            f"in which the mode would read {significant(100.0 * short, 2)} % too damped"
        )
    if dwell > LONG:
        yield (
            f"{significant(dwell / 60.0, 3)} min on one condition is long: excite the mode as the "
            "approved plan has it and fit its decay, which needs no averages but repeats, or allow "
            "a larger random error"
        )
