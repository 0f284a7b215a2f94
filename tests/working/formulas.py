"""Small formulas, each with one trait, for the tests of their workings."""

from dataclasses import dataclass
from typing import Annotated

from calc.declaration import Method
from calc.quantity import Constant, Quantity
from calc.units import DENSITY, LENGTH, MASS, NUMBER, ROTATION, SPEED

RADIUS = Quantity("R", "Radius", LENGTH, above=0.0, example=5.5)
ROTOR_SPEED = Quantity(r"\Omega", "Rotor speed", ROTATION, above=0.0, example=40.0)
TIP_SPEED = Quantity("V_t", "Tip speed", SPEED)
AIRSPEED = Quantity("V", "Airspeed", SPEED, at_least=0.0, example=60.0)
RATIO = Quantity(r"\mu", "Advance ratio", NUMBER, at_least=0.0)
AIR_DENSITY = Quantity("d", "Density", DENSITY, above=0.0, example=1.225)
WEIGHT = Quantity("m", "Mass", MASS)
EXCESS = Quantity("", "Excess of airspeed", SPEED)
ROOT = Quantity("r", "Root")
LENGTH_UNIT = Constant(2.5, Quantity("L_0", "Unit of length", LENGTH))


@dataclass(frozen=True, slots=True)
class State:
    """Two numbers and a remark."""

    tip_speed: Annotated[float, TIP_SPEED]
    advance_ratio: Annotated[float, RATIO]


def tip_speed(
    radius: Annotated[float, RADIUS], rotor_speed: Annotated[float, ROTOR_SPEED]
) -> Annotated[float, TIP_SPEED]:
    """Return the tip speed."""
    RADIUS.check(radius)
    ROTOR_SPEED.check(rotor_speed)
    return radius * rotor_speed


def state(
    radius: Annotated[float, RADIUS],
    rotor_speed: Annotated[float, ROTOR_SPEED],
    airspeed: Annotated[float, AIRSPEED] = 60.0,
) -> State:
    """Return tip speed and advance ratio."""
    AIRSPEED.check(airspeed)
    speed = tip_speed(radius, rotor_speed)
    ratio = airspeed / speed
    RATIO.check(ratio)
    return State(speed, advance_ratio=ratio)


def branched(airspeed: Annotated[float, AIRSPEED]) -> Annotated[float, RATIO]:
    """Return something else above a limit."""
    if airspeed <= 50.0:
        return airspeed / 100.0
    excess: Annotated[float, EXCESS] = airspeed - 50.0
    return 0.5 + excess / 200.0


def squared(root: Annotated[float, ROOT]) -> Annotated[float, RATIO]:
    """Return a square."""
    return root**2


def helped(airspeed: Annotated[float, AIRSPEED]) -> Annotated[float, ROOT]:
    """Return what a private function finds."""
    return _root(2.0 * airspeed)


def _root(square: float) -> Annotated[float, Method("by halving an interval", squared)]:
    """Return a square root; a loop, of which nobody should read."""
    low, high = 0.0, square + 1.0
    while high - low > 1e-12 * high:
        middle = 0.5 * (low + high)
        low, high = (low, middle) if middle**2 > square else (middle, high)
    return low


def awkward(airspeed: Annotated[float, AIRSPEED]) -> State:
    """Return numbers found in ways that are no arithmetic."""
    low, high = airspeed, airspeed + 10.0
    both = [low, high]
    total = sum([value**2 for value in both])
    for value in both:
        AIRSPEED.check(value)
    last: float = both[1]
    last += 1.0

    def doubled(number: float) -> float:
        return 2.0 * number

    word = "fast" if total > 1e4 else "slow"
    return State(tip_speed=doubled(last) + len(word), advance_ratio=low / high)


def looped(airspeed: Annotated[float, AIRSPEED]) -> Annotated[float, RATIO]:
    """Return from inside a loop."""
    for step in range(100):
        if step > airspeed:
            return step / 100.0
    return 1.0


def whole(airspeed: Annotated[float, AIRSPEED]) -> State:
    """Return the state of another formula."""
    return state(5.5, 40.0, airspeed)


def wrapped(airspeed: Annotated[float, AIRSPEED]) -> State:
    """Return what a private function makes of another formula."""
    return _doubled(state(5.5, 40.0, airspeed))


def _doubled(found: State) -> State:
    """Return a state with both numbers doubled."""
    return State(2.0 * found.tip_speed, 2.0 * found.advance_ratio)


def cancelling(airspeed: Annotated[float, AIRSPEED]) -> Annotated[float, RATIO]:
    """Return a small difference of large numbers."""
    large = airspeed / 3.0 + 1e7
    return large - 1e7


def alike(
    density: Annotated[float, AIR_DENSITY], radius: Annotated[float, RADIUS]
) -> Annotated[float, WEIGHT]:
    """Return a mass; two densities share a symbol."""
    doubled = _Air(2.0 * density)
    other = doubled.density
    return (other - density) * radius**3


@dataclass(frozen=True, slots=True)
class _Air:
    density: Annotated[float, AIR_DENSITY]


def constant(radius: Annotated[float, RADIUS]) -> Annotated[float, RATIO]:
    """Return a length over a constant."""
    return radius / LENGTH_UNIT


def hidden(airspeed: Annotated[float, AIRSPEED]) -> Annotated[float, RATIO]:
    """Return something whose locals nobody has declared."""
    half_way = airspeed / 2.0
    return (half_way + 1.0) / (half_way * half_way)


def secret(airspeed: Annotated[float, AIRSPEED]) -> State:
    """Return something with a number that no arithmetic gives."""
    picked = [airspeed / 2.0][0]
    return State(2.0 * airspeed, airspeed / picked)


def doubly(radius: Annotated[float, RADIUS]) -> State:
    """Return two numbers that need the same third one."""
    return State(tip_speed(radius, 40.0) + 1.0, tip_speed(radius, 40.0) / 10.0)
