"""Circle: frequency and damping of one mode from the circle of its mobility."""

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.declaration import Choice
from calc.numeric.matrix import inverse

FEWEST = 5
KIND = Choice(
    "Response over force",
    {
        "mobility": "mobility, velocity over force",
        "receptance": "receptance, displacement over force",
        "accelerance": "accelerance, acceleration over force",
    },
)


@dataclass(frozen=True, slots=True)
class Circle:
    """One mode from its circle: the diameter is that of the mobility."""

    frequency: float
    damping_ratio: float
    diameter: float


@dataclass(frozen=True, slots=True)
class Round:
    """A circle through points, with each point's angle from resonance and what is left over."""

    centre: complex
    radius: float
    angles: tuple[float, ...]
    misfit: float


def circle_fit(
    frequencies: Sequence[float], responses: Sequence[complex], kind: str = "mobility"
) -> Circle:
    r"""Return frequency, damping and mobility circle of a mode from its frequency response.

    $$ x^2 + y^2 = a x + b y + c, \qquad
    \omega \tan\frac{\theta}{2} = \frac{\omega_n^2 - \omega^2}{2 \zeta \omega_n}, \qquad
    D = \frac{1}{2 \zeta \omega_n m} $$

    One viscous mode, with a residual that is constant over the points: it shifts the circle and
    leaves its shape.  The mobility of the mode is real at resonance.  Angles are seen from the
    centre; a point opposite resonance counts least.

    Args:
        frequencies: Of the points; shape (n,), Hz.
        responses: Response over force at each, as its kind says; shape (n,).
        kind: `mobility`, `receptance` or `accelerance`; word.

    Returns:
        Natural frequency, Hz; damping ratio; diameter of the mobility circle.

    Raises:
        ValueError: If there are fewer than five points, they make no circle, or no resonance lies
            among them.

    Source:
        Kennedy and Pancu (1947), the circle of a mode; from memory.

    Examples:
        >>> speeds = [2.0 * math.pi * f for f in (9.0, 9.8, 10.0, 10.2, 11.0)]
        >>> found = circle_fit(
        ...     [w / (2.0 * math.pi) for w in speeds],
        ...     [1j * w / (4000.0 - w**2 + 3j * w) for w in speeds],
        ... )
        >>> round(found.diameter, 9)
        0.333333333
    """
    points = mobilities(frequencies, responses, kind)
    found = circle_of(points)
    squares = [(2.0 * math.pi * frequency) ** 2 for frequency in frequencies]
    heights = [
        math.sqrt(square) * math.tan(0.5 * angle)
        for square, angle in zip(squares, found.angles, strict=True)
    ]
    weights = [math.cos(0.5 * angle) ** 4 for angle in found.angles]
    total = math.fsum(weights)
    middle = math.fsum(w * x for w, x in zip(weights, squares, strict=True)) / total
    mean = math.fsum(w * y for w, y in zip(weights, heights, strict=True)) / total
    slope = math.fsum(
        w * (x - middle) * (y - mean) for w, x, y in zip(weights, squares, heights, strict=True)
    ) / math.fsum(w * (x - middle) ** 2 for w, x in zip(weights, squares, strict=True))
    resonance = middle - mean / slope if slope else -1.0
    if not (slope < 0.0 and min(squares) < resonance < max(squares)):
        raise ValueError("The points do not run round the circle through a resonance")
    natural = math.sqrt(resonance)
    return Circle(
        frequency=natural / (2.0 * math.pi),
        damping_ratio=-1.0 / (2.0 * natural * slope),
        diameter=2.0 * found.radius,
    )


def mobilities(
    frequencies: Sequence[float], responses: Sequence[complex], kind: str
) -> list[complex]:
    """Return responses as velocity over force; refuse lists that are no frequency response."""
    KIND.check(kind)
    if len(frequencies) != len(responses):
        raise ValueError("There must be one response for each frequency")
    if len(frequencies) < FEWEST:
        raise ValueError(f"A circle needs {FEWEST} points, not {len(frequencies)}")
    if not all(map(cmath.isfinite, responses)):
        raise ValueError("The responses must be finite numbers")
    if not all(0.0 < frequency < math.inf for frequency in frequencies):
        raise ValueError("The frequencies must be above zero")
    turns = [2j * math.pi * frequency for frequency in frequencies]
    power = {"mobility": 0, "receptance": 1, "accelerance": -1}[kind]
    return [response * turn**power for response, turn in zip(responses, turns, strict=True)]


def angle_misfit(
    frequencies: Sequence[float], angles: Sequence[float], natural: float, damping_ratio: float
) -> float:
    """Return how far points lie round a circle from where one mode has them, rms.

    Args:
        frequencies: Of the points; shape (n,), Hz.
        angles: Their angles from resonance, as `circle_of` has them; shape (n,), rad.
        natural: Natural frequency of the mode; scalar, Hz.
        damping_ratio: Its damping ratio; scalar.

    Returns:
        The misfit; scalar, rad.
    """
    total = 0.0
    for frequency, angle in zip(frequencies, angles, strict=True):
        height, reach = natural**2 - frequency**2, 2.0 * damping_ratio * natural * frequency
        total += math.remainder(angle - 2.0 * math.atan2(height, reach), math.tau) ** 2
    return math.sqrt(total / len(angles))


def circle_of(points: Sequence[complex]) -> Round:
    """Return the circle through points by least squares of x² + y² = a x + b y + c."""
    scale = max(map(abs, points))
    if not scale:
        raise ValueError("The points make no circle")
    rows = [(point.real / scale, point.imag / scale, 1.0) for point in points]
    right = [row[0] ** 2 + row[1] ** 2 for row in rows]
    size = range(3)
    gram = [[math.fsum(row[i] * row[j] for row in rows) for j in size] for i in size]
    sides = [math.fsum(row[i] * r for row, r in zip(rows, right, strict=True)) for i in size]
    try:
        shares = [
            math.fsum(x * y for x, y in zip(row, sides, strict=True)) for row in inverse(gram)
        ]
    except ZeroDivisionError:
        raise ValueError("The points make no circle") from None
    centre = complex(0.5 * shares[0], 0.5 * shares[1]) * scale
    square = shares[2] + 0.25 * (shares[0] ** 2 + shares[1] ** 2)
    if not square > 0.0:
        raise ValueError("The points make no circle")
    radius = math.sqrt(square) * scale
    sign = 1.0 if centre.real >= 0.0 else -1.0
    angles = tuple(cmath.phase(sign * (point - centre)) for point in points)
    off = [abs(point - centre) - radius for point in points]
    misfit = math.sqrt(math.fsum(x * x for x in off) / len(off)) / radius
    return Round(centre, radius, angles, misfit)
