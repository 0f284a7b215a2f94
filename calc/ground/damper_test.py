"""Damper test: the lag damping of one blade from a decay, or from the loop of a damper rig."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Annotated

from calc.chart import Axis, Chart, Line
from calc.declaration import Method, Table
from calc.ground.damper import ARM, DAMPER_RATE, LAG_DAMPING_OF_DAMPER, LAG_STIFFNESS_OF_DAMPER
from calc.ground.quantities import LAG_INERTIA
from calc.quantity import InputsError, Quantity
from calc.units import ANGLE, ENERGY, FORCE, FREQUENCY, NUMBER, SMALL_LENGTH, TIME
from calc.vocabulary import DAMPING_RATIO

DECAY_PERIOD = Quantity("T", "Time of one cycle of the decay", TIME, above=0.0, example=0.84)
FIRST_PEAK = Quantity("A_0", "First peak", ANGLE, above=0.0, example=math.radians(2.0))
LATER_PEAK = Quantity("A_n", "Later peak", ANGLE, above=0.0, example=math.radians(0.11))
CYCLES = Quantity("n", "Full cycles between them", at_least=1, at_most=1000, whole=True, example=2)
DECREMENT = Quantity(r"\delta", "Logarithmic decrement", NUMBER, above=0.0)
CYCLE_ENERGY = Quantity("E", "Energy taken in one cycle", ENERGY, at_least=0.0, example=29.6)
STROKE_AMPLITUDE = Quantity(
    "X", "Stroke to each side of the middle", SMALL_LENGTH, above=0.0, example=0.005
)
RIG_FREQUENCY = Quantity("f", "Frequency of the rig", FREQUENCY, above=0.0, example=1.2)
STROKE = Quantity("x", "Stroke", SMALL_LENGTH, example=0.005)
DAMPER_FORCE = Quantity("F", "Force of the damper", FORCE, example=1885.0)
EQUIVALENT_RATE = replace(DAMPER_RATE, symbol="c", label="Equivalent damper rate", example=math.nan)
LAG_AMPLITUDE = Quantity(r"\xi_0", "Lag angle of that stroke", ANGLE, above=0.0)


@dataclass(frozen=True, slots=True)
class LoopPoint:
    """A point of a measured loop: stroke and force at the same moment."""

    stroke: Annotated[float, STROKE]
    force: Annotated[float, DAMPER_FORCE]


def _ellipse(stroke: float, force: float, points: int) -> tuple[LoopPoint, ...]:
    """Return the loop of a linear damper, for an example, rounded as a rig would list it."""
    turn = 2.0 * math.pi / points
    return tuple(
        LoopPoint(round(stroke * math.sin(k * turn), 5), round(force * math.cos(k * turn)))
        for k in range(points)
    )


LOOP = Table(
    "Points round the loop, once",
    LoopPoint,
    _ellipse(0.005, 1885.0, 24),
    at_least=8,
    at_most=400,
)


@dataclass(frozen=True, slots=True)
class Decay:
    """What the decay of a blade on its hinge tells."""

    decrement: Annotated[float, DECREMENT]
    damping_ratio: Annotated[float, DAMPING_RATIO]
    lag_damping: Annotated[float, LAG_DAMPING_OF_DAMPER]
    lag_stiffness: Annotated[float, LAG_STIFFNESS_OF_DAMPER]


@dataclass(frozen=True, slots=True)
class EquivalentDamper:
    """A linear damper that takes the same energy in a cycle, and the lag angle it holds for."""

    damper_rate: Annotated[float, EQUIVALENT_RATE]
    lag_damping: Annotated[float, LAG_DAMPING_OF_DAMPER]
    lag_amplitude: Annotated[float, LAG_AMPLITUDE]


@dataclass(frozen=True, slots=True)
class LoopDamper:
    """The energy and the stroke of a measured loop, and the linear damper that equals it."""

    cycle_energy: Annotated[float, CYCLE_ENERGY]
    stroke_amplitude: Annotated[float, STROKE_AMPLITUDE]
    damper_rate: Annotated[float, EQUIVALENT_RATE]
    lag_damping: Annotated[float, LAG_DAMPING_OF_DAMPER]
    lag_amplitude: Annotated[float, LAG_AMPLITUDE]


def decay_damping(
    lag_inertia: Annotated[float, LAG_INERTIA],
    period: Annotated[float, DECAY_PERIOD],
    first_peak: Annotated[float, FIRST_PEAK],
    later_peak: Annotated[float, LATER_PEAK],
    cycles: Annotated[int, CYCLES],
) -> Decay:
    r"""Return the lag damping and the lag spring of a blade that was let go and swings out.

    $$ \delta = \frac{1}{n} \ln\frac{A_0}{A_n}, \qquad
       \zeta = \frac{\delta}{\sqrt{4 \pi^2 + \delta^2}}, \qquad
       C_\xi = \frac{2 I_\xi \delta}{T}, \qquad
       K_\xi = I_\xi \frac{4 \pi^2 + \delta^2}{T^2} $$

    One blade on its lag hinge with a linear damper; the hub stands still and nothing else moves.
    Peaks are of one sign, counted from where the blade comes to rest.  All that restores the
    blade, gravity as well, is in the spring; all that damps it, air and bearing as well, is in
    the damping.

    Args:
        lag_inertia: Of the blade about its lag hinge; scalar, kg·m².
        period: Time from peak to peak of one sign; scalar, s.
        first_peak: From the place of rest; scalar, rad.
        later_peak: From the place of rest, some full cycles later; scalar, rad.
        cycles: Full cycles between the two peaks; scalar.

    Returns:
        Decrement, damping ratio, damping and spring.

    Raises:
        ValueError: If an argument breaks its limits or the later peak is not the smaller one.

    Source:
        Thomson, Theory of Vibration with Applications, section 2.7.

    Examples:
        >>> found = decay_damping(350.0, 1.0, math.e, 1.0, 1)
        >>> round(found.decrement, 9), round(found.lag_damping, 9)
        (1.0, 700.0)
    """
    LAG_INERTIA.check(lag_inertia)
    DECAY_PERIOD.check(period)
    FIRST_PEAK.check(first_peak)
    LATER_PEAK.check(later_peak)
    CYCLES.check(cycles)
    if later_peak >= first_peak:
        raise InputsError(
            "The later peak must be smaller than the first one", "first_peak", "later_peak"
        )
    decrement = math.log(first_peak / later_peak) / cycles
    return Decay(
        decrement=decrement,
        damping_ratio=decrement / math.sqrt(4.0 * math.pi**2 + decrement**2),
        lag_damping=2.0 * lag_inertia * decrement / period,
        lag_stiffness=lag_inertia * (4.0 * math.pi**2 + decrement**2) / period**2,
    )


def energy_damping(
    cycle_energy: Annotated[float, CYCLE_ENERGY],
    stroke_amplitude: Annotated[float, STROKE_AMPLITUDE],
    frequency: Annotated[float, RIG_FREQUENCY],
    arm: Annotated[float, ARM],
) -> EquivalentDamper:
    r"""Return the lag damping that takes as much energy in a cycle as a damper on a rig did.

    $$ c = \frac{E}{2 \pi^2 f X^2}, \qquad C_\xi = c a^2, \qquad \xi_0 = \frac{X}{a} $$

    The rig moves the damper along a sine.  The rate belongs to this stroke, this frequency and
    this temperature: a damper that is not linear has another one at another stroke.

    Args:
        cycle_energy: Area of the loop of force over stroke; scalar, J.
        stroke_amplitude: Half of the way from end to end; scalar, m.
        frequency: Cycles in a second; scalar, Hz.
        arm: Distance of the damper's axis from the lag hinge; scalar, m.

    Returns:
        The rate along the damper, the lag damping of one blade, and the lag angle it holds for.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Equal energy lost in a cycle; Thomson, Theory of Vibration with Applications, chapter 3.

    Examples:
        >>> energy = 2.0 * math.pi**2 * 1.2 * 0.005**2 * 50000.0
        >>> round(energy_damping(energy, 0.005, 1.2, 0.2).lag_damping, 6)
        2000.0
    """
    CYCLE_ENERGY.check(cycle_energy)
    STROKE_AMPLITUDE.check(stroke_amplitude)
    RIG_FREQUENCY.check(frequency)
    ARM.check(arm)
    damper_rate = cycle_energy / (2.0 * math.pi**2 * frequency * stroke_amplitude**2)
    return EquivalentDamper(
        damper_rate=damper_rate,
        lag_damping=damper_rate * arm**2,
        lag_amplitude=stroke_amplitude / arm,
    )


def loop_damping(
    loop: Annotated[tuple[LoopPoint, ...], LOOP],
    frequency: Annotated[float, RIG_FREQUENCY],
    arm: Annotated[float, ARM],
) -> LoopDamper:
    r"""Return the lag damping of a damper from the points of its measured loop.

    $$ E = \left|\oint F \mathrm{d}x\right| \approx
       \left|\sum_k \tfrac12 (F_k + F_{k+1}) (x_{k+1} - x_k)\right|, \qquad
       X = \tfrac12 (x_{max} - x_{min}) $$

    The points follow one another once round the loop, and the last one is joined to the first.
    Straight lines between them cut the corners: an ellipse of 24 points loses 1.1 % of its area,
    one of 60 points 0.2 %.

    Args:
        loop: Stroke and force, in the order in which they were measured; rows.
        frequency: Cycles in a second; scalar, Hz.
        arm: Distance of the damper's axis from the lag hinge; scalar, m.

    Returns:
        Energy and stroke of the loop, the rate along the damper, and the lag damping.

    Raises:
        ValueError: If an argument breaks its limits or the stroke does not change.

    Source:
        Work of a force along its way; equal energy as in `energy_damping`.

    Examples:
        >>> square = [(-1, 5), (0, 5), (1, 5), (1, 0), (1, -5), (0, -5), (-1, -5), (-1, 0)]
        >>> found = loop_damping(tuple(LoopPoint(*point) for point in square), 1.0, 1.0)
        >>> found.cycle_energy
        20.0
    """
    LOOP.check(loop)
    RIG_FREQUENCY.check(frequency)
    ARM.check(arm)
    strokes = [point.stroke for point in loop]
    cycle_energy: Annotated[float, CYCLE_ENERGY] = abs(_work(loop))
    stroke_amplitude: Annotated[float, STROKE_AMPLITUDE] = (max(strokes) - min(strokes)) / 2.0
    found = energy_damping(cycle_energy, stroke_amplitude, frequency, arm)
    return LoopDamper(
        cycle_energy=cycle_energy,
        stroke_amplitude=stroke_amplitude,
        damper_rate=found.damper_rate,
        lag_damping=found.lag_damping,
        lag_amplitude=found.lag_amplitude,
    )


def loop_chart(loop: tuple[LoopPoint, ...]) -> Chart:
    """Return the measured loop, closed."""
    points = [(point.stroke, point.force) for point in (*loop, loop[0])]
    return Chart(
        title="Loop of the damper",
        description="Force of the damper over its stroke, once round; its area is the energy "
        "that the damper takes in one cycle.",
        x=Axis.of(STROKE),
        y=Axis.of(DAMPER_FORCE),
        marks=(Line(points, "", 1),),
    )


def _work(
    loop: Sequence[LoopPoint],
) -> Annotated[float, Method("by straight lines from point to point")]:
    """Return the work of the force once round the loop."""
    return math.fsum(
        0.5 * (here.force + there.force) * (there.stroke - here.stroke)
        for here, there in pairwise((*loop, loop[0]))
    )
