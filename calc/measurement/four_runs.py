"""Balance without phase: amplitudes with one trial weight at several places of the rotor."""

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from calc.chart import Axis, Chart, Line, Points, Rule
from calc.declaration import Method, Table
from calc.measurement.counting import turned
from calc.numeric.least_squares import least_squares
from calc.quantity import Quantity
from calc.units import ANGLE, PER_CENT, SMALL_MASS, VIBRATION_VELOCITY

ORIGINAL = Quantity(
    "A_0", "Amplitude without a trial weight", VIBRATION_VELOCITY, above=0.0, example=6.0e-3
)
TRIAL = Quantity("m_t", "Trial weight of each run", SMALL_MASS, above=0.0, example=0.020)
PLACE = Quantity(r"\theta_k", "Place of the trial weight in the run", ANGLE, example=0.0)
AMPLITUDE = Quantity(
    "A_k", "Amplitude with it there", VIBRATION_VELOCITY, at_least=0.0, example=5.0e-3
)
MASS = Quantity("m_c", "Weight to add without phase", SMALL_MASS)
ANGLE_ADDED = Quantity(r"\theta_c", "Place of that weight", ANGLE)
EFFECT = Quantity("A_t", "What the trial weight adds", VIBRATION_VELOCITY)
CLOSURE = Quantity(
    "k",
    "Closure",
    PER_CENT,
    covered=(-0.1, 0.1),
    covered_by="the amplitudes do not fit a rotor that answers in proportion (limit chosen here)",
)
MOST_RUNS = 24


@dataclass(frozen=True, slots=True)
class Run:
    """One run: where the trial weight was, and the amplitude."""

    place: Annotated[float, PLACE]
    amplitude: Annotated[float, AMPLITUDE]


RUNS = Table(
    "Runs with the trial weight",
    Run,
    (
        Run(0.0, 2.6e-3),
        Run(math.radians(120.0), 7.8e-3),
        Run(math.radians(240.0), 9.4e-3),
    ),
    at_least=3,
    at_most=MOST_RUNS,
)


@dataclass(frozen=True, slots=True)
class FourRunCorrection:
    """The weight to add, what the trial weight adds to a reading, and what does not fit."""

    correction: complex
    effect: float
    closure: float


@dataclass(frozen=True, slots=True)
class WithoutPhase:
    """The weight to add and its place, and how far the amplitudes fit together."""

    mass: Annotated[float, MASS]
    angle: Annotated[float, ANGLE_ADDED]
    effect: Annotated[float, EFFECT]
    closure: Annotated[float, CLOSURE]


def four_run_correction(
    original: float, amplitudes: Sequence[float], trial: float, angles: Sequence[float]
) -> Annotated[FourRunCorrection, Method("by the squares of the amplitudes, least squares")]:
    r"""Return the weight to add from amplitudes alone.

    $$ A_k^2 - A_0^2 = a + b \cos\theta_k + c \sin\theta_k, \qquad
       A_t = \frac{\sqrt{b^2 + c^2}}{2 A_0}, \qquad
       W_c = m_t \frac{A_0}{A_t} \mathrm{e}^{\mathrm{i} (\arg(b + \mathrm{i} c) + \pi)}, \qquad
       k = \frac{a - A_t^2}{A_0^2} $$

    Three places leave nothing over; more are fitted by least squares.  The closure $k$ is zero
    for a rotor that answers in proportion, and is the only check that there is.

    Args:
        original: Amplitude without a trial weight; scalar, m/s.
        amplitudes: Amplitude of each run; shape (n,), m/s.
        trial: Mass of the trial weight; scalar, kg.
        angles: Where it was in each run; shape (n,), rad.

    Returns:
        The weight to add as a vector in the sense of the angles, what the trial weight adds to a
        reading, and the closure.

    Raises:
        ValueError: If there are fewer than three different places, a number breaks its limits, or
            the place of the trial weight makes no difference.

    Source:
        Cosine rule for the vectors of the runs; derived here.

    Examples:
        >>> turns = [math.radians(turn) for turn in (0.0, 120.0, 240.0)]
        >>> found = four_run_correction(2.0, [1.0, 7.0**0.5, 7.0**0.5], 0.1, turns)
        >>> round(found.effect, 9), round(abs(found.correction), 9), round(found.closure, 9) + 0.0
        (1.0, 0.2, 0.0)
    """
    ORIGINAL.check(original)
    TRIAL.check(trial)
    if len(amplitudes) != len(angles) or not 3 <= len(angles) <= MOST_RUNS:
        raise ValueError(f"There must be 3 to {MOST_RUNS} amplitudes and as many places")
    for amplitude, place in zip(amplitudes, angles, strict=True):
        AMPLITUDE.check(amplitude)
        PLACE.check(place)
    matrix = [[1.0, math.cos(angle), math.sin(angle)] for angle in angles]
    squares = [(amplitude / original) ** 2 - 1.0 for amplitude in amplitudes]
    found = least_squares(matrix, squares)
    if found.rank < 3:
        raise ValueError("The trial weight must be at three different places")
    mean, cosine, sine = found.values
    share = math.hypot(cosine, sine) / 2.0
    if share <= 1e-12:
        raise ValueError("The place of the trial weight must make a difference")
    place = math.atan2(sine, cosine) + math.pi
    return FourRunCorrection(cmath.rect(trial / share, place), original * share, mean - share**2)


def without_phase(
    original: Annotated[float, ORIGINAL],
    trial: Annotated[float, TRIAL],
    runs: Annotated[tuple[Run, ...], RUNS],
) -> WithoutPhase:
    r"""Return the weight to add from amplitudes with a trial weight at three places or more.

    $$ A_k^2 = A_0^2 + a + b \cos\theta_k + c \sin\theta_k, \qquad
       m_c = m_t \frac{2 A_0^2}{\sqrt{b^2 + c^2}}, \qquad
       \theta_c = \arg(b + \mathrm{i} c) + 180^\circ, \qquad k = \frac{a - A_t^2}{A_0^2} $$

    The trial weight comes off at the end.  The rotor answers in proportion to the weight.

    Args:
        original: Amplitude without a trial weight; scalar, m/s.
        trial: The same weight in every run, at the same radius; scalar, kg.
        runs: Where it was, and the amplitude; rows.

    Returns:
        The weight to add and its place, what the trial weight adds to a reading, and the closure.

    Raises:
        ValueError: If an argument breaks its limits, there are fewer than three different places,
            or the place of the trial weight makes no difference.

    Source:
        Cosine rule for the vectors of the runs; derived here.

    Examples:
        >>> turns = [math.radians(turn) for turn in (0.0, 120.0, 240.0)]
        >>> runs = tuple(map(Run, turns, (1.0, 7.0**0.5, 7.0**0.5)))
        >>> found = without_phase(2.0, 0.1, runs)
        >>> round(found.mass, 9), round(found.angle, 9)
        (0.2, 0.0)
    """
    ORIGINAL.check(original)
    TRIAL.check(trial)
    RUNS.check(runs)
    found = four_run_correction(
        original, [run.amplitude for run in runs], trial, [run.place for run in runs]
    )
    return WithoutPhase(
        mass=abs(found.correction),
        angle=turned(cmath.phase(found.correction)),
        effect=found.effect,
        closure=found.closure,
    )


def without_phase_chart(original: float, runs: tuple[Run, ...], found: WithoutPhase) -> Chart:
    """Return the amplitudes over the place of the trial weight, and the curve through them."""
    mean = found.closure + (found.effect / original) ** 2
    swing = 2.0 * found.effect / original
    curve = []
    for step in range(181):
        place = math.radians(2.0 * step)
        square = 1.0 + mean - swing * math.cos(place - found.angle)
        curve.append((place, original * math.sqrt(max(square, 0.0))))
    return Chart(
        title="Amplitude over the place of the trial weight",
        description="Points are the runs, the line is the fit through their squares; it is lowest "
        "where the weight belongs. A dashed line marks the amplitude without a trial weight.",
        x=Axis.of(PLACE, 0.0, math.tau),
        y=Axis.of(AMPLITUDE, 0.0),
        marks=(
            Line(curve, "fit", 1),
            Points([(turned(run.place), run.amplitude) for run in runs], "runs", 2),
            Rule(original, "y", "without trial weight"),
            Rule(found.angle, "x", "place of the weight"),
        ),
    )
