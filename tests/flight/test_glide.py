"""Glide: forces along and across the flight path, and the two glides that stand out."""

import math
from dataclasses import replace

import pytest

from calc.flight import examples as curlew
from calc.flight.craft import Airframe, Rotor, Wing
from calc.flight.glide import STALLING, TILTED, Glide, glide, glide_chart
from calc.units import FOOT_PER_SECOND, MILE_PER_HOUR
from tests.flight import wind

ROTOR = Rotor(5.5, 0.3, 4, 36.0, -0.12, 5.7, 0.011, 1.1)
WING = Wing(6.0, 6.0, 0.08, 4.4, 0.8, 0.012, 1.2)
AIRFRAME = Airframe(2600.0, 0.9)


def found(wing: Wing = WING) -> Glide:
    """Return the glides of the craft above at a density of 1.1 kg/m³."""
    answer = glide(ROTOR, wing, AIRFRAME, 1.1)
    assert answer is not None
    return answer


@pytest.mark.parametrize("area", [6.0, 0.0])
def test_each_glide_is_a_balance_of_forces(area: float) -> None:
    """Weight along the path is all drag, across it all lift, with the rotor by blade elements.

    A helicopter has no wing.
    """
    for row in found(replace(WING, wing_area=area)).rows[2:9:3]:
        pressure = 0.5 * 1.1 * row.airspeed**2
        coefficient = 4.4 * 0.08
        carried = pressure * area * coefficient
        parasite = pressure * (0.9 + area * (0.012 + coefficient**2 / (math.pi * 0.8 * 6.0)))
        weight = 2600.0 * 9.80665
        lift = weight * math.cos(row.glide_angle) - carried
        drag, blade = wind.free(ROTOR, row.airspeed, 1.1, lift)

        assert weight * math.sin(row.glide_angle) == pytest.approx(parasite + drag, rel=3e-6)
        assert row.sink == pytest.approx(row.airspeed * math.sin(row.glide_angle), rel=1e-12)
        assert row.collective == pytest.approx(blade.collective, abs=1e-5)


def test_least_sink_and_flattest_glide_are_the_lowest() -> None:
    """No row sinks less than the least, none is flatter than the flattest."""
    answer = found()

    assert answer.least_sink <= min(row.sink for row in answer.rows)
    assert answer.flattest_angle <= min(row.glide_angle for row in answer.rows)
    assert answer.least_sink_airspeed < answer.flattest_airspeed
    assert answer.least_sink > 0.97 * min(row.sink for row in answer.rows)


def test_slower_rotor_sinks_less() -> None:
    """Profile power falls with rotor speed, and with it the least rate of descent."""
    slow = glide(replace(ROTOR, rotor_speed=31.0), WING, AIRFRAME, 1.1)

    assert slow is not None
    assert slow.least_sink < found().least_sink


def test_vertical_descent_for_reference() -> None:
    """A parachute of the disc area with a coefficient of 1.25, by hand."""
    area = math.pi * 5.5**2
    expected = math.sqrt(2.0 * 2600.0 * 9.80665 / (1.25 * 1.1 * area))

    assert found().vertical_descent == pytest.approx(expected, rel=1e-12)


def test_printed_glide_of_a_winged_autogiro() -> None:
    """Wheatley, NACA Report 434, abstract: least sink 15 ft/s at 36 mph on a path of -17 deg.

    The rate of descent is airspeed times sine of the path angle, as in `GlideAtAirspeed`; 36 mph
    and 17 deg are rounded to half a unit, so 0.6 ft/s is allowed.
    """
    sink = MILE_PER_HOUR.si(36.0) * math.sin(math.radians(17.0))

    assert FOOT_PER_SECOND.reading(sink) == pytest.approx(15.0, abs=0.6)


def test_remarks_say_where_the_theory_ends() -> None:
    """Slow glides lean the disc too far back; a slowed, loaded rotor stalls inboard."""
    assert found().rows[0].remark == TILTED
    slow = glide(
        replace(curlew.CURLEW_ROTOR, rotor_speed=22.0),
        curlew.CURLEW_WING,
        curlew.CURLEW_AIRFRAME,
        1.225,
    )
    assert slow is not None
    assert STALLING in [row.remark for row in slow.rows]


def test_no_glide_is_an_answer() -> None:
    """A brick on a small fast rotor autorotates nowhere, and the figure is empty."""
    none = glide(replace(ROTOR, radius=1.0, rotor_speed=20.0), WING, Airframe(50000.0, 0.9), 1.1)

    assert none is None
    assert glide_chart(None).marks[0].points == []  # type: ignore[union-attr]


def test_figure_touches_the_least() -> None:
    """The first point of the figure is the least rate of descent."""
    answer = found()
    points = glide_chart(answer).marks[1].points  # type: ignore[union-attr]

    assert points[0] == (answer.least_sink_airspeed, answer.least_sink)
