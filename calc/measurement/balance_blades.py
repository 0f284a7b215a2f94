"""Balance by blades: weights, pitch links and tabs of a main rotor, in real amounts."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Annotated

from calc.chart import Axis, Polar
from calc.declaration import Choice, Name, Table
from calc.measurement.correction import blade_adjustments
from calc.measurement.counting import Counting
from calc.measurement.forecast import forecast_arrows, forecasts
from calc.quantity import Quantity
from calc.units import ANGLE, NUMBER, VIBRATION_VELOCITY
from calc.vocabulary import BLADES as ANY_BLADES

BLADES = Quantity(
    ANY_BLADES.symbol,
    ANY_BLADES.label,
    at_least=2,
    at_most=12,
    whole=True,
    example=ANY_BLADES.example,
)
CONDITION = Name("Sensor and condition", "ground lat")
BEFORE = Quantity(
    "A_{0c}", "Amplitude once per revolution", VIBRATION_VELOCITY, at_least=0.0, example=8.0e-3
)
PHASE_BEFORE = Quantity(
    r"\varphi_{0c}", "Phase once per revolution", ANGLE, example=math.radians(77.0)
)
IMPORTANCE = Quantity("d_c", "Weight of the condition", NUMBER, at_least=0.0, example=1.0)
KIND = Choice(
    "Adjustment",
    {"weight": "hub or blade weight", "pitch_link": "pitch link", "tab": "trim tab"},
)
EFFECT = Quantity(
    "A_j", "Effect of one step on blade 1", VIBRATION_VELOCITY, at_least=0.0, example=3.0e-3
)
EFFECT_PHASE = Quantity(r"\varphi_j", "Phase of that effect", ANGLE, example=0.0)
BLADE = Quantity("b", "Blade", at_least=1, at_most=12, whole=True, example=1)
STEPS = Quantity("x_b", "Steps", NUMBER)
FORECAST = Quantity("A_c", "Amplitude once per revolution, forecast", VIBRATION_VELOCITY)
FORECAST_PHASE = Quantity(r"\varphi_c", "Phase once per revolution, forecast", ANGLE)
SHOWN_KIND = Name("Kind of adjustment")
FIXED = Name("What these readings fix")
ALL = "every amount"
SOME = (
    "not every amount: of all answers that serve alike the one with the least sum of squared "
    "steps is given"
)
TRACK = Name("Track")
CHECK_TRACK = (
    "not in this answer: measure it again, since the same reading can hide a blade that flies high"
)


@dataclass(frozen=True, slots=True)
class ConditionReading:
    """A reading once per revolution, of one sensor in one condition."""

    condition: Annotated[str, CONDITION]
    amplitude: Annotated[float, BEFORE]
    phase: Annotated[float, PHASE_BEFORE]
    weight: Annotated[float, IMPORTANCE] = 1.0


@dataclass(frozen=True, slots=True)
class StepEffect:
    """What one step of an adjustment on blade 1 adds to a reading."""

    condition: Annotated[str, CONDITION]
    kind: Annotated[str, KIND]
    amplitude: Annotated[float, EFFECT]
    phase: Annotated[float, EFFECT_PHASE]


@dataclass(frozen=True, slots=True)
class Allowed:
    """An adjustment that may be made, at one blade."""

    kind: Annotated[str, KIND]
    blade: Annotated[int, BLADE]


@dataclass(frozen=True, slots=True)
class Adjusted:
    """The amount of one adjustment; negative is the other way, or weight off."""

    kind: Annotated[str, SHOWN_KIND]
    blade: Annotated[int, BLADE]
    steps: Annotated[float, STEPS]


@dataclass(frozen=True, slots=True)
class ConditionForecast:
    """A reading before, and as forecast with all adjustments made."""

    condition: Annotated[str, CONDITION]
    before: Annotated[float, BEFORE]
    forecast: Annotated[float, FORECAST]
    phase: Annotated[float, FORECAST_PHASE]


READINGS = Table(
    "Readings once per revolution",
    ConditionReading,
    (
        ConditionReading("ground lat", 0.0091, math.radians(344.0)),
        ConditionReading("hover vert", 0.002, math.radians(51.0)),
        ConditionReading("60 kt vert", 0.0039, math.radians(21.0)),
        ConditionReading("110 kt vert", 0.0073, math.radians(351.0)),
    ),
    at_least=1,
    at_most=24,
)
EFFECTS = Table(
    "What one step on blade 1 adds",
    StepEffect,
    (
        StepEffect("ground lat", "weight", 3.2e-3, math.radians(35.0)),
        StepEffect("ground lat", "pitch_link", 1.1e-3, math.radians(290.0)),
        StepEffect("hover vert", "pitch_link", 1.6e-3, math.radians(22.0)),
        StepEffect("hover vert", "tab", 0.4e-3, math.radians(50.0)),
        StepEffect("60 kt vert", "pitch_link", 2.4e-3, math.radians(15.0)),
        StepEffect("60 kt vert", "tab", 1.3e-3, math.radians(40.0)),
        StepEffect("110 kt vert", "pitch_link", 2.9e-3, math.radians(8.0)),
        StepEffect("110 kt vert", "tab", 3.4e-3, math.radians(33.0)),
    ),
    at_least=1,
    at_most=72,
)
ALLOWED = Table(
    "Adjustments that may be made",
    Allowed,
    (
        Allowed("weight", 1),
        Allowed("weight", 2),
        Allowed("pitch_link", 2),
        Allowed("pitch_link", 3),
        Allowed("tab", 2),
        Allowed("tab", 3),
    ),
    at_least=1,
    at_most=36,
)
ADJUSTED = Table("Adjustments to make", Adjusted, leads=True)
FORECASTS = Table("Forecast with these adjustments", ConditionForecast)


@dataclass(frozen=True, slots=True)
class BladesBalanced:
    """The steps of each adjustment, and every reading as forecast with them."""

    fixed: Annotated[str, FIXED]
    track: Annotated[str, TRACK]
    adjustments: Annotated[tuple[Adjusted, ...], ADJUSTED]
    forecasts: Annotated[tuple[ConditionForecast, ...], FORECASTS]


def blade_balance(
    counting: Counting,
    blades: Annotated[int, BLADES],
    readings: Annotated[tuple[ConditionReading, ...], READINGS],
    effects: Annotated[tuple[StepEffect, ...], EFFECTS],
    allowed: Annotated[tuple[Allowed, ...], ALLOWED],
) -> BladesBalanced:
    r"""Return steps of weights, pitch links and tabs that leave least once per revolution.

    $$ \min_x \sum_c d_c \left| V_{0c} + \sum_b \alpha_{cj} \mathrm{e}^{\mathrm{i} 2 \pi
       (b - 1) / N_b} x_b \right|^2, \qquad x_b \text{ real} $$

    Blades are alike and equally spaced, so that a step on blade $b$ does what it does on blade 1,
    later or earlier by the angle between them.  One reading is two numbers and fixes two amounts.
    An effect that is not in the table is none.

    Args:
        counting: How the instrument counts phases, and which way blade numbers grow; record.
        blades: Number of blades; scalar.
        readings: Every sensor in every condition; rows.
        effects: What one step on blade 1 adds to each reading; rows.
        allowed: Adjustments that may be made, each at one blade; rows.

    Returns:
        The steps of each adjustment, and the forecast of each reading.

    Raises:
        ValueError: If an argument breaks its limits, a condition is unknown or stands twice, a
            blade is not there, or an adjustment has no effect in the table.

    Source:
        Least squares with real unknowns; derived here.

    Examples:
        >>> found = blade_balance(
        ...     Counting("lead", "with"), 4, (ConditionReading("hover", 2e-3, 0.0),),
        ...     (StepEffect("hover", "weight", 1e-3, 0.0),), (Allowed("weight", 3),),
        ... )
        >>> [round(row.steps, 9) for row in found.adjustments]
        [2.0]
    """
    BLADES.check(blades)
    READINGS.check(readings)
    EFFECTS.check(effects)
    ALLOWED.check(allowed)
    before = [counting.vector(row.amplitude, row.phase) for row in readings]
    found = blade_adjustments(
        before,
        _influences(counting, blades, readings, effects, allowed),
        [row.weight for row in readings],
    )
    return BladesBalanced(
        fixed=ALL if found.rank == len(allowed) else SOME,
        track=CHECK_TRACK,
        adjustments=tuple(
            Adjusted(KIND.options[row.kind], row.blade, steps)
            for row, steps in zip(allowed, found.amounts, strict=True)
        ),
        forecasts=forecasts(
            ConditionForecast,
            counting,
            [(row.condition, row.amplitude) for row in readings],
            found.residuals,
        ),
    )


def blade_balance_chart(readings: tuple[ConditionReading, ...], found: BladesBalanced) -> Polar:
    """Return every reading before, and as forecast."""
    return Polar(
        title="Readings once per revolution before, and as forecast",
        description="Arrows of each reading before and with the adjustments made, on a dial of "
        "the phases as the instrument shows them; those before bear the names of the readings.",
        amplitude=replace(Axis.of(BEFORE), label="Amplitude, 1/rev"),
        angle="Phase as shown",
        arrows=forecast_arrows(
            [(row.amplitude, row.phase) for row in readings],
            [row.condition for row in readings],
            [(row.forecast, row.phase) for row in found.forecasts],
        ),
    )


def _influences(
    counting: Counting,
    blades: int,
    readings: Sequence[ConditionReading],
    effects: Sequence[StepEffect],
    allowed: Sequence[Allowed],
) -> list[list[complex]]:
    """Return what one step of each adjustment adds to each reading."""
    conditions = [row.condition for row in readings]
    known = {
        (row.condition, row.kind): counting.vector(row.amplitude, row.phase) for row in effects
    }
    for name in conditions:
        if conditions.count(name) > 1:
            raise ValueError(f"Sensor and condition “{name}” stands twice")
    if len(known) < len(effects):
        raise ValueError("Each adjustment must have one effect in each condition")
    for row in effects:
        if row.condition not in conditions:
            raise ValueError(f"“{row.condition}” is not among the readings")
    if len(set(allowed)) < len(allowed):
        raise ValueError("Each adjustment that may be made must be named once")
    for place in allowed:
        if place.blade > blades:
            raise ValueError(f"There is no blade {place.blade} among {blades}")
        if not any(kind == place.kind for _, kind in known):
            raise ValueError(f"The effect of one step of {KIND.options[place.kind]} is missing")
    spacing = 2.0 * math.pi / blades
    turns = [counting.weight(1.0, spacing * (place.blade - 1)) for place in allowed]
    return [
        [
            known.get((name, place.kind), 0j) * turn
            for place, turn in zip(allowed, turns, strict=True)
        ]
        for name in conditions
    ]
