"""The working of a calculation agrees with its formula."""

import importlib
import inspect
import math
import pkgutil
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, is_dataclass
from typing import Annotated, Any
from xml.etree import ElementTree as ET

import pytest

import calc
from calc.declaration import arguments, inputs, outputs
from calc.quantity import Quantity
from calc.units import DENSITY, LENGTH, MASS, NUMBER, ROTATION, SPEED
from calc.working import Step, steps
from calc.working.scope import declared_outputs, is_number
from scripts.formulas import formula as typeset

RADIUS = Quantity("R", "Radius", LENGTH, above=0.0, example=5.5)
ROTOR_SPEED = Quantity(r"\Omega", "Rotor speed", ROTATION, above=0.0, example=40.0)
TIP_SPEED = Quantity("V_t", "Tip speed", SPEED)
AIRSPEED = Quantity("V", "Airspeed", SPEED, at_least=0.0, example=60.0)
RATIO = Quantity(r"\mu", "Advance ratio", NUMBER, at_least=0.0)
AIR_DENSITY = Quantity("d", "Density", DENSITY, above=0.0, example=1.225)
WEIGHT = Quantity("m", "Mass", MASS)


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
    excess = airspeed - 50.0
    return 0.5 + excess / 200.0


def helped(airspeed: Annotated[float, AIRSPEED]) -> Annotated[float, RATIO]:
    """Return what a private function finds."""
    start = 2.0 * airspeed
    return _halved(start, times=3)


def _halved(value: float, times: int) -> float:
    """Return a value halved several times; a loop.

    It has more to say further down.
    """
    for _ in range(times):
        value = value / 2.0
    return value


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
    return State(tip_speed=doubled(last) + len(word), advance_ratio=both[0] / high)


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


def texts(found: Iterable[Step]) -> list[str]:
    """Return the lines of a working with typed signs for the typographic ones."""
    typed = str.maketrans("\N{MINUS SIGN}\N{MULTIPLICATION SIGN}", "-x")
    return [step.text.translate(typed) for step in found]


def flat(found: Iterable[Step]) -> Iterator[Step]:
    """Yield steps and the steps inside them."""
    for step in found:
        yield from flat(step.inner)
        yield step


def test_one_line() -> None:
    """Symbols, then numbers with units, then the value with its unit."""
    [step] = steps(tip_speed, {"radius": 5.5, "rotor_speed": 395.0 * math.pi / 30.0})

    assert texts([step]) == ["V_t = R · Ω = 5.5 m x 41.36430327 rad/s = 227.5 m/s"]
    assert step.evaluable == "5.5 * 41.36430327"
    assert step.latex == (
        r"V_t &= R \cdot \Omega = 5.5\,\mathrm{m} \times 41.36430327\,\mathrm{rad/s}"
        r" = 227.5\,\mathrm{m/s}"
    )
    assert step.mathml.startswith(
        '<math display="block"><msub><mi>V</mi><mi>t</mi></msub><mo>=</mo>'
    )


def test_formula_within_a_formula_is_a_step_with_steps_inside() -> None:
    """A call shows the name and the value; what it did stands inside."""
    found = steps(state, {"radius": 5.5, "rotor_speed": 40.0})

    assert texts(found) == [
        "V_t = tip speed(R, Ω) = 220.0 m/s",
        "μ = V / V_t = 60 m/s / (220 m/s) = 0.2727",
    ]
    assert texts(found[0].inner) == ["V_t = R · Ω = 5.5 m x 40 rad/s = 220.0 m/s"]


def test_result_of_another_formula_is_its_working() -> None:
    """A result that is no number has no line of its own."""
    [step] = steps(whole, {"airspeed": 60.0})

    assert step.text == step.mathml == ""
    assert len(step.inner) == 2


def test_result_that_a_private_function_makes_is_shown_by_its_numbers() -> None:
    """What went in stands before, and the first number says where it comes from."""
    found = steps(wrapped, {"airspeed": 60.0})

    assert texts(found)[-2:] == ["V_t = 440.0 m/s", "μ = 0.5455"]
    assert found[-2].remark == "a state with both numbers doubled"
    assert len(found) == 4


@pytest.mark.parametrize(
    ("airspeed", "lines", "remark"),
    [
        (40.0, ["μ = V / 100 = 40 m/s / 100 = 0.4000"], "as V ≤ 50"),
        (
            60.0,
            [
                "excess = V - 50 = 60 m/s - 50 = 10.00",
                "μ = 0.5 + excess / 200 = 0.5 + 10 / 200 = 0.5500",
            ],
            "as V > 50",
        ),
    ],
)
def test_branch_that_holds_is_shown_with_its_reason(
    airspeed: float, lines: list[str], remark: str
) -> None:
    """Only the branch that was taken is shown, and the first line of it says why."""
    found = steps(branched, {"airspeed": airspeed})

    assert texts(found) == lines
    assert found[0].remark == remark


def test_private_function_is_described_by_its_docstring() -> None:
    """A loop in a private function is not followed; its first sentence says what it returns."""
    found = steps(helped, {"airspeed": 60.0})

    assert texts(found) == ["start = 2 · V = 2 x 60 m/s = 120.0", "μ = halved(start, 3) = 15.00"]
    assert found[1].remark == "a value halved several times; a loop"


def test_what_is_no_arithmetic_is_shown_by_its_value() -> None:
    """Tuples, lists, comprehensions, loops and local functions do not stop the working."""
    assert texts(steps(awkward, {"airspeed": 60.0})) == [
        "low = 60.00",
        "high = 70.00",
        "total = 8500",
        "last = 70.00",
        "last = last + 1 = 70 + 1 = 71.00",
        "V_t = 146.0 m/s",
        "μ = 0.8571",
    ]


def test_loop_that_returns_is_shown_by_its_result() -> None:
    """Where the source cannot be followed, the result stands alone."""
    assert texts(steps(looped, {"airspeed": 60.0})) == ["μ = 0.6100"]


def test_formula_without_source_is_shown_by_its_result() -> None:
    """A formula typed at a prompt has no source to read."""
    names: dict[str, Any] = {**globals()}
    exec(inspect.getsource(tip_speed).replace("tip_speed", "typed"), names)  # noqa: S102  above

    assert texts(steps(names["typed"], {"radius": 2.0, "rotor_speed": 3.0})) == ["V_t = 6.000 m/s"]


def test_line_that_cancels_has_all_digits() -> None:
    """Ten digits would lose the difference; as many are put in as it takes."""
    [_, step] = steps(cancelling, {"airspeed": 1.0})

    assert step.evaluable == "10000000.333333334 - 10000000"


def test_local_does_not_take_the_symbol_of_an_input() -> None:
    """A local that is the same quantity as an input goes by its name; its unit stays."""
    assert texts(steps(alike, {"density": 1.2, "radius": 2.0})) == [
        "other = 2.400 kg/m³",
        "m = (other - d) · R³ = (2.4 kg/m³ - 1.2 kg/m³) x (2 m)³ = 9.600 kg",
    ]


def test_refused_input_is_refused() -> None:
    """The working checks what the formula checks."""
    with pytest.raises(ValueError, match="Radius must be above 0 m"):
        steps(tip_speed, {"radius": -1.0, "rotor_speed": 40.0})


def formulas() -> list[Any]:
    """Return every public formula of the package whose inputs all have an example."""
    found = []
    for module in pkgutil.walk_packages(calc.__path__, "calc."):
        for value in vars(importlib.import_module(module.name)).values():
            own = inspect.isfunction(value) and value.__module__ == module.name
            if own and declared_outputs(value) and inputs(value):
                found.append(value)
    return found


@pytest.mark.parametrize("formula", formulas(), ids=lambda f: f"{f.__module__}.{f.__name__}")
def test_every_formula_agrees_with_its_working(formula: Any) -> None:
    """Each line gives its value, each number of the result is shown, and each line can be set.

    Numbers are put in with ten digits, wrong by at most 5e-11 of themselves, or with all of them
    where ten lose more than 1e-9 of the value; so 1e-8 holds for every line.
    """
    values = {field.name: field.start for field in inputs(formula)}
    result = formula(**arguments(formula, values))
    found = list(flat(steps(formula, values)))

    for step in found:
        if step.evaluable:
            value = eval(step.evaluable, {"math": math})  # noqa: S307  the line under test
            assert value == pytest.approx(step.value, rel=1e-8, abs=0.0), step.text
        if step.text:
            ET.fromstring(step.mathml)  # noqa: S314  our own text
            assert typeset(rf"\begin{{aligned}}{step.latex}\end{{aligned}}", display=True)
    shown = {step.value for step in found if step.text}
    for field in outputs(formula) if result is not None else []:
        value = getattr(result, field.name) if is_dataclass(result) else result
        if isinstance(field.declaration, Quantity) and is_number(value):
            assert value in shown | set(values.values()), field.name
