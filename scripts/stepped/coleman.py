"""A Coleman diagram, built line by line."""

import math
from collections.abc import Callable

from calc.chart import Axis, Band, Chart, Line, Mark, Points
from calc.ground.examples import NOMINAL_SPEED, PLOVER_ROTOR, PLOVER_SUPPORT
from calc.ground.model.aircraft import support_frequencies
from calc.ground.model.coalescence import coalescence_speeds
from calc.ground.quantities import ROTOR_SPEED
from calc.ground.stability import unstable_bands
from calc.units import HERTZ, RPM, TURN_PER_SECOND
from scripts.stepped.figure import Stepped

FASTEST = RPM.si(400.0)
SLOWEST = RPM.si(10.0)


def coleman() -> Stepped:
    """Return the diagram of the Plover: without springs at the lag hinges lines are straight."""
    support = [rate / (2.0 * math.pi) for rate in support_frequencies(PLOVER_ROTOR, PLOVER_SUPPORT)]
    met = coalescence_speeds(PLOVER_ROTOR, PLOVER_SUPPORT) or ()
    bands = unstable_bands(PLOVER_ROTOR, PLOVER_SUPPORT, SLOWEST, FASTEST)
    marks: list[tuple[int, Mark]] = [
        (1, _line(lambda speed: speed, "1/rev", 1)),
        (2, _line(lag, "lag, rotating frame", 4)),
        (3, _line(lambda speed: speed + lag(speed), "progressing lag", 5)),
        (4, _line(lambda speed: speed - lag(speed), "regressing lag", 2)),
        *((5, _level(hertz, name)) for hertz, name in zip(support, NAMES, strict=True)),
        (6, Points([(speed, turns(speed - lag(speed))) for speed in met], "coalescence", 1)),
        *((7, Band(low, high, label="unstable", hatched=True)) for low, high in bands),
    ]
    chart = Chart(
        title="Coleman diagram of the Plover, line by line",
        description="Frequencies in the fixed frame over rotor speed: once per revolution, lag "
        "above and below it, two level lines of the aircraft on its gear, the crossings marked and "
        "the unstable range hatched.",
        x=Axis.of(ROTOR_SPEED, 0.0, FASTEST),
        y=Axis("Frequency in the fixed frame", HERTZ, 0.0, 9.0),
        marks=[mark for _, mark in marks],
        steps=[step for step, _ in marks],
    )
    return Stepped(chart.title, chart.svg, _captions(support, met, bands))


NAMES = "longitudinal", "lateral"


def lag(speed: float) -> float:
    """Return the lag frequency in the rotating frame, rad/s."""
    return PLOVER_ROTOR.lag_frequency(speed)


def turns(rate: float) -> float:
    """Return a rate in Hz."""
    return TURN_PER_SECOND.reading(rate)


def _captions(
    support: list[float],
    met: tuple[float, ...],
    bands: tuple[tuple[float, float], ...],
) -> tuple[str, ...]:
    """Return what is new in each step."""
    nominal = f"{RPM.reading(NOMINAL_SPEED):.0f} rpm"
    one, own = turns(NOMINAL_SPEED), turns(lag(NOMINAL_SPEED))
    speeds = " and ".join(f"{RPM.reading(speed):.0f}" for speed in met)
    unstable = " and ".join(f"{RPM.reading(lo):.0f} to {RPM.reading(hi):.0f}" for lo, hi in bands)
    return (
        f"Once per revolution: at {nominal} the rotor turns {one:.2f} times a second.",
        (
            f"Lag frequency as a blade feels it: {own:.2f} Hz at {nominal}, "
            f"{own / one:.2f} of the rotor speed."
        ),
        (
            f"Seen from the ground, one pattern of the blades runs ahead of the rotor: "
            f"the sum, {one + own:.2f} Hz."
        ),
        f"The other pattern falls behind the blades: the difference, {one - own:.2f} Hz.",
        (
            f"On its gear the aircraft has {support[0]:.2f} and {support[1]:.2f} Hz at every rotor "
            "speed; meeting 1/rev or progressing lag makes nothing grow."
        ),
        (
            "Regressing lag, slower than the rotor, can be fed by the drive: where it meets them, "
            f"at {speeds} rpm, a disturbance may grow."
        ),
        (
            f"With the dampers of the Plover it grows from {unstable} rpm; "
            "the lines alone do not say so, the growth rate does."
        ),
    )


def _line(frequency: Callable[[float], float], label: str, style: int) -> Line:
    """Return a line of a rate over rotor speed."""
    ends = SLOWEST, FASTEST
    return Line([(speed, turns(frequency(speed))) for speed in ends], label, style)


def _level(hertz: float, label: str) -> Line:
    """Return a frequency that does not depend on rotor speed."""
    return Line([(0.0, hertz), (FASTEST, hertz)], label, 3)
