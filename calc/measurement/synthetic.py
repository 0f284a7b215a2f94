"""Synthetic records: what a logger would write of the invented Plover, from a stated formula.

The noise is one that anybody can make again: the generator of Numerical Recipes (Press and others,
1992, page 284: multiplier 1664525, increment 1013904223, modulus 2 to the 32nd; constants from
memory), twelve values of which are added up to one sample.
"""

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from calc.measurement.reading.samples import Samples, array
from calc.units import RPM, STANDARD_GRAVITY

ROTOR_SPEED = RPM.si(6017.0) * (21.0 / 80.0) * (31.0 / 136.0)
"""Rotor speed of the Plover through bevel and planetary stage; rad/s."""
TAIL_ROTOR_SPEED = RPM.si(6017.0) * (21.0 / 80.0) * 0.904
ENGINE_SPEED = RPM.si(6017.0)
PULSE_RAMP, PULSE_WIDTH, PULSE_HEIGHT = 0.8, 1.6, 5.0
"""Angles in rad over which a tachometer pulse rises and lasts, and its height in V."""


@dataclass(frozen=True, slots=True)
class Part:
    """A cosine in a channel: what it is, shaft speed in rad/s, order, amplitude in SI, phase."""

    what: str
    speed: float
    order: float
    amplitude: float
    phase: float

    @property
    def frequency(self) -> float:
        """Frequency; scalar, Hz."""
        return self.order * self.speed / (2.0 * math.pi)


MAST = (
    Part("1/rev of the main rotor", ROTOR_SPEED, 1.0, 0.35, 0.7),
    Part("4/rev of the main rotor", ROTOR_SPEED, 4.0, 1.60, -0.4),
    Part("8/rev of the main rotor", ROTOR_SPEED, 8.0, 0.20, 2.0),
    Part("1/rev of the tail rotor", TAIL_ROTOR_SPEED, 1.0, 0.50, 1.1),
    Part("1/rev of the engine output, above half the sample rate", ENGINE_SPEED, 1.0, 0.15, 0.3),
    Part("a line without a source", 2.0 * math.pi * 17.6, 1.0, 0.12, -1.0),
)
CABIN = (
    Part("1/rev of the main rotor", ROTOR_SPEED, 1.0, 0.20, -0.9),
    Part("4/rev of the main rotor", ROTOR_SPEED, 4.0, 1.10, 0.6),
    Part("12/rev of the main rotor", ROTOR_SPEED, 12.0, 0.10, 0.0),
)
STEADY_RATE, STEADY_LENGTH, STEADY_NOISE = 200.0, 30.0, 0.05

RUN_UP_RATE, RUN_UP_LENGTH, RUN_UP_NOISE = 100.0, 60.0, 0.02
RUN_UP_FROM, RUN_UP_TO = RPM.si(180.0), RPM.si(370.0)
RUN_UP_ORDERS = ((1.0, 0.10, 0.5), (4.0, 0.15, 0.0))
"""Order, amplitude in m/s² far below the mode, and phase of what drives the mode in a run-up."""
MODE_FREQUENCY, MODE_DAMPING = 16.8, 0.02
"""Second bending of the tail boom, as in the data sheet of the Plover; Hz and damping ratio."""

DECAY_RATE, DECAY_LENGTH, DECAY_NOISE = 100.0, 14.0, 0.004
STIRRED_UNTIL = 4.0
"""When the stick is let go; s."""
PITCH_FREQUENCY, PITCH_DAMPING, PITCH_AMPLITUDE = 2.18, 0.03, 0.6
"""Motion on the landing gear after a stick stir: damped frequency in Hz, damping ratio, m/s²."""
DECAY_ONE_PER_REV = 0.03
"""1/rev in the record of a decay; m/s²."""


def uniform(count: int, seed: int = 1) -> list[float]:
    """Return values between 0 and 1 that anybody can make again; shape (count,).

    Examples:
        >>> [round(value, 9) for value in uniform(3)]
        [0.236455525, 0.369270674, 0.504242032]
    """
    values = []
    state = seed
    for _ in range(count):
        state = (1664525 * state + 1013904223) % 2**32
        values.append((state + 0.5) / 2**32)
    return values


def noise(count: int, rms: float, seed: int = 1) -> Samples:
    """Return nearly normal noise: each sample is the sum of twelve uniform values less 6.

    Args:
        count: How many samples.
        rms: Of the noise; scalar.
        seed: Of the generator; whole.

    Returns:
        The samples; shape (count,).
    """
    values = iter(uniform(12 * count, seed))
    return array(
        "d", (rms * (math.fsum(next(values) for _ in range(12)) - 6.0) for _ in range(count))
    )


def steady() -> Iterator[str]:
    """Yield the lines of a record on the ground at nominal rotor speed, with a tachometer."""
    yield "Time [s],Mast x [m/s2],Cabin z [g],Tachometer [V]"
    count = round(STEADY_RATE * STEADY_LENGTH)
    mast, cabin = noise(count, STEADY_NOISE, 1), noise(count, STEADY_NOISE, 2)
    for row in range(count):
        time = row / STEADY_RATE
        x = math.fsum((mast[row], *(_value(part, time) for part in MAST)))
        z = math.fsum((cabin[row], *(_value(part, time) for part in CABIN)))
        volts = pulse(ROTOR_SPEED * time)
        yield f"{time:.3f},{x:.4f},{z / STANDARD_GRAVITY.size:.5f},{volts:.3f}"


def run_up() -> Iterator[str]:
    """Yield the lines of a run-up with a column of rotor speed, in which 4/rev passes a mode."""
    yield "Time [s],Tail boom y [m/s2],Rotor speed [rpm]"
    count = round(RUN_UP_RATE * RUN_UP_LENGTH)
    rate = (RUN_UP_TO - RUN_UP_FROM) / RUN_UP_LENGTH
    added = noise(count, RUN_UP_NOISE, 3)
    for row in range(count):
        time = row / RUN_UP_RATE
        speed = RUN_UP_FROM + rate * time
        angle = RUN_UP_FROM * time + 0.5 * rate * time**2
        y = added[row]
        for order, amplitude, phase in RUN_UP_ORDERS:
            gain, lag = amplification(order * speed / (2.0 * math.pi))
            y += amplitude * gain * math.cos(order * angle + phase - lag)
        yield f"{time:.2f},{y:.4f},{RPM.reading(speed):.2f}"


def decay() -> Iterator[str]:
    """Yield the lines of a stick stir that ends, after which the motion dies away."""
    yield "Time [s],Cabin x [m/s2]"
    added = noise(round(DECAY_RATE * DECAY_LENGTH), DECAY_NOISE, 4)
    growth = -PITCH_DAMPING / math.sqrt(1.0 - PITCH_DAMPING**2) * 2.0 * math.pi * PITCH_FREQUENCY
    for row, extra in enumerate(added):
        time = row / DECAY_RATE
        since = max(0.0, time - STIRRED_UNTIL)
        x = (
            PITCH_AMPLITUDE
            * math.exp(growth * since)
            * math.cos(2.0 * math.pi * PITCH_FREQUENCY * time)
        )
        x += DECAY_ONE_PER_REV * math.cos(ROTOR_SPEED * time)
        yield f"{time:.2f},{x + extra:.5f}"


EXAMPLES: dict[str, tuple[str, Callable[[], Iterator[str]]]] = {
    "plover_steady": ("Plover, ground run at nominal rotor speed", steady),
    "plover_run_up": ("Plover, run-up through a mode of the tail boom", run_up),
    "plover_decay": ("Plover, decay after a stick stir", decay),
}
"""The example records: title and lines, by the name of their file."""


def example(name: str) -> str:
    """Return the text of an example record, the same bytes as its file.

    Raises:
        ValueError: If there is none of that name.
    """
    if name not in EXAMPLES:
        raise ValueError(f"There is no example record {name}")
    return "".join(f"{line}\n" for line in EXAMPLES[name][1]())


def pulse(angle: float) -> float:
    """Return the volts of the tachometer: half its height, rising, at each whole turn.

    Args:
        angle: Of the rotor since a pulse; scalar, rad.
    """
    past = math.remainder(angle - PULSE_WIDTH / 2.0, 2.0 * math.pi) + PULSE_WIDTH / 2.0
    rise = 0.5 + past / PULSE_RAMP
    fall = 0.5 + (PULSE_WIDTH - past) / PULSE_RAMP
    return PULSE_HEIGHT * min(1.0, max(0.0, min(rise, fall)))


def amplification(frequency: float) -> tuple[float, float]:
    """Return by how much the mode of the tail boom enlarges a steady force, and the lag in rad."""
    ratio = frequency / MODE_FREQUENCY
    real, imaginary = 1.0 - ratio**2, 2.0 * MODE_DAMPING * ratio
    return 1.0 / math.hypot(real, imaginary), math.atan2(imaginary, real)


def _value(part: Part, time: float) -> float:
    return part.amplitude * math.cos(part.order * part.speed * time + part.phase)
