"""Balance in several planes: one set of weights for all sensors and speeds, by least squares."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Annotated

from calc.chart import Axis, Polar
from calc.declaration import Name, Table
from calc.measurement.correction import (
    PlaneCorrections,
    influence_coefficient,
    several_plane_correction,
)
from calc.measurement.counting import Counting
from calc.measurement.forecast import forecast_arrows, forecasts
from calc.quantity import Quantity
from calc.units import ANGLE, NUMBER, SMALL_MASS, VIBRATION_VELOCITY

READING = Name("Sensor and speed", "front fast")
PLANE = Name("Plane", "spinner")
BEFORE = Quantity("A_{0r}", "Amplitude before", VIBRATION_VELOCITY, at_least=0.0, example=5.0e-3)
PHASE_BEFORE = Quantity(r"\varphi_{0r}", "Phase before", ANGLE, example=math.radians(40.0))
IMPORTANCE = Quantity("d_r", "Weight of the reading", NUMBER, at_least=0.0, example=1.0)
MASS = Quantity("m_{tp}", "Trial weight in the plane", SMALL_MASS, above=0.0, example=0.040)
ANGLE_OF_MASS = Quantity(r"\theta_{tp}", "Place of that trial weight", ANGLE, example=0.0)
WITH_TRIAL = Quantity(
    "A_{rp}", "Amplitude with that trial weight", VIBRATION_VELOCITY, at_least=0.0, example=4.0e-3
)
PHASE_WITH_TRIAL = Quantity(r"\varphi_{rp}", "Phase with that trial weight", ANGLE, example=0.0)
ADDED = Quantity("m_p", "Weight to add in the plane", SMALL_MASS)
ADDED_ANGLE = Quantity(r"\theta_p", "Place of that weight in the plane", ANGLE)
FORECAST = Quantity("A_r", "Amplitude forecast", VIBRATION_VELOCITY)
FORECAST_PHASE = Quantity(r"\varphi_r", "Phase forecast", ANGLE)
RMS_BEFORE = Quantity(r"\bar{A}_0", "Weighted rms of the readings before", VIBRATION_VELOCITY)
RMS_FORECAST = Quantity(r"\bar{A}", "Weighted rms of the forecast", VIBRATION_VELOCITY)
CONDITION = Quantity(
    r"\kappa",
    "Condition of the influence coefficients",
    NUMBER,
    covered=(1.0, 20.0),
    covered_by="planes that act nearly alike get large weights that work against each other "
    "(limit chosen here)",
)
FIXED = Name("What the readings fix")
ENOUGH = "every weight; what the forecast leaves cannot be corrected in these planes"
NOT_ENOUGH = "not every weight: the smallest ones that serve are given, and others serve as well"


@dataclass(frozen=True, slots=True)
class Reading:
    """A reading before balancing, of one sensor at one speed."""

    reading: Annotated[str, READING]
    amplitude: Annotated[float, BEFORE]
    phase: Annotated[float, PHASE_BEFORE]
    weight: Annotated[float, IMPORTANCE] = 1.0


@dataclass(frozen=True, slots=True)
class Trial:
    """The trial weight of one plane."""

    plane: Annotated[str, PLANE]
    mass: Annotated[float, MASS]
    angle: Annotated[float, ANGLE_OF_MASS]


@dataclass(frozen=True, slots=True)
class TrialReading:
    """A reading with the trial weight of one plane, and of no other."""

    reading: Annotated[str, READING]
    plane: Annotated[str, PLANE]
    amplitude: Annotated[float, WITH_TRIAL]
    phase: Annotated[float, PHASE_WITH_TRIAL]


@dataclass(frozen=True, slots=True)
class PlaneWeight:
    """The weight to add in one plane."""

    plane: Annotated[str, PLANE]
    mass: Annotated[float, ADDED]
    angle: Annotated[float, ADDED_ANGLE]


@dataclass(frozen=True, slots=True)
class Forecast:
    """A reading before, and as forecast with all weights on."""

    reading: Annotated[str, READING]
    before: Annotated[float, BEFORE]
    forecast: Annotated[float, FORECAST]
    phase: Annotated[float, FORECAST_PHASE]


FAST, SLOW, NACELLE = "front fast", "front slow", "rear fast"
FRONT, REAR = "spinner", "flange"


def _read(amplitude: float, phase: float) -> tuple[float, float]:
    """Return millimetres per second and degrees in SI units, for an example."""
    return amplitude / 1000.0, math.radians(phase)


READINGS = Table(
    "Readings before",
    Reading,
    (
        Reading(FAST, *_read(6.8, 241.0)),
        Reading(SLOW, *_read(3.8, 229.0)),
        Reading(NACELLE, *_read(4.9, 85.0)),
    ),
    at_least=1,
    at_most=24,
)
TRIALS = Table(
    "Trial weights, one run each",
    Trial,
    (Trial(FRONT, 0.030, math.radians(90.0)), Trial(REAR, 0.030, 0.0)),
    at_least=1,
    at_most=6,
)
TRIAL_READINGS = Table(
    "Readings with one trial weight",
    TrialReading,
    (
        TrialReading(FAST, FRONT, *_read(4.8, 202.0)),
        TrialReading(SLOW, FRONT, *_read(2.8, 190.0)),
        TrialReading(NACELLE, FRONT, *_read(3.1, 69.0)),
        TrialReading(FAST, REAR, *_read(6.8, 228.0)),
        TrialReading(SLOW, REAR, *_read(3.8, 215.0)),
        TrialReading(NACELLE, REAR, *_read(7.4, 63.0)),
    ),
    at_least=1,
    at_most=144,
)
ADDED_WEIGHTS = Table("Weights to add", PlaneWeight, leads=True)
FORECASTS = Table("Forecast with these weights", Forecast)


@dataclass(frozen=True, slots=True)
class PlanesBalanced:
    """The weights to add, and every reading as forecast with them."""

    fixed: Annotated[str, FIXED]
    rms_before: Annotated[float, RMS_BEFORE]
    rms_forecast: Annotated[float, RMS_FORECAST]
    condition: Annotated[float, CONDITION]
    weights: Annotated[tuple[PlaneWeight, ...], ADDED_WEIGHTS]
    forecasts: Annotated[tuple[Forecast, ...], FORECASTS]


def several_planes(
    counting: Counting,
    readings: Annotated[tuple[Reading, ...], READINGS],
    trials: Annotated[tuple[Trial, ...], TRIALS],
    trial_readings: Annotated[tuple[TrialReading, ...], TRIAL_READINGS],
) -> PlanesBalanced:
    r"""Return weights in several planes that leave least at all sensors and speeds together.

    $$ \alpha_{rp} = \frac{V_{rp} - V_{0r}}{W_{tp}}, \qquad
       \min_W \sum_r d_r \left| V_{0r} + \sum_p \alpha_{rp} W_p \right|^2 $$

    The rotor answers in proportion; each trial run has one trial weight, and the one before it
    has come off.  A reading at another speed is a reading of its own.

    Args:
        counting: How the instrument and the marks on the rotor count; record.
        readings: Every sensor at every speed, without trial weights; rows.
        trials: The trial weight of each plane; rows.
        trial_readings: Every sensor at every speed with the trial weight of each plane; rows.

    Returns:
        The weight to add in each plane, and the forecast of each reading.

    Raises:
        ValueError: If an argument breaks its limits, a name is unknown or stands twice, or a
            reading is missing.

    Source:
        Goodman (1964), the method; its numbers were not read.

    Examples:
        >>> found = several_planes(
        ...     Counting("lead", "with"), (Reading("one", 4e-3, 0.0),), (Trial("a", 0.1, 0.0),),
        ...     (TrialReading("one", "a", 2e-3, 0.0),),
        ... )
        >>> [round(weight.mass, 9) for weight in found.weights]
        [0.2]
    """
    READINGS.check(readings)
    TRIALS.check(trials)
    TRIAL_READINGS.check(trial_readings)
    before = [counting.vector(row.amplitude, row.phase) for row in readings]
    importance = [row.weight for row in readings]
    found = several_plane_correction(
        before, _influences(counting, readings, trials, trial_readings), importance
    )
    return _balanced(counting, readings, trials, found)


def several_planes_chart(readings: tuple[Reading, ...], found: PlanesBalanced) -> Polar:
    """Return every reading before, and as forecast."""
    return Polar(
        title="Readings before, and as forecast",
        description="Arrows of each reading before and with the weights on, on a dial of the "
        "phases as the instrument shows them; the arrows before bear the names of the readings.",
        amplitude=replace(Axis.of(BEFORE), label="Amplitude"),
        angle="Phase as shown",
        arrows=forecast_arrows(
            [(row.amplitude, row.phase) for row in readings],
            [row.reading for row in readings],
            [(row.forecast, row.phase) for row in found.forecasts],
        ),
    )


def _influences(
    counting: Counting,
    readings: Sequence[Reading],
    trials: Sequence[Trial],
    trial_readings: Sequence[TrialReading],
) -> list[list[complex]]:
    """Return the influence coefficients, by reading and plane."""
    _once([row.reading for row in readings], "Sensor and speed")
    _once([row.plane for row in trials], "Plane")
    _once([f"{row.reading}, {row.plane}" for row in trial_readings], "Reading with a trial weight")
    after = {(row.reading, row.plane): row for row in trial_readings}
    wanted = {(row.reading, trial.plane) for row in readings for trial in trials}
    for pair in after:
        if pair not in wanted:
            raise ValueError(f"“{pair[0]}” with “{pair[1]}” is not in the tables above")
    for pair in sorted(wanted - set(after)):
        raise ValueError(
            f"The reading of “{pair[0]}” with the trial weight in “{pair[1]}” is missing"
        )
    return [
        [
            influence_coefficient(
                counting.vector(row.amplitude, row.phase),
                counting.vector(
                    after[row.reading, trial.plane].amplitude,
                    after[row.reading, trial.plane].phase,
                ),
                counting.weight(trial.mass, trial.angle),
            )
            for trial in trials
        ]
        for row in readings
    ]


def _once(names: Sequence[str], what: str) -> None:
    """Refuse a name that stands twice."""
    for name in names:
        if names.count(name) > 1:
            raise ValueError(f"{what} “{name}” stands twice")


def _balanced(
    counting: Counting,
    readings: Sequence[Reading],
    trials: Sequence[Trial],
    found: PlaneCorrections,
) -> PlanesBalanced:
    """Return the result as it is shown."""
    return PlanesBalanced(
        fixed=ENOUGH if found.rank == 2 * len(trials) else NOT_ENOUGH,
        rms_before=_rms(readings, [row.amplitude for row in readings]),
        rms_forecast=_rms(readings, [abs(left) for left in found.residuals]),
        condition=found.condition,
        weights=tuple(
            PlaneWeight(trial.plane, abs(weight), counting.angle(weight))
            for trial, weight in zip(trials, found.corrections, strict=True)
        ),
        forecasts=forecasts(
            Forecast, counting, [(row.reading, row.amplitude) for row in readings], found.residuals
        ),
    )


def _rms(readings: Sequence[Reading], amplitudes: Sequence[float]) -> float:
    """Return the weighted root mean square of amplitudes."""
    total = math.fsum(row.weight for row in readings)
    if not total:
        raise ValueError("At least one reading must have a weight above 0")
    return math.sqrt(
        math.fsum(
            row.weight * amplitude**2 for row, amplitude in zip(readings, amplitudes, strict=True)
        )
        / total
    )
