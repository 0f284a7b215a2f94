"""Rotating beam against a shooting method, limits known in closed form, and properties."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from mpmath import cos, cosh, findroot, tan, tanh  # type: ignore[import-untyped] # it has none

from calc.blades.beam_elements import Element, matrices
from calc.blades.rotating_beam import beam_frequencies, tapered_beam_frequencies, uniform_beam
from tests.blades.power_series import MASSES, STIFFNESSES, Case, mismatch

CASES = [
    Case(0.0, 0.0, "clamped", 0.0, 0.0),
    Case(0.35, 30.0, "clamped", 0.0, 4.0),
    Case(0.35, 90.0, "clamped", 0.0, 0.0),
    Case(0.25, 35.0, "hinged", 0.0, 2.5),
    Case(0.25, 35.0, "hinged", 2e4, 0.0),
]


@pytest.mark.parametrize("case", CASES)
def test_segmented_blade_by_power_series(case: Case) -> None:
    """Each frequency is a root of the beam equation in power series, to 2e-7 of it."""
    for frequency in _found(case):
        below, above = (mismatch(frequency * f, case) for f in (1.0 - 2e-7, 1.0 + 2e-7))
        assert below * above < 0


def test_no_frequency_is_missed() -> None:
    """Up to the last listed frequency the beam equation has no other root."""
    found = _found(CASES[1])
    steps = [found[-1] * 1.01 * step / 60 for step in range(1, 61)]
    signs = [mismatch(step, CASES[1]) > 0 for step in steps]

    assert sum(first != second for first, second in pairwise(signs)) == len(found)


def _found(case: Case) -> tuple[float, ...]:
    return beam_frequencies(
        5.5,
        case.offset,
        MASSES,
        STIFFNESSES,
        case.speed,
        root=case.root,
        root_stiffness=case.spring,
        tip_mass=case.tip_mass,
        modes=5,
    )


def test_clamped_beam_at_rest() -> None:
    """The roots of cos b cosh b = -1 give the frequencies of a clamped beam, by mpmath."""
    guesses = [1.875] + [(i - 0.5) * math.pi for i in range(2, 9)]
    roots = [float(findroot(lambda b: cos(b) * cosh(b) + 1.0, guess)) ** 2 for guess in guesses]

    found = beam_frequencies(1.0, 0.3, 1.0, 1.0, 0.0, modes=8)

    assert found[:5] == pytest.approx(roots[:5], rel=1e-7)
    assert found == pytest.approx(roots, rel=1e-5)


def test_hinged_beam_at_rest() -> None:
    """A hinged beam turns freely; tan b = tanh b gives its other frequencies, by mpmath."""
    roots = [
        float(findroot(lambda b: tan(b) - tanh(b), (i + 0.25) * math.pi)) ** 2 for i in (1, 2, 3)
    ]

    found = beam_frequencies(1.0, 0.0, 1.0, 1.0, 0.0, root="hinged")

    assert found[0] == 0.0
    assert found[1:] == pytest.approx(roots, rel=1e-8)


@pytest.mark.parametrize("speed", [1.0, 30.0, 200.0])
def test_first_mode_hinged_at_the_axis_is_once_per_revolution(speed: float) -> None:
    """A blade hinged at the axis is straight in its first mode and flaps once per revolution."""
    found = beam_frequencies(5.5, 0.0, MASSES, STIFFNESSES, speed, root="hinged", tip_mass=3.0)

    assert found[0] == pytest.approx(speed, rel=1e-8)


def test_first_mode_of_an_offset_hinge_is_near_that_of_a_rigid_blade() -> None:
    """With a very stiff blade the first mode is the rigid blade's, in flap and in lag."""
    offset_ratio = 0.25
    expected = 1.0 + 1.5 * offset_ratio

    flap = beam_frequencies(1.0, offset_ratio, 1.0, 1e6, 1.0, root="hinged")[0]
    lag = beam_frequencies(1.0, offset_ratio, 1.0, 1e6, 1.0, root="hinged", plane="lag")[0]

    assert flap**2 == pytest.approx(expected, rel=1e-6)
    assert lag**2 == pytest.approx(expected - 1.0, rel=1e-6)


@pytest.mark.parametrize(
    "cuts", [[0.02 * i for i in range(1, 10)], [0.03 * i for i in range(1, 20)]]
)
def test_cutting_a_blade_changes_nothing(cuts: list[float]) -> None:
    """A uniform blade given in many short stretches near the root keeps its six frequencies."""
    cut = [(station, 1.0) for station in [*cuts, 1.0]]

    whole = beam_frequencies(1.0, 0.0, 1.0, 1.0, 5.0, modes=6)
    assert beam_frequencies(1.0, 0.0, cut, cut, 5.0, modes=6) == pytest.approx(whole, rel=1e-6)


def test_soft_stretch_of_an_uneven_blade() -> None:
    """Mode 8 of a blade with steps of 400 to 1 is near a root of the beam equation, to 2e-4 of it.

    The shapes of an element bend evenly; the eighth mode of a stretch so soft does not.
    """
    case = Case(
        0.0,
        7.0,
        "hinged",
        3e6,
        13.0,
        [(0.3, 4.0), (0.8, 8.0), (1.0, 18.0), (3.5, 12.0), (9.0, 190.0)],
        [(4.2, 5e3), (4.65, 1100.0), (4.7, 700.0), (4.9, 4.6e5), (9.0, 1350.0)],
    )
    found = beam_frequencies(
        9.0,
        case.offset,
        case.masses,
        case.stiffnesses,
        case.speed,
        root=case.root,
        root_stiffness=case.spring,
        tip_mass=case.tip_mass,
        modes=8,
    )

    below, above = (mismatch(found[7] * f, case) for f in (1.0 - 2e-4, 1.0 + 2e-4))
    assert below * above < 0


@pytest.mark.parametrize("speed", [0, 1, 2, 3, 4, 5, 6, 8, 10, 12])
def test_uniform_blade_by_power_series(speed: int) -> None:
    """A self-check: the four frequencies of the uniform clamped blade by a series of 60 digits.

    Three of them are also printed, to three decimals; the fourth was not found in print.
    """
    uniform = [(1.0, 1.0)]
    case = Case(0.0, float(speed), "clamped", 0.0, 0.0, uniform, uniform)
    found = uniform_beam(float(speed))

    for frequency in (found.first, found.second, found.third, found.fourth):
        below, above = (mismatch(frequency * f, case) for f in (1.0 - 2e-7, 1.0 + 2e-7))
        assert below * above < 0


def test_chain() -> None:
    """Without stiffness the squared frequency ratios of a blade are n (2 n - 1)."""
    found = beam_frequencies(1.0, 0.0, 1.0, 1e-9, 1.0, root="hinged", modes=4)

    assert [f**2 for f in found] == pytest.approx([1.0, 6.0, 15.0, 28.0], rel=1e-4)


def test_fast_blade_by_power_series() -> None:
    """At a speed of 50 the first frequency is 51.0798, as the series has it, not 51.0805."""
    uniform = [(1.0, 1.0)]
    case = Case(0.0, 50.0, "clamped", 0.0, 0.0, uniform, uniform)

    assert mismatch(51.07975, case) * mismatch(51.07985, case) < 0
    assert uniform_beam(50.0).first == pytest.approx(51.0798, abs=0.5e-4)


def test_clamped_root_is_a_very_stiff_spring() -> None:
    """A hinge with a very stiff spring is a clamped root."""
    clamped = beam_frequencies(5.5, 0.2, MASSES, STIFFNESSES, 40.0)
    sprung = beam_frequencies(
        5.5, 0.2, MASSES, STIFFNESSES, 40.0, root="hinged", root_stiffness=1e11
    )

    assert sprung == pytest.approx(clamped, rel=1e-5)


def test_cutting_a_segment_changes_nothing() -> None:
    """The same blade in one, two or many segments has the same frequencies."""
    whole = beam_frequencies(5.0, 0.2, 9.0, 2e4, 40.0)
    halves = beam_frequencies(5.0, 0.2, [(2.5, 9.0), (5.0, 9.0)], 2e4, 40.0)
    tenths = beam_frequencies(5.0, 0.2, [(0.5 * i, 9.0) for i in range(1, 11)], 2e4, 40.0)

    assert halves == pytest.approx(whole, rel=1e-7)
    assert tenths == pytest.approx(whole, rel=1e-7)


def test_short_segments_keep_their_digits() -> None:
    """The shortest segment that is allowed leaves the frequencies as they were."""
    whole = beam_frequencies(5.0, 0.2, 9.0, 2e4, 40.0, tip_mass=1.0)
    for station in (0.005, 2.5, 4.99):
        short = [(station, 9.0), (station + 0.005, 9.0), (5.0, 9.0)]
        found = beam_frequencies(5.0, 0.2, short, 2e4, 40.0, tip_mass=1.0)
        assert found == pytest.approx(whole, rel=1e-6)


def test_stations_that_differ_by_rounding_are_one() -> None:
    """A station that is 0.1 + 0.2 in one profile and 0.3 in the other makes no segment."""
    first = beam_frequencies(
        5.0, 0.2, [(0.1 + 0.2, 9.0), (5.0, 8.0)], [(0.3, 2e4), (5.0, 1e4)], 40.0
    )
    second = beam_frequencies(5.0, 0.2, [(0.3, 9.0), (5.0, 8.0)], [(0.3, 2e4), (5.0, 1e4)], 40.0)

    assert first == pytest.approx(second, rel=1e-12)


def test_taper_is_the_limit_of_many_segments() -> None:
    """Twenty segments that follow a taper come near the tapered blade."""
    count = 20
    middles = [(i + 0.5) / count for i in range(count)]
    masses = [((i + 1) / count, 2.0 - share) for i, share in enumerate(middles)]
    stiffnesses = [((i + 1) / count, 3.0 - 2.0 * share) for i, share in enumerate(middles)]

    steps = beam_frequencies(1.0, 0.1, masses, stiffnesses, 3.0)
    smooth = tapered_beam_frequencies(1.0, 0.1, (2.0, 1.0), (3.0, 1.0), 3.0)

    assert steps == pytest.approx(smooth, rel=2e-3)


def test_converges_as_elements_are_added() -> None:
    """The centrifugal energy of a linear shape is exact however the blade is cut."""
    whole = [Element(0.0, 2.0, (3.0, 3.0), (1.0, 1.0))]
    cut = [Element(i / 4, (i + 1) / 4, (3.0, 3.0), (1.0, 1.0)) for i in range(8)]
    exact = 3.0 * (0.5 * 2.0**2 / 2.0 + 2.0**3 / 3.0)

    for elements, degree in ((whole, 5), (whole, 9), (cut, 5)):
        pull = matrices(elements, 0.5, 0.0, degree).centrifugal
        shape = [0.0] * len(pull)
        for number in range(len(elements) + 1):
            shape[number * (degree - 1)] = 2.0 * number / len(elements)
            shape[number * (degree - 1) + 1] = 1.0
        energy = math.fsum(
            a * value * b
            for a, row in zip(shape, pull, strict=True)
            for value, b in zip(row, shape, strict=True)
        )
        assert energy == pytest.approx(exact, rel=1e-12)


@settings(max_examples=20, deadline=None)
@given(
    offset=st.floats(0.0, 1.0),
    speed=st.floats(1.0, 60.0),
    tip_mass=st.floats(0.0, 10.0),
    root=st.sampled_from(["clamped", "hinged"]),
)
def test_frequencies_grow_with_offset_and_speed(
    offset: float, speed: float, tip_mass: float, root: str
) -> None:
    """More speed or more offset raises every flap frequency."""

    def found(more_offset: float, more_speed: float) -> tuple[float, ...]:
        return beam_frequencies(
            5.5,
            offset + more_offset,
            MASSES,
            STIFFNESSES,
            speed * more_speed,
            root=root,
            tip_mass=tip_mass,
        )

    base = found(0.0, 1.0)
    assert all(new > old for new, old in zip(found(0.0, 1.1), base, strict=True))
    assert all(new > old for new, old in zip(found(0.2, 1.0), base, strict=True))


@settings(max_examples=20, deadline=None)
@given(speed=st.floats(1.0, 60.0), offset=st.floats(0.0, 1.0))
def test_lag_is_flap_without_one_per_revolution(speed: float, offset: float) -> None:
    """The same beam has lag frequencies whose squares are less by that of the rotor speed."""
    flap = beam_frequencies(5.5, offset, MASSES, STIFFNESSES, speed)
    lag = beam_frequencies(5.5, offset, MASSES, STIFFNESSES, speed, plane="lag")

    for out, along in zip(flap, lag, strict=True):
        assert along**2 == pytest.approx(out**2 - speed**2, rel=1e-9)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"length": 0.0}, "Length of the blade from its root must be above 0 m, not 0 m"),
        ({"mass_per_length": -1.0}, "Mass per length must be above 0 kg/m"),
        ({"mass_per_length": [(4.0, 1.0)]}, "must be the length of the blade"),
        ({"bending_stiffness": [(3.0, 1.0), (2.0, 1.0), (5.0, 1.0)]}, "must rise"),
        ({"bending_stiffness": []}, "must be the length of the blade"),
        ({"bending_stiffness": [(2.5, 1.0), (2.504, 1.0), (5.0, 1.0)]}, "at least a thousandth"),
        ({"rotor_speed": math.nan}, "Rotor speed must be a finite number"),
        ({"root": "glued"}, "Root must be one of clamped, hinged"),
        ({"root_stiffness": 5.0}, "must be 0 for a clamped root"),
        ({"modes": 0}, "Number of modes must be at least 1"),
    ],
)
def test_impossible_blades_are_named(change: dict[str, object], message: str) -> None:
    """A blade that cannot exist is refused by what is wrong with it."""
    blade: dict[str, object] = {
        "length": 5.0,
        "hinge_offset": 0.1,
        "mass_per_length": 8.0,
        "bending_stiffness": 1e4,
        "rotor_speed": 40.0,
    }
    with pytest.raises(ValueError, match=message):
        beam_frequencies(**(blade | change))  # type: ignore[arg-type] # some are wrong on purpose
