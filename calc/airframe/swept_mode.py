"""Swept mode: what fraction of its steady amplitude a mode reaches as a force sweeps past it."""

import math
from itertools import pairwise
from typing import Annotated

from calc.airframe.quantities import DAMPED, NATURAL_FREQUENCY
from calc.chart import Axis, Chart, Line, Points
from calc.declaration import Method
from calc.numeric.runge_kutta import along, stepped
from calc.quantity import Quantity
from calc.units import HERTZ_PER_SECOND, SHARE

SWEEP_RATE = Quantity("s", "Sweep rate", (HERTZ_PER_SECOND,), at_least=0.0, example=0.5)
SWEEP_SEVERITY = Quantity("s^*", "Sweep rate over the squared half-power bandwidth", at_least=0.0)
RESPONSE_RATIO = Quantity(
    "g", "Fraction of steady-state resonant amplitude", SHARE, above=0.0, at_most=1.0
)
STEP = 0.2  # of the integration, in radians of the phase that turns fastest
START, STOP = 8.0, 3.0  # time constants of decay before and after the crossing


def swept_share(
    natural_frequency: Annotated[float, NATURAL_FREQUENCY],
    damping_ratio: Annotated[float, DAMPED],
    sweep_rate: Annotated[float, SWEEP_RATE],
) -> Annotated[float, RESPONSE_RATIO]:
    r"""Return the largest response of a mode to a passing force over that of a dwell at resonance.

    $$ \frac{\mathrm{d}b}{\mathrm{d}\tau} = 1 - (1 + \mathrm{i} \kappa \tau) b, \quad
       \kappa = \frac{2 s^*}{\pi}, \quad s^* = \frac{s}{4 \zeta^2 f_n^2}, \quad
       g = \max |b| $$

    $\tau$ is time over the time constant of decay $1/(2 \pi \zeta f_n)$, from the crossing.  The
    force keeps its size, its frequency rises or falls evenly, and damping is light, so that the
    response is a slowly changing cosine.

    Args:
        natural_frequency: Frequency of the mode; scalar, Hz.
        damping_ratio: Damping over critical damping; scalar.
        sweep_rate: Change of the force's frequency in a second; scalar, Hz/s.

    Returns:
        The fraction of the steady-state resonant amplitude; scalar.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Slowly varying amplitude of a mode; integrated numerically.

    Examples:
        >>> round(swept_share(10.0, 0.02, 0.144), 3)
        0.945
    """
    NATURAL_FREQUENCY.check(natural_frequency)
    DAMPED.check(damping_ratio)
    SWEEP_RATE.check(sweep_rate)
    severity = sweep_rate / (2.0 * damping_ratio * natural_frequency) ** 2
    SWEEP_SEVERITY.check(severity)
    return max(map(abs, _passing(2.0 * severity / math.pi)))


def swept_share_chart(
    natural_frequency: float,
    damping_ratio: float,
    sweep_rate: float,
) -> Chart:
    """Return the fraction over the sweep rate."""
    own = swept_share(natural_frequency, damping_ratio, sweep_rate)
    scale = (2.0 * damping_ratio * natural_frequency) ** 2
    rates = [scale * 10.0 ** (step / 10.0) for step in range(-20, 21)]
    curve = [(rate, swept_share(natural_frequency, damping_ratio, rate)) for rate in rates]
    return Chart(
        title="Fraction of steady-state resonant amplitude",
        description="The faster the sweep, the smaller the fraction of the steady-state resonant "
        "amplitude; the point is the sweep rate of the form.",
        x=Axis(
            SWEEP_RATE.label, HERTZ_PER_SECOND, rates[0], rates[-1], log=True, follows=SWEEP_RATE
        ),
        y=Axis.of(RESPONSE_RATIO, 0.0, 1.0),
        marks=(Line(curve, "", 1), Points([(sweep_rate, own)], "this sweep", 2)),
    )


def _passing(
    rate: float,
) -> Annotated[
    list[complex],
    Method("the largest response over time, by the fourth-order Runge-Kutta method"),
]:
    """Return the response over time by the classical fourth-order Runge-Kutta method.

    A fast sweep has done its work within a few turns of the phase about the crossing.
    """
    scale = max(1.0, math.sqrt(rate))
    begin, end = -START / scale, STOP / scale
    steps = math.ceil((end - begin) * (1.0 + rate * START / scale) / STEP)
    times = [begin + (end - begin) * step / steps for step in range(steps + 1)]

    def change(time: float, response: complex) -> complex:
        return 1.0 - (1.0 + 1j * rate * time) * response

    responses = [1.0 / (1.0 + 1j * rate * begin)]
    for time, after in pairwise(times):
        responses.append(stepped(change, along, time, responses[-1], after - time))
    return responses
