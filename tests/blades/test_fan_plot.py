"""Fan plot against the rotating beam at its own crossings, and known positions."""

import math
from dataclasses import replace
from functools import cache
from itertools import pairwise

import pytest

from calc.blades.beam_modes import Held, beam, frequencies, reduced
from calc.blades.blade_planes import SEGMENTS, BladeSegment, TwoPlaneBlade, plane_modes
from calc.blades.fan_crossings import OperatingRange, crossings
from calc.blades.fan_plot import FanPlot, fan_plot, fan_plot_chart
from calc.blades.rotating_beam import beam_frequencies
from calc.blades.segments import segment_elements
from calc.chart import Chart
from calc.form.calculation import calculate, start
from calc.units import RPM

NAME = "blades.fan_plot.fan_plot"
BLADE = TwoPlaneBlade(SEGMENTS.example, 0.25)
LOW, HIGH = 324.0, 378.0  # rpm
RANGE = OperatingRange(RPM.si(LOW), RPM.si(HIGH))
MODES = {f"{plane} {n}": (plane, n) for plane in ("flap", "lag") for n in range(1, 6)}
"""Plane and number of each mode, by what the rows call it."""


def _example(margin: float = 0.2) -> FanPlot:
    return fan_plot(BLADE, RANGE, margin=margin)


@cache
def _modes(plane: str, speed: float) -> tuple[float, ...]:
    rows = SEGMENTS.example
    stiffnesses = [
        (row.outer_station, row.flap_stiffness if plane == "flap" else row.lag_stiffness)
        for row in rows
    ]
    masses = [(row.outer_station, row.mass_per_length) for row in rows]
    return beam_frequencies(
        rows[-1].outer_station, 0.25, masses, stiffnesses, speed, plane=plane, modes=3
    )


def test_crossings_are_crossings() -> None:
    """At each crossing the full rotating beam has the frequency of the harmonic, to 1e-6."""
    found = _example().crossings

    assert len(found) > 15
    for crossing in found:
        plane, number = MODES[crossing.mode]
        exact = _modes(plane, crossing.rotor_speed)[number - 1]
        harmonic = crossing.harmonic * crossing.rotor_speed
        assert exact == pytest.approx(harmonic, rel=1e-6)
        assert crossing.frequency == pytest.approx(exact / (2.0 * math.pi), rel=1e-6)


def test_no_crossing_is_missed() -> None:
    """Stepping the full rotating beam through the speeds counts as many crossings."""
    found = _example().crossings
    speeds = [RPM.si(HIGH) * 1.1 ** (step - 45) for step in range(46)]
    count = 0
    for plane, modes in (("flap", 3), ("lag", 2)):
        lines = [_modes(plane, speed)[:modes] for speed in speeds]
        for n in range(1, 9):
            for mode in range(modes):
                above = [line[mode] > n * v for line, v in zip(lines, speeds, strict=True)]
                count += sum(a and not b for a, b in pairwise(above))

    assert sum(c.rotor_speed > speeds[0] for c in found) == count


def test_few_shapes_are_enough() -> None:
    """Shapes at three speeds give every frequency between them to 1e-6."""
    for stiffness in (1.6e4, 4e5):
        for root in ("clamped", "hinged"):
            segments = segment_elements(4.8, [(0.5, 18.0), (4.8, 9.0)], stiffness)
            whole = beam(segments, Held(0.2, root, tip_mass=3.0))
            few = reduced(whole, (0.0, 20.0, 50.0), 4)
            for speed in (1.0, 5.0, 13.0, 35.0, 50.0):
                exact = frequencies(whole, speed, "flap", 3)
                assert frequencies(few, speed, "flap", 3) == pytest.approx(exact, rel=1e-6)


def test_separations_are_the_least_in_the_range() -> None:
    """No speed of the operating range brings a mode nearer to a harmonic than is listed."""
    speeds = [RPM.si(LOW + (HIGH - LOW) * step / 20) for step in range(21)]
    for separation in _example().separations:
        plane, number = MODES[separation.mode]
        apart = [_modes(plane, speed)[number - 1] / speed - separation.harmonic for speed in speeds]
        crosses = min(apart) < 0.0 < max(apart)
        least = 0.0 if crosses else min(apart, key=abs)
        assert separation.per_rev == pytest.approx(least, abs=1e-6)
        assert separation.per_cent == pytest.approx(least / separation.harmonic, abs=1e-6)


def test_verdict_follows_the_margin() -> None:
    """The reader's margin decides, but not on the first flap mode near once per revolution."""
    for margin in (0.0, 0.1, 0.4):
        for row in _example(margin).separations:
            if row.mode == "flap 1" and row.harmonic == 1:
                assert row.verdict == "first flap mode, always near 1/rev"
            else:
                assert (row.verdict == "outside the margin") == (abs(row.per_rev) > margin)


def test_verdict_names_what_is_too_near() -> None:
    """The sentence lists the rows within the margin, or says that there is none."""
    found = _example()
    near = [row for row in found.separations if row.verdict == "within the margin"]

    assert len(near) > 1
    assert found.verdict == ", ".join(f"{row.mode} and {row.harmonic}/rev" for row in near)
    free = fan_plot(BLADE, OperatingRange(RPM.si(370.0), RPM.si(371.0)), margin=0.0)
    assert free.verdict == "no mode and no harmonic"


def test_hinged_at_the_axis_stays_on_once_per_revolution() -> None:
    """A blade hinged at the axis without springs flaps at 1/rev at every rotor speed."""
    blade = TwoPlaneBlade((BladeSegment(5.0, 9.0, 16000.0, 130000.0),), 0.0, "hinged")
    found = fan_plot(blade, OperatingRange(30.0, 40.0), flap_modes=1, lag_modes=1)
    first = next(row for row in found.separations if row.mode == "flap 1")

    assert first.per_rev == pytest.approx(0.0, abs=1e-8)


def test_chart_names_modes_and_harmonics() -> None:
    """The figure names every mode and every ray."""
    svg = fan_plot_chart(BLADE, RANGE).svg("fan")

    for name in ("flap 1", "flap 3", "lag 2", "1/rev", "8/rev", "operating range"):
        assert name in svg


def test_chart_is_read_in_the_unit_of_the_form() -> None:
    """Rotor speed typed in rad/s is drawn in rad/s."""
    drawn = calculate(NAME, start(NAME) | {"operating_low": "34_rad/s"}).chart

    assert isinstance(drawn, Chart)
    assert drawn.x.title == "Rotor speed (rad/s)"


def test_crossings_are_found_to_many_digits() -> None:
    """Few steps along a chord bring a mode onto its harmonic, however coarse the speeds are."""
    speeds = [0.0, 10.0, 20.0, 30.0, 45.0]
    for mode in plane_modes(BLADE, speeds, 3, 2):
        for crossing in crossings(mode, speeds, 8):
            harmonic = crossing.harmonic * crossing.rotor_speed
            assert mode.frequency(crossing.rotor_speed) == pytest.approx(harmonic, rel=1e-9)


@pytest.mark.parametrize("plane", ["flap", "lag"])
def test_a_spring_stiffens_its_own_plane(plane: str) -> None:
    """A spring of one hinge raises the modes of its own plane and leaves the others."""
    flap, lag = (30000.0, 0.0) if plane == "flap" else (0.0, 30000.0)
    free = TwoPlaneBlade(SEGMENTS.example, 0.25, "hinged")
    sprung = replace(free, flap_spring=flap, lag_spring=lag)
    speeds = [0.0, 20.0, 40.0]
    pairs = zip(plane_modes(free, speeds, 2, 2), plane_modes(sprung, speeds, 2, 2), strict=True)
    for before, after in pairs:
        raised = after.frequency(37.7) > before.frequency(37.7) * 1.001
        assert raised == (before.plane == plane)


def test_impossible_fans_are_named() -> None:
    """A range that falls and a spring on a clamped root are refused."""
    with pytest.raises(ValueError, match="Highest less lowest operating rotor speed must be at"):
        OperatingRange(40.0, 30.0)
    with pytest.raises(ValueError, match="must be 0 for a clamped root"):
        fan_plot(TwoPlaneBlade(SEGMENTS.example, 0.2, flap_spring=1.0), RANGE)
