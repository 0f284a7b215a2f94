"""Hub whirl: which way a hub goes round, from two accelerometers at one station."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.declaration import Name
from calc.quantity import Quantity
from calc.units import ACCELERATION, ANGLE, SHARE

AMPLITUDE_X = Quantity("a_x", "Amplitude, fore-and-aft", ACCELERATION, at_least=0.0, example=1.0)
PHASE_X = Quantity(r"\varphi_x", "Phase lead, fore-and-aft", ANGLE, example=0.0)
AMPLITUDE_Y = Quantity("a_y", "Amplitude, lateral", ACCELERATION, at_least=0.0, example=0.8)
PHASE_Y = Quantity(r"\varphi_y", "Phase lead, lateral", ANGLE, example=math.radians(-80.0))
FORWARD = Quantity("a_+", "Forward part, from x to y", ACCELERATION)
BACKWARD = Quantity("a_-", "Backward part, from y to x", ACCELERATION)
MAJOR = Quantity("a_1", "Largest amplitude in any direction", ACCELERATION)
MINOR = Quantity("a_2", "Amplitude across it", ACCELERATION)
BACKWARD_SHARE = Quantity("", "Share of the backward part", SHARE)
IN_LINE = 0.1
"""Minor over major amplitude below which the sense of a whirl says nothing; our own choice."""


@dataclass(frozen=True, slots=True)
class Whirl:
    """The two circles that make up a motion in two directions, as complex amplitudes."""

    forward: complex
    backward: complex


@dataclass(frozen=True, slots=True)
class WhirlOfHub:
    """The whirl of a point, with its ellipse."""

    verdict: Annotated[str, Name("Whirl")]
    forward: Annotated[float, FORWARD]
    backward: Annotated[float, BACKWARD]
    backward_share: Annotated[float, BACKWARD_SHARE]
    major: Annotated[float, MAJOR]
    minor: Annotated[float, MINOR]


def whirl_components(x: complex, y: complex) -> Whirl:
    r"""Return the forward and the backward part of a motion in two directions.

    $$ x + \mathrm i y = P_+ \mathrm e^{\mathrm i \omega t} + P_- \mathrm e^{-\mathrm i \omega t},
    \qquad P_+ = \frac{X + \mathrm i Y}{2}, \qquad
    P_- = \frac{\bar X + \mathrm i \bar Y}{2} $$

    $X$ and $Y$ are amplitudes of cosines times $\mathrm e^{\mathrm i \varphi}$ with phase leads,
    at one place and one frequency.

    Args:
        x: Complex amplitude in the first direction; scalar.
        y: Complex amplitude in the direction a quarter turn on; scalar.

    Returns:
        The complex amplitudes of both circles; forward turns from x to y.

    Raises:
        ValueError: If an amplitude is not finite.

    Source:
        Complex numbers; derived here.

    Examples:
        >>> whirl_components(1.0, -1j)
        Whirl(forward=(1+0j), backward=0j)
    """
    first, second = complex(x), complex(y)
    if not all(map(math.isfinite, (first.real, first.imag, second.real, second.imag))):
        raise ValueError("An amplitude must be a finite number")
    return Whirl(
        forward=(first + 1j * second) / 2.0,
        backward=(first.conjugate() + 1j * second.conjugate()) / 2.0,
    )


def whirl(
    amplitude_x: Annotated[float, AMPLITUDE_X],
    phase_x: Annotated[float, PHASE_X],
    amplitude_y: Annotated[float, AMPLITUDE_Y],
    phase_y: Annotated[float, PHASE_Y],
) -> WhirlOfHub:
    r"""Return which way a hub whirls, from two accelerometers at one station.

    $$ a_\pm = \tfrac12 \sqrt{a_x^2 + a_y^2 \mp 2 a_x a_y \sin(\varphi_y - \varphi_x)}, \qquad
    a_1 = a_+ + a_-, \qquad a_2 = |a_+ - a_-| $$

    Both are of one line, with phases against one reference, such as the tachometer or the exciter.
    Forward is the sense from the first direction to the second.

    Args:
        amplitude_x: Amplitude in the fore-and-aft direction, positive aft; scalar, m/s².
        phase_x: Its phase lead; scalar, rad.
        amplitude_y: Amplitude in the lateral direction, positive to starboard; scalar, m/s².
        phase_y: Its phase lead; scalar, rad.

    Returns:
        Sense of the whirl in words, both circles, and the ellipse that they make.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Complex numbers; derived here.

    Examples:
        >>> whirl(1.0, 0.0, 1.0, math.radians(-90.0)).backward < 1e-15
        True
    """
    AMPLITUDE_X.check(amplitude_x)
    PHASE_X.check(phase_x)
    AMPLITUDE_Y.check(amplitude_y)
    PHASE_Y.check(phase_y)
    square = amplitude_x**2 + amplitude_y**2
    sweep = 2.0 * amplitude_x * amplitude_y * math.sin(phase_y - phase_x)
    forward = math.sqrt(max(square - sweep, 0.0)) / 2.0
    backward = math.sqrt(max(square + sweep, 0.0)) / 2.0
    major, minor = forward + backward, abs(forward - backward)
    return WhirlOfHub(
        verdict=_sense(forward, backward),
        forward=forward,
        backward=backward,
        backward_share=backward / major if major else 0.0,
        major=major,
        minor=minor,
    )


def _sense(forward: float, backward: float) -> str:
    """Return which way a point goes round, or that it hardly goes round at all."""
    major = forward + backward
    if major == 0.0:
        return "No motion"
    if abs(forward - backward) < IN_LINE * major:
        return "Nearly in a line: the sense of the whirl says nothing"
    sense = "Forward, from x to y" if forward > backward else "Backward, from y to x"
    return f"{sense}: {100.0 * max(forward, backward) / major:.0f} % of the largest amplitude"
